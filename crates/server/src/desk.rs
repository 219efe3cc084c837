//! The desk: what the machine a server runs on may do with it.
//!
//! The same handle serves the desk page, the terminal and whoever feeds a demonstration.

use crate::code::Code;
use crate::running::Shared;
use crate::writer::NotWritten;
use quantity::Moment;
use record::{Held, Record};
use std::sync::Arc;
use store::{Device, Kept, Line, Office, Store, StoreError};

/// A handle on a running server, for the machine it runs on. Cheap to copy. Its calls wait for the disk; do
/// not make them from asynchronous code.
#[derive(Clone)]
pub struct Desk(pub(crate) Arc<Shared>);

impl Desk {
    /// A new pairing code: it serves once, for ten minutes.
    ///
    /// # Errors
    /// When it cannot be kept.
    pub fn new_code(&self) -> Result<Code, NotWritten> {
        self.new_code_of(None)
    }

    /// The same for a person, to whom the device then belongs. Where there are people, a device that belongs to nobody
    /// may do nothing.
    ///
    /// # Errors
    /// When it cannot be kept.
    pub fn new_code_of(&self, person: Option<i64>) -> Result<Code, NotWritten> {
        let code = self.0.draw_code()?;
        let (text, until) = (code.text.clone(), code.until.seconds());
        let now = crate::time::now().seconds();
        self.0.writer.ask_waiting(move |store| match person {
            None => store.add_code(&text, until, now),
            Some(person) => store.add_code_of(person, &text, until, now),
        })?;
        // A code of a person is shown to that person alone.
        if person.is_none() {
            self.0.show(code.clone());
        }
        Ok(code)
    }

    /// How devices and people reach the office, without a slash at the end.
    pub fn reached_at(&self) -> &str {
        self.0.reached_at()
    }

    /// Whether there are people, so that one signs in.
    ///
    /// # Errors
    /// When the store cannot be read.
    pub fn has_people(&self) -> Result<bool, StoreError> {
        self.0.readers.with(store::People::has_people)
    }

    /// Keeps entries durably and tells every open screen. One whose id is kept with another content is
    /// `Kept::Contradicts` and left out.
    ///
    /// # Errors
    /// When nothing of it could be kept.
    pub fn add(&self, entries: &[Held]) -> Result<Vec<Kept>, NotWritten> {
        self.0.writer.add_waiting(entries.iter().map(Line::of).collect())
    }

    /// The record of a job as it is now.
    ///
    /// # Errors
    /// When the store cannot be read.
    pub fn record(&self, job: &str) -> Result<Record, StoreError> {
        self.0.readers.with(|store| store.record(job))
    }

    /// The paired devices, by number.
    ///
    /// # Errors
    /// When the store cannot be read.
    pub fn devices(&self) -> Result<Vec<Device>, StoreError> {
        self.0.readers.with(|store| store.devices())
    }

    /// The time on the site of a job: that of the demonstration where it is its job, else the true one.
    pub fn site_time(&self, job: &str) -> Moment {
        self.0.site_time(job)
    }
}
