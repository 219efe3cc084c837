//! How much there is of each job, as tablets are told.

use store::{Database, JobCount, Store, StoreError};
use wire::http::JobState;

/// Every job as it is now, by name.
pub(crate) fn jobs(store: &Database) -> Result<Vec<JobState>, StoreError> {
    Ok(store.counts()?.into_iter().map(state).collect())
}

/// The last arrival of a job; 0: none.
pub(crate) fn last_of(store: &Database, job: &str) -> Result<u64, StoreError> {
    Ok(store.count(job)?.map_or(0, |counted| counted.cursor.unsigned_abs()))
}

/// The last arrival of all; 0: none.
pub(crate) fn last(store: &Database) -> Result<u64, StoreError> {
    Ok(store.last_arrival()?.unsigned_abs())
}

fn state(counted: JobCount) -> JobState {
    let JobCount { job, entries, cursor, sum } = counted;
    JobState { job, entries, cursor: cursor.unsigned_abs(), sum: Some(sum) }
}
