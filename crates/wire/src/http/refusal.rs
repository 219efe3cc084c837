//! A refusal: the one shape of everything the desk does not do.

use super::codes::Code;
use serde::{Deserialize, Serialize};

/// Why the desk did not do what it was asked, as a person reads it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Refusal {
    /// The stable word, one of `CODES`; a newer desk may send one we do not know.
    pub code: String,
    /// What happened, with the thing and its value.
    pub what: String,
    /// What it means for the record.
    pub meaning: String,
    /// What to do now.
    pub next: String,
    /// The desk's name for the request, to be found in its journal; empty where there was none.
    pub request: String,
}

impl Refusal {
    /// A refusal under a code, in the words of its table; `what` names the thing and its value.
    pub fn new(code: &'static Code, what: impl Into<String>) -> Self {
        Refusal {
            code: code.word.to_owned(),
            what: what.into(),
            meaning: code.meaning.to_owned(),
            next: code.next.to_owned(),
            request: String::new(),
        }
    }

    /// The same, with the name of the request.
    #[must_use]
    pub fn of_request(mut self, request: &str) -> Self {
        request.clone_into(&mut self.request);
        self
    }

    /// Its row of the table; `None` for a word we do not know.
    pub fn row(&self) -> Option<&'static Code> {
        Code::named(&self.code)
    }
}
