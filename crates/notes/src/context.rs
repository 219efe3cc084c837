//! What a reader has to know from outside the file.
//!
//! Bare numbers mean the units of the job, times mean its zone, shafts must be planned before they are
//! written about; all of that stands in the record already when a second file is read in.
//!
//! Never: look anything up by itself; the caller answers.

use crate::zone::Zone;
use record::EntryId;
use record::choices::{CoordinateFoot, JobUnits};
use record::entry::FileHash;
use record::field::{Defaults, UnitSystem};
use record::kinds::JobOpened;
use std::collections::BTreeSet;

/// What a job that is open already supplies.
#[derive(Debug, Clone, PartialEq)]
pub struct Context {
    /// The key of the job: the name it keeps for ever.
    pub key: String,
    /// Units and decimal sign of bare numbers.
    pub defaults: Defaults,
    /// The zone clock times are in.
    pub zone: Zone,
    /// The shafts that are planned.
    pub shafts: BTreeSet<String>,
    /// The file was read in before: what opens the job and plans shafts may stand in it, as it did then.
    pub again: bool,
}

/// The job names a time zone that is not in the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownZone {
    /// The name as found.
    pub found: String,
    /// The names nearest to it.
    pub near: Vec<String>,
}

impl Context {
    /// The context a job's opening gives; shafts are added by the caller.
    ///
    /// # Errors
    /// When the job names an unknown time zone.
    pub fn of(key: &str, opened: &JobOpened) -> Result<Self, UnknownZone> {
        let zone = Zone::named(&opened.time_zone)
            .map_err(|near| UnknownZone { found: opened.time_zone.clone(), near })?;
        Ok(Context {
            key: key.to_owned(),
            defaults: defaults_of(opened),
            zone,
            shafts: BTreeSet::new(),
            again: false,
        })
    }

    /// The same, for a file that was read in before, or for one that was not.
    ///
    /// The caller has to compare what opens the job and plans a shaft with the record: a changed plan is a
    /// correction, never a second plan.
    pub fn read_before(self, again: bool) -> Self {
        Context { again, ..self }
    }

    /// The same, with shafts that are planned already.
    pub fn with_shafts(mut self, shafts: impl IntoIterator<Item = String>) -> Self {
        self.shafts.extend(shafts);
        self
    }
}

/// How bare numbers are read on a job.
pub(crate) fn defaults_of(opened: &JobOpened) -> Defaults {
    Defaults {
        system: match opened.units {
            JobUnits::Us => UnitSystem::Us,
            JobUnits::Metric => UnitSystem::Metric,
        },
        comma: opened.decimal_comma == Some(true),
        survey_foot: opened.coordinate_foot == Some(CoordinateFoot::Survey),
    }
}

/// The entries a text may name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found {
    /// None of the record.
    None,
    /// This one.
    One(EntryId),
    /// Several begin with these digits.
    Several,
}

/// A criteria set as an entry chooses it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Criteria {
    /// SHA-256 of its file.
    pub file: FileHash,
    /// Its text, where it is not one that comes with the program.
    pub text: Option<String>,
}

/// What the caller can find that a text alone cannot say.
pub trait Surroundings {
    /// The entry of the record an id, or the first digits of one, names.
    fn entry(&self, _digits: &str) -> Found {
        Found::None
    }
    /// SHA-256 of a file that lies beside the notes.
    fn file(&self, _name: &str) -> Option<FileHash> {
        None
    }
    /// The criteria set of a key.
    fn criteria(&self, _key: &str) -> Option<Criteria> {
        None
    }
}

/// No record, no files, no criteria sets.
#[derive(Debug, Clone, Copy, Default)]
pub struct Nothing;

impl Surroundings for Nothing {}
