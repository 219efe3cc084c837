//! Sediment over the base: the worst point, the mean, and how much of the area lies above a thickness.

use crate::picture::Picture;
use calc::base::{Base, Weighing};
use calc::plane::BasePoint;
use quantity::{InOrder, Length, Moment};
use record::EntryId;
use record::choices::Place;

/// Sediment as last measured before concrete.
#[derive(Debug, Clone, PartialEq)]
pub struct BaseReckoning {
    /// When.
    pub at: Moment,
    /// The entry.
    pub entry: EntryId,
    /// The points, each standing for an equal share of the area: ask it for any share above a thickness.
    pub base: Base,
    /// Thickness at the worst point.
    pub worst: Length,
    /// Mean thickness.
    pub mean: Length,
    /// The least thickness that half of the area does not exceed.
    pub half_area: Length,
}

impl BaseReckoning {
    pub(super) fn of(picture: &Picture<'_>) -> Option<Self> {
        let until = picture.concrete_started();
        let mut read =
            picture.bottom.sediment.iter().filter(|(at, ..)| until.is_none_or(|until| *at <= until));
        let (at, entry, points) = read.next_back()?;
        let placed: Vec<BasePoint> = points.iter().map(|(place, height)| point(*place, *height)).collect();
        let base = Base::new(&placed, Weighing::EqualShares).ok()?;
        let mut sorted: Vec<Length> = points.iter().map(|(_, thickness)| *thickness).collect();
        sorted.put_in_order();
        let half_area = *sorted.get((sorted.len() - 1) / 2)?;
        let (worst, mean) = (base.greatest().1, base.mean());
        Some(BaseReckoning { at: *at, entry: *entry, base, worst, mean, half_area })
    }
}

/// A point of the base. Where it lies does not matter when every point stands for an equal share.
fn point(place: Option<Place>, value: Length) -> BasePoint {
    let (east, north) = match place {
        Some(Place::North) => (0.0, 1.0),
        Some(Place::East) => (1.0, 0.0),
        Some(Place::South) => (0.0, -1.0),
        Some(Place::West) => (-1.0, 0.0),
        _ => (0.0, 0.0),
    };
    BasePoint { x: Length::meters(east), y: Length::meters(north), value }
}
