//! The hole: its nominal bore, drilled to the bottom that was sounded, with casings standing or pulled.

use crate::picture::{CasingHistory, Picture};
use calc::estimate::{Estimate, Level};
use calc::geometry::{Bore, Casing, Piece, Steel};
use quantity::{Elevation, Length, Moment, Volume};
use record::EntryId;
use record::choices::CasingStay;

/// The hole.
#[derive(Debug, Clone, PartialEq)]
pub struct Hole {
    /// As planned, top to tip.
    pub planned: Bore,
    /// Nominal diameters, from the working level down to the bottom as it was found.
    pub drilled: Bore,
    /// The bottom.
    pub base: Level,
    /// What the bottom was taken from.
    pub base_from: Vec<EntryId>,
    casings: Vec<CasingHistory>,
}

impl Hole {
    /// `steel` takes room in the theoretical volumes; empty where the plan does not ask for that.
    pub(super) fn of(picture: &Picture<'_>, steel: Vec<Steel>) -> Option<Self> {
        let plan = picture.plan.as_ref()?;
        let planned = plan.bore.clone().ok()?;
        let (base, base_from) = base(picture)?;
        let tops = picture.casings.iter().filter_map(|casing| casing.top);
        let sounded = picture.concrete.iter().map(|level| level.surface.highest.value);
        let known = [Some(plan.top), plan.ground, picture.references.highest()];
        let top = known.into_iter().flatten().chain(tops).chain(sounded).max()?;
        let drilled =
            Bore::new(stretched(planned.pieces(), top, base.value)?).ok()?.with_steel(steel).ok()?;
        Some(Hole { planned, drilled, base, base_from, casings: picture.casings.clone() })
    }

    /// The hole with its casings as they stood at a moment.
    ///
    /// A casing without a written diameter, top or shoe changes nothing.
    pub fn at(&self, at: Moment) -> Bore {
        let widened = self.widened(|_| true);
        widened.with_standing(&self.standing(at, |_| true)).unwrap_or(widened)
    }

    /// The hole once every temporary casing is out: what the concrete has to fill in the end.
    pub fn drawn(&self, at: Moment) -> Bore {
        let widened = self.widened(|_| true);
        let stays = |casing: &CasingHistory| casing.stay != CasingStay::Temporary || casing.left.is_some();
        widened.with_standing(&self.standing(at, stays)).unwrap_or(widened)
    }

    /// The hole around one casing, as the withdrawal formulas want it: widened by the others that were in
    /// it, and those of them that stand.
    pub(crate) fn around(&self, name: &str, at: Moment) -> (Bore, Vec<Casing>) {
        let other = |casing: &CasingHistory| casing.name != name;
        (self.widened(other), self.standing(at, other))
    }

    /// The drilled hole, at least as wide as every temporary casing that was in it.
    fn widened(&self, wanted: impl Fn(&CasingHistory) -> bool) -> Bore {
        let temporary =
            self.casings.iter().filter(|casing| casing.stay == CasingStay::Temporary && wanted(casing));
        let pulled: Vec<Casing> =
            temporary.filter_map(|casing| standing(casing, casing.deepest()?, casing.top?)).collect();
        self.drilled.with_pulled(&pulled).unwrap_or_else(|_| self.drilled.clone())
    }

    /// The casings that stand at a moment.
    fn standing(&self, at: Moment, wanted: impl Fn(&CasingHistory) -> bool) -> Vec<Casing> {
        let stands = |casing: &CasingHistory| standing(casing, casing.shoe(at)?, casing.top_at(at)?);
        self.casings.iter().filter(|casing| wanted(casing)).filter_map(stands).collect()
    }

    /// Theoretical volume from the bottom to a level, with casings as they stood at a moment.
    pub fn theoretical(&self, level: Elevation, at: Moment) -> Option<Volume> {
        self.at(at).volume_below(level).ok()
    }
}

/// A casing as the formulas want it.
pub(super) fn standing(casing: &CasingHistory, shoe: Elevation, top: Elevation) -> Option<Casing> {
    Some(Casing { inside_diameter: casing.inside?, outside_diameter: casing.outside?, top, shoe })
}

/// The bottom and where it was read: the last sounding before concrete, the end of drilling, the planned tip.
fn base(picture: &Picture<'_>) -> Option<(Level, Vec<EntryId>)> {
    let started = picture.concrete_started();
    let mut soundings = picture.bottom.soundings.iter();
    let last = soundings.rfind(|sounding| started.is_none_or(|started| sounding.at <= started));
    if let Some(sounding) = last {
        return Some((sounding.surface.mean, vec![sounding.entry]));
    }
    let error = crate::assumed::tape_error();
    if let Some((_, reached, entry)) = picture.bottom.reached {
        return Some((Estimate::new(reached, error), vec![entry]));
    }
    let plan = picture.plan.as_ref()?;
    Some((Level::known(plan.tip), vec![plan.entry]))
}

/// The pieces with their upper end at `top` and their lower end at `base`.
fn stretched(pieces: &[Piece], top: Elevation, base: Elevation) -> Option<Vec<Piece>> {
    let mut kept: Vec<Piece> = pieces.iter().copied().filter(|piece| piece.top > base).collect();
    if let Some(last) = kept.last_mut() {
        last.lower_diameter = if last.bottom < base { cut_diameter(last, base) } else { last.lower_diameter };
        last.bottom = base;
    }
    let first = kept.first_mut()?;
    first.top = first.top.max(top);
    Some(kept)
}

/// Diameter of a piece at a level inside it.
fn cut_diameter(piece: &Piece, level: Elevation) -> Length {
    Bore::new(vec![*piece]).and_then(|bore| bore.diameter_at(level)).unwrap_or(piece.lower_diameter)
}
