//! The flat plane that fits a set of soundings best.
//!
//! A base can be clean and still slope; a plane through the soundings says how much, and how far the
//! soundings lie off it.
//!
//! Units: metres inside. Never: weigh one sounding more than another.

use crate::estimate::Estimate;
use quantity::{Length, Slope};

/// A point across the base, seen from the centre of the shaft, with what was read there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BasePoint {
    /// Across, to the right.
    pub x: Length,
    /// Across, upward on the plan.
    pub y: Length,
    /// The reading: a depth, or a thickness.
    pub value: Length,
}

/// The best plane `z = z0 + bx x + by y`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// Reading at the centre.
    pub at_centre: Length,
    /// Rise of the reading along x.
    pub along_x: Slope,
    /// Rise of the reading along y.
    pub along_y: Slope,
    /// Greatest slope, in whatever direction, with its standard error from the error of one reading.
    pub slope: Estimate<Slope>,
    /// Root of the mean square of what is left over; zero for three points.
    pub left_over: Length,
}

/// Why there is no plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlaneError {
    /// A plane needs three points.
    TooFewPoints {
        /// How many there are.
        given: usize,
    },
    /// The points lie on one line.
    OnOneLine,
}

impl std::fmt::Display for PlaneError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            PlaneError::TooFewPoints { given } => write!(f, "a plane needs three points, there are {given}"),
            PlaneError::OnOneLine => write!(f, "the points lie on one line"),
        }
    }
}

impl std::error::Error for PlaneError {}

/// Sums about the mean point.
struct Spread {
    mean: [f64; 3],
    xx: f64,
    xy: f64,
    yy: f64,
    xz: f64,
    yz: f64,
}

/// Fits the plane by least squares.
///
/// `min Σ (z − z0 − bx x − by y)²`; `slope = √(bx² + by²)`; the covariance of `bx, by` is `σ²` times the
/// inverse of the spread of the points, carried over to the slope along its own direction.
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `σ` | `reading_error` | standard error of one reading |
///
/// **Valid for** three points or more that do not lie on a line. With a slope near zero its error is that
/// along x, as the slope has no direction then.
///
/// **Errors** with fewer points or with points on a line.
///
/// **Source**: least squares; checked against `numpy.linalg.lstsq`.
///
/// ```
/// # use calc::plane::{BasePoint, best_plane};
/// # use quantity::Length;
/// # let point = |x, y, value| BasePoint { x: Length::feet(x), y: Length::feet(y), value: Length::feet(value) };
/// let points =
///     [point(-2.0, 0.0, 40.0), point(2.0, 0.0, 40.2), point(0.0, 2.0, 40.1), point(0.0, -2.0, 40.1)];
/// let slope = best_plane(&points, Length::feet(0.1))?.slope;
/// assert_eq!(format!("{:.1} in/ft", slope.value.to_inches_per_foot()), "0.6 in/ft");
/// assert_eq!(format!("{:.1} in/ft", slope.standard_error.to_inches_per_foot()), "0.4 in/ft");
/// # Ok::<(), calc::plane::PlaneError>(())
/// ```
pub fn best_plane(points: &[BasePoint], reading_error: Length) -> Result<Plane, PlaneError> {
    if points.len() < 3 {
        return Err(PlaneError::TooFewPoints { given: points.len() });
    }
    let spread = Spread::of(points);
    let determinant = spread.xx * spread.yy - spread.xy * spread.xy;
    if determinant <= 1e-12 * (spread.xx + spread.yy) * (spread.xx + spread.yy) {
        return Err(PlaneError::OnOneLine);
    }
    let bx = (spread.xz * spread.yy - spread.yz * spread.xy) / determinant;
    let by = (spread.yz * spread.xx - spread.xz * spread.xy) / determinant;
    let slope = libm::hypot(bx, by);
    let (ux, uy) = if slope > 0.0 { (bx / slope, by / slope) } else { (1.0, 0.0) };
    let variance = (ux * ux * spread.yy - 2.0 * ux * uy * spread.xy + uy * uy * spread.xx) / determinant;
    Ok(Plane {
        at_centre: Length::meters(spread.mean[2] - bx * spread.mean[0] - by * spread.mean[1]),
        along_x: Slope::part(bx),
        along_y: Slope::part(by),
        slope: Estimate::new(Slope::part(slope), Slope::part(reading_error.to_meters() * variance.sqrt())),
        left_over: Length::meters(spread.left_over(points, [bx, by])),
    })
}

impl Spread {
    fn of(points: &[BasePoint]) -> Spread {
        let count = points.len() as f64;
        let mean = [0, 1, 2].map(|axis| points.iter().map(|point| meters(point)[axis]).sum::<f64>() / count);
        let mut spread = Spread { mean, xx: 0.0, xy: 0.0, yy: 0.0, xz: 0.0, yz: 0.0 };
        for point in points {
            let [x, y, z] = spread.off_mean(point);
            spread.xx += x * x;
            spread.xy += x * y;
            spread.yy += y * y;
            spread.xz += x * z;
            spread.yz += y * z;
        }
        spread
    }

    fn off_mean(&self, point: &BasePoint) -> [f64; 3] {
        let [x, y, z] = meters(point);
        [x - self.mean[0], y - self.mean[1], z - self.mean[2]]
    }

    fn left_over(&self, points: &[BasePoint], [bx, by]: [f64; 2]) -> f64 {
        let squares = points.iter().map(|point| {
            let [x, y, z] = self.off_mean(point);
            let off = z - bx * x - by * y;
            off * off
        });
        (squares.sum::<f64>() / points.len() as f64).sqrt()
    }
}

fn meters(point: &BasePoint) -> [f64; 3] {
    [point.x.to_meters(), point.y.to_meters(), point.value.to_meters()]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Points as (x ft, y ft, depth ft); expected slopes in in/ft, the rest in inches.
    #[track_caller]
    fn check(points: &[(f64, f64, f64)], expected: &str) {
        let points: Vec<_> = points
            .iter()
            .map(|&(x, y, z)| BasePoint { x: Length::feet(x), y: Length::feet(y), value: Length::feet(z) })
            .collect();
        let got = match best_plane(&points, Length::feet(0.1)) {
            Ok(plane) => format!(
                "{:.3} ± {:.3} in/ft, left over {:.3} in",
                plane.slope.value.to_inches_per_foot(),
                plane.slope.standard_error.to_inches_per_foot(),
                plane.left_over.to_inches()
            ),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    /// Four points 2 ft out: depth 40 at the left, 40.2 at the right, 40.1 elsewhere, so 0.05 ft/ft = 0.6
    /// in/ft along x; Σx² = 8 ft², so σ = 0.1 / √8 ft/ft = 0.424 in/ft.
    #[test]
    fn a_base_that_slopes_one_way() {
        let points = [(-2.0, 0.0, 40.0), (2.0, 0.0, 40.2), (0.0, 2.0, 40.1), (0.0, -2.0, 40.1)];
        check(&points, "0.600 ± 0.424 in/ft, left over 0.000 in");
    }

    /// A centre 0.1 ft higher than the four around it: no slope; mean 40.08, off by −0.08 and four times 0.02:
    /// √((0.0064 + 4 · 0.0004) / 5) = 0.04 ft = 0.48 in.
    #[test]
    fn a_mound_leaves_no_slope_but_something_over() {
        let round = [(2.0, 0.0), (-2.0, 0.0), (0.0, 2.0), (0.0, -2.0)].map(|(x, y)| (x, y, 40.1));
        let points = [&round[..], &[(0.0, 0.0, 40.0)]].concat();
        check(&points, "0.000 ± 0.424 in/ft, left over 0.480 in");
    }

    #[test]
    fn two_points_or_a_line_make_no_plane() {
        check(&[(0.0, 0.0, 40.0), (1.0, 0.0, 40.1)], "a plane needs three points, there are 2");
        let line = [(0.0, 0.0, 40.0), (1.0, 1.0, 40.1), (2.0, 2.0, 40.3)];
        check(&line, "the points lie on one line");
    }
}
