//! What is set aside: lines that came by a device that was let go. Kept byte for byte, outside the record, until somebody
//! lets them in with a reason.
//!
//! Never: erase one, let one in twice, put one into the record unasked.

use crate::Kept;
use crate::entries::keep;
use crate::error::StoreError;
use crate::line::Line;
use crate::sql::{Columns, KeptRow, Sql, Value, most as most_rows, one, rows, written};
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
fn proved(row: &dyn Columns, reader: &mut Reader) -> Result<Aside, StoreError> {
    let held = KeptRow::read(row)?.proved(&row.text(3)?, reader)?;
    Ok(Aside { number: row.number(0)?, held, brought_by: row.number(4)?, at: row.number(5)? })
}

fn found(sql: &dyn Sql, question: &str, values: &[Value<'_>]) -> Result<Vec<Aside>, StoreError> {
    let (mut reader, mut found) = (Reader::default(), Vec::new());
    sql.each(question, values, &mut |row| {
        found.push(proved(row, &mut reader)?);
        Ok(true)
    })?;
    Ok(found)
}

impl<D: Sql> SetAside for D {
    fn set_aside(
        &mut self,
        lines: &[Line],
        brought_by: i64,
        now: i64,
    ) -> Result<Vec<Option<Kept>>, StoreError> {
        written(self, || {
            self.still_there()?;
            lines.iter().map(|line| put(self, line, (brought_by, now))).collect()
        })
    }

    fn aside(&self, job: &str, after: i64, most: usize) -> Result<Vec<Aside>, StoreError> {
        let question = "SELECT number, id, line, job, brought_by, at FROM set_aside
             WHERE job = ?1 AND let_in_at IS NULL AND number > ?2 ORDER BY number LIMIT ?3";
        found(self, question, &[job.into(), after.into(), most_rows(most).into()])
    }

    fn aside_of_jobs(&self) -> Result<Vec<(String, u64)>, StoreError> {
        let question =
            "SELECT job, count(*) FROM set_aside WHERE let_in_at IS NULL GROUP BY job ORDER BY job";
        rows(self, question, &[], |row| Ok((row.text(0)?, row.number(1)?.unsigned_abs())))
    }

    fn let_in(&mut self, letting: &LettingIn<'_>) -> Result<Vec<(Line, Kept)>, StoreError> {
        written(self, || {
            let mut done = Vec::new();
            for aside in chosen(self, letting)? {
                let line = Line::of(&aside.held);
                let kept = keep(self, std::slice::from_ref(&line))?.remove(0);
                if kept != Kept::Contradicts {
                    mark(self, aside.number, letting)?;
                    done.push((line, kept));
                }
            }
            Ok(done)
        })
    }

    fn own_key(&mut self, key: &str, device: i64) -> Result<(), StoreError> {
        let keep = "INSERT INTO device_key (key, device) VALUES (?1, ?2) ON CONFLICT DO NOTHING";
        self.run(keep, &[key.into(), device.into()]).map(drop)
    }

    fn aside_under(&self, id: &str) -> Result<Option<i64>, StoreError> {
        let question = "SELECT brought_by FROM set_aside WHERE id = ?1 AND let_in_at IS NULL";
        one(self, question, &[id.into()], |row| row.number(0))
    }

    fn gone_owner(&self, key: &str) -> Result<Option<i64>, StoreError> {
        let question = "SELECT device.number FROM device_key JOIN device ON device.number = device_key.device
             WHERE key = ?1 AND gone IS NOT NULL";
        one(self, question, &[key.into()], |row| row.number(0))
    }
}

/// What becomes of a line that may not go into the record.
fn put(sql: &dyn Sql, line: &Line, (brought_by, now): (i64, i64)) -> Result<Option<Kept>, StoreError> {
    let here = "SELECT arrival, line FROM entry WHERE id = ?1";
    let kept = one(sql, here, &[Value::from(&line.id)], |row| Ok((row.number(0)?, row.text(1)?)))?;
    if let Some((arrival, kept)) = kept {
        return Ok(Some(if kept == line.text { Kept::Known(arrival) } else { Kept::Contradicts }));
    }
    let keep = "INSERT INTO set_aside (id, job, shaft, device, seq, line, brought_by, at)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT (id) DO NOTHING";
    let (shaft, seq) = (Value::from(line.shaft.as_ref()), Value::from(line.seq));
    let [id, job, device, text] = [&line.id, &line.job, &line.device, &line.text].map(Value::from);
    sql.run(keep, &[id, job, shaft, device, seq, text, brought_by.into(), now.into()])?;
    Ok(None)
}

fn mark(sql: &dyn Sql, number: i64, letting: &LettingIn<'_>) -> Result<(), StoreError> {
    let mark = "UPDATE set_aside SET let_in_at = ?2, let_in_by = ?3, reason = ?4 WHERE number = ?1";
    let values = [number.into(), letting.now.into(), letting.by.into(), letting.reason.into()];
    sql.run(mark, &values).map(drop)
}

fn chosen(sql: &dyn Sql, letting: &LettingIn<'_>) -> Result<Vec<Aside>, StoreError> {
    let question = "SELECT number, id, line, job, brought_by, at FROM set_aside
         WHERE job = ?1 AND let_in_at IS NULL AND brought_by = ?2 AND number <= ?3 ORDER BY number";
    found(sql, question, &[letting.job.into(), letting.brought_by.into(), letting.up_to.into()])
}
