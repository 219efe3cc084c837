//! The sum of a set of entries: two who compare it know whether they hold the same.
//!
//! Cheap enough to be told with every answer about a job, where a digest would be made anew each time.
//! It finds accidents, as a desk whose backup was put in place; the proof of a record is `wire::digest`.

use record::EntryId;
use serde::{Deserialize, Serialize};

/// The ids of a set of entries, added without carry. Adding one a second time takes it away.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct IdSum([u8; 32]);

impl IdSum {
    /// Adds an id, or takes it away when it is in.
    pub fn flip(&mut self, id: &EntryId) {
        self.0.iter_mut().zip(id.0).for_each(|(sum, byte)| *sum ^= byte);
    }
}

impl FromIterator<EntryId> for IdSum {
    fn from_iter<I: IntoIterator<Item = EntryId>>(ids: I) -> Self {
        let mut sum = IdSum::default();
        ids.into_iter().for_each(|id| sum.flip(&id));
        sum
    }
}

impl From<IdSum> for String {
    fn from(sum: IdSum) -> Self {
        EntryId(sum.0).to_string()
    }
}

impl TryFrom<String> for IdSum {
    type Error = &'static str;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        EntryId::from_hex(&text).map(|id| IdSum(id.0)).ok_or("64 hexadecimal digits are expected")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Expected, by hand: 0101 and 0011 without carry are 0110.
    #[test]
    fn order_does_not_matter_and_twice_is_not_at_all() {
        let (five, three) = (EntryId([5; 32]), EntryId([3; 32]));
        assert_eq!(IdSum::from_iter([five, three]), IdSum([6; 32]));
        assert_eq!(IdSum::from_iter([three, five]), IdSum([6; 32]));
        assert_eq!(IdSum::from_iter([five, three, five]), IdSum([3; 32]));
        assert_eq!(IdSum::from_iter([]), IdSum::default());
    }

    #[test]
    fn it_is_sent_as_hexadecimal() {
        let text = serde_json::to_string(&IdSum([0xa1; 32])).expect("a text");
        assert_eq!(text, format!("\"{}\"", "a1".repeat(32)));
        assert_eq!(serde_json::from_str::<IdSum>(&text).ok(), Some(IdSum([0xa1; 32])));
        assert!(serde_json::from_str::<IdSum>("\"a1\"").is_err());
    }
}
