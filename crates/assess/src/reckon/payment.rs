//! Quantities for payment: lengths drilled, time lost, concrete.

use super::PourReckoning;
use crate::picture::{Load, Picture};
use calc::payment::{
    BesideTickets, ConcreteTotals, Drilled, DrilledTotal, LoadQuantity, LostTime, PaymentIssue,
    concrete_totals, drilled_lengths, obstruction_time,
};
use quantity::{Depth, Elevation, Moment, Span, Volume};
use record::choices::{Ground, Waste};
use record::kinds::{ConcreteOrdered, Obstruction, ToolRun};
use record::{EntryId, Line, Log};

/// Quantities for payment.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Payment {
    /// Lengths drilled by diameter and material: `soil`, `rock`, or `not said`.
    pub drilled: Vec<DrilledTotal>,
    /// Runs that overlap or leave a gap, as depths below the planned top.
    pub issues: Vec<PaymentIssue>,
    /// Time lost to obstructions; minutes that two of them share count once. `None`: no time was written.
    pub obstructions: Option<Span>,
    /// Concrete ordered, delivered, sent away, wasted, placed; `None` before any load, or where more was
    /// wasted than came.
    pub concrete: Option<ConcreteTotals>,
    /// Theoretical volume up to the last sounding.
    pub theoretical: Option<Volume>,
    /// The obstructions.
    pub obstruction_entries: Vec<EntryId>,
}

impl Payment {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>, pour: Option<&PourReckoning>) -> Self {
        let (drilled, issues) = drilled_lengths(&runs(log, picture)).unwrap_or_default();
        let lost: Vec<(LostTime, EntryId)> = log.each::<Obstruction>().filter_map(lost).collect();
        let times: Vec<LostTime> = lost.iter().map(|(time, _)| *time).collect();
        let theoretical = pour.and_then(|pour| pour.curve.intervals.last()?.cumulative.theoretical);
        Payment {
            drilled,
            issues,
            obstructions: if times.is_empty() { None } else { obstruction_time(&times).ok() },
            concrete: concrete(log, picture),
            theoretical: theoretical.map(|volume| volume.value),
            obstruction_entries: lost.into_iter().map(|(_, entry)| entry).collect(),
        }
    }
}

/// Runs as depths below the planned top. A run that says no diameter is of that of the plan.
fn runs(log: &Log<'_>, picture: &Picture<'_>) -> Vec<Drilled> {
    let Some(plan) = &picture.plan else { return Vec::new() };
    let run = |(line, run): (&Line<'_>, &ToolRun)| {
        let level = |depth: Depth| picture.references.elevation(depth, run.out.unwrap_or(line.at));
        let below = |level: Elevation| Depth::of_elevation(plan.top, level);
        Some(Drilled {
            top: below(level(run.from.as_ref()?.value())?),
            bottom: below(level(run.to.value())?),
            diameter: run.diameter.as_ref().map(|size| size.value()).or(plan.diameter)?,
            material: material(run.ground).to_owned(),
        })
    };
    // A tool that came up with nothing drilled nothing.
    log.each::<ToolRun>().filter_map(run).filter(|drilled| drilled.top <= drilled.bottom).collect()
}

fn material(ground: Option<Ground>) -> &'static str {
    match ground {
        Some(Ground::Rock | Ground::WeatheredRock) => "rock",
        Some(_) => "soil",
        None => "not said",
    }
}

fn lost((line, obstruction): (&Line<'_>, &Obstruction)) -> Option<(LostTime, EntryId)> {
    let span = obstruction.lost.as_ref().map(|span| line.at.plus_seconds(span.value().to_seconds() as i64));
    let until: Moment = span.or(obstruction.cleared)?;
    (line.at <= until).then_some((LostTime { from: line.at, until }, line.entry.id))
}

fn concrete(log: &Log<'_>, picture: &Picture<'_>) -> Option<ConcreteTotals> {
    let came = |load: &&Load<'_>| load.refused.is_some() || load.done.is_some();
    let loads: Vec<&Load<'_>> = picture.loads.iter().filter(came).collect();
    if loads.is_empty() {
        return None;
    }
    let ordered: f64 =
        log.each::<ConcreteOrdered>().map(|(_, order)| order.volume.value().to_cubic_meters()).sum();
    let mut rows: Vec<LoadQuantity> = loads.iter().map(|load| quantity(picture, load)).collect();
    let unnamed = wasted(picture, |ticket| ticket.is_none());
    let largest = rows.iter_mut().filter(|row| !row.rejected);
    let largest =
        largest.max_by(|a, b| a.delivered.to_cubic_meters().total_cmp(&b.delivered.to_cubic_meters()));
    if let Some(row) = largest {
        row.wasted = Volume::cubic_meters(row.wasted.to_cubic_meters() + unnamed);
    }
    let ordered = (ordered > 0.0).then(|| Volume::cubic_meters(ordered));
    let beside = BesideTickets { ordered, left_in_lines: Volume::cubic_meters(0.0) };
    concrete_totals(&rows, beside).ok()
}

fn quantity(picture: &Picture<'_>, load: &Load<'_>) -> LoadQuantity {
    let wasted = wasted(picture, |ticket| ticket == Some(load.ticket));
    LoadQuantity {
        delivered: load.volume,
        wasted: Volume::cubic_meters(wasted + load.returned.to_cubic_meters()),
        rejected: load.refused.is_some(),
    }
}

/// What was wasted under some tickets, in m³. What stayed in the truck is what it took back.
fn wasted(picture: &Picture<'_>, of: impl Fn(Option<&str>) -> bool) -> f64 {
    let rows = picture.wasted.iter().filter(|waste| waste.place != Waste::Truck);
    let rows = rows.filter(|waste| of(waste.ticket.as_deref().map(str::trim)));
    rows.map(|waste| waste.volume.to_cubic_meters()).sum()
}
