//! Proving a whole store: the database itself, every line of every job, and what is counted of them.

use crate::count;
use crate::error::StoreError;
use crate::migrate::is_newest;
use crate::sql::{Sql, at_one_moment};
use wire::Reader;

/// What is said of a database that is whole and holds nothing at all, not even the tables a new one is made with.
const EMPTY: &str = "there is nothing in it, not even an empty record; it was emptied, or the file named \
    record.sqlite-wal that belongs beside it is missing";

/// What was proved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Checked {
    /// Jobs.
    pub jobs: usize,
    /// Entries, each with its id and signature.
    pub entries: usize,
    /// Photos, each with its hash; counted by whoever has them.
    pub photos: usize,
}

/// A place that can be proved.
pub trait Proved {
    /// Asks the database whether it is whole, proves every line, and counts every job anew.
    ///
    /// # Errors
    /// `Damaged` with what the database says; `Altered` with the first line that is not what it was.
    fn check(&self) -> Result<Checked, StoreError>;
}

impl<D: Sql> Proved for D {
    fn check(&self) -> Result<Checked, StoreError> {
        if let Some(complaint) = self.complaint(true)? {
            return Err(StoreError::Damaged(complaint));
        }
        let version = self.version()?;
        if version == 0 {
            return Err(StoreError::Damaged(EMPTY.to_owned()));
        }
        at_one_moment(self, || every_line(self, is_newest(version)))
    }
}

/// Proves every line, and compares what is counted with what is there, unless nothing is counted yet, as in a database of an
/// earlier version that may only be read.
fn every_line(sql: &dyn Sql, counts: bool) -> Result<Checked, StoreError> {
    let (mut reader, mut entries) = (Reader::default(), 0);
    let counted = count::anew(sql, &mut |kept, job| {
        entries += 1;
        kept.proved(job, &mut reader).map(drop)
    })?;
    if counts && count::counts(sql)? != counted {
        return Err(StoreError::Damaged("what is counted of its jobs is not what is in it".to_owned()));
    }
    Ok(Checked { jobs: counted.len(), entries, photos: 0 })
}
