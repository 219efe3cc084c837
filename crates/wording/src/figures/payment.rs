//! Quantities a shaft is paid by.
//!
//! Never: know a price, or which of them a contract pays.

use super::Figure;
use crate::label;
use crate::phrase::and;
use crate::show::Show;
use assess::Assessment;
use calc::payment::{
    BesideTickets, Drilled, LoadQuantity, LostTime, PaymentIssue, concrete_totals, drilled_lengths,
    obstruction_time,
};
use quantity::{Depth, Span, Volume};
use record::Log;
use record::kinds::{ConcreteOrdered, ConcreteWasted, Obstruction, ToolRun};

pub(super) fn figures(assessment: &Assessment<'_>, log: &Log<'_>, show: &Show) -> Vec<Figure> {
    let mut all = lengths(assessment, log, show);
    all.extend(lost_time(log, show));
    all.extend(concrete(assessment, log, show));
    all
}

/// Lengths drilled, by diameter and material.
fn lengths(assessment: &Assessment<'_>, log: &Log<'_>, show: &Show) -> Vec<Figure> {
    let runs: Vec<Drilled> = log.each::<ToolRun>().filter_map(|(_, run)| drilled(run, assessment)).collect();
    let Ok((totals, issues)) = drilled_lengths(&runs) else { return Vec::new() };
    let doubt = doubt(&issues, show);
    let figure = |total: calc::payment::DrilledTotal| Figure {
        id: "payment.drilled".to_owned(),
        label: format!("Drilled, {} in {}", show.small(total.diameter), total.material),
        value: show.length(total.length),
        how: format!("Sum of the tool runs in this ground, at the planned diameter.{doubt}"),
    };
    totals.into_iter().map(figure).collect()
}

fn drilled(run: &ToolRun, assessment: &Assessment<'_>) -> Option<Drilled> {
    let planned = assessment.picture.plan.as_ref().and_then(|plan| plan.diameter);
    let material = run.ground.map(|ground| label::choice(ground.word())).or_else(|| run.material.clone());
    Some(Drilled {
        top: run.from.as_ref()?.value(),
        bottom: run.to.value(),
        diameter: planned.or_else(|| run.diameter.as_ref().map(|size| size.value()))?,
        material: material.unwrap_or_else(|| "ground not described".to_owned()),
    })
}

fn doubt(issues: &[PaymentIssue], show: &Show) -> String {
    let reach = |top: &Depth, bottom: &Depth| format!("{} to {}", show.depth(*top), show.depth(*bottom));
    let texts: Vec<String> = issues
        .iter()
        .map(|issue| match issue {
            PaymentIssue::Overlap { top, bottom } => format!("{} counts twice", reach(top, bottom)),
            PaymentIssue::Gap { top, bottom } => format!("{} is not written down", reach(top, bottom)),
        })
        .collect();
    if texts.is_empty() { String::new() } else { format!(" Look again: {}.", and(&texts)) }
}

/// Time lost to obstructions, from when each was met until it was cleared.
fn lost_time(log: &Log<'_>, show: &Show) -> Vec<Figure> {
    let clock = log
        .each::<Obstruction>()
        .filter_map(|(line, one)| Some(LostTime { from: line.at, until: one.cleared? }));
    let clock: Vec<LostTime> = clock.collect();
    let mut all = Vec::new();
    if let Some(lost) = obstruction_time(&clock).ok().filter(|_| !clock.is_empty()) {
        let how = "From when each was met until it was cleared; minutes that two share count once.";
        all.push(Figure::new("payment.obstruction", "Time lost to obstructions", show.span(lost), how));
    }
    let written: Vec<Span> =
        log.each::<Obstruction>().filter_map(|(_, one)| one.lost.as_ref().map(|lost| lost.value())).collect();
    if !written.is_empty() {
        let total = Span::minutes(written.iter().map(|span| span.to_minutes()).sum());
        let how = "Sum of the times lost as they were written beside the obstructions.";
        all.push(Figure::new("payment.obstruction.written", "Time lost, as written", show.span(total), how));
    }
    all
}

/// Concrete ordered, delivered, rejected, wasted, placed.
fn concrete(assessment: &Assessment<'_>, log: &Log<'_>, show: &Show) -> Vec<Figure> {
    let counted = assessment.picture.loads.iter().filter(|load| load.used() || load.refused.is_some());
    let loads: Vec<LoadQuantity> = counted.map(|load| quantity_of(load, log)).collect();
    if loads.is_empty() {
        return Vec::new();
    }
    let ordered: Vec<f64> =
        log.each::<ConcreteOrdered>().map(|(_, one)| one.volume.value().to_cubic_meters()).collect();
    let ordered = (!ordered.is_empty()).then(|| Volume::cubic_meters(ordered.iter().sum()));
    let beside = BesideTickets { ordered, left_in_lines: Volume::cubic_meters(0.0) };
    let Ok(totals) = concrete_totals(&loads, beside) else { return Vec::new() };
    let mut rows = vec![
        (
            "payment.delivered",
            "Concrete delivered",
            totals.delivered,
            "On the tickets, rejected loads too; loads still waiting are not counted.",
        ),
        ("payment.rejected", "Concrete rejected", totals.rejected, "Loads that were refused as a whole."),
        (
            "payment.wasted",
            "Concrete wasted or sent back",
            totals.wasted,
            "Sent back with the truck, and waste entered under a ticket.",
        ),
        (
            "payment.placed",
            "Concrete placed, by tickets",
            totals.placed,
            "Delivered less rejected and wasted.",
        ),
    ];
    if let Some(ordered) = totals.ordered {
        rows.insert(0, ("payment.ordered", "Concrete ordered", ordered, "As the orders were entered."));
    }
    rows.into_iter()
        .map(|(id, label, volume, how)| Figure::new(id, label, show.volume(volume), how))
        .collect()
}

fn quantity_of(load: &assess::picture::Load<'_>, log: &Log<'_>) -> LoadQuantity {
    let of_ticket = |waste: &ConcreteWasted| waste.ticket.as_deref() == Some(load.ticket);
    let wasted: f64 = log
        .each::<ConcreteWasted>()
        .filter(|(_, waste)| of_ticket(waste))
        .map(|(_, waste)| waste.volume.value().to_cubic_meters())
        .sum();
    LoadQuantity {
        delivered: load.volume,
        wasted: Volume::cubic_meters(wasted + load.returned.to_cubic_meters()),
        rejected: load.refused.is_some(),
    }
}
