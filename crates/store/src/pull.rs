//! Asking what is new: lines by cursor, arrivals, heads by device.

use crate::Most;
use crate::error::StoreError;
use crate::line::still_itself;
use crate::sql::{KeptRow, Sql, most as most_rows, rows};
use record::{DeviceId, EntryId};
use wire::Reader;
use wire::http::IdSum;

/// Lines of a job in order of arrival.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// The lines, each ended by a line feed.
    pub lines: String,
    /// How many.
    pub count: usize,
    /// Where to go on: the arrival of the last line, or the cursor that was asked after.
    pub cursor: i64,
    /// There are more.
    pub more: bool,
}

/// How much there is of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobCount {
    /// The job.
    pub job: String,
    /// How many entries.
    pub entries: u64,
    /// The arrival of the last.
    pub cursor: i64,
    /// The sum of their ids.
    pub sum: IdSum,
}

/// How much of a job a device wrote.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Head {
    /// The device.
    pub device: DeviceId,
    /// How many of its entries are here.
    pub entries: u64,
    /// The greatest of their numbers.
    pub last: u64,
}

/// An entry that arrived.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Arrival {
    /// Its place in the order of arrival.
    pub arrival: i64,
    /// Its job.
    pub job: String,
    /// Its id.
    pub id: EntryId,
}

pub(crate) fn after(sql: &dyn Sql, job: &str, cursor: i64, most: Most) -> Result<Page, StoreError> {
    let question =
        "SELECT arrival, id, line FROM entry WHERE job = ?1 AND arrival > ?2 ORDER BY arrival LIMIT ?3";
    let limit = most_rows(most.lines.max(1).saturating_add(1));
    let mut page = Page { lines: String::new(), count: 0, cursor, more: false };
    sql.each(question, &[job.into(), cursor.into(), limit.into()], &mut |row| {
        let row = KeptRow::read(row)?;
        let full = page.count >= most.lines || page.lines.len() + row.line.len() >= most.bytes;
        page.more = full && page.count > 0;
        if !page.more {
            page.take(row, job)?;
        }
        Ok(!page.more)
    })?;
    Ok(page)
}

impl Page {
    fn take(&mut self, row: KeptRow, job: &str) -> Result<(), StoreError> {
        let arrival = row.arrival;
        if still_itself(&row.id, &row.line).is_some() {
            self.lines.push_str(&row.line);
        } else {
            // Of a newer format, or altered: the whole proof tells.
            let line = row.line.clone();
            row.proved(job, &mut Reader::default())?;
            self.lines.push_str(&line);
        }
        self.lines.push('\n');
        self.count += 1;
        self.cursor = arrival;
        Ok(())
    }
}

pub(crate) fn heads(sql: &dyn Sql, job: &str) -> Result<Vec<Head>, StoreError> {
    let question =
        "SELECT device, count(*), max(seq) FROM entry WHERE job = ?1 GROUP BY device ORDER BY device";
    rows(sql, question, &[job.into()], |row| {
        let name = row.text(0)?;
        let device = DeviceId::from_hex(&name)
            .ok_or_else(|| StoreError::Damaged(format!("`{name}` is no name of a device")))?;
        let [entries, last] = [row.number(1)?, row.number(2)?].map(i64::unsigned_abs);
        Ok(Head { device, entries, last })
    })
}

pub(crate) fn arrivals(sql: &dyn Sql, cursor: i64, most: usize) -> Result<Vec<Arrival>, StoreError> {
    let question = "SELECT arrival, job, id FROM entry WHERE arrival > ?1 ORDER BY arrival LIMIT ?2";
    rows(sql, question, &[cursor.into(), most_rows(most).into()], |row| {
        let name = row.text(2)?;
        let id = EntryId::from_hex(&name)
            .ok_or_else(|| StoreError::Damaged(format!("`{name}` is no id of an entry")))?;
        Ok(Arrival { arrival: row.number(0)?, job: row.text(1)?, id })
    })
}
