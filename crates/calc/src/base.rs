//! What the soundings across a base add up to: worst, mean, share of the area, levelness, change.
//!
//! A base is judged by more than its worst spot: half of it may have to be nearly clean, it may have to be
//! level, and it must not have changed since it was accepted.
//!
//! Words: *share* = part of the area of the base; *weight* = the share one sounding stands for.
//! Units: SI inside; lengths compare exactly.
//! Never: know how much sediment is too much.

use crate::base_share::nearest_shares;
use crate::estimate::Estimate;
use crate::plane::BasePoint;
use quantity::{Fraction, Length, Slope};

/// How much of the base each sounding stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighing {
    /// The same share each: for soundings whose place was not written down.
    EqualShares,
    /// The part of the circle that lies nearer to it than to any other (Voronoi cells).
    NearestPart {
        /// Radius of the base.
        radius: Length,
    },
}

/// Soundings across one base, with the share each stands for. Invariant: at least one; the shares sum to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Base {
    points: Vec<BasePoint>,
    shares: Vec<f64>,
}

/// The greatest slope between two soundings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteepestPair {
    /// Index of one sounding.
    pub one: usize,
    /// Index of the other.
    pub other: usize,
    /// Difference over distance, without sign.
    pub slope: Slope,
}

/// One spot sounded twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SoundedTwice {
    /// When the base was accepted.
    pub accepted: Length,
    /// When it was sounded again.
    pub again: Length,
}

/// How a base has changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BaseChange {
    /// The greatest loss of depth at one spot; negative when every spot is deeper than before.
    pub greatest_loss: Estimate<Length>,
    /// Which spot.
    pub at: usize,
    /// Mean loss of depth.
    pub mean_loss: Estimate<Length>,
}

/// Why a base has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BaseError {
    /// Nothing was sounded.
    NoPoint,
    /// The radius is not greater than zero.
    Radius {
        /// As given.
        given: Length,
    },
    /// A sounding lies outside the base.
    Outside {
        /// Its index.
        point: usize,
    },
    /// Two soundings lie on one spot.
    SameSpot {
        /// Index of one.
        one: usize,
        /// Index of the other.
        other: usize,
    },
    /// A slope needs two soundings.
    OnlyOne,
}

impl std::fmt::Display for BaseError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            BaseError::NoPoint => write!(f, "nothing was sounded"),
            BaseError::Radius { .. } => write!(f, "the radius is not greater than zero"),
            BaseError::Outside { point } => write!(f, "sounding {} lies outside the base", point + 1),
            BaseError::SameSpot { one, other } => {
                write!(f, "soundings {} and {} lie on one spot", one + 1, other + 1)
            }
            BaseError::OnlyOne => write!(f, "a slope needs two soundings"),
        }
    }
}

impl std::error::Error for BaseError {}

impl Base {
    /// Takes the soundings of one base and gives each its share of the area.
    ///
    /// **Valid for** a circular base. [`Weighing::NearestPart`] cuts a polygon of 360 corners into cells, so
    /// a share is good to 0.0001.
    ///
    /// **Errors** without soundings; by nearest part also with one outside the circle or two on one spot.
    ///
    /// **Source**: [GEOMETRY], cells of nearest points; five points worked by hand.
    ///
    /// ```
    /// # use calc::{base::{Base, Weighing}, plane::BasePoint};
    /// # use quantity::Length;
    /// # let point = |x, y| BasePoint { x: Length::inches(x), y: Length::inches(y), value: Length::ZERO };
    /// // The centre and four points at two thirds of the radius.
    /// let points =
    ///     [point(0.0, 0.0), point(16.0, 0.0), point(0.0, 16.0), point(-16.0, 0.0), point(0.0, -16.0)];
    /// let base = Base::new(&points, Weighing::NearestPart { radius: Length::inches(24.0) })?;
    /// assert_eq!(format!("{:.1} %", base.shares()[0].to_percent()), "14.1 %");
    /// # Ok::<(), calc::base::BaseError>(())
    /// ```
    pub fn new(points: &[BasePoint], weighing: Weighing) -> Result<Self, BaseError> {
        if points.is_empty() {
            return Err(BaseError::NoPoint);
        }
        let shares = match weighing {
            Weighing::EqualShares => vec![1.0 / points.len() as f64; points.len()],
            Weighing::NearestPart { radius } => nearest_shares(points, radius)?,
        };
        Ok(Base { points: points.to_vec(), shares })
    }

    /// The share of the area each sounding stands for, in the order given.
    ///
    /// **Source**: as [`Base::new`].
    pub fn shares(&self) -> Vec<Fraction> {
        self.shares.iter().map(|share| Fraction::part(*share)).collect()
    }

    /// The greatest reading, and which sounding holds it; the first if several do.
    ///
    /// **Source**: greatest of the readings.
    pub fn greatest(&self) -> (usize, Length) {
        let index = (0..self.points.len()).rev().max_by_key(|&index| self.points[index].value);
        let index = index.expect("a base has at least one sounding");
        (index, self.points[index].value)
    }

    /// The least reading, and which sounding holds it; the first if several do.
    ///
    /// **Source**: least of the readings.
    pub fn least(&self) -> (usize, Length) {
        let index = (0..self.points.len()).min_by_key(|&index| self.points[index].value);
        let index = index.expect("a base has at least one sounding");
        (index, self.points[index].value)
    }

    /// Mean reading, each sounding weighed by its share.
    ///
    /// `mean = Σ w z`
    ///
    /// **Source**: weighed mean, [GEOMETRY].
    pub fn mean(&self) -> Length {
        let weighed = self.points.iter().zip(&self.shares);
        Length::meters(weighed.map(|(point, share)| point.value.to_meters() * share).sum())
    }

    /// Share of the area whose reading is below a thickness; a reading equal to it does not count.
    ///
    /// **Source**: sum of the shares.
    ///
    /// ```
    /// use calc::base::{Base, Weighing};
    /// use calc::plane::BasePoint;
    /// use quantity::Length;
    /// let zero = Length::ZERO;
    /// let points = [0.25, 0.25, 0.5, 1.0].map(|inches| BasePoint {
    ///     x: zero,
    ///     y: zero,
    ///     value: Length::inches(inches),
    /// });
    /// let base = Base::new(&points, Weighing::EqualShares).unwrap();
    /// assert_eq!(base.share_below(Length::inches(0.5)).to_percent(), 50.0);
    /// ```
    pub fn share_below(&self, thickness: Length) -> Fraction {
        self.share_where(|value| value < thickness)
    }

    /// Share of the area whose reading is above a thickness; a reading equal to it does not count.
    ///
    /// **Source**: sum of the shares.
    pub fn share_above(&self, thickness: Length) -> Fraction {
        self.share_where(|value| thickness < value)
    }

    /// The two soundings with the greatest difference over their distance.
    ///
    /// **Valid for** soundings whose places are known.
    ///
    /// **Errors** with one sounding or with two on one spot.
    ///
    /// **Source**: definition of a slope.
    pub fn steepest_pair(&self) -> Result<SteepestPair, BaseError> {
        let mut steepest: Option<SteepestPair> = None;
        for other in 1..self.points.len() {
            for one in 0..other {
                let slope = Slope::part(self.slope_between(one, other)?);
                if steepest.is_none_or(|best| best.slope.to_part() < slope.to_part()) {
                    steepest = Some(SteepestPair { one, other, slope });
                }
            }
        }
        steepest.ok_or(BaseError::OnlyOne)
    }

    fn slope_between(&self, one: usize, other: usize) -> Result<f64, BaseError> {
        let (a, b) = (self.points[one], self.points[other]);
        let distance = libm::hypot((a.x - b.x).to_meters(), (a.y - b.y).to_meters());
        if distance == 0.0 {
            return Err(BaseError::SameSpot { one, other });
        }
        Ok((a.value - b.value).abs().to_meters() / distance)
    }

    fn share_where(&self, holds: impl Fn(Length) -> bool) -> Fraction {
        let counted = self.points.iter().zip(&self.shares).filter(|(point, _)| holds(point.value));
        Fraction::part(counted.map(|(_, share)| share).sum::<f64>().min(1.0))
    }
}

/// How the depth of a base has changed between two soundings of the same spots.
///
/// `loss = accepted − again`; `σspot = √2 σ`, `σmean = σspot / √n`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `σ` | `reading_error` | standard error of one sounding |
///
/// **Valid for** depths from one and the same reference; the errors are taken as independent, so a tape
/// that is off by the same amount both times does not show.
///
/// **Errors** when no spot was sounded twice.
///
/// **Source**: [GUM], 5.1.2.
///
/// ```
/// # use calc::base::{SoundedTwice, change};
/// # use quantity::Length;
/// # let spot = |accepted, again| SoundedTwice {
/// #     accepted: Length::feet(accepted),
/// #     again: Length::feet(again),
/// # };
/// let change = change(&[spot(47.0, 43.0), spot(47.0, 46.5)], Length::feet(0.1))?;
/// assert_eq!((change.greatest_loss.value, change.at), (Length::feet(4.0), 0));
/// # Ok::<(), calc::base::BaseError>(())
/// ```
pub fn change(spots: &[SoundedTwice], reading_error: Length) -> Result<BaseChange, BaseError> {
    let losses: Vec<Length> = spots.iter().map(|spot| spot.accepted - spot.again).collect();
    let at = (0..losses.len()).rev().max_by_key(|&index| losses[index]).ok_or(BaseError::NoPoint)?;
    let count = losses.len() as f64;
    let spot_error = std::f64::consts::SQRT_2 * reading_error.to_meters();
    let mean = losses.iter().map(|loss| loss.to_meters()).sum::<f64>() / count;
    Ok(BaseChange {
        greatest_loss: Estimate::new(losses[at], Length::meters(spot_error)),
        at,
        mean_loss: Estimate::new(Length::meters(mean), Length::meters(spot_error / count.sqrt())),
    })
}

#[cfg(test)]
mod tests;
