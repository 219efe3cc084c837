//! What is set aside: lines that came by a device that was let go. Kept byte for byte, outside the record, until somebody
//! lets them in with a reason.
//!
//! Never: erase one, let one in twice, put one into the record unasked.

use crate::error::StoreError;
use crate::line::Line;
use crate::sqlite::{Sqlite, insert};
use crate::{Kept, Row};
use rusqlite::{OptionalExtension, Transaction, TransactionBehavior, params};
use wire::Reader;

/// A line that is set aside.
#[derive(Debug, Clone, PartialEq)]
pub struct Aside {
    /// Its number here.
    pub number: i64,
    /// What it is, proved again as it is read.
    pub held: record::Held,
    /// The number of the device that brought it.
    pub brought_by: i64,
    /// When it came, seconds since 1970.
    pub at: i64,
}

/// Who lets in what, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LettingIn<'a> {
    /// The job.
    pub job: &'a str,
    /// The device that brought the lines.
    pub brought_by: i64,
    /// Up to this number, so that nothing is let in that came after somebody looked.
    pub up_to: i64,
    /// Who.
    pub by: &'a str,
    /// Why.
    pub reason: &'a str,
    /// When, seconds since 1970.
    pub now: i64,
}

/// A place that keeps what is set aside.
pub trait SetAside {
    /// Sets lines aside that a device brought, in one commit. `None`: it is aside now, or was already. `Known` or
    /// `Contradicts`: its id is in the record already, and nothing was set aside.
    ///
    /// # Errors
    /// When the store cannot be written; none is kept then.
    fn set_aside(
        &mut self,
        lines: &[Line],
        brought_by: i64,
        now: i64,
    ) -> Result<Vec<Option<Kept>>, StoreError>;

    /// What is aside of a job and was not let in, in the order it came: at most so many after a number.
    ///
    /// # Errors
    /// When the store cannot be read or a line in it was altered.
    fn aside(&self, job: &str, after: i64, most: usize) -> Result<Vec<Aside>, StoreError>;

    /// How much is aside and was not let in, by job.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn aside_of_jobs(&self) -> Result<Vec<(String, u64)>, StoreError>;

    /// Lets in what a device brought of a job: from here on it is in the record. The jobs' lines that were new, with
    /// their arrivals. One that contradicts a kept line stays aside.
    ///
    /// # Errors
    /// When the store cannot be written; none is let in then.
    fn let_in(&mut self, letting: &LettingIn<'_>) -> Result<Vec<(Line, Kept)>, StoreError>;

    /// A device calls a key of entries its own. The first one to say so keeps it.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn own_key(&mut self, key: &str, device: i64) -> Result<(), StoreError>;

    /// The device under which an entry is aside and was not let in, by its id.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn aside_under(&self, id: &str) -> Result<Option<i64>, StoreError>;

    /// The device that was let go and calls a key of entries its own, if there is one.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn gone_owner(&self, key: &str) -> Result<Option<i64>, StoreError>;
}

/// A line of the table, proved.
fn proved(row: &rusqlite::Row<'_>, reader: &mut Reader) -> Result<Aside, StoreError> {
    let (number, job): (i64, String) = (row.get(0)?, row.get(2)?);
    let kept = Row { arrival: number, id: row.get(1)?, line: row.get(3)? };
    let held = kept.proved(&job, reader)?;
    Ok(Aside { number, held, brought_by: row.get(4)?, at: row.get(5)? })
}

impl SetAside for Sqlite {
    fn set_aside(
        &mut self,
        lines: &[Line],
        brought_by: i64,
        now: i64,
    ) -> Result<Vec<Option<Kept>>, StoreError> {
        self.still_there()?;
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let each = lines.iter().map(|line| put(&transaction, line, (brought_by, now)));
        let put = each.collect::<Result<_, _>>()?;
        transaction.commit()?;
        Ok(put)
    }

    fn aside(&self, job: &str, after: i64, most: usize) -> Result<Vec<Aside>, StoreError> {
        let question = "SELECT number, id, job, line, brought_by, at FROM set_aside
             WHERE job = ?1 AND let_in_at IS NULL AND number > ?2 ORDER BY number LIMIT ?3";
        let mut statement = self.connection.prepare_cached(question)?;
        let mut rows = statement.query(params![job, after, i64::try_from(most).unwrap_or(i64::MAX)])?;
        let (mut reader, mut found) = (Reader::default(), Vec::new());
        while let Some(row) = rows.next()? {
            found.push(proved(row, &mut reader)?);
        }
        Ok(found)
    }

    fn aside_of_jobs(&self) -> Result<Vec<(String, u64)>, StoreError> {
        let question =
            "SELECT job, count(*) FROM set_aside WHERE let_in_at IS NULL GROUP BY job ORDER BY job";
        let mut statement = self.connection.prepare_cached(question)?;
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get::<_, i64>(1)?.unsigned_abs())))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn let_in(&mut self, letting: &LettingIn<'_>) -> Result<Vec<(Line, Kept)>, StoreError> {
        self.still_there()?;
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut done = Vec::new();
        for aside in chosen(&transaction, letting)? {
            let line = Line::of(&aside.held);
            let kept = insert(&transaction, &line)?;
            if kept != Kept::Contradicts {
                let mark =
                    "UPDATE set_aside SET let_in_at = ?2, let_in_by = ?3, reason = ?4 WHERE number = ?1";
                let values = params![aside.number, letting.now, letting.by, letting.reason];
                transaction.prepare_cached(mark)?.execute(values)?;
                done.push((line, kept));
            }
        }
        transaction.commit()?;
        Ok(done)
    }

    fn own_key(&mut self, key: &str, device: i64) -> Result<(), StoreError> {
        let keep = "INSERT INTO device_key (key, device) VALUES (?1, ?2) ON CONFLICT DO NOTHING";
        self.connection.prepare_cached(keep)?.execute(params![key, device])?;
        Ok(())
    }

    fn aside_under(&self, id: &str) -> Result<Option<i64>, StoreError> {
        let question = "SELECT brought_by FROM set_aside WHERE id = ?1 AND let_in_at IS NULL";
        Ok(self.connection.prepare_cached(question)?.query_row([id], |row| row.get(0)).optional()?)
    }

    fn gone_owner(&self, key: &str) -> Result<Option<i64>, StoreError> {
        let question = "SELECT device.number FROM device_key JOIN device ON device.number = device_key.device
             WHERE key = ?1 AND gone IS NOT NULL";
        Ok(self.connection.prepare_cached(question)?.query_row([key], |row| row.get(0)).optional()?)
    }
}

/// What becomes of a line that may not go into the record.
fn put(
    transaction: &Transaction<'_>,
    line: &Line,
    (brought_by, now): (i64, i64),
) -> Result<Option<Kept>, StoreError> {
    let mut here = transaction.prepare_cached("SELECT arrival, line FROM entry WHERE id = ?1")?;
    let kept: Option<(i64, String)> =
        here.query_row([&line.id], |row| Ok((row.get(0)?, row.get(1)?))).optional()?;
    if let Some((arrival, kept)) = kept {
        return Ok(Some(if kept == line.text { Kept::Known(arrival) } else { Kept::Contradicts }));
    }
    let keep = "INSERT INTO set_aside (id, job, shaft, device, seq, line, brought_by, at)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT (id) DO NOTHING";
    let values = params![line.id, line.job, line.shaft, line.device, line.seq, line.text, brought_by, now];
    transaction.prepare_cached(keep)?.execute(values)?;
    Ok(None)
}

fn chosen(transaction: &Transaction<'_>, letting: &LettingIn<'_>) -> Result<Vec<Aside>, StoreError> {
    let question = "SELECT number, id, job, line, brought_by, at FROM set_aside
         WHERE job = ?1 AND let_in_at IS NULL AND brought_by = ?2 AND number <= ?3 ORDER BY number";
    let mut statement = transaction.prepare(question)?;
    let mut rows = statement.query(params![letting.job, letting.brought_by, letting.up_to])?;
    let (mut reader, mut found) = (Reader::default(), Vec::new());
    while let Some(row) = rows.next()? {
        found.push(proved(row, &mut reader)?);
    }
    Ok(found)
}
