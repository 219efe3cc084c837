//! Globally unique ids that are the same in every export: made of what a thing is, never drawn.
//!
//! Source: the 22 characters are those of IFC, 128 bits in base 64 of its own alphabet [IFC-4-3].

const ALPHABET: &[u8; 64] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";

/// The id of the thing these words name: job, shaft, and what of it.
pub(crate) fn guid(words: &[&str]) -> String {
    let mut named = b"shaftbook ifc".to_vec();
    for word in words {
        named.push(0);
        named.extend(word.as_bytes());
    }
    compressed(&wire::sha256(&named)[..16])
}

/// Two bits, then 21 times six.
fn compressed(bytes: &[u8]) -> String {
    let number = bytes.iter().fold(0_u128, |number, byte| number << 8 | u128::from(*byte));
    let digit = |at: u32| char::from(ALPHABET[(number >> (6 * at) & 63) as usize]);
    (0..22).rev().map(digit).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sixteen_bytes_become_twenty_two_characters() {
        assert_eq!(compressed(&[0; 16]), "0".repeat(22));
        assert_eq!(compressed(&[0xff; 16]), format!("3{}", "$".repeat(21)));
        assert_eq!(compressed(&1_u128.to_be_bytes()), format!("{}1", "0".repeat(21)));
    }

    #[test]
    fn one_thing_has_one_id_and_another_another() {
        assert_eq!(guid(&["J", "S-1", "plan"]), guid(&["J", "S-1", "plan"]));
        assert_ne!(guid(&["J", "S-1", "plan"]), guid(&["J", "S-1plan"]));
        assert_ne!(guid(&["J", "S-1", "plan"]), guid(&["J", "S-2", "plan"]));
    }
}
