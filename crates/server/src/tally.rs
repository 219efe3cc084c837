//! How much there is of each job, counted on as entries arrive instead of anew for every question.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};
use store::{Sqlite, Store, StoreError};
use wire::http::{IdSum, JobState};

/// Arrivals asked for at once.
const STEP: usize = 50_000;

/// The count so far.
#[derive(Debug, Default)]
pub(crate) struct Tally(Mutex<Counted>);

#[derive(Debug, Default)]
struct Counted {
    cursor: i64,
    jobs: BTreeMap<String, JobState>,
}

impl Tally {
    /// Every job as it is now, by name.
    pub(crate) fn jobs(&self, store: &Sqlite) -> Result<Vec<JobState>, StoreError> {
        let mut counted = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        counted.catch_up(store)?;
        Ok(counted.jobs.values().cloned().collect())
    }

    /// The last arrival of a job, and of all; 0: none.
    pub(crate) fn last(&self, store: &Sqlite, job: &str) -> Result<(u64, u64), StoreError> {
        let mut counted = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        counted.catch_up(store)?;
        let of_job = counted.jobs.get(job).map_or(0, |state| state.cursor);
        Ok((of_job, counted.cursor.unsigned_abs()))
    }
}

impl Counted {
    fn catch_up(&mut self, store: &Sqlite) -> Result<(), StoreError> {
        loop {
            let arrivals = store.arrivals(self.cursor, STEP)?;
            let Some(last) = arrivals.last() else { return Ok(()) };
            self.cursor = last.arrival;
            for new in arrivals {
                let job = new.job.clone();
                let none = || JobState { job, entries: 0, cursor: 0, sum: Some(IdSum::default()) };
                let state = self.jobs.entry(new.job).or_insert_with(none);
                state.entries += 1;
                state.cursor = new.arrival.unsigned_abs();
                if let Some(sum) = &mut state.sum {
                    sum.flip(&new.id);
                }
            }
        }
    }
}
