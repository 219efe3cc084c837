//! How wide a text is, so that labels can be kept apart.
//!
//! The answer comes from the shipped fonts and is therefore the same in a browser and in the report.
//!
//! Units: points.

mod widths;

/// Which of the shipped fonts a text is set in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Weight {
    Regular,
    Semibold,
    Italic,
}

/// Height of a capital letter as part of the text size.
pub(crate) const CAPITAL: f64 = 0.698;

/// Width of a text set at `size` points.
pub(crate) fn width(text: &str, weight: Weight, size: f64) -> f64 {
    text.chars().map(|letter| f64::from(advance(letter, weight))).sum::<f64>() * size / 1000.0
}

/// The text, shortened with an ellipsis when it is wider than `room`; empty when even that does not fit.
pub(crate) fn fit(text: &str, weight: Weight, size: f64, room: f64) -> String {
    if width(text, weight, size) <= room {
        return text.to_owned();
    }
    let letters: Vec<char> = text.chars().collect();
    (1..letters.len())
        .rev()
        .map(|count| letters[..count].iter().collect::<String>().trim_end().to_owned() + "…")
        .find(|short| width(short, weight, size) <= room)
        .unwrap_or_default()
}

/// Breaks a text at its spaces into lines no wider than `room`; a longer word is broken with a hyphen.
pub(crate) fn wrap(text: &str, weight: Weight, size: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let words = text.split(breaks).filter(|word| !word.is_empty());
    for word in words.flat_map(|word| pieces(word, weight, size, room)) {
        let longer = lines.last().map(|line| format!("{line} {word}"));
        match longer {
            Some(longer)
                if width(&longer, weight, size) <= room
                    && !lines.last().is_some_and(|l| l.ends_with('-')) =>
            {
                *lines.last_mut().expect("is there") = longer;
            }
            _ => lines.push(word),
        }
    }
    lines
}

/// A no-break space keeps a number beside its unit.
fn breaks(letter: char) -> bool {
    letter.is_whitespace() && letter != '\u{a0}'
}

/// A word, or the parts it is broken into: at least three letters before and after each hyphen.
fn pieces(word: &str, weight: Weight, size: f64, room: f64) -> Vec<String> {
    let mut rest: Vec<char> = word.chars().collect();
    let mut parts = Vec::new();
    let text = |letters: &[char]| letters.iter().collect::<String>();
    while width(&text(&rest), weight, size) > room {
        let fits = |count: &usize| width(&format!("{}-", text(&rest[..*count])), weight, size) <= room;
        let Some(count) = (3..rest.len().saturating_sub(2)).rev().find(fits) else { break };
        parts.push(format!("{}-", text(&rest[..count])));
        rest.drain(..count);
    }
    parts.push(fit(&text(&rest), weight, size, room));
    parts
}

/// A letter the fonts do not have is taken as one em wide: wider than any substitute.
fn advance(letter: char, weight: Weight) -> u16 {
    let (plain, signs) = match weight {
        Weight::Regular => (&widths::REGULAR, widths::REGULAR_SIGNS),
        Weight::Semibold => (&widths::SEMIBOLD, widths::SEMIBOLD_SIGNS),
        Weight::Italic => (&widths::ITALIC, widths::ITALIC_SIGNS),
    };
    let place = (letter as usize).checked_sub(0x20).and_then(|at| plain.get(at).copied());
    let listed = || signs.iter().find(|sign| sign.0 == letter).map(|sign| sign.1);
    place.filter(|&width| width > 0).or_else(listed).unwrap_or(1000)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The expected widths are read from the shipped font files by `ttf-parser`, not by our own code.
    #[test]
    fn the_table_agrees_with_the_font_files() {
        for (weight, (file, bytes)) in
            [Weight::Regular, Weight::Semibold, Weight::Italic].into_iter().zip(crate::FONTS)
        {
            let face = ttf_parser::Face::parse(bytes, 0).expect("a font file");
            assert_eq!(face.units_per_em(), 1000, "{file}");
            for letter in ('\u{20}'..'\u{180}').chain("–—‘’“”•…′″←↑→↓−≈≤≥σ✓".chars())
            {
                let Some(glyph) = face.glyph_index(letter) else { continue };
                let expected = face.glyph_hor_advance(glyph).expect("a width");
                if expected > 0 {
                    assert_eq!(advance(letter, weight), expected, "{letter} in {file}");
                }
            }
        }
    }

    #[test]
    fn a_long_text_is_shortened_and_broken() {
        assert_eq!(fit("Concrete level", Weight::Regular, 8.0, 30.0), "Concr…");
        assert_eq!(fit("Concrete", Weight::Regular, 8.0, 1.0), "");
        assert_eq!(wrap("silty fine sand", Weight::Regular, 8.0, 40.0), ["silty fine", "sand"]);
        assert_eq!(wrap("Limestone, strong", Weight::Regular, 7.5, 34.0), ["Limesto-", "ne, strong"]);
        assert_eq!(wrap("sediment ½\u{a0}in", Weight::Regular, 7.5, 36.0), ["sediment", "½\u{a0}in"]);
    }
}
