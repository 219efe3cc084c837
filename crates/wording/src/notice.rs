//! A notice: what happened, what it means for the record, what to do now.
//!
//! Three sentences, always in this order; the code comes last and small.
//!
//! Never: blame, name a type of the program, leave a person without a next step.

/// What a person is told about a difficulty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// Stable word.
    pub code: &'static str,
    /// What happened, with the thing and its value.
    pub what: String,
    /// What it means for the record.
    pub meaning: String,
    /// What to do now.
    pub next: String,
}

impl Notice {
    pub(crate) fn new(code: &'static str, what: String, meaning: &str, next: &str) -> Self {
        Notice { code, what, meaning: meaning.to_owned(), next: next.to_owned() }
    }

    /// The three sentences as one paragraph.
    pub fn paragraph(&self) -> String {
        format!("{} {} {}", self.what, self.meaning, self.next)
    }
}

impl std::fmt::Display for Notice {
    /// A line each, the code last.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}\n{}\n{}\n({})", self.what, self.meaning, self.next, self.code)
    }
}
