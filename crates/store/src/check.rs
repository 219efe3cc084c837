//! Proving a whole store: the database itself, then every line of every job.

use crate::Store;
use crate::error::StoreError;
use crate::migrate::version;
use crate::sqlite::{Row, Sqlite};
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

impl Sqlite {
    /// Asks the database whether it is whole and proves every line.
    ///
    /// # Errors
    /// `Damaged` with what the database says; `Altered` with the first line that is not what it was.
    pub fn check(&self) -> Result<Checked, StoreError> {
        if let Some(complaint) = self.complaint()? {
            return Err(StoreError::Damaged(complaint));
        }
        if version(&self.connection)? == 0 {
            return Err(StoreError::Damaged(EMPTY.to_owned()));
        }
        let mut statement =
            self.connection.prepare("SELECT arrival, id, line, job FROM entry ORDER BY arrival")?;
        let mut rows = statement.query([])?;
        let mut checked = Checked { jobs: self.jobs()?.len(), ..Checked::default() };
        let mut reader = Reader::default();
        while let Some(row) = rows.next()? {
            let job: String = row.get(3)?;
            Row { arrival: row.get(0)?, id: row.get(1)?, line: row.get(2)? }.proved(&job, &mut reader)?;
            checked.entries += 1;
        }
        Ok(checked)
    }
}
