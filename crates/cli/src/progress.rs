//! Progress on long work, for a person who waits: one line on a terminal, gone when the work is done.

use crate::screen::shown;
use std::io::{IsTerminal, Write};

/// A line that says what is being done.
pub(crate) struct Progress {
    on: bool,
}

impl Progress {
    /// On standard error, and only where that is a terminal.
    pub(crate) fn new() -> Self {
        Progress { on: std::io::stderr().is_terminal() }
    }

    /// Says what is being done now, in place of what was said before.
    pub(crate) fn say(&self, text: &str) {
        if self.on {
            // Nobody is served by a failure to say that work goes on.
            let _ = write!(std::io::stderr(), "\r\u{1b}[2K{}", shown(text));
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.say("");
    }
}
