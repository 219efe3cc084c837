//! What is known of the ground and of such shafts before the readings, and the estimate made of both.
//!
//! Never: let an earlier shaft change a reading of this one.

use super::{Asked, NoShape};
use crate::layers::layers;
use crate::reckon::pour::Readings;
use calc::profile::{Ground, Issue, Profile, Stratum, profile};

/// The estimate of a shaft, with the ground it was made with and what is doubtful about its readings.
pub(crate) struct Fitted {
    pub(crate) profile: Profile,
    pub(crate) ground: Ground,
    pub(crate) issues: Vec<Issue>,
}

/// The estimate from what was read of this shaft and of the earlier ones.
pub(crate) fn fitted(asked: Asked<'_, '_>) -> Result<Fitted, NoShape> {
    let pour = asked.reckoning.pour.as_ref().ok_or(NoShape::NothingSounded)?;
    let ground = ground(asked, &pour.readings);
    let (profile, issues) =
        profile(&pour.readings.pour(), &ground, &asked.earlier.prior()).map_err(NoShape::Unreckonable)?;
    Ok(Fitted { profile, ground, issues })
}

/// The layers with what earlier shafts took in them, and the shoes of casings that were pulled.
fn ground(asked: Asked<'_, '_>, readings: &Readings) -> Ground {
    let strata = layers(asked.log, asked.picture).into_iter();
    let strata =
        strata.map(|layer| Stratum { top: layer.top, earlier: asked.earlier.expected(&layer) }).collect();
    let jumps = asked.picture.casings.iter().filter_map(|casing| casing.deepest());
    Ground { strata, jumps: jumps.collect(), part_loads: readings.part_loads(), judged: readings.judged() }
}
