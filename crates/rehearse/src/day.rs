//! The day as an inspector would write it down: every entry of the made-up shaft, in order of time.
//!
//! The bodies hold texts with their units, as a person types them, so that whatever reads a record reads
//! these. Signing them is left to whoever has a key.
//!
//! Never: write down the truth. It stands beside the day, for the comparison at its end.

mod before;
mod campaign;
mod drilling;
mod papers;
mod pouring;
mod writer;

use calc::geometry::GeometryError;
use quantity::Moment;
use record::entry::FileHash;
use record::field::UnitSystem;
use record::rehearsal::key_of;
use record::{Body, Fault};

use crate::decision::{Answer, Ask};
use crate::readings::Readings;
use crate::scenario::Scenario;
use crate::site;
pub use campaign::Campaign;
use writer::Writer;

/// What the made-up shaft is called.
pub const SHAFT: &str = "R-1";

/// Where a made-up shaft stands and when it is poured.
#[derive(Debug, Clone, Copy)]
struct Place {
    shaft: &'static str,
    /// Spacings east of the first.
    east: u32,
    days_before: i64,
}

/// The shaft that stands alone.
const ALONE: Place = Place { shaft: SHAFT, east: 0, days_before: 0 };

/// The key of the criteria set that a day in some units is made for.
pub fn set_of(system: UnitSystem) -> &'static str {
    match system {
        UnitSystem::Us => "fhwa-aashto-style-1",
        UnitSystem::Metric => "en1536-style-1",
    }
}

/// What a day is called in the name of its job: its word, and `-metric` where it is written in metres.
pub fn day_word(word: &str, system: UnitSystem) -> String {
    match system {
        UnitSystem::Us => word.to_owned(),
        UnitSystem::Metric => format!("{word}-metric"),
    }
}

/// Which made-up day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Which {
    /// The same seed is the same day.
    pub seed: u64,
    /// What goes wrong.
    pub scenario: Scenario,
    /// The drawing, and what everything is written in.
    pub system: UnitSystem,
}

/// Who writes it down.
pub const AUTHOR: &str = "A. Trainee";

/// The criteria the day is to be judged by: the key of a set and the hash of its file.
#[derive(Debug, Clone, PartialEq)]
pub struct Chosen {
    /// Key of the set.
    pub set: String,
    /// SHA-256 of its file.
    pub file: FileHash,
}

/// One thing somebody wrote down.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    /// When it was seen.
    pub observed_at: Moment,
    /// The shaft it is about; `None`: the whole job.
    pub shaft: Option<&'static str>,
    /// What it says.
    pub body: Body,
}

/// A made-up day: what was written, and the truth.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// What goes wrong.
    pub scenario: Scenario,
    /// The seed.
    pub seed: u64,
    /// What it is written in.
    pub system: UnitSystem,
    /// The key of the job: a rehearsal by its form.
    pub job: String,
    /// Everything written, in order of time.
    pub said: Vec<Said>,
    /// The pour in truth and as read.
    pub readings: Readings,
    /// What was asked, in order of time.
    pub asks: Vec<Ask>,
    /// True depth of the concrete after each load that went in and after the casing came out, in metres.
    pub levels_m: Vec<f64>,
}

/// Why no day could be made. Neither happens unless the crate itself is wrong; a test makes every
/// scenario.
#[derive(Debug, Clone, PartialEq)]
pub enum Unmade {
    /// The drawing makes no hole.
    Hole(GeometryError),
    /// A body does not fit its kind.
    Body(Vec<Fault>),
}

impl From<GeometryError> for Unmade {
    fn from(error: GeometryError) -> Self {
        Unmade::Hole(error)
    }
}

impl From<Vec<Fault>> for Unmade {
    fn from(faults: Vec<Fault>) -> Self {
        Unmade::Body(faults)
    }
}

impl Day {
    /// A day, judged by the criteria given.
    ///
    /// # Errors
    /// None that a person can cause; see [`Unmade`].
    pub fn of(which: Which, chosen: Option<&Chosen>) -> Result<Self, Unmade> {
        Day::decided(which, chosen, &[])
    }

    /// The same with what was answered to its questions, in their order. Whatever was not answered goes as
    /// the crew would do it.
    ///
    /// # Errors
    /// As for [`Day::of`].
    pub fn decided(which: Which, chosen: Option<&Chosen>, answers: &[Answer]) -> Result<Self, Unmade> {
        Day::at(ALONE, which, chosen, answers)
    }

    fn at(place: Place, which: Which, chosen: Option<&Chosen>, answers: &[Answer]) -> Result<Self, Unmade> {
        let Which { seed, scenario, system } = which;
        let readings = Readings::of_seed(seed, site::hole(seed, scenario, system), site::crew(system))?;
        let job = key_of(&day_word(scenario.word(), system), seed);
        let mut writer = Writer::new(which, place, answers);
        before::write(&mut writer, chosen)?;
        drilling::write(&mut writer)?;
        pouring::write(&mut writer, &readings)?;
        let (said, asks, levels_m) = writer.written();
        Ok(Day { scenario, seed, system, job, said, readings, asks, levels_m })
    }
}
