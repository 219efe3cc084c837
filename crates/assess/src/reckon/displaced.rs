//! Room that the cage and its tubes take up in the concrete, where the plan asks for it.
//!
//! Left out by default: leaving steel in place errs to the side of ordering enough, and most logs do so.
//!
//! Never: count steel of an unknown size as nothing; then no steel is deducted at all.

use super::CageReckoning;
use crate::picture::Picture;
use calc::geometry::{Steel, circle_area};
use quantity::{Area, Elevation, Length};

/// Steel standing in the hole; empty where the plan does not ask for it or a size is not known.
///
/// Tubes are filled with water and capped: they take up their whole inside; their wall, whose thickness the
/// record does not know, is left out.
pub fn steel(picture: &Picture<'_>, cage: Option<&CageReckoning>) -> Vec<Steel> {
    let all = || -> Option<Vec<Steel>> {
        let plan = picture.plan.as_ref().filter(|plan| plan.shaft.deduct_steel == Some(true))?;
        let cage = cage?;
        let (_, planned) = plan.cage?;
        let top = planned.top.as_ref().map_or(plan.top, |top| top.value());
        let stand_off = planned.stand_off.as_ref().map_or(Length::ZERO, |size| size.value());
        let foot = cage.length.map_or(Elevation(plan.tip.0 + stand_off), |length| Elevation(top.0 - length));
        let area = cage.steel.as_ref()?.section().ok()?;
        let bars = Steel { area, top, bottom: foot };
        let tubes = planned.tubes.as_ref().and_then(|tubes| {
            let inside = circle_area(tubes.inside.as_ref()?.value()).to_square_meters();
            let area = Area::square_meters(inside * f64::from(tubes.count));
            Some(Steel { area, top, bottom: foot })
        });
        Some([bars].into_iter().chain(tubes).collect())
    };
    all().unwrap_or_default()
}
