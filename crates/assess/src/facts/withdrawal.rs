//! Facts of the casing pulled out of wet concrete: head after each lift, drop against what was expected.

use super::Sources;
use crate::measure::{Measurement, Subject};
use crate::reckon::Lift;
use criteria::{Dimension, Dimensions, Measured};
use quantity::{Elevation, Length, Moment};
use record::choices::CasingStay;

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((begun, _)) = sources.concrete_started() else { return Vec::new() };
    // A casing that was moved before any concrete left no head behind.
    let lifts = sources.reckoning.lifts.iter().filter(|lift| lift.at >= begun).enumerate();
    let mut all: Vec<Measurement> =
        lifts.flat_map(|(index, lift)| one_lift(sources, index + 1, lift)).collect();
    all.extend(removed(sources));
    all.extend(steadily(sources, begun));
    all
}

/// Every temporary casing is out, or somebody approved that it stays.
fn removed(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let temporary: Vec<_> =
        sources.picture.casings.iter().filter(|casing| casing.stay == CasingStay::Temporary).collect();
    if temporary.is_empty() || sources.pour_finished().is_none() {
        return None;
    }
    let gone = temporary.iter().all(|casing| casing.out.is_some() || casing.left_approved);
    let said =
        temporary.iter().flat_map(|casing| [casing.out, casing.left]).flatten().map(|(_, entry)| entry);
    let evidence = temporary.iter().map(|casing| casing.entry).chain(said).collect();
    Some(Measurement::shaft("casing.temporary_removed", gone, evidence))
}

/// Said of every lift; a lift of which nobody said so leaves it open.
fn steadily(sources: &Sources<'_, '_>, begun: Moment) -> Option<Measurement> {
    let lifts: Vec<&Lift> = sources.reckoning.lifts.iter().filter(|lift| lift.at >= begun).collect();
    if lifts.is_empty() {
        return None;
    }
    let jerked = lifts.iter().find(|lift| lift.steadily == Some(false));
    if let Some(lift) = jerked {
        return Some(Measurement::shaft("casing.pulled_steadily", false, vec![lift.entries[0]]).at(lift.at));
    }
    Some(match lifts.iter().all(|lift| lift.steadily == Some(true)) {
        true => {
            let evidence = lifts.iter().map(|lift| lift.entries[0]).collect();
            Measurement::shaft("casing.pulled_steadily", true, evidence)
        }
        false => Measurement::missing("casing.pulled_steadily"),
    })
}

fn one_lift(sources: &Sources<'_, '_>, number: usize, lift: &Lift) -> Vec<Measurement> {
    let subject = Subject::Lift(number);
    let expected = lift.expected.as_ref().and_then(|expected| expected.as_ref().ok());
    let measured_head = lift.measured.and_then(|(_, head)| head);
    let head =
        measured_head.or(expected.filter(|_| lift.shoe_after.is_some()).map(|lifted| lifted.head.value));
    let one = |fact, value: Measured| {
        Measurement::of(fact, subject.clone(), Some(value), lift.entries.clone()).at(lift.at)
    };
    let mut all = Vec::new();
    if let Some((head, shoe)) = head.zip(lift.shoe_after) {
        let balancing = balancing_head(sources, shoe, lift.at);
        all.push(one("casing.head_over_shoe", head.into()).with(balancing));
    } else if lift.shoe_after.is_some() {
        all.push(
            Measurement::of("casing.head_over_shoe", subject.clone(), None, lift.entries.clone()).at(lift.at),
        );
    }
    if let (Some(expected), Some((level, _)), Some(_)) = (expected, lift.measured, lift.level_before) {
        all.push(one("casing.drop_beyond_expected", expected.level.value.above(level).into()));
    }
    all.extend(lift.cage_rise.map(|rise| one("cage.movement", rise.into())));
    all
}

/// Concrete whose weight balances the groundwater outside, over a shoe.
pub(crate) fn balancing_head(sources: &Sources<'_, '_>, shoe: Elevation, at: Moment) -> Dimensions {
    let none = Dimensions::new();
    let Some((water, _)) = super::fluid::groundwater(sources, at, None) else { return none };
    let over: Length = water.above(shoe).max(Length::ZERO);
    let concrete = crate::reckon::pour::concrete_density(sources.picture);
    match calc::casing::least_head(crate::assumed::water_density(), over, concrete) {
        Ok(head) => none.with(Dimension::BalancingHead, head),
        Err(_) => none,
    }
}
