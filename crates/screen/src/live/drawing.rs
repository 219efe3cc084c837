//! The drawings of a shaft as SVG text, in colours a screen can change by night.
//!
//! Each colour stands as a custom property with the printed colour behind it: `var(--drawing-ink,#15202b)`.
//! A screen that sets nothing shows the sheet as it is printed; one that sets the properties shows it dark.
//!
//! Words: *word* = what a drawing is asked for by, as on the command line.
//! Never: carry a style attribute or a script; draw twice what nobody looks at.

use super::looked::Looked;
use ::drawing::View;
use figure::{PALETTE, Size};
use quantity::Moment;
use record::Record;

/// The colours of the drawings by night, by the names of the properties without `--drawing-`. A screen puts
/// them in its night theme: warm dim ink on near-black, everything written at least 7 to 1 on the paper.
pub const NIGHT: [(&str, &str); 17] = [
    ("ink", "#dccdb2"),
    ("soft", "#b8aa90"),
    ("faint", "#352e23"),
    ("paper", "#181510"),
    ("earth", "#241c10"),
    ("earth-ink", "#a38d63"),
    ("fluid", "#14212a"),
    ("water", "#79adcb"),
    ("concrete", "#3a3732"),
    ("concrete-ink", "#b1a894"),
    ("steel", "#d98a60"),
    ("casing", "#9aa6da"),
    ("good", "#94c48e"),
    ("bad", "#f29583"),
    ("doubt", "#e3c07a"),
    ("band", "#26221b"),
    ("uncertain", "#55524a"),
];

/// A drawing there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DrawingCard {
    /// Its word: `section`.
    pub word: &'static str,
    /// What it shows.
    pub title: &'static str,
    /// Whether there is anything to draw.
    pub has_content: bool,
}

/// A drawing of a shaft at a moment; `None` when no drawing has that word.
pub fn drawing(record: &Record, shaft: &str, (at, word): (Moment, &str), size: Size) -> Option<String> {
    drawn(&Looked::at(record, shaft, at), word, size)
}

pub(crate) fn drawn(looked: &Looked<'_>, word: &str, size: Size) -> Option<String> {
    let drawing = ::drawing::named(word)?;
    Some(changeable(&(drawing.draw)(&looked.view(), size)))
}

/// Which drawings there are, in the order of a package.
pub(crate) fn drawings(looked: &Looked<'_>) -> Vec<DrawingCard> {
    let view = looked.view();
    let card = |drawing: &::drawing::Drawing| DrawingCard {
        word: drawing.word,
        title: drawing.title,
        has_content: (drawing.has_content)(&view),
    };
    ::drawing::ALL.iter().map(card).collect()
}

/// The same drawing with every colour changeable: `var(--drawing-<name>,<printed colour>)`.
pub(crate) fn changeable(svg: &str) -> String {
    // A colour is the whole of an attribute: a quote, the sign, six digits, a quote.
    let mut text = String::with_capacity(svg.len() * 2);
    let mut rest = svg;
    while let Some(at) = rest.find("\"#") {
        let (before, from) = rest.split_at(at);
        text.push_str(before);
        let color = from.get(1..8).filter(|_| from.as_bytes().get(8) == Some(&b'"'));
        rest = match PALETTE.iter().find(|(_, known)| Some(*known) == color) {
            Some((name, color)) => {
                text.extend(["\"var(--drawing-", name, ",", color, ")\""]);
                &from[9..]
            }
            None => {
                text.push_str(&from[..2]);
                &from[2..]
            }
        };
    }
    text.push_str(rest);
    text
}

impl<'r> Looked<'r> {
    /// As the drawings look at it.
    pub(crate) fn view(&self) -> View<'_, 'r> {
        View { shaft: self.shaft, log: &self.log, assessment: &self.assessment, earlier: self.earlier() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(list: &[(&'static str, &'static str)], name: &str) -> &'static str {
        list.iter().find(|(other, _)| *other == name).expect("a colour of the drawings").1
    }

    /// Relative luminance and contrast as WCAG 2.2 defines them [WCAG-2.2].
    fn luminance(color: &str) -> f64 {
        let part = |from: usize| f64::from(u8::from_str_radix(&color[from..from + 2], 16).unwrap()) / 255.0;
        let linear = |part: f64| {
            if part <= 0.04045 { part / 12.92 } else { power((part + 0.055) / 1.055, 2.4) }
        };
        0.2126 * linear(part(1)) + 0.7152 * linear(part(3)) + 0.0722 * linear(part(5))
    }

    fn power(base: f64, exponent: f64) -> f64 {
        (base.ln() * exponent).exp()
    }

    fn contrast(a: &str, b: &str) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn the_measure_of_contrast_is_that_of_the_guideline() {
        // Black on white is 21 to 1; #767676 on white is the known grey just over 4.5 to 1.
        assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
        assert!((contrast("#767676", "#ffffff") - 4.54).abs() < 0.01);
    }

    #[test]
    fn every_colour_has_another_by_night_and_nothing_is_pure_white() {
        for (name, _) in PALETTE {
            assert_ne!(named(&NIGHT, name), "#ffffff");
        }
        assert_eq!(NIGHT.map(|(name, _)| name), PALETTE.map(|(name, _)| name));
    }

    #[test]
    fn what_is_written_can_be_read_on_the_paper_by_day_and_by_night() {
        for list in [&PALETTE[..], &NIGHT[..]] {
            for ink in ["ink", "soft"] {
                let found = contrast(named(list, ink), named(list, "paper"));
                assert!(found >= 7.0, "{ink}: {found:.2}");
            }
            for sign in ["good", "bad", "doubt", "water", "steel", "casing", "earth-ink", "concrete-ink"] {
                let found = contrast(named(list, sign), named(list, "paper"));
                assert!(found >= 4.5, "{sign}: {found:.2}");
            }
            for ground in ["earth", "fluid", "concrete", "band"] {
                let found = contrast(named(list, "ink"), named(list, ground));
                assert!(found >= 4.5, "ink on {ground}: {found:.2}");
            }
        }
    }

    /// The night theme of the app.
    const STYLE: &str = include_str!("../../../app/style/30-figures.css");

    #[test]
    fn the_night_theme_of_the_app_sets_every_colour_by_choice_and_by_device() {
        for (name, color) in NIGHT {
            let row = format!("--drawing-{name}: {color};");
            assert_eq!(STYLE.matches(&row).count(), 2, "{row}");
        }
    }

    #[test]
    fn a_colour_changes_and_a_label_that_looks_like_one_does_not() {
        let svg = "<text fill=\"#15202b\">#15202b &quot;#15202b&quot;</text>";
        let changed = "<text fill=\"var(--drawing-ink,#15202b)\">#15202b &quot;#15202b&quot;</text>";
        assert_eq!(changeable(svg), changed);
        let odd = "<a b=\"#\" c=\"#15202\" d=\"#15202b é\" e=\"#éé\" f=\"#";
        assert_eq!(changeable(odd), odd);
        assert_eq!(changeable("\"#15202b\"#15202b\""), "\"var(--drawing-ink,#15202b)\"#15202b\"");
    }
}
