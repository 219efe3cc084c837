//! The look of every drawing, in one table: inks, lines and letters.
//!
//! Dark ink on white, readable in sunlight and on a photocopy. A colour never carries a meaning alone:
//! lines also differ in weight and dashes, marks in shape, areas in hatching, and all are labelled.
//! Attributes are written on every element, because style sheets inside an SVG are not read everywhere.
//!
//! Units: points. Never: letters below 7 points.

use crate::lettering::{self, Weight};

pub(crate) const INK: &str = "#15202b";
pub(crate) const SOFT: &str = "#465360";
pub(crate) const FAINT: &str = "#c9cfd5";
pub(crate) const PAPER: &str = "#ffffff";
pub(crate) const EARTH: &str = "#f5efe3";
pub(crate) const EARTH_INK: &str = "#6a583a";
pub(crate) const FLUID: &str = "#e4f0f6";
pub(crate) const WATER: &str = "#0f5f8f";
pub(crate) const CONCRETE: &str = "#d5d9dc";
pub(crate) const CONCRETE_INK: &str = "#4c565f";
pub(crate) const STEEL: &str = "#8a3a16";
pub(crate) const CASING: &str = "#2c3a72";
pub(crate) const GOOD: &str = "#155e33";
pub(crate) const BAD: &str = "#a8201a";
pub(crate) const DOUBT: &str = "#7d5200";
pub(crate) const BAND: &str = "#e9ecef";
pub(crate) const UNCERTAIN: &str = "#aab2ba";

/// Every colour of the drawings with a name that tells its use: a screen that shows them at night puts
/// others in their place, and nothing but these colours stands in a drawing.
pub const PALETTE: [(&str, &str); 17] = [
    ("ink", INK),
    ("soft", SOFT),
    ("faint", FAINT),
    ("paper", PAPER),
    ("earth", EARTH),
    ("earth-ink", EARTH_INK),
    ("fluid", FLUID),
    ("water", WATER),
    ("concrete", CONCRETE),
    ("concrete-ink", CONCRETE_INK),
    ("steel", STEEL),
    ("casing", CASING),
    ("good", GOOD),
    ("bad", BAD),
    ("doubt", DOUBT),
    ("band", BAND),
    ("uncertain", UNCERTAIN),
];

/// How a line is drawn and its inside filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pen {
    pub(crate) class: &'static str,
    pub(crate) stroke: &'static str,
    pub(crate) width: f64,
    pub(crate) dash: &'static str,
    pub(crate) fill: &'static str,
    /// Round ends, so that the shortest stroke is a dot.
    pub(crate) round: bool,
}

impl Pen {
    /// A plain unbroken line without filling.
    pub(crate) const fn line(class: &'static str, stroke: &'static str, width: f64) -> Self {
        Pen { class, stroke, width, dash: "", fill: "none", round: false }
    }

    /// A filled area without an outline.
    pub(crate) const fn area(class: &'static str, fill: &'static str) -> Self {
        Pen { class, stroke: "none", width: 0.0, dash: "", fill, round: false }
    }

    pub(crate) const fn dashed(self, dash: &'static str) -> Self {
        Pen { dash, ..self }
    }

    /// A pen whose dots are as wide as its line.
    pub(crate) const fn dotting(class: &'static str, stroke: &'static str, width: f64) -> Self {
        Pen { round: true, ..Self::line(class, stroke, width) }
    }

    pub(crate) const fn filled(self, fill: &'static str) -> Self {
        Pen { fill, ..self }
    }
}

/// How a text is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Type {
    pub(crate) class: &'static str,
    pub(crate) size: f64,
    pub(crate) weight: Weight,
    pub(crate) fill: &'static str,
    pub(crate) anchor: Anchor,
}

/// Which point of a text stands at the given place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

impl Type {
    pub(crate) const fn of(class: &'static str, size: f64, weight: Weight, fill: &'static str) -> Self {
        Type { class, size, weight, fill, anchor: Anchor::Start }
    }

    /// Lines no wider than `room`; what does not fit into `most` lines ends in an ellipsis.
    pub(crate) fn wrapped(&self, text: &str, room: f64, most: usize) -> Vec<String> {
        let mut lines = lettering::wrap(text, self.weight, self.size, room);
        if lines.len() > most && most > 0 {
            let rest = format!("{} …", lines[most - 1]);
            lines.truncate(most - 1);
            lines.push(lettering::fit(&rest, self.weight, self.size, room));
        }
        lines
    }

    pub(crate) const fn middle(self) -> Self {
        Type { anchor: Anchor::Middle, ..self }
    }

    pub(crate) const fn end(self) -> Self {
        Type { anchor: Anchor::End, ..self }
    }

    pub(crate) const fn ink(self, fill: &'static str) -> Self {
        Type { fill, ..self }
    }
}

pub(crate) const TITLE: Type = Type::of("title", 11.5, Weight::Semibold, INK);
pub(crate) const SUBTITLE: Type = Type::of("subtitle", 8.0, Weight::Regular, SOFT);
pub(crate) const HEAD: Type = Type::of("head", 7.5, Weight::Semibold, INK);
pub(crate) const LABEL: Type = Type::of("label", 7.5, Weight::Regular, INK);
pub(crate) const STRONG: Type = Type::of("strong", 7.5, Weight::Semibold, INK);
pub(crate) const TICK: Type = Type::of("tick", 7.0, Weight::Regular, SOFT);
pub(crate) const NOTE: Type = Type::of("note", 7.0, Weight::Italic, SOFT);

pub(crate) const GRID: Pen = Pen::line("grid", FAINT, 0.4);
pub(crate) const FRAME: Pen = Pen::line("frame", INK, 0.8);
pub(crate) const TICK_LINE: Pen = Pen::line("tick-line", SOFT, 0.5);
pub(crate) const LEADER: Pen = Pen::line("leader", SOFT, 0.45);
pub(crate) const PLANNED: Pen = Pen::line("planned", INK, 0.8).dashed("5 2.5");
pub(crate) const MEASURED: Pen = Pen::line("measured", INK, 1.3);
pub(crate) const LIMIT: Pen = Pen::line("limit", BAD, 1.0).dashed("7 2 1.5 2");
pub(crate) const PLATE: Pen = Pen::area("plate", PAPER);
pub(crate) const GROUNDWATER: Pen = Pen::line("groundwater", WATER, 0.9);
pub(crate) const CONCRETE_LEVEL: Pen = Pen::line("concrete-level", INK, 1.7);
pub(crate) const TREMIE: Pen = Pen::line("tremie", INK, 1.0);
