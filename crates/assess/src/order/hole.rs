//! What the hole takes still, as a distribution.
//!
//! Never: leave out the room that temporary casing leaves when it comes out.

use super::NoOrder;
use crate::layers::{layers, volumes, within};
use crate::reckon::Hole;
use crate::shape::{Asked, fitted};
use calc::geometry::Bore;
use calc::mixture::Mixture;
use calc::order::{Ahead, EarlierRatio, OrderError, USUAL_BELIEFS, from_earlier};
use calc::profile::Prior;
use quantity::{Elevation, Volume};

/// What an order was reckoned from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RestsOn {
    /// This shaft's own readings.
    ThisShaft {
        /// Soundings of its concrete.
        soundings: usize,
        /// Earlier shafts that said what such shafts are like.
        earlier: usize,
    },
    /// Earlier shafts of the job, before this one was sounded.
    Earlier {
        /// How many.
        shafts: usize,
        /// Layers of this shaft that one of them met at least.
        known: usize,
        /// Layers of this shaft.
        layers: usize,
    },
    /// The drawing, and what is usual: no shaft of the job was poured before.
    Usual,
}

/// What the hole takes, in cubic metres.
pub(super) struct Takes {
    pub(super) volume: Mixture,
    pub(super) from: RestsOn,
    pub(super) casing: Volume,
}

/// What the hole takes up to a level.
pub(super) fn takes(asked: Asked<'_, '_>, wanted: Elevation) -> Result<Takes, NoOrder> {
    let hole = asked.reckoning.hole.as_ref().ok_or(NoOrder::NoPlan)?;
    match asked.picture.concrete.last() {
        Some(level) => {
            let full = level.surface.mean.value >= wanted;
            let stands = asked.picture.casings.iter().any(crate::picture::CasingHistory::is_to_come_out);
            if full && !stands {
                return Err(NoOrder::Full);
            }
            // High concrete in a casing is there to fill the room it leaves.
            let takes = sounded(asked, hole, wanted)?;
            if full && takes.volume.mean() <= 0.0 { Err(NoOrder::Full) } else { Ok(takes) }
        }
        None => not_sounded(asked, hole, wanted).map_err(NoOrder::NoOrder),
    }
}

/// From this shaft's own readings, with the room behind the casing that still stands.
fn sounded(asked: Asked<'_, '_>, hole: &Hole, wanted: Elevation) -> Result<Takes, NoOrder> {
    let own = fitted(asked)?.profile.remaining(wanted).map_err(NoOrder::Unreckonable)?;
    let at = asked.picture.concrete.last().map_or(asked.picture.now, |level| level.at);
    let casing = room_of_casing(hole, at, wanted);
    let volume = with_room(&own, casing, &asked.earlier.prior()).map_err(NoOrder::NoOrder)?;
    let soundings = asked.reckoning.pour.as_ref().map_or(0, |pour| pour.soundings.len());
    let from = RestsOn::ThisShaft { soundings, earlier: asked.earlier.shafts().len() };
    Ok(Takes { volume, from, casing })
}

/// Room that the standing temporary casing keeps, up to a level.
fn room_of_casing(hole: &Hole, at: quantity::Moment, wanted: Elevation) -> Volume {
    let below = |bore: &Bore| bore.volume_below(wanted).map_or(0.0, Volume::to_cubic_meters);
    Volume::cubic_meters((below(&hole.drawn(at)) - below(&hole.at(at))).max(0.0))
}

/// The ground behind a casing takes as much as such ground does; nobody has seen it yet.
fn with_room(own: &Mixture, casing: Volume, prior: &Prior) -> Result<Mixture, OrderError> {
    let room = casing.to_cubic_meters();
    let spread =
        (prior.shaft_spread * prior.shaft_spread + prior.stratum_spread * prior.stratum_spread).sqrt();
    let with = || own.shifted(room * prior.ratio)?.widened(room * spread);
    with().map_err(OrderError::Mixture)
}

/// From the drawing and the earlier shafts, layer by layer.
fn not_sounded(asked: Asked<'_, '_>, hole: &Hole, wanted: Elevation) -> Result<Takes, OrderError> {
    let bore = hole.drawn(asked.picture.now);
    let layers = layers(asked.log, asked.picture);
    let top = wanted.min(bore.top());
    let (mut ahead, mut cased) = (Vec::new(), 0.0);
    for (stratum, [upper, lower]) in within(&layers, top, bore.bottom()) {
        let [free, casing] = volumes(&bore, upper, lower);
        ahead.push(Ahead { stratum, theoretical: Volume::cubic_meters(free) });
        cased += casing;
    }
    let ratios = asked.earlier.ratios(&layers);
    let volume =
        from_earlier(&ratios, &ahead, &USUAL_BELIEFS)?.shifted(cased).map_err(OrderError::Mixture)?;
    let from = rests_on(asked.earlier.shafts().len(), &ratios, ahead.len());
    Ok(Takes { volume, from, casing: Volume::cubic_meters(0.0) })
}

fn rests_on(shafts: usize, ratios: &[EarlierRatio], layers: usize) -> RestsOn {
    let known = (0..layers).filter(|layer| ratios.iter().any(|ratio| ratio.stratum == *layer)).count();
    match known {
        0 => RestsOn::Usual,
        known => RestsOn::Earlier { shafts, known, layers },
    }
}
