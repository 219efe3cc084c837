//! What a trainee sees beside the record: instruments drawn to be read, tickets, questions, the debrief.
//!
//! The readings come from `rehearse`; here they become drawings without the number, so that somebody has to
//! read them, and sentences. Everything the trainee writes goes through the ordinary forms.
//!
//! Words: *instrument* = a drawing somebody reads a figure off; *warned* = what the tool first showed, and
//! when; *debrief* = truth beside record at the end.
//! Never: print the figure beside an instrument; show the truth before the practice is over.

mod chart;
mod debrief;
mod instrument;
mod paint;
mod question;
mod scale;
mod sight;
mod warned;

pub use debrief::{DebriefScreen, Decided, Line, Reading, Stretch, debrief};
pub use instrument::{Instrument, instruments, tape};
pub use question::{AnswerKey, QuestionCard, question};
pub use sight::{SightCard, known, last_ticket, sight, unwritten};
pub use warned::{Warned, warned};

use record::Body;
use record::field::UnitSystem;
use record::rehearsal::PREFIX;
use rehearse::day::day_word;
use rehearse::practice::Practice;
use rehearse::scenario::Scenario;
use wording::Show;

/// How figures of the made-up job are printed.
pub fn show(practice: &Practice) -> Show {
    let opened = practice.day().said.iter().find_map(|said| match &said.body {
        Body::JobOpened(opened) => Some(opened),
        _ => None,
    });
    Show::of(opened)
}

/// A day a trainee can be given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayChoice {
    /// Its word; empty: nobody knows what happens.
    pub word: &'static str,
    /// What it is called, without what happens.
    pub title: &'static str,
}

/// Every day there is to choose, the unknown one first.
pub fn days() -> Vec<DayChoice> {
    let unknown = DayChoice { word: "", title: "A day nobody knows" };
    let known =
        Scenario::for_practice().map(|scenario| DayChoice { word: scenario.word(), title: title(scenario) });
    std::iter::once(unknown).chain(known).collect()
}

/// What a scenario is called in a list.
pub fn title(scenario: Scenario) -> &'static str {
    match scenario {
        Scenario::Clean => "Nothing goes wrong",
        Scenario::NeckInSoftClay => "A neck in soft clay",
        Scenario::Cavity => "A cavity in sand",
        Scenario::LooseSandSeam => "A thin seam of loose sand",
        Scenario::SedimentAfterWaiting => "Sediment after waiting",
        Scenario::TremiePulledTooFar => "The tremie pulled too far",
        Scenario::LateTruck => "A late truck",
        Scenario::CasingStuck => "The casing is stuck",
        Scenario::CageLifting => "The cage rises",
        Scenario::WrongTicket => "A load of another mix",
        Scenario::MisreadTape => "A tape misread",
        Scenario::FluidOutOfLimits => "Too much sand in the fluid",
    }
}

/// The name of a practice job: the word of a day somebody chose, `day` for one nobody knows, its number, and
/// which try of it this is.
pub fn job_name(word: &str, system: UnitSystem, [number, attempt]: [u64; 2]) -> String {
    let word = day_word(if word.is_empty() { "day" } else { word }, system);
    match attempt {
        0 | 1 => format!("{PREFIX}{word}-{number}"),
        attempt => format!("{PREFIX}{word}-{number}-{attempt}"),
    }
}
