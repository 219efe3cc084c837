//! The summary of a job: one line a shaft.

use crate::{Source, closing, findings, heading};
use quantity::{Moment, Volume};
use record::Record;
use report::{Counts, Heading, Paper, ShaftLine, Signature, Standing, SummaryInput, Verdict};
use std::collections::BTreeSet;

/// Everything the summary of a job prints, from the sources of its shafts.
///
/// `None` when the record has no shaft.
pub fn job(record: &Record, shafts: &[Source<'_, '_>], made: Moment, paper: Paper) -> Option<SummaryInput> {
    let first = shafts.first()?;
    let all = shafts.iter().map(|source| findings::counts(&source.assessment.findings));
    let counts = all.fold(Counts::default(), |a, b| Counts {
        fails: a.fails + b.fails,
        needs_attention: a.needs_attention + b.needs_attention,
        not_measured: a.not_measured + b.not_measured,
        meets: a.meets + b.meets,
        no_limit: a.no_limit + b.no_limit,
    });
    let heading = heading::heading(first);
    Some(SummaryInput {
        paper,
        made,
        heading: Heading {
            shaft: "all shafts".to_owned(),
            structure: format!("{} shafts", shafts.len()),
            dates: dates(shafts),
            inspector: inspectors(shafts),
            ..heading
        },
        verdict: Verdict { standing: findings::worst(counts), sentence: sentence(shafts), counts },
        leading: shafts.iter().filter_map(leading).collect(),
        shafts: shafts.iter().map(line).collect(),
        totals: totals(shafts),
        plan: None,
        signatures: vec![Signature { role: "Engineer".to_owned(), name: String::new(), sealed: None }],
        digest: closing::digest(record),
    })
}

fn sentence(shafts: &[Source<'_, '_>]) -> String {
    let failing = shafts
        .iter()
        .filter(|source| source.assessment.findings.iter().any(assess::Finding::is_open))
        .count();
    match failing {
        0 => format!("{}; no finding that fails waits for a decision.", counted(shafts.len())),
        failing => {
            format!(
                "{}; {failing} with failing findings that nobody has decided about.",
                counted(shafts.len())
            )
        }
    }
}

/// First and last day of concrete of all shafts.
fn dates(shafts: &[Source<'_, '_>]) -> String {
    let days =
        shafts.iter().filter_map(|source| source.assessment.picture.concrete_started()).map(Moment::date);
    let days: BTreeSet<String> = days.collect();
    match (days.first(), days.last()) {
        (Some(first), Some(last)) if first == last => format!("concrete {first}"),
        (Some(first), Some(last)) => format!("concrete {first} to {last}"),
        _ => String::new(),
    }
}

fn inspectors(shafts: &[Source<'_, '_>]) -> String {
    let each = shafts.iter().map(|source| heading::heading(source).inspector);
    let names: BTreeSet<String> =
        each.flat_map(|names| names.split(", ").map(str::to_owned).collect::<Vec<_>>()).collect();
    names.into_iter().filter(|name| !name.is_empty()).collect::<Vec<_>>().join(", ")
}

/// What was placed, in all shafts whose curve says it.
fn totals(shafts: &[Source<'_, '_>]) -> Vec<String> {
    let placed = shafts.iter().filter_map(|source| {
        Some(source.assessment.reckoning.pour.as_ref()?.curve.intervals.last()?.cumulative.placed.value)
    });
    let placed: Vec<Volume> = placed.collect();
    let Some(first) = shafts.first().filter(|_| !placed.is_empty()) else { return Vec::new() };
    let sum = Volume::cubic_meters(placed.iter().map(|volume| volume.to_cubic_meters()).sum());
    vec![format!("Placed {} in {} of {} shafts.", first.show().volume(sum), placed.len(), shafts.len())]
}

fn leading(source: &Source<'_, '_>) -> Option<String> {
    Some(format!("{}: {}", source.shaft, findings::leading(source).into_iter().next()?))
}

fn line(source: &Source<'_, '_>) -> ShaftLine {
    let show = source.show();
    let picture = &source.assessment.picture;
    let heading = heading::heading(source);
    let counts = findings::counts(&source.assessment.findings);
    let last = source.assessment.reckoning.pour.as_ref().and_then(|pour| pour.curve.intervals.last());
    let planned = picture.plan.as_ref().and_then(|plan| Some((plan.diameter?, plan.top.above(plan.tip))));
    let built = picture.plan.as_ref().zip(picture.bottom.last_sounding());
    ShaftLine {
        shaft: source.shaft.to_owned(),
        structure: heading.structure,
        date: picture.concrete_started().map_or_else(String::new, Moment::date),
        planned: planned.map_or_else(String::new, |(d, l)| format!("{} × {}", show.small(d), show.length(l))),
        built: built.map_or_else(String::new, |(plan, sounding)| {
            show.length(plan.top.above(sounding.surface.mean.value))
        }),
        theoretical: last
            .and_then(|last| last.cumulative.theoretical)
            .map_or_else(String::new, |v| show.volume(v.value)),
        placed: last.map_or_else(String::new, |last| show.volume(last.cumulative.placed.value)),
        ratio: last
            .and_then(|last| last.cumulative.ratio)
            .map_or_else(String::new, |ratio| show.ratio(ratio.value)),
        counts,
        standing: if picture.hole.is_empty() { Standing::NoLimit } else { findings::worst(counts) },
        remark: findings::leading(source).into_iter().next().unwrap_or_default(),
    }
}

/// `1 shaft`, `4 shafts`.
fn counted(shafts: usize) -> String {
    format!("{shafts} {}", if shafts == 1 { "shaft" } else { "shafts" })
}
