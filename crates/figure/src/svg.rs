//! Writes SVG text: shapes with one decimal, texts that remember the room they take.
//!
//! The same data gives the same bytes on a tablet, in the office and in a test.
//!
//! Units: points. Never: write a number that is not finite; such a shape is left out.

mod path;

pub(crate) use path::Path;

use crate::fonts::FAMILY;
use crate::lead::Lead;
use crate::lettering::{self, CAPITAL, Weight};
use crate::size::{Rect, Size};
use crate::style::{Anchor, PLATE, Pen, Type};
use std::fmt::Write;

/// So many of the places a label may take are near enough to be worth dodging a line for.
const NEAR: usize = 22;

/// A drawing while it is being written.
pub(crate) struct Svg {
    body: String,
    /// Room taken by texts, so that later ones can stay clear of it.
    taken: Vec<Rect>,
    /// Room that lines run through: texts avoid it while they can.
    crossed: Vec<Rect>,
    size: Size,
    /// Something in it can be followed.
    leads: bool,
}

impl Svg {
    pub(crate) fn new(size: Size) -> Self {
        Svg { body: String::new(), taken: Vec::new(), crossed: Vec::new(), size, leads: false }
    }

    /// The whole document. `title` and `description` are what a screen reader says.
    pub(crate) fn finish(self, class: &str, title: &str, description: &str) -> String {
        let (w, h) = (number(self.size.width), number(self.size.height));
        // What can be followed is inside a picture for nobody: a screen reader takes a picture as one thing.
        let role = if self.leads { "group" } else { "img" };
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"shaftbook {class}\" role=\"{role}\" \
             width=\"{w}pt\" height=\"{h}pt\" viewBox=\"0 0 {w} {h}\" \
             font-family=\"{FAMILY}\" stroke-linejoin=\"round\">\n\
             <title>{}</title>\n<desc>{}</desc>\n{}</svg>\n",
            escape(title),
            escape(description),
            self.body
        )
    }

    pub(crate) fn open(&mut self, class: &str) {
        let _ = writeln!(self.body, "<g class=\"{class}\">");
    }

    pub(crate) fn close(&mut self) {
        self.body.push_str("</g>\n");
    }

    /// Draws something that leads somewhere. Hands reach it by its place; a keyboard walks through the list beside the
    /// drawing, where the same ways stand in words.
    pub(crate) fn leading(&mut self, lead: &Lead, draw: impl FnOnce(&mut Svg)) {
        if lead.to.is_empty() {
            draw(self);
            return;
        }
        self.leads = true;
        let (to, says) = (escape(&lead.to), escape(&lead.says));
        let _ = writeln!(
            self.body,
            "<a href=\"{to}\" tabindex=\"-1\" aria-label=\"{says}\">\n<title>{says}</title>"
        );
        draw(self);
        self.body.push_str("</a>\n");
    }

    /// Room about a small mark that a finger may hit.
    pub(crate) fn reach(&mut self, at: (f64, f64), r: f64) {
        if at.0.is_finite() && at.1.is_finite() {
            let (x, y, r) = (number(at.0), number(at.1), number(r));
            let _ = writeln!(
                self.body,
                "<circle class=\"reach\" fill=\"none\" pointer-events=\"all\" cx=\"{x}\" cy=\"{y}\" r=\"{r}\"/>"
            );
        }
    }

    pub(crate) fn line(&mut self, from: (f64, f64), to: (f64, f64), pen: &Pen) {
        self.path(Path::new().to(from).to(to), pen);
    }

    pub(crate) fn polyline(&mut self, points: &[(f64, f64)], pen: &Pen) {
        if points.len() > 1 {
            self.path(points.iter().fold(Path::new(), |path, &point| path.to(point)), pen);
        }
    }

    pub(crate) fn polygon(&mut self, points: &[(f64, f64)], pen: &Pen) {
        if points.len() > 2 {
            self.path(points.iter().fold(Path::new(), |path, &point| path.to(point)).close(), pen);
        }
    }

    pub(crate) fn path(&mut self, path: Path, pen: &Pen) {
        if let Some(data) = path.data() {
            let _ = writeln!(self.body, "<path {} d=\"{data}\"/>", attributes(pen));
        }
    }

    pub(crate) fn rect(&mut self, rect: Rect, pen: &Pen) {
        let Rect { x, y, width, height } = rect;
        if [x, y, width, height].iter().all(|v| v.is_finite()) && width >= 0.0 && height >= 0.0 {
            let (x, y, w, h) = (number(x), number(y), number(width), number(height));
            let pen = attributes(pen);
            let _ = writeln!(self.body, "<rect {pen} x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\"/>");
        }
    }

    pub(crate) fn circle(&mut self, center: (f64, f64), radius: f64, pen: &Pen) {
        if center.0.is_finite() && center.1.is_finite() && radius.is_finite() && radius > 0.0 {
            let (x, y, r) = (number(center.0), number(center.1), number(radius));
            let _ = writeln!(self.body, "<circle {} cx=\"{x}\" cy=\"{y}\" r=\"{r}\"/>", attributes(pen));
        }
    }

    /// A text whose base line starts, centres or ends at `at`.
    pub(crate) fn text(&mut self, style: &Type, at: (f64, f64), text: &str) {
        let text = clean(text);
        if text.is_empty() || !at.0.is_finite() || !at.1.is_finite() {
            return;
        }
        self.taken.push(extent(style, at, &text));
        self.write_text(style, at, &text, "");
    }

    /// A text that reads upward, its base line running up through `at`.
    pub(crate) fn text_upward(&mut self, style: &Type, at: (f64, f64), text: &str) {
        let text = clean(text);
        if text.is_empty() {
            return;
        }
        self.taken.push(extent_upward(style, at, &text));
        let turn = format!(" transform=\"rotate(-90 {} {})\"", number(at.0), number(at.1));
        self.write_text(style, at, &text, &turn);
    }

    /// A text that reads upward from the middle-most place where it is free and inside.
    pub(crate) fn upward_where_free(
        &mut self,
        style: &Type,
        places: &[(f64, f64)],
        text: &str,
        inside: Rect,
    ) -> bool {
        let fits = |at: &&(f64, f64)| {
            let room = extent_upward(style, **at, &clean(text));
            inside.contains(room) && self.is_free(room)
        };
        let middle = inside.middle().1 + extent(style, (0.0, 0.0), text).width / 2.0;
        let nearest =
            places.iter().filter(fits).min_by(|a, b| (a.1 - middle).abs().total_cmp(&(b.1 - middle).abs()));
        if let Some(&at) = nearest {
            self.text_upward(style, at, text);
        }
        nearest.is_some()
    }

    /// A text on a white plate, for places where hatching runs below it.
    pub(crate) fn plated(&mut self, style: &Type, at: (f64, f64), text: &str) {
        let room = extent(style, at, &clean(text));
        self.rect(room.inset(-1.5, -1.0, -1.5, -1.0), &PLATE);
        self.text(style, at, text);
    }

    /// Writes the text at the first of the places where it neither covers another text nor leaves `inside`.
    /// Returns false when there is none, so that the caller can say what was left out.
    pub(crate) fn text_where_free(
        &mut self,
        style: &Type,
        places: &[((f64, f64), Anchor)],
        text: &str,
        inside: Rect,
    ) -> bool {
        let found = self.free_place(style, places, text, inside);
        if let Some((at, anchor)) = found {
            self.plated(&Type { anchor, ..*style }, at, text);
        }
        found.is_some()
    }

    /// The same without a plate, for places where only a light tint lies below; says where it was written.
    pub(crate) fn bare_where_free(
        &mut self,
        style: &Type,
        places: &[((f64, f64), Anchor)],
        text: &str,
        inside: Rect,
    ) -> Option<Rect> {
        let (at, anchor) = self.free_place(style, places, text, inside)?;
        let style = Type { anchor, ..*style };
        self.text(&style, at, text);
        Some(extent(&style, at, text))
    }

    fn free_place(
        &self,
        style: &Type,
        places: &[((f64, f64), Anchor)],
        text: &str,
        inside: Rect,
    ) -> Option<((f64, f64), Anchor)> {
        let text = clean(text);
        let room =
            |(at, anchor): &((f64, f64), Anchor)| extent(&Type { anchor: *anchor, ..*style }, *at, &text);
        let possible =
            || places.iter().filter(|place| inside.contains(room(place)) && self.is_free(room(place)));
        let uncrossed =
            |place: &&((f64, f64), Anchor)| !self.crossed.iter().any(|line| line.overlaps(room(place)));
        // A crossed label beside its mark reads better than a clear one far away from it.
        let near = |place: &&((f64, f64), Anchor)| places[..places.len().min(NEAR)].contains(place);
        possible().filter(near).find(uncrossed).or_else(|| possible().next()).copied()
    }

    pub(crate) fn is_free(&self, room: Rect) -> bool {
        !self.taken.iter().any(|taken| taken.overlaps(room.inset(-1.0, -0.5, -1.0, -0.5)))
    }

    /// Keeps texts away from a mark or a symbol.
    pub(crate) fn keep_clear(&mut self, room: Rect) {
        self.taken.push(room);
    }

    /// Asks texts to stay off a line where they can.
    pub(crate) fn avoid_line(&mut self, points: &[(f64, f64)]) {
        for pair in points.windows(2) {
            let (dx, dy) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
            let steps = (libm::hypot(dx, dy) / 3.0).clamp(1.0, 2000.0) as i32;
            for step in 0..=steps {
                let part = f64::from(step) / f64::from(steps);
                let (x, y) = (pair[0].0 + dx * part, pair[0].1 + dy * part);
                self.crossed.push(Rect::new(x - 1.0, y - 1.0, 2.0, 2.0));
            }
        }
    }

    fn write_text(&mut self, style: &Type, at: (f64, f64), text: &str, more: &str) {
        let anchor = match style.anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let weight = match style.weight {
            Weight::Regular => "",
            Weight::Semibold => " font-weight=\"600\"",
            Weight::Italic => " font-style=\"italic\"",
        };
        let _ = writeln!(
            self.body,
            "<text class=\"{}\" x=\"{}\" y=\"{}\" font-size=\"{}\" fill=\"{}\"{anchor}{weight}{more}>{}</text>",
            style.class,
            number(at.0),
            number(at.1),
            number(style.size),
            style.fill,
            escape(text)
        );
    }
}

/// The room a text takes: from the top of its capitals to the foot of its descenders.
pub(crate) fn extent(style: &Type, at: (f64, f64), text: &str) -> Rect {
    let width = lettering::width(text, style.weight, style.size);
    let x = match style.anchor {
        Anchor::Start => at.0,
        Anchor::Middle => at.0 - width / 2.0,
        Anchor::End => at.0 - width,
    };
    Rect::new(x, at.1 - style.size * (CAPITAL + 0.04), width, style.size * (CAPITAL + 0.24))
}

fn extent_upward(style: &Type, at: (f64, f64), text: &str) -> Rect {
    let flat = extent(style, (0.0, 0.0), text);
    Rect::new(at.0 + flat.y, at.1 - flat.right(), flat.height, flat.width)
}

fn attributes(pen: &Pen) -> String {
    let mut out = format!("class=\"{}\" fill=\"{}\"", pen.class, pen.fill);
    if pen.stroke != "none" {
        let _ = write!(out, " stroke=\"{}\" stroke-width=\"{}\"", pen.stroke, pen.width);
    }
    if pen.round {
        out.push_str(" stroke-linecap=\"round\"");
    }
    if !pen.dash.is_empty() {
        let _ = write!(out, " stroke-dasharray=\"{}\"", pen.dash);
    }
    out
}

/// One decimal, and no negative zero.
pub(crate) fn number(value: f64) -> String {
    let text = format!("{value:.1}");
    if text == "-0.0" { "0.0".to_owned() } else { text }
}

/// Line breaks and other control signs have no place in a label.
fn clean(text: &str) -> String {
    let plain =
        text.chars().map(|c| if c.is_control() || c == '\u{fffe}' || c == '\u{ffff}' { ' ' } else { c });
    plain.collect::<String>().trim().to_owned()
}

fn escape(text: &str) -> String {
    let text = clean(text);
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
