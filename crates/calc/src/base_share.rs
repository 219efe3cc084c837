//! Which part of a circular base lies nearest to each sounding.
//!
//! Five soundings are not five fifths of a base: the centre stands for less of it than each quadrant. The
//! cells of nearest points are cut out of the circle one cut at a time.
//!
//! Words: *cell* = the part nearer to one sounding than to any other.
//! Units: metres inside. Never: look at a reading.

use crate::base::BaseError;
use crate::plane::BasePoint;
use quantity::Length;

/// Corners of the polygon that stands for the circle; its area is 0.005 % below that of the circle.
const CORNERS: usize = 360;

type Spot = [f64; 2];

/// The share of the circle that lies nearest to each point; the shares sum to one.
///
/// **Errors** when the radius is not greater than zero, a point lies outside, or two lie on one spot.
///
/// **Source**: [GEOMETRY], cells of nearest points, cut from a polygon of 360 corners by half planes.
pub(crate) fn nearest_shares(points: &[BasePoint], radius: Length) -> Result<Vec<f64>, BaseError> {
    let spots = checked(points, radius)?;
    let whole = circle(radius.to_meters());
    let areas: Vec<f64> = (0..spots.len()).map(|index| area(&cell(index, &spots, &whole))).collect();
    let total: f64 = areas.iter().sum();
    Ok(areas.iter().map(|area| area / total).collect())
}

fn checked(points: &[BasePoint], radius: Length) -> Result<Vec<Spot>, BaseError> {
    if radius <= Length::ZERO {
        return Err(BaseError::Radius { given: radius });
    }
    let spots: Vec<Spot> = points.iter().map(|point| [point.x.to_meters(), point.y.to_meters()]).collect();
    for (other, spot) in spots.iter().enumerate() {
        // A micrometre of slack lets a point on the wall, reckoned from an angle, count as inside.
        if radius.to_meters() + 1e-6 < libm::hypot(spot[0], spot[1]) {
            return Err(BaseError::Outside { point: other });
        }
        if let Some(one) = spots[..other].iter().position(|earlier| earlier == spot) {
            return Err(BaseError::SameSpot { one, other });
        }
    }
    Ok(spots)
}

fn circle(radius: f64) -> Vec<Spot> {
    let angle = |corner: usize| corner as f64 * std::f64::consts::TAU / CORNERS as f64;
    (0..CORNERS)
        .map(|corner| [radius * libm::cos(angle(corner)), radius * libm::sin(angle(corner))])
        .collect()
}

fn cell(index: usize, spots: &[Spot], whole: &[Spot]) -> Vec<Spot> {
    let own = spots[index];
    let others = spots.iter().enumerate().filter(|(other, _)| *other != index);
    others.fold(whole.to_vec(), |left, (_, other)| cut(&left, own, *other))
}

/// Keeps the part of a convex polygon that lies nearer to `own` than to `other`.
fn cut(polygon: &[Spot], own: Spot, other: Spot) -> Vec<Spot> {
    // Negative on the side of `own`: the difference of the squared distances is straight in the place.
    let side = |spot: Spot| {
        let squared = |from: Spot| {
            (spot[0] - from[0]) * (spot[0] - from[0]) + (spot[1] - from[1]) * (spot[1] - from[1])
        };
        squared(own) - squared(other)
    };
    let mut kept = Vec::new();
    for (index, &spot) in polygon.iter().enumerate() {
        let next = polygon[(index + 1) % polygon.len()];
        let (here, there) = (side(spot), side(next));
        if here <= 0.0 {
            kept.push(spot);
        }
        if (here < 0.0 && 0.0 < there) || (there < 0.0 && 0.0 < here) {
            let part = here / (here - there);
            kept.push([spot[0] + part * (next[0] - spot[0]), spot[1] + part * (next[1] - spot[1])]);
        }
    }
    kept
}

/// Area by the shoelace sum.
fn area(polygon: &[Spot]) -> f64 {
    let pairs = (0..polygon.len()).map(|index| (polygon[index], polygon[(index + 1) % polygon.len()]));
    pairs.map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>() / 2.0
}
