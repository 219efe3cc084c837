//! Colour and weight on a terminal, nothing anywhere else. No meaning rests on them.

use std::io::IsTerminal;

/// How text may be set off.
#[derive(Clone, Copy)]
pub(crate) struct Style {
    on: bool,
}

impl Style {
    /// As standard output allows: a terminal that can, and nobody asked for none (`NO_COLOR`, not empty).
    pub(crate) fn of_terminal() -> Self {
        let said = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
        let unable = said("TERM").is_some_and(|term| term == "dumb");
        Style { on: std::io::stdout().is_terminal() && said("NO_COLOR").is_none() && !unable }
    }

    /// As it is.
    pub(crate) fn plain(self, text: &str) -> String {
        text.to_owned()
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
