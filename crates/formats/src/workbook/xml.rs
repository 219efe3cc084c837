//! Any text as XML holds it.

/// A text between tags or in quotes. What XML cannot hold is written as spreadsheets do, `_x0007_`, and what looks like
/// that by chance is marked, so that it is read as it was typed.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::new();
    for (at, letter) in text.char_indices() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '_' if looks_marked(&text[at..]) => out.push_str("_x005F_"),
            '\n' | '\t' => out.push(letter),
            letter if letter.is_control() || matches!(letter, '\u{fffe}' | '\u{ffff}') => {
                out.push_str(&format!("_x{:04X}_", u32::from(letter)));
            }
            letter => out.push(letter),
        }
    }
    out
}

/// `_x` with four hexadecimal digits and `_`.
fn looks_marked(rest: &str) -> bool {
    let bytes = rest.as_bytes();
    bytes.len() >= 7 && bytes[1] == b'x' && bytes[2..6].iter().all(u8::is_ascii_hexdigit) && bytes[6] == b'_'
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_text_can_be_written() {
        assert_eq!(escaped("a & b < \"c\""), "a &amp; b &lt; &quot;c&quot;");
        assert_eq!(escaped("\u{7}bell"), "_x0007_bell");
        assert_eq!(escaped("_x0041_ _x00"), "_x005F_x0041_ _x00");
        assert_eq!(escaped("two\nlines"), "two\nlines");
    }
}
