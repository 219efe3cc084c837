//! What has to be said about an entry wherever it is shown: struck, replaced, disputed, late.
//!
//! A record is believed when it shows its own scars.
//!
//! Never: leave a struck entry without who and why.

use crate::show::Show;
use quantity::Span;
use record::{Body, Entry, EntryId, Line, Log, Standing};

/// What has to be said about an entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Mark {
    /// A correction took its place, or struck it out.
    Struck {
        /// Who and when: `R. Vale, 14:22`.
        by: String,
        /// The reason given.
        why: String,
    },
    /// It stands in the place of a struck entry.
    Replaces {
        /// The short id of the entry it replaces.
        what: String,
        /// The reason given.
        why: String,
    },
    /// It is a candidate of an open dispute.
    Disputed {
        /// About which entry, and that nobody has decided.
        note: String,
    },
    /// It was written down well after it was seen.
    Late {
        /// `entered 16:05, 3 h 10 min after it was seen`.
        note: String,
    },
    /// The tool asked a question about it.
    Asked {
        /// The question and its answer.
        note: String,
    },
}

impl Mark {
    /// A stable word for machines.
    pub fn word(&self) -> &'static str {
        match self {
            Mark::Struck { .. } => "struck",
            Mark::Replaces { .. } => "replaces",
            Mark::Disputed { .. } => "disputed",
            Mark::Late { .. } => "late",
            Mark::Asked { .. } => "asked",
        }
    }
}

impl std::fmt::Display for Mark {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Mark::Struck { by, why } => write!(f, "struck through by {by}: {why}"),
            Mark::Replaces { what, why } => write!(f, "replaces {what}: {why}"),
            Mark::Disputed { note } => write!(f, "in dispute: {note}"),
            Mark::Late { note } => write!(f, "late: {note}"),
            Mark::Asked { note } => write!(f, "question: {note}"),
        }
    }
}

/// Everything that has to be said about a line, questions left out.
pub fn marks(line: &Line<'_>, log: &Log<'_>, show: &Show) -> Vec<Mark> {
    let standing = match &line.standing {
        Standing::Stands => None,
        Standing::Struck { by } => Some(struck(*by, log, show)),
        Standing::Disputed { about } => Some(disputed(*about)),
    };
    let replaces = line.reason.map(|why| Mark::Replaces { what: line.origin.short(), why: why.to_owned() });
    let late = line.late_minutes().map(|minutes| late(line.entry, minutes, show));
    standing.into_iter().chain(replaces).chain(late).collect()
}

fn struck(by: EntryId, log: &Log<'_>, show: &Show) -> Mark {
    let correction = log.corrections.iter().find(|entry| entry.id == by);
    match correction.map(|entry| (entry, &entry.body)) {
        Some((entry, Body::Correction(correction))) => Mark::Struck {
            by: format!("{}, {}", entry.author, show.moment(entry.entered_at)),
            why: correction.reason.clone(),
        },
        _ => Mark::Struck { by: by.short(), why: "the correction is not in this record".to_owned() },
    }
}

fn disputed(about: EntryId) -> Mark {
    let note = format!("two or more corrections of {} and no decision yet", about.short());
    Mark::Disputed { note }
}

fn late(entry: &Entry, minutes: f64, show: &Show) -> Mark {
    let after = show.span(Span::minutes(minutes));
    let (verb, at) = match entry.noted_at {
        Some(noted) => ("noted", noted),
        None => ("entered", entry.entered_at),
    };
    Mark::Late { note: format!("{verb} {}, {after} after it was seen", show.moment(at)) }
}
