//! The stage of the work on a shaft, as far as the log tells it.
//!
//! What is done next, which keys lie under the thumb and which clocks count hang on where the shaft
//! stands. The stage is told by what was written, never by a plan of what should have been done by now.
//!
//! Words: *stage* = the piece of work that is in hand, from planned to done.
//! Never: judge whether the work before was complete.

use assess::Picture;
use quantity::Moment;
use record::Log;
use record::choices::CasingStay;
use record::kinds::*;

/// Where the work on a shaft stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// Nothing was done at the hole yet.
    Planned,
    /// Set out, cleared, surface casing, references; the drill has not turned.
    BeforeDrilling,
    /// The hole is made.
    Drilling,
    /// Cleaning, sounding and accepting the bottom.
    Bottom,
    /// The cage goes in and is checked; the line is made up next.
    Cage,
    /// From the line made up until the concrete is in and temporary casing is out.
    Pour,
    /// Top, inserts, curing, tests, survey.
    After,
    /// Surveyed as built, or signed after the pour.
    Done,
}

impl Stage {
    /// All of them, in the order of the work.
    pub const ALL: [Stage; 8] = [
        Stage::Planned,
        Stage::BeforeDrilling,
        Stage::Drilling,
        Stage::Bottom,
        Stage::Cage,
        Stage::Pour,
        Stage::After,
        Stage::Done,
    ];

    /// The stage a log and its picture tell.
    pub fn of(log: &Log<'_>, picture: &Picture<'_>) -> Stage {
        let marks = Marks::of(log, picture);
        if marks.poured {
            return marks.after_pour();
        }
        marks.before_pour()
    }

    /// What it is called on a screen.
    pub fn label(self) -> &'static str {
        match self {
            Stage::Planned => "Planned",
            Stage::BeforeDrilling => "Before drilling",
            Stage::Drilling => "Drilling",
            Stage::Bottom => "Bottom",
            Stage::Cage => "Cage",
            Stage::Pour => "Pour",
            Stage::After => "After the pour",
            Stage::Done => "Done",
        }
    }

    /// A stable word for machines and style sheets.
    pub fn word(self) -> &'static str {
        match self {
            Stage::Planned => "planned",
            Stage::BeforeDrilling => "before_drilling",
            Stage::Drilling => "drilling",
            Stage::Bottom => "bottom",
            Stage::Cage => "cage",
            Stage::Pour => "pour",
            Stage::After => "after",
            Stage::Done => "done",
        }
    }
}

/// When something last happened.
fn last<'r, K: EntryKind + 'r>(log: &Log<'r>) -> Option<Moment> {
    log.last::<K>().map(|(line, _)| line.at)
}

/// What the log holds of each stage.
struct Marks {
    prepared: bool,
    drilled: Option<Moment>,
    bottom: Option<Moment>,
    accepted: Option<Moment>,
    cage: Option<Moment>,
    poured: bool,
    /// The pour is over: line out, over-poured or work on the top, and no load half discharged.
    ended: Option<Moment>,
    casing_in: bool,
    done: Option<Moment>,
}

impl Marks {
    fn of(log: &Log<'_>, picture: &Picture<'_>) -> Marks {
        let pour = [
            last::<LineMadeUp>(log),
            last::<LoadArrived>(log),
            last::<DischargeStarted>(log),
            last::<ConcreteSounded>(log),
        ];
        let open = picture.loads.iter().any(assess::picture::Load::open);
        let ends = [last::<LineOut>(log), last::<OverPoured>(log), finish(log)];
        let placed = picture.concrete_started().is_some();
        Marks {
            prepared: prepared(log),
            drilled: [last::<DrillingStarted>(log), last::<ToolRun>(log)].into_iter().flatten().max(),
            bottom: [last::<BottomReached>(log), last::<BottomSounded>(log), last::<Cleaning>(log)]
                .into_iter()
                .flatten()
                .max(),
            accepted: last::<BottomAccepted>(log),
            cage: last::<CageSet>(log),
            poured: pour.iter().any(Option::is_some) || finish(log).is_some(),
            ended: ends.into_iter().flatten().max().filter(|_| !open && (placed || finish(log).is_some())),
            casing_in: temporary_casing_in(log),
            done: [last::<AsBuilt>(log), last::<Signed>(log)].into_iter().flatten().max(),
        }
    }

    fn after_pour(&self) -> Stage {
        match self.ended {
            Some(ended) if self.done.is_some_and(|done| done >= ended) => Stage::Done,
            Some(_) if !self.casing_in => Stage::After,
            _ => Stage::Pour,
        }
    }

    fn before_pour(&self) -> Stage {
        let after_drilling = |at: Option<Moment>| at.is_some() && at >= self.drilled;
        if self.cage.is_some() || after_drilling(self.accepted) {
            Stage::Cage
        } else if after_drilling(self.bottom) {
            Stage::Bottom
        } else if self.drilled.is_some() || self.bottom.is_some() {
            Stage::Drilling
        } else if self.prepared {
            Stage::BeforeDrilling
        } else {
            Stage::Planned
        }
    }
}

/// Something was done at the hole before the drill turned.
fn prepared(log: &Log<'_>) -> bool {
    let at_the_hole = [
        last::<StakeOut>(log),
        last::<UtilitiesCleared>(log),
        last::<ReferenceSet>(log),
        last::<CasingSet>(log),
        last::<MeetingHeld>(log),
    ];
    at_the_hole.iter().any(Option::is_some)
}

/// Work that only begins once the concrete is in.
fn finish(log: &Log<'_>) -> Option<Moment> {
    let work = [
        last::<TopFormed>(log),
        last::<AnchorsSet>(log),
        last::<Curing>(log),
        last::<FormRemoved>(log),
        last::<IntegrityTest>(log),
        last::<Trimmed>(log),
        last::<AsBuilt>(log),
    ];
    work.into_iter().flatten().max()
}

/// A temporary casing stands in the ground that nobody took out or left there.
fn temporary_casing_in(log: &Log<'_>) -> bool {
    let gone = |name: &str| {
        log.each::<CasingOut>().any(|(_, casing)| casing.name == name)
            || log.each::<CasingLeft>().any(|(_, casing)| casing.name == name)
    };
    log.each::<CasingSet>().any(|(_, set)| set.stay == CasingStay::Temporary && !gone(&set.name))
}
