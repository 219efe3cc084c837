//! Sizes and rectangles on the paper.
//!
//! Units: points, 1/72 in; one unit of a drawing is one point when it is printed at its own size.

/// Width and height of a drawing in points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// Across, points.
    pub width: f64,
    /// Down, points.
    pub height: f64,
}

impl Size {
    /// A size in points. A drawing made smaller than it can be read is drawn at 240 × 200.
    pub const fn points(width: f64, height: f64) -> Self {
        Size { width, height }
    }

    /// The size the drawing is made at: at least 240 × 200, at most 4000 points each way.
    pub(crate) fn usable(self) -> Self {
        Size { width: within(self.width, 240.0, 4000.0), height: within(self.height, 200.0, 4000.0) }
    }

    /// Made larger for a drawing that needs more room than others.
    pub(crate) fn at_least(self, width: f64, height: f64) -> Self {
        Size { width: self.width.max(width), height: self.height.max(height) }
    }
}

fn within(value: f64, low: f64, high: f64) -> f64 {
    if value.is_finite() { value.clamp(low, high) } else { low }
}

/// A rectangle on the paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rect {
    pub(crate) x: f64,
    pub(crate) y: f64,
    pub(crate) width: f64,
    pub(crate) height: f64,
}

impl Rect {
    pub(crate) const fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Rect { x, y, width, height }
    }

    /// The rectangle between two opposite corners, in any order.
    pub(crate) fn between(a: (f64, f64), b: (f64, f64)) -> Self {
        Rect::new(a.0.min(b.0), a.1.min(b.1), (a.0 - b.0).abs(), (a.1 - b.1).abs())
    }

    pub(crate) fn right(self) -> f64 {
        self.x + self.width
    }

    pub(crate) fn bottom(self) -> f64 {
        self.y + self.height
    }

    pub(crate) fn middle(self) -> (f64, f64) {
        (self.x + self.width / 2.0, self.y + self.height / 2.0)
    }

    /// Smaller by so much at the left, top, right and bottom.
    pub(crate) fn inset(self, left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Rect::new(
            self.x + left,
            self.y + top,
            (self.width - left - right).max(0.0),
            (self.height - top - bottom).max(0.0),
        )
    }

    pub(crate) fn overlaps(self, other: Rect) -> bool {
        self.x < other.right() && other.x < self.right() && self.y < other.bottom() && other.y < self.bottom()
    }

    pub(crate) fn contains(self, other: Rect) -> bool {
        self.x <= other.x
            && self.y <= other.y
            && other.right() <= self.right()
            && other.bottom() <= self.bottom()
    }
}
