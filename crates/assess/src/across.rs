//! What only many shafts show: what the ground, a method and a crew took, where concrete and hours went, what fails again
//! and again, and who writes late.
//!
//! One shaft that took 1.2 times its drawing is a shaft; twelve of them in one stratum are the price of the next hundred.
//! Every figure carries the shafts and entries it was made of, so that whoever doubts it can look. Each shaft is reckoned
//! for itself ([`OfShaft`]) and they are put together at the end, so that a tablet with hundreds of them can show how far
//! it is, and after an entry reckons again only what that entry is about.
//!
//! Words: *place* = a shaft of a job; *part* = what one shaft gives to a figure.
//! Never: judge a crew or a person; tell a mean without its interval; count what was not written as zero.

mod concrete;
mod criteria;
mod hours;
mod people;
mod taken;
mod trend;

pub use concrete::ConcreteOfShaft;
pub use criteria::OfCriterion;
pub use hours::{Activity, HoursOfShaft, Stretch};
pub use people::{HandedIn, people};
pub use taken::{By, LEVEL, Taken, TakenPart};
pub use trend::{Measure, Reading, ReadingLimit};

use self::criteria::Told;
use crate::rules::Rules;
use crate::run::{Assessment, assess};
use quantity::Moment;
use record::{EntryId, Log, Record};

/// A shaft of a job.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Key of the job.
    pub job: String,
    /// Name of the shaft.
    pub shaft: String,
}

/// An entry of a shaft, as what a figure leads to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// The shaft.
    pub place: Place,
    /// The entry; `None` where the whole shaft is meant.
    pub entry: Option<EntryId>,
}

impl Spot {
    /// The first of some entries of a shaft.
    pub fn first(place: &Place, entries: &[EntryId]) -> Self {
        Spot { place: place.clone(), entry: entries.first().copied() }
    }
}

/// What many shafts show together, at a time.
#[derive(Debug, Clone, PartialEq)]
pub struct Across {
    /// When.
    pub at: Moment,
    /// The shafts looked at.
    pub shafts: Vec<Place>,
    /// What was taken, by stratum, method and crew.
    pub taken: Vec<Taken>,
    /// Concrete of each shaft that has any.
    pub concrete: Vec<ConcreteOfShaft>,
    /// Time by activity, of each shaft.
    pub hours: Vec<HoursOfShaft>,
    /// Fluid tests and slumps, in the order of time.
    pub readings: Vec<Reading>,
    /// The limits those readings were held against, each once.
    pub limits: Vec<ReadingLimit>,
    /// Criteria in force, the one that fails most often first.
    pub criteria: Vec<OfCriterion>,
    /// Who wrote, and how late.
    pub people: Vec<HandedIn>,
}

/// One shaft, read and assessed.
struct One<'l, 'r> {
    place: Place,
    log: &'l Log<'r>,
    assessment: &'l Assessment<'r>,
}

/// What one shaft gives to all of it. It holds no part of the record, so it can be kept.
#[derive(Debug, Clone, PartialEq)]
pub struct OfShaft {
    place: Place,
    taken: Vec<(By, TakenPart)>,
    concrete: Option<ConcreteOfShaft>,
    hours: Option<HoursOfShaft>,
    readings: Vec<Reading>,
    limits: Vec<ReadingLimit>,
    findings: Vec<Told>,
}

impl OfShaft {
    /// Reads and assesses a shaft of a record.
    pub fn of(record: &Record, shaft: &str, at: Moment) -> Self {
        let log = Log::of(record, Some(shaft), Some(at));
        let set = Rules::of(&log).map_or_else(|_| Rules::none(), |rules| rules.set);
        let place = Place { job: record.job().unwrap_or_default().to_owned(), shaft: shaft.to_owned() };
        Self::of_assessed(place, &log, &assess(&log, &set, at))
    }

    /// The same of a shaft that is assessed already.
    pub fn of_assessed(place: Place, log: &Log<'_>, assessment: &Assessment<'_>) -> Self {
        let one = One { place, log, assessment };
        let (readings, limits) = trend::of_shaft(&one);
        OfShaft {
            taken: taken::of_shaft(&one),
            concrete: concrete::of_shaft(&one),
            hours: hours::of_shaft(&one),
            readings,
            limits,
            findings: criteria::of_shaft(&one),
            place: one.place,
        }
    }

    /// The shaft.
    pub fn place(&self) -> &Place {
        &self.place
    }
}

impl Across {
    /// Looks at every shaft of these jobs.
    pub fn of(jobs: &[&Record], at: Moment) -> Self {
        let of_job = |record: &&Record| -> Vec<OfShaft> {
            record.shafts().into_iter().map(|shaft| OfShaft::of(record, shaft, at)).collect()
        };
        let all: Vec<OfShaft> = jobs.iter().flat_map(of_job).collect();
        Across::together(&all, people(jobs, at), at)
    }

    /// Puts together what was reckoned shaft by shaft.
    pub fn together(all: &[OfShaft], people: Vec<HandedIn>, at: Moment) -> Self {
        Across {
            at,
            shafts: all.iter().map(|one| one.place.clone()).collect(),
            taken: taken::taken(all),
            concrete: all.iter().filter_map(|one| one.concrete.clone()).collect(),
            hours: all.iter().filter_map(|one| one.hours.clone()).collect(),
            readings: trend::readings(all),
            limits: trend::limits(all),
            criteria: criteria::criteria(all),
            people,
        }
    }
}
