//! Being told to end: Ctrl-C, or the system's word to a program that should go.
//!
//! Words: *told* = one of them came, also while nobody was waiting for it.
//! Never: end anything; whoever listens does.

/// What hears that the program should end, from when it was made.
pub struct End {
    #[cfg(unix)]
    words: [tokio::signal::unix::Signal; 2],
    #[cfg(windows)]
    pressed: tokio::signal::windows::CtrlC,
}

#[cfg(unix)]
impl End {
    /// Listens, inside a runtime.
    pub(crate) fn listen() -> std::io::Result<Self> {
        use tokio::signal::unix::{SignalKind, signal};
        Ok(End { words: [signal(SignalKind::interrupt())?, signal(SignalKind::terminate())?] })
    }

    /// Waits for it.
    pub(crate) async fn told(self) {
        let [mut pressed, mut terminate] = self.words;
        tokio::select! {
            _ = pressed.recv() => {}
            _ = terminate.recv() => {}
        }
    }
}

#[cfg(windows)]
impl End {
    /// Listens, inside a runtime.
    pub(crate) fn listen() -> std::io::Result<Self> {
        Ok(End { pressed: tokio::signal::windows::ctrl_c()? })
    }

    /// Waits for it.
    pub(crate) async fn told(mut self) {
        self.pressed.recv().await;
    }
}
