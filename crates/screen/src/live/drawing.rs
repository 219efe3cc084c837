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
    PALETTE.iter().fold(svg.to_owned(), |svg, (name, color)| {
        svg.replace(&format!("\"{color}\""), &format!("\"var(--drawing-{name},{color})\""))
    })
}

impl<'r> Looked<'r> {
    /// As the drawings look at it.
    pub(crate) fn view(&self) -> View<'_, 'r> {
        View { shaft: self.shaft, log: &self.log, assessment: &self.assessment }
    }
}
