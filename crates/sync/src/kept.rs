//! What has to survive a restart, beside the entries themselves.

use record::EntryId;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use wire::http::Refusal;

/// The part of a tablet's state that is kept, written in the same transaction as the entries it is about.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Kept {
    /// How far the desk's entries were seen; 0: nothing was.
    pub cursor: u64,
    /// What waits to be sent, in the order it was written.
    pub waiting: Vec<EntryId>,
    /// What the desk refused, and why.
    pub refused: BTreeMap<EntryId, Refusal>,
}

/// The kept state as text.
#[derive(Serialize, Deserialize)]
struct Text {
    cursor: u64,
    waiting: Vec<String>,
    refused: BTreeMap<String, Refusal>,
}

impl Kept {
    /// As one line of JSON.
    pub fn to_text(&self) -> String {
        let mut refused = BTreeMap::new();
        refused.extend(self.refused.iter().map(|(id, why)| (id.to_string(), why.clone())));
        let text = Text {
            cursor: self.cursor,
            waiting: self.waiting.iter().map(EntryId::to_string).collect(),
            refused,
        };
        serde_json::to_string(&text).expect("texts and a number have a form")
    }

    /// Reads it again; `None` for anything `to_text` did not write.
    pub fn of_text(text: &str) -> Option<Self> {
        let text: Text = serde_json::from_str(text).ok()?;
        let id = |digits: &String| EntryId::from_hex(digits);
        let mut refused = BTreeMap::new();
        for (digits, why) in text.refused {
            refused.insert(id(&digits)?, why);
        }
        Some(Kept {
            cursor: text.cursor,
            waiting: text.waiting.iter().map(id).collect::<Option<_>>()?,
            refused,
        })
    }
}
