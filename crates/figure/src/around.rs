//! Where a short text may stand around a point: right, left, above, below, then farther out.
//!
//! Units: points.

use crate::style::Anchor;

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
