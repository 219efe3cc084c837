//! Connections that only read, beside the one that writes.

use std::sync::{Mutex, PoisonError};
use store::{Address, Database, StoreError};

/// Connections kept for the next question.
const KEPT: usize = 16;

/// Reading connections to one database.
pub(crate) struct Readers {
    address: Address,
    idle: Mutex<Vec<Database>>,
}

impl Readers {
    pub(crate) fn new(address: &Address) -> Self {
        Readers { address: address.clone(), idle: Mutex::new(Vec::new()) }
    }

    /// Asks a question on the caller's thread, which may wait. After an error the connection is given up.
    pub(crate) fn with<T>(
        &self,
        question: impl FnOnce(&Database) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let idle = self.idle.lock().unwrap_or_else(PoisonError::into_inner).pop();
        let store = idle.map_or_else(|| Database::open_existing(&self.address), Ok)?;
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
