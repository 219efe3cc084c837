//! What only many shafts show: what the ground, a method and a crew took, where concrete and hours went, what fails again
//! and again, and who writes late.
//!
//! One shaft that took 1.2 times its drawing is a shaft; twelve of them in one stratum are the price of the next hundred.
//! Every figure carries the shafts and entries it was made of, so that whoever doubts it can look.
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
pub use people::HandedIn;
pub use taken::{By, LEVEL, Taken, TakenPart};
pub use trend::{Measure, Reading};

use crate::rules::Rules;
use crate::run::{Assessment, assess};
use quantity::Moment;
use record::{Log, Record};

/// A shaft of a job.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Key of the job.
    pub job: String,
    /// Name of the shaft.
    pub shaft: String,
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
    /// Criteria in force, the one that fails most often first.
    pub criteria: Vec<OfCriterion>,
    /// Who wrote, and how late.
    pub people: Vec<HandedIn>,
}

/// One shaft, read and assessed.
struct One<'r> {
    place: Place,
    log: Log<'r>,
    assessment: Assessment<'r>,
}

impl<'r> One<'r> {
    fn of(record: &'r Record, job: &str, shaft: &str, at: Moment) -> Self {
        let log = Log::of(record, Some(shaft), Some(at));
        let set = Rules::of(&log).map_or_else(|_| Rules::none(), |rules| rules.set);
        let assessment = assess(&log, &set, at);
        One { place: Place { job: job.to_owned(), shaft: shaft.to_owned() }, log, assessment }
    }
}

fn of_job(record: &Record, at: Moment) -> Vec<One<'_>> {
    let job = record.job().unwrap_or_default();
    record.shafts().into_iter().map(|shaft| One::of(record, job, shaft, at)).collect()
}

impl Across {
    /// Looks at every shaft of these jobs.
    pub fn of(jobs: &[&Record], at: Moment) -> Self {
        let all: Vec<One<'_>> = jobs.iter().flat_map(|record| of_job(record, at)).collect();
        Across {
            at,
            shafts: all.iter().map(|one| one.place.clone()).collect(),
            taken: taken::taken(&all),
            concrete: all.iter().filter_map(concrete::of_shaft).collect(),
            hours: all.iter().filter_map(hours::of_shaft).collect(),
            readings: trend::readings(&all),
            criteria: criteria::criteria(&all),
            people: people::people(jobs, at),
        }
    }
}
