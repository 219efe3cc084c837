//! Cells that are made from the whole record: what belongs to a load, a lift or a move.

use super::Source;
use crate::entry::derived;
use crate::value::measured_text;
use assess::picture::{FreshTest, Load};
use assess::reckon::Lift;
use assess::{Finding, Subject};
use quantity::Volume;
use record::kinds::LoadArrived;
use record::{Body, Line};

/// The elevation of the one level an entry is about.
pub(super) fn elevation(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let level = derived(line, &source.assessment.picture)?;
    Some(source.show.bare(source.show.elevation(level)))
}

/// Embedment after a move, with its standard error.
pub(super) fn embedment(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let lines = source.assessment.reckoning.lines.iter();
    let (buried, _) = lines.flat_map(|one| &one.history).find(|(_, entry)| *entry == line.entry.id)?;
    let (value, error) = (buried.embedment.value, buried.embedment.standard_error);
    let bare = |length| source.show.bare(source.show.length(length));
    Some(format!("{} ± {}", bare(value), bare(error)))
}

fn load<'s>(source: &'s Source<'_, '_>, line: &Line<'_>) -> Option<&'s Load<'s>> {
    source.assessment.picture.loads.iter().find(|load| load.entries.first() == Some(&line.entry.id))
}

/// When discharge began.
pub(super) fn started(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    Some(source.show.stamp(load(source, line)?.started?))
}

/// When discharge ended.
pub(super) fn ended(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    Some(source.show.stamp(load(source, line)?.ended?))
}

/// Every value of the load's fresh tests, in the order made.
fn tests(
    source: &Source<'_, '_>,
    line: &Line<'_>,
    told: impl Fn(&FreshTest) -> Option<String>,
) -> Option<String> {
    let values: Vec<String> = load(source, line)?.tests.iter().filter_map(told).collect();
    (!values.is_empty()).then(|| values.join(", "))
}

/// Slumps.
pub(super) fn slump(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    tests(source, line, |test| Some(source.show.small(test.slump.or(test.flow)?)))
}

/// Air contents.
pub(super) fn air(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    tests(source, line, |test| Some(source.show.percent(test.air?)))
}

/// Concrete temperatures.
pub(super) fn temperature(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    tests(source, line, |test| Some(source.show.temperature(test.temperature?)))
}

/// Water added on site, as typed.
pub(super) fn water(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let Body::LoadArrived(LoadArrived { ticket, .. }) = line.body else { return None };
    let added = source.log.each::<record::kinds::WaterAdded>().filter(|(_, water)| water.ticket == *ticket);
    let added: Vec<String> = added.map(|(_, water)| water.volume.shown()).collect();
    (!added.is_empty()).then(|| added.join(" + "))
}

/// The water-cement ratio the assessment found.
pub(super) fn water_cement(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let Body::LoadArrived(LoadArrived { ticket, .. }) = line.body else { return None };
    let of_load = |finding: &&Finding| {
        finding.fact.name == "concrete.water_cement" && finding.subject == Subject::Load(ticket.clone())
    };
    let finding = source.assessment.findings.iter().find(of_load)?;
    Some(measured_text(finding.value?, finding.fact, None, source.show))
}

/// Used, refused, or waiting.
pub(super) fn state(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let load = load(source, line)?;
    let text = match (&load.refused, load.ended, load.started) {
        (Some((_, reason)), ..) => format!("refused: {reason}"),
        (None, Some(_), _) => "placed".to_owned(),
        (None, None, Some(_)) => "discharging".to_owned(),
        (None, None, None) => "waiting".to_owned(),
    };
    Some(text)
}

fn lift<'s>(source: &'s Source<'_, '_>, line: &Line<'_>) -> Option<&'s Lift> {
    source.assessment.reckoning.lifts.iter().find(|lift| lift.entries.first() == Some(&line.entry.id))
}

/// Where the concrete was expected after a lift.
pub(super) fn expected(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let expected = lift(source, line)?.expected.as_ref()?.as_ref().ok()?;
    Some(source.show.bare(source.show.elevation(expected.level.value)))
}

/// Where it was measured.
pub(super) fn measured(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let (level, _) = lift(source, line)?.measured?;
    Some(source.show.bare(source.show.elevation(level)))
}

/// Concrete over the shoe.
pub(super) fn head(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let (_, head) = lift(source, line)?.measured?;
    Some(source.show.bare(source.show.length(head?)))
}

/// Concrete that went where the drawing shows no room.
pub(super) fn unexplained(source: &Source<'_, '_>, line: &Line<'_>) -> Option<String> {
    let volume = lift(source, line)?.unexplained?;
    let value: Volume = volume.value;
    let error = source.show.bare(source.show.volume(volume.standard_error));
    Some(format!("{} ± {error}", source.show.bare(source.show.volume(value))))
}
