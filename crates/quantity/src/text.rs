//! One spelling for the signs people, phones and word processors write in several ways.
//!
//! A tablet turns `"` into `”` and `-` into `–` without asking; a drawing pasted from elsewhere brings
//! no-break spaces and `½`. After this step a reader sees plain signs only, and no digit has changed.
//!
//! Never: change, drop or add a digit, except that `½` becomes ` 1/2`.

/// The glyphs of fractions, and how they read.
const GLYPHS: &[(char, &str)] = &[
    ('½', " 1/2"),
    ('⅓', " 1/3"),
    ('⅔', " 2/3"),
    ('¼', " 1/4"),
    ('¾', " 3/4"),
    ('⅕', " 1/5"),
    ('⅖', " 2/5"),
    ('⅗', " 3/5"),
    ('⅘', " 4/5"),
    ('⅙', " 1/6"),
    ('⅚', " 5/6"),
    ('⅛', " 1/8"),
    ('⅜', " 3/8"),
    ('⅝', " 5/8"),
    ('⅞', " 7/8"),
    ('⅒', " 1/10"),
];

/// The text in plain signs, trimmed, with no space beside a stroke.
pub(crate) fn plain(text: &str) -> String {
    let mut signs = String::with_capacity(text.len());
    for sign in text.chars() {
        push_plain(sign, &mut signs);
    }
    let one_quote = signs.replace("''", "\"");
    without_spaces_at_strokes(one_quote.trim())
}

fn push_plain(sign: char, out: &mut String) {
    match sign {
        '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2060}' | '\u{feff}' => {}
        '−' | '–' | '—' | '‐' | '‑' | '－' => out.push('-'),
        '’' | '‘' | '′' | 'ʹ' | 'ʼ' | '`' | '´' => out.push('\''),
        '“' | '”' | '„' | '″' | 'ʺ' => out.push('"'),
        '⁄' | '∕' => out.push('/'),
        'º' | '˚' => out.push('°'),
        '℃' => out.push_str("°C"),
        '℉' => out.push_str("°F"),
        '²' => out.push_str("^2"),
        '³' => out.push_str("^3"),
        space if space.is_whitespace() => out.push(' '),
        other => out.push_str(
            GLYPHS
                .iter()
                .find(|glyph| glyph.0 == other)
                .map_or(other.encode_utf8(&mut [0; 4]) as &str, |glyph| glyph.1),
        ),
    }
}

/// `lb / ft3` and `1 / 2` without the spaces.
fn without_spaces_at_strokes(text: &str) -> String {
    let pieces: Vec<&str> = text.split('/').collect();
    let last = pieces.len() - 1;
    let trimmed = pieces.iter().enumerate().map(|(at, piece)| {
        let piece = if at > 0 { piece.trim_start() } else { piece };
        if at < last { piece.trim_end() } else { piece }
    });
    trimmed.collect::<Vec<_>>().join("/")
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        assert_eq!(plain(text), expected);
    }

    #[test]
    fn signs_of_phones_and_drawings_become_plain() {
        check(" 12’–6½” ", "12'-6 1/2\"");
        check("12′ 6.5″", "12' 6.5\"");
        check("6''", "6\"");
        check("−20.00\u{a0}ft", "-20.00 ft");
        check("2\u{202f}500 psi", "2 500 psi");
        check("9.5 yd³", "9.5 yd^3");
        check("72 ºF", "72 °F");
        check("64.3 lb / ft³", "64.3 lb/ft^3");
        check("1⁄2 in", "1/2 in");
    }

    #[test]
    fn a_raised_three_never_joins_the_number() {
        check("5³", "5^3");
    }
}
