//! The points of one line or area, written with one decimal.
//!
//! Units: points. Never: carry a number that is not finite.

use super::number;

/// A path that grows point by point.
#[derive(Debug, Clone, Default)]
pub(crate) struct Path {
    data: String,
    broken: bool,
    pen_down: bool,
}

impl Path {
    pub(crate) fn new() -> Self {
        Path::default()
    }

    /// Goes to a point, drawing unless the pen was up.
    pub(crate) fn to(mut self, point: (f64, f64)) -> Self {
        self.broken |= !point.0.is_finite() || !point.1.is_finite();
        self.data.push(if self.pen_down { 'L' } else { 'M' });
        self.put(point);
        self.pen_down = true;
        self
    }

    /// Lifts the pen: the next point begins another stroke.
    pub(crate) fn lift(mut self) -> Self {
        self.pen_down = false;
        self
    }

    /// One separate stroke.
    pub(crate) fn stroke(self, from: (f64, f64), to: (f64, f64)) -> Self {
        self.lift().to(from).to(to)
    }

    /// A dot, for a pen with round ends: a stroke too short to see its length.
    pub(crate) fn dot(mut self, at: (f64, f64)) -> Self {
        self = self.lift().to(at).lift();
        self.data.push_str("h0.1");
        self
    }

    /// A circle as two arcs.
    pub(crate) fn ring(mut self, center: (f64, f64), radius: f64) -> Self {
        self = self.lift().to((center.0 - radius, center.1));
        let r = number(radius);
        for x in [center.0 + radius, center.0 - radius] {
            self.data.push_str(&format!("A{r} {r} 0 0 1 "));
            self.put((x, center.1));
        }
        self.broken |= !radius.is_finite();
        self.lift()
    }

    /// Back to where the stroke began.
    pub(crate) fn close(mut self) -> Self {
        self.data.push('Z');
        self.lift()
    }

    /// The attribute text; nothing when the path is empty or a number was not finite.
    pub(crate) fn data(self) -> Option<String> {
        (!self.broken && !self.data.is_empty()).then_some(self.data)
    }

    fn put(&mut self, point: (f64, f64)) {
        self.data.push_str(&format!("{} {}", number(point.0), number(point.1)));
    }
}
