//! An assessment as the plain data the figures draw.
//!
//! `figure` draws whatever it is given and knows no shaft; `assess` knows the shaft and no paper. This crate
//! hands over from one to the other: elevations become depths below the reference in force, verdicts become
//! marks, and what was not recorded is named as a blank.
//!
//! Words: *zero* = the reference point depths on the drawing are measured from.
//! Units: metres and cubic metres, as the figures want them.
//! Never: judge, compute a figure, read a clock.

pub mod across;
mod base;
mod cage;
mod curve;
mod day;
mod fluid;
mod ground;
mod position;
mod profile;
mod section;
mod slump;
mod view;

pub use view::{Scales, View};

use figure::Size;

/// A drawing of a shaft, by the word a person asks for it with.
#[derive(Debug, Clone, Copy)]
pub struct Drawing {
    /// Its word.
    pub word: &'static str,
    /// What it shows.
    pub title: &'static str,
    /// Whether there is anything to draw.
    pub has_content: fn(&View<'_, '_>) -> bool,
    /// Draws it as SVG text.
    pub draw: fn(&View<'_, '_>, Size) -> String,
}

/// Every drawing, in the order of a package.
pub const ALL: &[Drawing] = &[
    Drawing { word: "day", title: "Time–depth sheet", has_content: day::has_content, draw: day::draw },
    Drawing {
        word: "section",
        title: "Section and volume curve",
        has_content: section::has_content,
        draw: section::draw_with_curve,
    },
    Drawing { word: "curve", title: "Volume curve", has_content: curve::has_content, draw: curve::draw },
    Drawing {
        word: "profile",
        title: "As-built profile (estimate)",
        has_content: profile::has_content,
        draw: profile::draw,
    },
    Drawing { word: "base", title: "Base", has_content: base::has_content, draw: base::draw },
    Drawing { word: "cage", title: "Cage", has_content: cage::has_content, draw: cage::draw },
    Drawing {
        word: "slump",
        title: "Slump and its life",
        has_content: slump::has_content,
        draw: slump::draw,
    },
    Drawing { word: "fluid", title: "Fluid tests", has_content: fluid::has_content, draw: fluid::draw },
    Drawing {
        word: "position",
        title: "Position and plumbness",
        has_content: position::has_content,
        draw: position::draw,
    },
];

/// The drawing of a word.
pub fn named(word: &str) -> Option<&'static Drawing> {
    ALL.iter().find(|drawing| drawing.word == word)
}

/// The section by itself, for a screen that has no room for the curve beside it.
pub fn section_alone(view: &View<'_, '_>, size: Size) -> String {
    let section = figure::Section { title: view.title("section"), ..section::section(view) };
    figure::section_svg(&section, size)
}

/// The same with the band of the estimated shape.
pub fn section_estimated(view: &View<'_, '_>, size: Size) -> String {
    let section = figure::Section { title: view.title("section"), ..section::section_with_profile(view) };
    figure::section_svg(&section, size)
}
