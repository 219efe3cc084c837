//! Connections that only read. WAL lets them read while the writer writes.

use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use store::{Sqlite, StoreError};

/// Connections kept for the next question.
const KEPT: usize = 8;

/// Reading connections to one database.
pub(crate) struct Readers {
    path: PathBuf,
    idle: Mutex<Vec<Sqlite>>,
}

impl Readers {
    pub(crate) fn new(path: &Path) -> Self {
        Readers { path: path.to_owned(), idle: Mutex::new(Vec::new()) }
    }

    /// Asks a question on the caller's thread, which may wait. After an error the connection is given up.
    pub(crate) fn with<T>(
        &self,
        question: impl FnOnce(&Sqlite) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let idle = self.idle.lock().unwrap_or_else(PoisonError::into_inner).pop();
        let store = idle.map_or_else(|| Sqlite::open_existing(&self.path), Ok)?;
        let answer = question(&store)?;
        let mut idle = self.idle.lock().unwrap_or_else(PoisonError::into_inner);
        if idle.len() < KEPT {
            idle.push(store);
        }
        Ok(answer)
    }

    /// Closes those that wait for a question.
    pub(crate) fn close(&self) {
        self.idle.lock().unwrap_or_else(PoisonError::into_inner).clear();
    }
}
