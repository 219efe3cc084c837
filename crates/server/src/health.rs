//! Whether entries can be taken in: the database answers, the writer has its turns, the disk takes a file.
//!
//! It is found out once a second at most, however many ask, and one look at a time: a database that hangs holds up one
//! thread and not all of them.

use crate::answer::Refused;
use crate::running::{Shared, waiting};
use crate::writer::NotWritten;
use std::sync::Arc;
use std::time::{Duration, Instant};
use store::{Database, StoreError};
use tokio::sync::Mutex;
use tokio::task::JoinHandle;
use tokio::time::timeout;
use wire::http::Code;

/// How long what was found holds.
const FRESH: Duration = Duration::from_secs(1);

/// How long a look may take.
const PATIENCE: Duration = Duration::from_secs(3);

/// Bytes of the file by which the disk is tried.
const TRIED: [u8; 4096] = [0; 4096];

type Found = Result<(), Refused>;

/// What was found, and a look that has not come back.
#[derive(Default)]
pub(crate) struct Health(Mutex<State>);

#[derive(Default)]
struct State {
    found: Option<(Instant, Found)>,
    looking: Option<JoinHandle<Found>>,
}

impl Health {
    /// Whether entries can be taken in, and why not.
    pub(crate) async fn ready(&self, shared: &Arc<Shared>) -> Found {
        if *shared.stop.borrow() {
            return Err(NotWritten::Stopping.into());
        }
        let mut state = self.0.lock().await;
        if let Some((_, found)) = state.found.as_ref().filter(|(at, _)| at.elapsed() < FRESH) {
            return found.clone();
        }
        let found = state.look(shared).await;
        state.found = Some((Instant::now(), found.clone()));
        found
    }
}

impl State {
    async fn look(&mut self, shared: &Arc<Shared>) -> Found {
        let begin = || {
            let shared = Arc::clone(shared);
            tokio::spawn(waiting(move || look(&shared)))
        };
        let mut looking = self.looking.take().unwrap_or_else(begin);
        match timeout(PATIENCE, &mut looking).await {
            Ok(Ok(found)) => found,
            Ok(Err(error)) => {
                Err(Refused::new(Code::INTERNAL, "The desk could not look at itself.").inside(error))
            }
            Err(_) => {
                self.looking = Some(looking);
                let what = format!("The desk's database did not answer within {} s.", PATIENCE.as_secs());
                Err(Refused::new(Code::DESK_BUSY, what))
            }
        }
    }
}

/// Looks, on a thread that may wait.
fn look(shared: &Shared) -> Found {
    shared.readers.with(Database::answers)?;
    shared.writer.ask_waiting(|store| store.answers())?;
    Ok(takes_a_file(shared)?)
}

/// A file comes in where photos do, and goes again.
fn takes_a_file(shared: &Shared) -> Result<(), StoreError> {
    let part = shared.photos.part(shared.number());
    let written = std::fs::write(&part, TRIED);
    // Of a disk that is full there may be an empty file.
    let gone = std::fs::remove_file(&part);
    written?;
    Ok(gone?)
}
