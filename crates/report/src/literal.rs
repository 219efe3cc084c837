//! Texts exactly as they were written, on paper.
//!
//! People type anything into a remark. A character no font can draw, or one that would silently reorder or
//! hide its neighbours, is printed as its number, `‹U+1F44D›`, so that nothing of the record disappears.

use serde_json::Value;

use crate::Fonts;

/// Makes every text of `value` drawable and counts the characters that are printed as their number.
pub(crate) fn make_drawable(value: &mut Value, fonts: &Fonts) -> usize {
    match value {
        Value::String(text) => {
            let (drawable, numbered) = drawable(text, fonts);
            *text = drawable;
            numbered
        }
        Value::Array(items) => items.iter_mut().map(|item| make_drawable(item, fonts)).sum(),
        Value::Object(fields) => fields.values_mut().map(|field| make_drawable(field, fonts)).sum(),
        Value::Null | Value::Bool(_) | Value::Number(_) => 0,
    }
}

/// The text with every character that cannot be drawn printed as its number, and how many there were.
pub(crate) fn drawable(text: &str, fonts: &Fonts) -> (String, usize) {
    let mut out = String::with_capacity(text.len());
    let mut numbered = 0;
    for character in text.replace("\r\n", "\n").chars() {
        match character {
            ' '..='~' | '\n' => out.push(character),
            '\t' => out.push(' '),
            _ if is_plain(character) && fonts.draw(character) => out.push(character),
            _ => {
                numbered += 1;
                out.push_str(&format!("‹U+{:04X}›", u32::from(character)));
            }
        }
    }
    (out, numbered)
}

/// False for characters that are not seen themselves but change how others are: controls, directional
/// overrides, joiners, soft hyphen, variation selectors, and those without a meaning of their own (private).
fn is_plain(character: char) -> bool {
    !(character.is_control()
        || matches!(u32::from(character),
            0xAD | 0x34F | 0x61C | 0x115F..=0x1160 | 0x17B4..=0x17B5 | 0x180B..=0x180F
            | 0x200B..=0x200F | 0x2028..=0x202E | 0x2060..=0x206F | 0x3164 | 0xE000..=0xF8FF
            | 0xFE00..=0xFE0F | 0xFEFF | 0xFFA0 | 0xFFF0..=0xFFFF | 0xE0000..=0x10FFFF))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let fonts = Fonts::new(&[]).unwrap();
        assert_eq!(drawable(text, &fonts).0, expected);
    }

    #[test]
    fn what_people_type_stays_as_it_is() {
        check("12'-6 1/2\" #4 *tie* $x_1$ <b> \\ @ref", "12'-6 1/2\" #4 *tie* $x_1$ <b> \\ @ref");
        check("Ø 900 mm, 7.3 m³, ≤ 2 %, – ½ “so”", "Ø 900 mm, 7.3 m³, ≤ 2 %, – ½ “so”");
        check("Шурф שלום عمق", "Шурф שלום عمق");
    }

    #[test]
    fn what_no_font_draws_is_printed_as_its_number() {
        check("good 👍", "good ‹U+1F44D›");
        check("杭", "‹U+676D›");
    }

    #[test]
    fn what_would_hide_or_turn_its_neighbours_is_printed_as_its_number() {
        check("1\u{202E}23", "1‹U+202E›23");
        check("a\u{200B}b\u{AD}c\u{0}d\u{7}", "a‹U+200B›b‹U+00AD›c‹U+0000›d‹U+0007›");
        check("a\tb\r\nc", "a b\nc");
    }

    #[test]
    fn the_numbered_characters_are_counted_through_the_whole_input() {
        let fonts = Fonts::new(&[]).unwrap();
        let mut value = serde_json::json!({ "a": ["x👍", { "b": "👍👍" }], "c": 3, "d": null });
        assert_eq!(make_drawable(&mut value, &fonts), 3);
    }
}
