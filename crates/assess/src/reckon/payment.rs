//! Quantities for payment: lengths drilled, time lost, concrete.

use super::PourReckoning;
use crate::picture::{Load, Picture};
use calc::payment::{
    BesideTickets, ConcreteTotals, Drilled, DrilledTotal, LoadQuantity, LostTime, PaymentIssue,
    concrete_totals, drilled_lengths, obstruction_time,
};
use quantity::{Depth, Length, Moment, Span, Volume};
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
    /// Runs that say no depth they began at, each counted from where the deepest run of its diameter before it
    /// ended: upper and lower end, as depths below the planned top.
    pub begun: Vec<(Depth, Depth)>,
    /// Runs that say no depth they began at and have none before them: they are not counted. The depths they
    /// reached.
    pub uncounted: Vec<Depth>,
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
        let runs = Runs::of(log, picture);
        let (drilled, issues) = drilled_lengths(&runs.drilled).unwrap_or_default();
        let lost: Vec<(LostTime, EntryId)> = log.each::<Obstruction>().filter_map(lost).collect();
        let times: Vec<LostTime> = lost.iter().map(|(time, _)| *time).collect();
        let theoretical = pour.and_then(|pour| pour.curve.intervals.last()?.cumulative.theoretical);
        Payment {
            drilled,
            issues,
            begun: runs.begun,
            uncounted: runs.uncounted,
            obstructions: if times.is_empty() { None } else { obstruction_time(&times).ok() },
            concrete: concrete(log, picture),
            theoretical: theoretical.map(|volume| volume.value),
            obstruction_entries: lost.into_iter().map(|(_, entry)| entry).collect(),
        }
    }
}

/// Runs as depths below the planned top.
#[derive(Default)]
struct Runs {
    drilled: Vec<Drilled>,
    begun: Vec<(Depth, Depth)>,
    uncounted: Vec<Depth>,
    /// The depths reached so far, with the diameter of the tool.
    reached: Vec<(Length, Depth)>,
}

impl Runs {
    fn of(log: &Log<'_>, picture: &Picture<'_>) -> Self {
        let mut runs = Runs::default();
        let Some(plan) = &picture.plan else { return runs };
        for (line, run) in log.each::<ToolRun>() {
            let level = |depth: Depth| picture.references.elevation(depth, run.out.unwrap_or(line.at));
            let below = |depth: Depth| Some(Depth::of_elevation(plan.top, level(depth)?));
            // A run that says no diameter is of that of the plan.
            let diameter = run.diameter.as_ref().map(|size| size.value()).or(plan.diameter);
            let (Some(bottom), Some(diameter)) = (below(run.to.value()), diameter) else { continue };
            let top = run.from.as_ref().map(|from| below(from.value()));
            runs.take((top, bottom), diameter, material(run.ground));
            runs.reached.push((diameter, bottom));
        }
        runs
    }

    /// `top` is `None` where nobody wrote where the run began.
    fn take(&mut self, (top, bottom): (Option<Option<Depth>>, Depth), diameter: Length, material: &str) {
        let before = self.reached.iter().filter(|run| run.0 == diameter).map(|run| run.1).max();
        let (top, written) = match top {
            Some(Some(top)) => (top, true),
            Some(None) => return,
            None => match before {
                Some(before) => (before, false),
                None => return self.uncounted.push(bottom),
            },
        };
        // A tool that came up with nothing drilled nothing.
        if bottom < top {
            return;
        }
        if !written {
            self.begun.push((top, bottom));
        }
        self.drilled.push(Drilled { top, bottom, diameter, material: material.to_owned() });
    }
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
