//! The debrief in words: what went wrong and when the tool first showed it, what was decided, each sounding and
//! stretch beside the truth, what was not written down.
//!
//! Never: soften what was missed; blame what these readings could not have shown.

use super::question::{said, short};
use super::warned::{Warned, warned};
use super::{chart, show};
use quantity::{Depth, Length};
use record::field::UnitSystem;
use record::kinds::kind_of;
use record::{Entry, Log, Record};
use rehearse::day::{SHAFT, Said};
use rehearse::decision::Ask;
use rehearse::practice::{Debrief, Missed, Practice, TroubleTold, debrief as compared};
use wording::{Show, label};

/// The end of a practice, as it is shown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DebriefScreen {
    /// What happened on this day: the truth.
    pub story: String,
    /// Whether and when the tool showed it, and what came of it.
    pub shown: String,
    /// What was decided.
    pub decided: Vec<Decided>,
    /// Each sounding beside the truth.
    pub readings: Vec<Reading>,
    /// Each stretch beside the truth.
    pub stretches: Vec<Stretch>,
    /// The true wall beside the ratios.
    pub chart: String,
    /// What could be read and was not written down.
    pub missed: Vec<Line>,
    /// What the tool showed beside that.
    pub others: Vec<Line>,
}

/// A moment and what is to be said of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// When.
    pub clock: String,
    /// What.
    pub what: String,
}

/// A decision.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decided {
    /// When it was asked.
    pub clock: String,
    /// What was asked.
    pub what: String,
    /// What was answered.
    pub answer: String,
    /// What would have been wise; empty where it was.
    pub wise: String,
}

/// A sounding beside the truth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// When it was seen.
    pub clock: String,
    /// As written.
    pub written: String,
    /// In truth.
    pub truth: String,
    /// Off by more than the tape can be.
    pub off: bool,
}

/// A stretch beside the truth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stretch {
    /// From and to.
    pub depths: String,
    /// By the tickets and soundings written.
    pub written: String,
    /// In truth.
    pub truth: String,
}

/// The debrief of a practice with the record that was written.
pub fn debrief(practice: &Practice, record: &Record) -> DebriefScreen {
    let (written, shown) = (written(practice, record), warned(record, SHAFT, practice.begins()));
    let warnings: Vec<_> = shown.iter().map(|one| one.warning.clone()).collect();
    let told = compared(practice, &written, &warnings);
    let show = show(practice);
    DebriefScreen {
        story: practice.day().scenario.story(practice.day().system).to_owned(),
        shown: trouble(told.trouble.as_ref(), practice.day().system),
        decided: told.decided.iter().map(|ask| decided(ask, &show)).collect(),
        readings: readings(&told, &show),
        stretches: stretches(&told, &show),
        chart: chart::chart(practice, &told),
        missed: missed(&told.missed),
        others: shown.iter().filter(|one| told.other_warnings.contains(&one.warning)).map(line).collect(),
    }
}

/// What stands in the record of the shaft since the practice began, in order of time.
pub(super) fn written(practice: &Practice, record: &Record) -> Vec<Said> {
    let since = practice.begins();
    let log = Log::of(record, Some(SHAFT), None);
    let own = |entry: &Entry| entry.entered_at >= since && entry.shaft.as_deref() == Some(SHAFT);
    let lines = log.lines.iter().filter(|line| line.stands() && own(line.entry));
    lines.map(|line| Said { observed_at: line.at, shaft: Some(SHAFT), body: line.body.clone() }).collect()
}

fn trouble(trouble: Option<&TroubleTold>, system: UnitSystem) -> String {
    let Some(trouble) = trouble else {
        return "There was nothing to find. What the tool asked for on this day it asks for on every day."
            .to_owned();
    };
    let seen = match (trouble.warned, trouble.signs.is_empty()) {
        (Some(at), _) => format!("The tool first showed it at {}.", at.clock()),
        (None, true) if trouble.scenario.has_no_limit(system) => {
            "The criteria of this day hold no limit for it: it was yours to see.".to_owned()
        }
        (None, true) => {
            "The readings of such a day cannot show it: the sand lies between two soundings.".to_owned()
        }
        (None, false) if trouble.averted => "The tool had nothing to show.".to_owned(),
        (None, false) => "The tool did not show it, by what was written down.".to_owned(),
    };
    match trouble.averted {
        true => format!("{seen} What was decided kept it out of the shaft."),
        false => seen,
    }
}

fn decided(ask: &Ask, show: &Show) -> Decided {
    let wise = if ask.is_unwise() { said(&ask.question, ask.wise) } else { String::new() };
    let answer = ask.answer.map_or_else(String::new, |answer| said(&ask.question, answer));
    Decided { clock: ask.at.clock(), what: short(&ask.question, show), answer, wise }
}

fn depth(depth_m: f64, show: &Show) -> String {
    show.depth(Depth(Length::meters(depth_m)))
}

fn readings(told: &Debrief, show: &Show) -> Vec<Reading> {
    let reading = |one: &rehearse::practice::ReadingTold| Reading {
        clock: one.at.clock(),
        written: depth(one.written_m, show),
        truth: depth(one.true_m, show),
        off: one.off,
    };
    told.readings.iter().map(reading).collect()
}

fn stretches(told: &Debrief, show: &Show) -> Vec<Stretch> {
    let ratio = |ratio: Option<f64>| ratio.map_or_else(|| "–".to_owned(), |ratio| show.ratio(ratio));
    let stretch = |one: &rehearse::practice::StretchTold| Stretch {
        depths: format!("{} to {}", depth(one.stretch_m[0], show), depth(one.stretch_m[1], show)),
        written: ratio(one.written),
        truth: ratio(one.truth),
    };
    told.stretches.iter().map(stretch).collect()
}

fn missed(missed: &[Missed]) -> Vec<Line> {
    let what = |one: &Missed| {
        let kind = kind_of(one.kind).map_or_else(|| one.kind.to_owned(), label::kind);
        one.ticket.as_ref().map_or(kind.clone(), |ticket| format!("{kind}, ticket {ticket}"))
    };
    missed.iter().map(|one| Line { clock: one.since.clock(), what: what(one) }).collect()
}

fn line(one: &Warned) -> Line {
    Line { clock: one.warning.at.clock(), what: one.heading.clone() }
}
