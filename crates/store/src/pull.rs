//! Asking what is new: lines by cursor, counts by job, heads by device.
//!
//! SQLite has one writer and hands arrivals out inside its transaction, so whoever has read up to a cursor
//! has seen everything before it.

use crate::Most;
use crate::error::StoreError;
use crate::line::still_itself;
use crate::sqlite::Row;
use record::{DeviceId, EntryId};
use rusqlite::Connection;
use wire::Reader;

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

pub(crate) fn after(connection: &Connection, job: &str, cursor: i64, most: Most) -> Result<Page, StoreError> {
    let question = "SELECT arrival, id, line FROM entry WHERE job = ?1 AND arrival > ?2 ORDER BY arrival";
    let mut statement = connection.prepare_cached(question)?;
    let mut rows = statement.query((job, cursor))?;
    let mut page = Page { lines: String::new(), count: 0, cursor, more: false };
    while let Some(row) = rows.next()? {
        let row = Row { arrival: row.get(0)?, id: row.get(1)?, line: row.get(2)? };
        let full = page.count >= most.lines || page.lines.len() + row.line.len() >= most.bytes;
        if full && page.count > 0 {
            page.more = true;
            break;
        }
        page.take(row, job)?;
    }
    Ok(page)
}

impl Page {
    fn take(&mut self, row: Row, job: &str) -> Result<(), StoreError> {
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

pub(crate) fn counts(connection: &Connection) -> Result<Vec<JobCount>, StoreError> {
    let question = "SELECT job, count(*), max(arrival) FROM entry GROUP BY job ORDER BY job";
    let mut statement = connection.prepare_cached(question)?;
    let counts = statement.query_map([], |row| {
        Ok(JobCount { job: row.get(0)?, entries: row.get::<_, i64>(1)?.unsigned_abs(), cursor: row.get(2)? })
    })?;
    Ok(counts.collect::<Result<_, _>>()?)
}

pub(crate) fn heads(connection: &Connection, job: &str) -> Result<Vec<Head>, StoreError> {
    let question =
        "SELECT device, count(*), max(seq) FROM entry WHERE job = ?1 GROUP BY device ORDER BY device";
    let mut statement = connection.prepare_cached(question)?;
    let mut rows = statement.query([job])?;
    let mut heads = Vec::new();
    while let Some(row) = rows.next()? {
        let name: String = row.get(0)?;
        let device = DeviceId::from_hex(&name)
            .ok_or_else(|| StoreError::Damaged(format!("`{name}` is no name of a device")))?;
        let [entries, last] = [row.get::<_, i64>(1)?, row.get::<_, i64>(2)?].map(i64::unsigned_abs);
        heads.push(Head { device, entries, last });
    }
    Ok(heads)
}

pub(crate) fn arrivals(
    connection: &Connection,
    cursor: i64,
    most: usize,
) -> Result<Vec<Arrival>, StoreError> {
    let question = "SELECT arrival, job, id FROM entry WHERE arrival > ?1 ORDER BY arrival LIMIT ?2";
    let mut statement = connection.prepare_cached(question)?;
    let mut rows = statement.query((cursor, i64::try_from(most).unwrap_or(i64::MAX)))?;
    let mut arrivals = Vec::new();
    while let Some(row) = rows.next()? {
        let name: String = row.get(2)?;
        let id = EntryId::from_hex(&name)
            .ok_or_else(|| StoreError::Damaged(format!("`{name}` is no id of an entry")))?;
        arrivals.push(Arrival { arrival: row.get(0)?, job: row.get(1)?, id });
    }
    Ok(arrivals)
}
