//! The time stamps of an office: each the word of a service about one seal, in the folder that is served.
//!
//! A stamp is asked for when a shaft is sealed, behind the back of whoever seals: a service that does not answer holds
//! nobody up. Who wants to have a stamp that is not there yet asks for it anew.
//!
//! Never: replace a stamp; an earlier one says more.

use crate::commands::stamp::obtained;
use crate::file::write;
use crate::problem::Problem;
use record::Entry;
use server::{Happened, Journal, Level};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// The folder of time stamps in a folder that is served.
pub(crate) const STAMPS: &str = "stamps";

/// Where the stamps of an office lie, and who gives them.
#[derive(Clone)]
pub(crate) struct Stamps {
    folder: PathBuf,
    service: Option<String>,
    journal: Journal,
    /// Held while a stamp is asked for: of two who ask at once, the second finds the stamp of the first.
    asking: Arc<Mutex<()>>,
}

impl Stamps {
    /// Of the folder that is served; without a service only what is there is handed out.
    pub(crate) fn of(office: &Path, service: Option<&str>, journal: Journal) -> Self {
        let folder = office.join(STAMPS);
        Stamps { folder, service: service.map(str::to_owned), journal, asking: Arc::default() }
    }

    /// The stamp of a seal: the one that is there, or one asked for now.
    pub(crate) fn stamp(&self, seal: &Entry) -> Result<Vec<u8>, Problem> {
        let path = self.folder.join(format!("{}.tsr", seal.id));
        let _alone = self.asking.lock().unwrap_or_else(PoisonError::into_inner);
        if path.exists() {
            return std::fs::read(&path).map_err(|error| Problem::file("Reading", &path, &error));
        }
        let Some(service) = &self.service else { return Err(no_service()) };
        let (_, answer) = obtained(service, seal)?;
        write(&path, &answer)?;
        Ok(answer)
    }

    /// Asks for the stamp of a seal and waits for nothing; a service that does not answer is told to the journal.
    pub(crate) fn begin(&self, seal: Entry) {
        if self.service.is_none() {
            return;
        }
        let stamps = self.clone();
        std::thread::spawn(move || {
            if let Err(problem) = stamps.stamp(&seal) {
                let inside = Some(problem.what);
                (stamps.journal)(&Happened {
                    level: Level::Warn,
                    what: "not-stamped",
                    inside,
                    ..Happened::default()
                });
            }
        });
    }
}

/// Copies the stamps that are not there yet; nothing where there are none.
pub(crate) fn copy(from: &Path, to: &Path) -> Result<(), Problem> {
    let Ok(files) = std::fs::read_dir(from) else { return Ok(()) };
    for file in files.flatten().filter(|file| file.path().extension().is_some_and(|ending| ending == "tsr")) {
        let there = to.join(file.file_name());
        if !there.exists() {
            let wrong = |error: std::io::Error| Problem::file("Reading", &file.path(), &error);
            write(&there, &std::fs::read(file.path()).map_err(wrong)?)?;
        }
    }
    Ok(())
}

fn no_service() -> Problem {
    Problem::new(
        "This office asks no time-stamp service.",
        "The sealed package proves itself without one; only when it was sealed is told by nobody else.",
        "Serve the office with --time-stamps, or ask a service yourself: shaftbook stamp.",
    )
}
