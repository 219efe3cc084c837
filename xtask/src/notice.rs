//! What a person reads when a chore cannot go on.
//!
//! A newcomer's first command often meets a missing tool; three sentences save the search.

use std::fmt;

/// What happened, what it means, what to do about it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Notice {
    pub(crate) what: String,
    pub(crate) meaning: String,
    pub(crate) next: String,
}

impl Notice {
    /// The three sentences, in the order in which they are read.
    pub(crate) fn new(what: impl Into<String>, meaning: impl Into<String>, next: impl Into<String>) -> Self {
        Notice { what: what.into(), meaning: meaning.into(), next: next.into() }
    }
}

impl fmt::Display for Notice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "What happened: {}\nWhat it means: {}\nWhat to do:    {}",
            self.what, self.meaning, self.next
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_three_sentences_stand_in_order() {
        let text =
            Notice::new("python3 was not found.", "No reference check ran.", "Install it.").to_string();
        assert_eq!(
            text,
            "What happened: python3 was not found.\nWhat it means: No reference check ran.\n\
             What to do:    Install it."
        );
    }
}
