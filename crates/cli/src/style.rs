//! Colour and weight on a terminal, nothing anywhere else. No meaning rests on them.

use std::io::IsTerminal;

/// How text may be set off.
#[derive(Clone, Copy)]
pub(crate) struct Style {
    on: bool,
}

impl Style {
    /// As standard output allows: a terminal, and nobody asked for none (`NO_COLOR`).
    pub(crate) fn of_terminal() -> Self {
        Style { on: std::io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none() }
    }

    /// Heavier.
    pub(crate) fn bold(self, text: &str) -> String {
        self.with("1", text)
    }

    /// Lighter.
    pub(crate) fn dim(self, text: &str) -> String {
        self.with("2", text)
    }

    /// A failing verdict.
    pub(crate) fn bad(self, text: &str) -> String {
        self.with("1;31", text)
    }

    fn with(self, code: &str, text: &str) -> String {
        if self.on { format!("\u{1b}[{code}m{text}\u{1b}[0m") } else { text.to_owned() }
    }
}
