//! What a line that is no entry says of itself, so that a person knows which one to ask for.
//!
//! Words: *claim* = who a line says wrote it, and what it is about; nothing of it is proved.
//! Never: take an entry out of a line that failed its proof.

use serde_json::{Map, Value};

/// Letters of a claimed text that are worth telling; a line that was touched may hold anything.
const LETTERS_MOST: usize = 60;

/// What a line says of itself, each part only where it stands there.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Claim {
    /// The device, in the eight digits people read.
    pub device: Option<String>,
    /// Its number on that device.
    pub seq: Option<u64>,
    /// The word of its kind.
    pub kind: Option<String>,
    /// The shaft.
    pub shaft: Option<String>,
    /// When it was seen.
    pub observed_at: Option<String>,
}

impl Claim {
    /// What a line says of itself; `None` when it is no object or says nothing of an entry.
    pub fn of(line: &str) -> Option<Self> {
        let object: Map<String, Value> = serde_json::from_str(line).ok()?;
        let text =
            |name: &str| Some(object.get(name)?.as_str()?.chars().take(LETTERS_MOST).collect::<String>());
        let claim = Claim {
            device: text("device").map(|digits| digits.chars().take(8).collect()),
            seq: object.get("seq").and_then(Value::as_u64),
            kind: text("kind"),
            shaft: text("shaft"),
            observed_at: text("observed_at"),
        };
        (claim != Claim::default()).then_some(claim)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(line: &str, expected: Option<Claim>) {
        assert_eq!(Claim::of(line), expected, "{line}");
    }

    #[test]
    fn a_line_says_as_much_as_is_left_of_it() {
        check("Dear office,", None);
        check("[1, 2]", None);
        check("{\"weather\": \"fair\"}", None);
        let claim = Claim { seq: Some(7), kind: Some("remark".to_owned()), ..Claim::default() };
        check("{\"seq\": 7, \"kind\": \"remark\", \"shaft\": 12}", Some(claim));
        let device = "0123456789abcdef".repeat(4);
        let claim = Claim { device: Some("01234567".to_owned()), ..Claim::default() };
        check(&format!("{{\"device\": \"{device}\"}}"), Some(claim));
    }
}
