//! Where a short text may stand around a point: right, left, above, below, then farther out.
//!
//! Units: points.

use crate::size::Rect;
use crate::style::{Anchor, LEADER};
use crate::svg::Svg;

/// Steps outward that are tried.
const RINGS: i32 = 6;

/// Places for a text about a mark whose half width is `clear`, nearest first.
pub(crate) fn around(at: (f64, f64), clear: f64) -> Vec<((f64, f64), Anchor)> {
    let (x, y) = at;
    let mut places = Vec::new();
    for ring in 0..RINGS {
        let off = clear + 2.5 + 2.0 * f64::from(ring);
        let rise = 7.0 * f64::from(ring);
        for y in [y + 2.5 - rise, y + 2.5 + rise] {
            places.push(((x + off, y), Anchor::Start));
            places.push(((x - off, y), Anchor::End));
        }
        places.push(((x, y - clear - 3.0 - rise), Anchor::Middle));
        places.push(((x, y + clear + 8.0 + rise), Anchor::Middle));
    }
    places
}

/// A thin line from a mark to letters that found no room close to it.
pub(crate) fn tether(svg: &mut Svg, at: (f64, f64), room: Rect) {
    let end = (at.0.clamp(room.x, room.right()), at.1.clamp(room.y, room.bottom()));
    let (dx, dy) = (end.0 - at.0, end.1 - at.1);
    let length = libm::hypot(dx, dy);
    if length > 9.0 {
        let start = (at.0 + dx / length * 3.8, at.1 + dy / length * 3.8);
        svg.line(start, (end.0 - dx / length, end.1 - dy / length), &LEADER);
    }
}
