//! Entries in whatever database: kept all or none, read back proved, handed out by cursor.
//!
//! Numbers of arrival are given out while the one writer has its turn, so whoever has read up to a cursor has
//! seen everything before it.

use crate::count::count_in;
use crate::error::StoreError;
use crate::line::Line;
use crate::named::{self, name_files};
use crate::sql::{KeptRow, Sql, Told, one, rows, written};
use crate::{Added, Arrival, Head, JobCount, Kept, Most, Page, Store, count, pull};
use record::{Held, Record};
use wire::Reader;

impl<D: Sql> Store for D {
    fn add(&mut self, entries: &[Held]) -> Result<Added, StoreError> {
        let lines: Vec<Line> = entries.iter().map(Line::of).collect();
        written(self, || {
            let mut added = Added::default();
            for (held, kept) in entries.iter().zip(keep(self, &lines)?) {
                match kept {
                    Kept::New(_) => added.new += 1,
                    Kept::Known(_) => added.known += 1,
                    Kept::Contradicts => return Err(StoreError::SameId(held.id())),
                }
            }
            Ok(added)
        })
    }

    fn add_lines(&mut self, lines: &[Line]) -> Result<Vec<Kept>, StoreError> {
        written(self, || keep(self, lines))
    }

    fn record(&self, job: &str) -> Result<Record, StoreError> {
        let question = "SELECT arrival, id, line FROM entry WHERE job = ?1 ORDER BY arrival";
        let (mut reader, mut held) = (Reader::default(), Vec::new());
        self.each(question, &[job.into()], &mut |row| {
            held.push(KeptRow::read(row)?.proved(job, &mut reader)?);
            Ok(true)
        })?;
        Record::of(held).map_err(StoreError::Merge)
    }

    fn entry(&self, id: &str) -> Result<Option<Held>, StoreError> {
        let question = "SELECT arrival, id, line, job FROM entry WHERE id = ?1
             UNION ALL SELECT number, id, line, job FROM set_aside WHERE id = ?1 AND let_in_at IS NULL";
        let found = one(self, question, &[id.into()], |row| Ok((KeptRow::read(row)?, row.text(3)?)))?;
        found.map(|(kept, job)| kept.proved(&job, &mut Reader::default())).transpose()
    }

    fn jobs_naming(&self, hash: &str) -> Result<Vec<String>, StoreError> {
        named::jobs_naming(self, hash)
    }

    fn jobs(&self) -> Result<Vec<String>, StoreError> {
        // From one job to the next by the index, without looking at the entries between them.
        let question = "WITH RECURSIVE found (job) AS (
                SELECT min(job) FROM entry
                UNION ALL
                SELECT (SELECT min(entry.job) FROM entry WHERE entry.job > found.job) FROM found
                WHERE found.job IS NOT NULL
            ) SELECT job FROM found WHERE job IS NOT NULL ORDER BY job";
        rows(self, question, &[], |row| row.text(0))
    }

    fn after(&self, job: &str, cursor: i64, most: Most) -> Result<Page, StoreError> {
        pull::after(self, job, cursor, most)
    }

    fn counts(&self) -> Result<Vec<JobCount>, StoreError> {
        count::counts(self)
    }

    fn count(&self, job: &str) -> Result<Option<JobCount>, StoreError> {
        count::count(self, job)
    }

    fn last_arrival(&self) -> Result<i64, StoreError> {
        count::last_arrival(self)
    }

    fn arrivals(&self, cursor: i64, most: usize) -> Result<Vec<Arrival>, StoreError> {
        pull::arrivals(self, cursor, most)
    }

    fn heads(&self, job: &str) -> Result<Vec<Head>, StoreError> {
        pull::heads(self, job)
    }
}

/// Keeps lines inside a transaction and counts the new ones in. Other programs are told once it is committed.
pub(crate) fn keep(sql: &dyn Sql, lines: &[Line]) -> Result<Vec<Kept>, StoreError> {
    sql.still_there()?;
    let kept = sql.keep(lines)?;
    if kept.iter().any(|kept| matches!(kept, Kept::New(_))) {
        count_in(sql, lines, &kept)?;
        name_files(sql, lines, &kept)?;
        sql.tell(Told::Arrived)?;
    }
    Ok(kept)
}
