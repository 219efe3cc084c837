//! A question the tool asks about what was written. It asks; it never refuses.
//!
//! Never: say that a reading is wrong, judge it against a limit of the contract.

use crate::entry::EntryId;
use quantity::{Depth, Elevation, Length, Moment, Volume};

/// What looks odd, as data; `wording` makes the sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum Suspicion {
    /// A reading lies deeper than the hole was at that time.
    DeeperThanHole {
        /// The reading.
        depth: Depth,
        /// The hole.
        hole: Depth,
    },
    /// The concrete went down while a load went in.
    ConcreteFell {
        /// Depth before.
        before: Depth,
        /// Depth after.
        after: Depth,
        /// Ticket of the load.
        ticket: Option<String>,
    },
    /// A ticket volume far beyond the other loads or any truck.
    LoadVolume {
        /// Ticket of the load.
        ticket: String,
        /// Its volume.
        volume: Volume,
        /// What a load is here.
        usual: Volume,
    },
    /// A length that would be usual in another unit.
    LengthUnusual {
        /// Name of the field.
        field: &'static str,
        /// The length.
        length: Length,
        /// Least usual.
        low: Length,
        /// Greatest usual.
        high: Length,
    },
    /// Written after another on the same device, yet seen before it.
    TimeBackwards {
        /// When the entry before was seen.
        before: Moment,
        /// When this one was seen.
        at: Moment,
    },
    /// The end lies before the beginning.
    EndsBeforeItBegins {
        /// Beginning.
        begins: Moment,
        /// End.
        ends: Moment,
    },
    /// A load discharged before it arrived.
    DischargedBeforeArrival {
        /// Ticket of the load.
        ticket: String,
        /// When it arrived.
        arrived: Moment,
        /// When it discharged.
        discharged: Moment,
    },
    /// A load batched after it arrived.
    BatchedAfterArrival {
        /// Ticket of the load.
        ticket: String,
        /// When it was batched.
        batched: Moment,
        /// When it arrived.
        arrived: Moment,
    },
    /// An elevation that does not follow from its depth.
    ElevationDisagrees {
        /// The elevation as written.
        written: Elevation,
        /// The elevation that follows from reference and depth.
        follows: Elevation,
    },
    /// One ticket number arrived twice.
    TicketTwice {
        /// The ticket.
        ticket: String,
    },
    /// A ticket that no load arrived with.
    TicketUnknown {
        /// The ticket.
        ticket: String,
    },
    /// A run that does not begin where the one before it ended.
    RunsDoNotMeet {
        /// Where the one before ended.
        ended: Depth,
        /// Where this one begins.
        begins: Depth,
    },
    /// A run that says no depth it began at, where other runs of the shaft do.
    RunWithoutBeginning {
        /// The depth it reached.
        reached: Depth,
        /// Where the one before ended.
        ended: Option<Depth>,
    },
    /// Seen after it was entered: one of the clocks is off.
    SeenAfterEntered {
        /// When it was seen.
        seen: Moment,
        /// When it was entered.
        entered: Moment,
    },
    /// A number outside anything usual, kind and value as shown.
    ValueUnusual {
        /// Name of the field.
        field: &'static str,
        /// The value as written.
        written: String,
        /// What is usual, with its unit.
        usual: &'static str,
    },
}

impl Suspicion {
    /// The word a person answers it by.
    pub fn word(&self) -> &'static str {
        match self {
            Suspicion::DeeperThanHole { .. } => "deeper_than_hole",
            Suspicion::ConcreteFell { .. } => "concrete_fell",
            Suspicion::LoadVolume { .. } => "load_volume",
            Suspicion::LengthUnusual { .. } => "length_unusual",
            Suspicion::TimeBackwards { .. } => "time_backwards",
            Suspicion::EndsBeforeItBegins { .. } => "ends_before_it_begins",
            Suspicion::DischargedBeforeArrival { .. } => "discharged_before_arrival",
            Suspicion::BatchedAfterArrival { .. } => "batched_after_arrival",
            Suspicion::ElevationDisagrees { .. } => "elevation_disagrees",
            Suspicion::TicketTwice { .. } => "ticket_twice",
            Suspicion::TicketUnknown { .. } => "ticket_unknown",
            Suspicion::RunsDoNotMeet { .. } => "runs_do_not_meet",
            Suspicion::RunWithoutBeginning { .. } => "run_without_beginning",
            Suspicion::SeenAfterEntered { .. } => "seen_after_entered",
            Suspicion::ValueUnusual { .. } => "value_unusual",
        }
    }

    /// The field it is about, where an entry may raise it for several.
    pub fn field(&self) -> Option<&'static str> {
        match self {
            Suspicion::LengthUnusual { field, .. } | Suspicion::ValueUnusual { field, .. } => Some(field),
            _ => None,
        }
    }
}

/// A question about an entry.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The entry it is about.
    pub about: EntryId,
    /// What looks odd.
    pub suspicion: Suspicion,
    /// The answer somebody gave, and the entry it stands in.
    pub answer: Option<(EntryId, String)>,
}
