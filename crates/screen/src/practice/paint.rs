//! A small sheet to draw instruments on, in the colours of the drawings.
//!
//! Units: points. Never: a number that is not finite; a letter below 11 points, for these are read at arm's
//! length.

use figure::{FAMILY, PALETTE};
use std::fmt::Write;

/// A colour of the drawings by its name, changeable by a screen at night.
pub(super) fn ink(name: &str) -> String {
    let color = PALETTE.iter().find(|(known, _)| *known == name).map_or("#15202b", |(_, color)| *color);
    format!("var(--drawing-{name},{color})")
}

/// Where a text stands about its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// SVG text being written.
pub(super) struct Paint {
    size: (f64, f64),
    body: String,
}

impl Paint {
    /// An empty sheet.
    pub(super) fn new(width: f64, height: f64) -> Self {
        let mut paint = Paint { size: (width, height), body: String::new() };
        paint.area((0.0, 0.0), (width, height), "paper");
        paint
    }

    /// A line in a colour, so thick.
    pub(super) fn line(&mut self, from: (f64, f64), to: (f64, f64), (color, width): (&str, f64)) {
        let _ = writeln!(
            self.body,
            "<line x1=\"{:.1}\" y1=\"{:.1}\" x2=\"{:.1}\" y2=\"{:.1}\" stroke=\"{}\" stroke-width=\"{width}\"/>",
            from.0,
            from.1,
            to.0,
            to.1,
            ink(color)
        );
    }

    /// The line at which a figure is read: the one with the class `read-here`.
    pub(super) fn pointer(&mut self, from: (f64, f64), to: (f64, f64)) {
        let _ = writeln!(
            self.body,
            "<line class=\"read-here\" x1=\"{:.1}\" y1=\"{:.1}\" x2=\"{:.1}\" y2=\"{:.1}\" stroke=\"{}\" stroke-width=\"2\"/>",
            from.0,
            from.1,
            to.0,
            to.1,
            ink("bad")
        );
    }

    /// A filled rectangle.
    pub(super) fn area(&mut self, (x, y): (f64, f64), (width, height): (f64, f64), color: &str) {
        let _ = writeln!(
            self.body,
            "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{width:.1}\" height=\"{height:.1}\" fill=\"{}\"/>",
            ink(color)
        );
    }

    /// A frame.
    pub(super) fn frame(&mut self, (x, y): (f64, f64), (width, height): (f64, f64)) {
        let _ = writeln!(
            self.body,
            "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{width:.1}\" height=\"{height:.1}\" fill=\"none\" stroke=\"{}\" stroke-width=\"1.5\"/>",
            ink("ink")
        );
    }

    /// A shape through points, filled in one colour and outlined in another.
    pub(super) fn shape(&mut self, points: &[(f64, f64)], (fill, outline): (&str, &str)) {
        let _ = writeln!(
            self.body,
            "<polygon points=\"{}\" fill=\"{}\" stroke=\"{}\" stroke-width=\"1.5\" stroke-linejoin=\"round\"/>",
            joined(points),
            ink(fill),
            ink(outline)
        );
    }

    /// A line through points.
    pub(super) fn way(&mut self, points: &[(f64, f64)], (color, width, dash): (&str, f64, &str)) {
        let dash = if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dash}\"") };
        let _ = writeln!(
            self.body,
            "<polyline points=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{width}\"{dash}/>",
            joined(points),
            ink(color)
        );
    }

    /// A text of a size; `strong` letters are semibold.
    pub(super) fn text(&mut self, at: (f64, f64), (size, strong): (f64, bool), anchor: Anchor, text: &str) {
        self.classed("", at, (size, strong), (anchor, text));
    }

    /// The same with a class, by which a mark of a scale can be told from other letters.
    pub(super) fn classed(
        &mut self,
        class: &str,
        at: (f64, f64),
        (size, strong): (f64, bool),
        (anchor, text): (Anchor, &str),
    ) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let weight = if strong { " font-weight=\"600\"" } else { "" };
        let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
        let _ = writeln!(
            self.body,
            "<text{class} x=\"{:.1}\" y=\"{:.1}\" font-size=\"{size}\"{weight} text-anchor=\"{anchor}\" fill=\"{}\">{}</text>",
            at.0,
            at.1,
            ink("ink"),
            escaped(text)
        );
    }

    /// The drawing; `says` is what somebody hears who cannot see it.
    pub(super) fn svg(self, says: &str) -> String {
        let (width, height) = self.size;
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" role=\"img\" aria-label=\"{}\" font-family=\"{FAMILY}\">\n{}</svg>\n",
            escaped(says),
            self.body
        )
    }
}

fn joined(points: &[(f64, f64)]) -> String {
    points.iter().map(|(x, y)| format!("{x:.1},{y:.1}")).collect::<Vec<_>>().join(" ")
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
