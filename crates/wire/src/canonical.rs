//! Canonical JSON (RFC 8785) and SHA-256 of it.

use quantity::{Gather, InOrder};
use record::EntryId;
use serde_json::{Map, Value};
use sha2::{Digest, Sha256};

/// The canonical bytes of a JSON object. [RFC-8785]
pub(crate) fn canonical(object: &Map<String, Value>) -> String {
    spelled_without(object, &[]).0
}

/// The canonical bytes of a JSON object, and those of the same object without some of its members: what an id
/// and a signature are made of. Each member is spelled once.
pub(crate) fn spelled_without(object: &Map<String, Value>, left_out: &[&str]) -> (String, String) {
    let mut members: Vec<(&String, &Value)> = object.iter().collect();
    members.put_in_order_by(|(one, _), (other, _)| one.encode_utf16().cmp(other.encode_utf16()));
    let (mut whole, mut rest) = (String::from("{"), String::from("{"));
    for (name, value) in members {
        let member = [spelled(&Value::String(name.clone())), spelled(value)].join(":");
        put(&mut whole, &member);
        if !left_out.contains(&name.as_str()) {
            put(&mut rest, &member);
        }
    }
    (whole + "}", rest + "}")
}

fn put(object: &mut String, member: &str) {
    let more = object.len() > 1;
    object.extend([if more { "," } else { "" }, member]);
}

fn spelled(value: &Value) -> String {
    let spelled = if is_plain(value) {
        serde_json::to_string(value)
    } else {
        serde_json_canonicalizer::to_string(value)
    };
    spelled.expect("texts, booleans and finite numbers have one form")
}

/// Whether serde spells a value as RFC 8785 wants it: then the slower way, which can spell everything, is not
/// needed. Entries hold nothing else.
fn is_plain(value: &Value) -> bool {
    match value {
        Value::Null | Value::Bool(_) | Value::String(_) => true,
        Value::Number(number) => number.as_u64().is_some_and(|number| number <= LARGEST_WHOLE),
        Value::Array(items) => items.iter().all(is_plain),
        Value::Object(group) => {
            let plain = |name: &String| name.is_ascii();
            group.keys().all(plain) && group.keys().is_sorted() && group.values().all(is_plain)
        }
    }
}

/// Greatest whole number that every reader of JSON keeps exactly. [RFC-8785]
pub(crate) const LARGEST_WHOLE: u64 = 9_007_199_254_740_991;

/// SHA-256 of some bytes. [FIPS-180-4]
pub fn sha256(bytes: &[u8]) -> [u8; 32] {
    Sha256::digest(bytes).into()
}

/// The digest of a set of entries: SHA-256 over their ids in hexadecimal, ascending, each with a line feed.
///
/// Two people who compare it know that they hold the same entries, in whatever order they came.
pub fn digest_of_ids(ids: impl IntoIterator<Item = EntryId>) -> [u8; 32] {
    let ids: std::collections::BTreeSet<EntryId> = ids.into_iter().into_set();
    let mut hasher = Sha256::new();
    for id in ids {
        hasher.update(format!("{id}\n"));
    }
    hasher.finalize().into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let object: Map<String, Value> = serde_json::from_str(text).expect("the vector is JSON");
        assert_eq!(canonical(&object), expected);
    }

    /// Any JSON, with names and texts that are hard to sort and to spell.
    fn json() -> impl Strategy<Value = Value> {
        let text = prop_oneof!["[a-z]{0,3}", "[ -~]{0,4}", "[\\x00-\\x1f\\x7f\"\\\\/]{0,3}", any::<String>()];
        let number = prop_oneof![
            any::<u64>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            any::<f64>().prop_map(Value::from),
            (0_u64..100).prop_map(Value::from)
        ];
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            number,
            text.clone().prop_map(Value::from)
        ];
        leaf.prop_recursive(3, 24, 4, move |inner| {
            let group = proptest::collection::btree_map(text.clone(), inner.clone(), 0..4);
            prop_oneof![
                proptest::collection::vec(inner, 0..4).prop_map(Value::from),
                group.prop_map(|group| Value::Object(group.into_iter().collect())),
            ]
        })
    }

    proptest! {
        /// The quick way spells as the library does that can spell everything.
        #[test]
        fn what_is_plain_is_spelled_the_same(value in json()) {
            let library = serde_json_canonicalizer::to_string(&value).expect("finite");
            prop_assert_eq!(spelled(&value), library.clone());
            if let Value::Object(object) = &value {
                prop_assert_eq!(canonical(object), library);
            }
        }

        #[test]
        fn what_is_left_out_is_spelled_nowhere(value in json(), id: String, sig: String) {
            let object = Map::from_iter([("body".to_owned(), value)]);
            let mut whole = object.clone();
            whole.insert("id".to_owned(), id.into());
            whole.insert("sig".to_owned(), sig.into());
            prop_assert_eq!(spelled_without(&whole, &["id", "sig"]), (canonical(&whole), canonical(&object)));
        }
    }

    fn hexadecimal(bytes: &[u8]) -> String {
        bytes.iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// Source: [RFC-8785] 3.2.2, the sample object, and 3.2.4, its canonical form; from memory.
    /// The digest of those bytes, 2d5e01a318d0f087…8baacb, was computed with the Python library rfc8785 0.1.4.
    #[test]
    fn the_sample_of_the_standard() {
        let sample = r#"{
            "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
            "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
            "literals": [null, true, false]
        }"#;
        let expected = "{\"literals\":[null,true,false],\
            \"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],\
            \"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}";
        check(sample, expected);
        let digest = hexadecimal(&sha256(expected.as_bytes()));
        assert!(digest.starts_with("2d5e01a318d0f087") && digest.ends_with("8baacb"), "{digest}");
    }

    /// Source: [RFC-8785] 3.2.3, the sorting sample: by UTF-16 code units, so the emoji comes before the
    /// Hebrew letter; from memory.
    #[test]
    fn names_are_sorted_by_their_utf_16_units() {
        let sample = r#"{
            "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh",
            "1": "One", "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control",
            "\u00f6": "Latin Small Letter O With Diaeresis"
        }"#;
        let object: Map<String, Value> = serde_json::from_str(sample).expect("the vector is JSON");
        let text = canonical(&object);
        let place = |word: &str| text.find(word).unwrap_or_else(|| panic!("{word} is missing"));
        let order = ["Carriage", "One", "Control", "Latin", "Euro", "Emoji", "Hebrew"].map(place);
        assert!(order.is_sorted(), "{text}");
    }

    /// Source: [RFC-8785] Appendix B, IEEE 754 bits and their JSON form; from memory, each form given by the
    /// Python library rfc8785 0.1.4 too.
    #[test]
    fn numbers_are_written_as_ecmascript_writes_them() {
        let cases = [
            (0x0000_0000_0000_0000, "0"),
            (0x8000_0000_0000_0000, "0"),
            (0x0000_0000_0000_0001, "5e-324"),
            (0x8000_0000_0000_0001, "-5e-324"),
            (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
            (0x4340_0000_0000_0000, "9007199254740992"),
            (0xc340_0000_0000_0000, "-9007199254740992"),
            (0x4430_0000_0000_0000, "295147905179352830000"),
            (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
            (0x44b5_2d02_c7e1_4af6, "1e+23"),
            (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
            (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
            (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
            (0x444b_1ae4_d6e2_ef50, "1e+21"),
            (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
            (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
            (0x41b3_de43_5555_5553, "333333333.3333332"),
            (0x41b3_de43_5555_5554, "333333333.33333325"),
            (0x41b3_de43_5555_5555, "333333333.3333333"),
            (0x41b3_de43_5555_5556, "333333333.3333334"),
            (0x41b3_de43_5555_5557, "333333333.33333343"),
            (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
            (0x4314_3ff3_c1cb_0959, "1424953923781206.2"),
        ];
        for (bits, expected) in cases {
            let object = Map::from_iter([("n".to_owned(), Value::from(f64::from_bits(bits)))]);
            assert_eq!(canonical(&object), format!("{{\"n\":{expected}}}"), "{bits:016x}");
        }
    }

    /// Source: [FIPS-180-4] and its published examples: the empty message, "abc", and the message of 448 bits;
    /// from memory, computed again with coreutils `sha256sum`.
    #[test]
    fn sha_256_gives_the_published_digests() {
        let cases = [
            ("", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
            ("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
            (
                "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
            ),
        ];
        for (message, expected) in cases {
            assert_eq!(hexadecimal(&sha256(message.as_bytes())), expected, "{message}");
        }
    }
}
