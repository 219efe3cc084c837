//! A drawing and the words beside it.
//!
//! Someone who cannot see the drawing gets the same facts from `alt`, and so does a search of the file.

use serde::Serialize;

/// How much room a drawing gets. It always keeps its own proportions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Room {
    /// What the words leave of page one, for the time–depth sheet.
    Sheet,
    /// A page of its own, for the section beside the volume curve.
    Page,
    /// The full width of the page.
    Width,
    /// Half the width; two that follow each other stand side by side.
    Half,
}

/// One drawing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Drawing {
    /// The title over it; empty when the drawing carries its own.
    pub title: String,
    /// What to look at, one or two sentences.
    pub caption: String,
    /// What it shows, for a reader who cannot see it; never empty.
    pub alt: String,
    /// The SVG text.
    #[serde(skip)]
    pub svg: String,
    /// How much room it gets.
    pub room: Room,
}
