//! How much there is of each job, counted as lines are kept, in the commit that keeps them.
//!
//! A tablet compares the count and the sum of the ids with its own at every meeting. Counting all entries for
//! each of these questions grows with the office; a row a job does not.
//!
//! Never: be believed where it can be proved: `check` counts all entries anew.

use crate::error::StoreError;
use crate::line::Line;
use crate::sql::{Columns, KeptRow, Sql, Value, each_numbered, one, rows};
use crate::{JobCount, Kept};
use record::EntryId;
use std::collections::BTreeMap;
use wire::http::IdSum;

const COLUMNS: &str = "job, entries, cursor, sum";

fn read(row: &dyn Columns) -> Result<JobCount, StoreError> {
    let sum = row.text(3)?;
    let sum = IdSum::try_from(sum).map_err(|_| StoreError::Damaged("a sum of ids is none".to_owned()))?;
    Ok(JobCount { job: row.text(0)?, entries: row.number(1)?.unsigned_abs(), cursor: row.number(2)?, sum })
}

pub(crate) fn counts(sql: &dyn Sql) -> Result<Vec<JobCount>, StoreError> {
    rows(sql, &format!("SELECT {COLUMNS} FROM job_count ORDER BY job"), &[], read)
}

pub(crate) fn count(sql: &dyn Sql, job: &str) -> Result<Option<JobCount>, StoreError> {
    one(sql, &format!("SELECT {COLUMNS} FROM job_count WHERE job = ?1"), &[job.into()], read)
}

/// The last arrival of any job.
pub(crate) fn last_arrival(sql: &dyn Sql) -> Result<i64, StoreError> {
    let last = one(sql, "SELECT max(arrival) FROM entry", &[], |row| row.maybe_number(0))?;
    Ok(last.flatten().unwrap_or(0))
}

/// Counts new lines in.
pub(crate) fn count_in(sql: &dyn Sql, lines: &[Line], kept: &[Kept]) -> Result<(), StoreError> {
    let mut new = BTreeMap::<&str, Vec<(i64, EntryId)>>::new();
    for (line, kept) in lines.iter().zip(kept) {
        if let Kept::New(arrival) = kept {
            new.entry(&line.job).or_default().push((*arrival, id_of(&line.id)?));
        }
    }
    for (job, arrived) in new {
        let mut counted = count(sql, job)?.unwrap_or_else(|| JobCount::none(job));
        arrived.into_iter().for_each(|(arrival, id)| counted.add(arrival, &id));
        write(sql, &counted)?;
    }
    Ok(())
}

fn id_of(id: &str) -> Result<EntryId, StoreError> {
    EntryId::from_hex(id).ok_or_else(|| StoreError::Damaged(format!("`{id}` is no id of an entry")))
}

impl JobCount {
    fn none(job: &str) -> Self {
        JobCount { job: job.to_owned(), entries: 0, cursor: 0, sum: IdSum::default() }
    }

    fn add(&mut self, arrival: i64, id: &EntryId) {
        self.entries += 1;
        self.cursor = self.cursor.max(arrival);
        self.sum.flip(id);
    }
}

fn write(sql: &dyn Sql, counted: &JobCount) -> Result<(), StoreError> {
    let keep = "INSERT INTO job_count (job, entries, cursor, sum) VALUES (?1, ?2, ?3, ?4) ON CONFLICT (job)
        DO UPDATE SET entries = excluded.entries, cursor = excluded.cursor, sum = excluded.sum";
    let (entries, sum) = (i64::try_from(counted.entries).unwrap_or(i64::MAX), String::from(counted.sum));
    let values = [Value::from(&counted.job), entries.into(), counted.cursor.into(), Value::from(&sum)];
    sql.run(keep, &values).map(drop)
}

/// All entries counted, by job; reads every one of them, and hands each over with the name of its job.
pub(crate) fn anew(
    sql: &dyn Sql,
    look: &mut dyn FnMut(KeptRow, &str) -> Result<(), StoreError>,
) -> Result<Vec<JobCount>, StoreError> {
    let question = "SELECT arrival, id, line, job FROM entry WHERE arrival > ?1 ORDER BY arrival LIMIT ?2";
    let mut counted = BTreeMap::<String, JobCount>::new();
    each_numbered(sql, question, &mut |row| {
        let (kept, job) = (KeptRow::read(row)?, row.text(3)?);
        let (arrival, id) = (kept.arrival, id_of(&kept.id)?);
        look(kept, &job)?;
        counted.entry(job).or_insert_with_key(|job| JobCount::none(job)).add(arrival, &id);
        Ok(true)
    })?;
    Ok(counted.into_values().collect())
}

/// Fills the table from the entries, for a database from before there was one.
pub(crate) fn fill(sql: &dyn Sql) -> Result<(), StoreError> {
    anew(sql, &mut |_, _| Ok(()))?.iter().try_for_each(|counted| write(sql, counted))
}
