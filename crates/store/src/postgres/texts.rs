//! Texts on their way to PostgreSQL and back.
//!
//! A text there cannot hold the character U+0000, which JSON can. It is written as two others, and they as three, so that
//! what comes back is what was given.

use std::borrow::Cow;

/// Stands before what is written in place of something else; no character by itself.
const MARK: char = '\u{FFFE}';

/// As it is kept there.
pub(super) fn kept(text: &str) -> Cow<'_, str> {
    if !text.contains(['\0', MARK]) {
        return Cow::Borrowed(text);
    }
    let spell = |c: char| match c {
        '\0' => vec![MARK, '0'],
        MARK => vec![MARK, '1'],
        c => vec![c],
    };
    Cow::Owned(text.chars().flat_map(spell).collect())
}

/// As it was given.
pub(super) fn given(text: String) -> String {
    if !text.contains(MARK) {
        return text;
    }
    let mut given = String::with_capacity(text.len());
    let mut rest = text.chars();
    while let Some(c) = rest.next() {
        given.push(match c {
            MARK if rest.next() == Some('0') => '\0',
            c => c,
        });
    }
    given
}

/// A statement with its values as PostgreSQL names them: `$1` for `?1`.
pub(super) fn dollars(statement: &str) -> String {
    statement.replace('?', "$")
}

/// A value as a field of a table that is copied in: a line a row, tabs between the fields.
pub(super) fn field(text: &str, to: &mut Vec<u8>) {
    for byte in kept(text).bytes() {
        match byte {
            b'\\' => to.extend(b"\\\\"),
            b'\n' => to.extend(b"\\n"),
            b'\r' => to.extend(b"\\r"),
            b'\t' => to.extend(b"\\t"),
            byte => to.push(byte),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_comes_back_is_what_was_given() {
        for text in ["", "S-1", "a\0b", "\u{FFFE}", "\u{FFFE}0\0\u{FFFE}1", "\0", "ſ\u{FFFF}"] {
            let there = kept(text);
            assert!(!there.contains('\0'), "{there:?}");
            assert_eq!(given(there.into_owned()), text);
        }
        assert_ne!(kept("\0"), kept("\u{FFFE}0"));
    }

    #[test]
    fn values_are_named_as_the_server_names_them() {
        assert_eq!(
            dollars("SELECT a FROM b WHERE c = ?1 AND d > ?2"),
            "SELECT a FROM b WHERE c = $1 AND d > $2"
        );
    }

    #[test]
    fn a_field_has_no_tab_and_no_line_end_of_its_own() {
        let mut bytes = Vec::new();
        field("a\tb\\n\nc\r", &mut bytes);
        assert_eq!(bytes, b"a\\tb\\\\n\\nc\\r");
    }
}
