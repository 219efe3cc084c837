//! A database as the rest of this crate asks it: one text for every kind of database.
//!
//! Values stand in a statement as `?1`, `?2`, and are handed over beside it. What differs between the kinds of
//! database stands behind `Sql`; whoever asks does not know which one answers.
//!
//! Words: *question* = a statement that answers with rows; *kept row* = an entry as it lies there.
//! Never: write a value into a statement; ask a second question inside an answer.

use crate::Kept;
use crate::carry::Table;
use crate::error::StoreError;
use crate::line::Line;
use record::Held;
use wire::Reader;

/// A value that is handed over beside a statement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Value<'a> {
    /// Nothing is known.
    Nothing,
    /// A whole number.
    Number(i64),
    /// A text.
    Text(&'a str),
}

impl From<i64> for Value<'_> {
    fn from(number: i64) -> Self {
        Value::Number(number)
    }
}

impl<'a> From<&'a str> for Value<'a> {
    fn from(text: &'a str) -> Self {
        Value::Text(text)
    }
}

impl<'a> From<&'a String> for Value<'a> {
    fn from(text: &'a String) -> Self {
        Value::Text(text)
    }
}

impl<'a, T: Into<Value<'a>>> From<Option<T>> for Value<'a> {
    fn from(value: Option<T>) -> Self {
        value.map_or(Value::Nothing, Into::into)
    }
}

/// The columns of a row, counted from 0.
pub trait Columns {
    /// A number, or nothing.
    ///
    /// # Errors
    /// `Damaged` when the column holds something else.
    fn maybe_number(&self, at: usize) -> Result<Option<i64>, StoreError>;

    /// A text, or nothing.
    ///
    /// # Errors
    /// `Damaged` when the column holds something else.
    fn maybe_text(&self, at: usize) -> Result<Option<String>, StoreError>;

    /// Yes or no.
    ///
    /// # Errors
    /// `Damaged` when the column holds something else.
    fn flag(&self, at: usize) -> Result<bool, StoreError>;

    /// A number.
    ///
    /// # Errors
    /// `Damaged` when the column holds something else, or nothing.
    fn number(&self, at: usize) -> Result<i64, StoreError> {
        self.maybe_number(at)?.ok_or_else(|| blank(at))
    }

    /// A text.
    ///
    /// # Errors
    /// `Damaged` when the column holds something else, or nothing.
    fn text(&self, at: usize) -> Result<String, StoreError> {
        self.maybe_text(at)?.ok_or_else(|| blank(at))
    }
}

fn blank(at: usize) -> StoreError {
    StoreError::Damaged(format!("column {at} of a row is blank"))
}

/// Takes a row; whether there shall be more.
pub(crate) type Take<'a> = dyn FnMut(&dyn Columns) -> Result<bool, StoreError> + 'a;

/// Takes the values of a row that is to be put into a table.
pub(crate) type Put<'a> = dyn FnMut(&[Value<'_>]) -> Result<(), StoreError> + 'a;

/// Hands out row after row to whoever puts them into a table.
pub(crate) type Rows<'a> = dyn FnMut(&mut Put<'_>) -> Result<(), StoreError> + 'a;

/// Which kind of database answers, where its text has to differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// One file.
    Sqlite,
    /// A server.
    Postgres,
}

/// What other programs on the same database are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Told {
    /// Something arrived.
    Arrived,
    /// Somebody may do more or less than before.
    Rights,
}

/// A database that is asked.
pub trait Sql {
    /// Which kind it is.
    fn kind(&self) -> Kind;

    /// Asks, and hands over row after row until no more are wanted.
    ///
    /// # Errors
    /// When the database does not answer, or what takes the rows fails.
    fn each(&self, question: &str, values: &[Value<'_>], take: &mut Take<'_>) -> Result<(), StoreError>;

    /// Does something; to how many rows.
    ///
    /// # Errors
    /// When the database does not do it.
    fn run(&self, statement: &str, values: &[Value<'_>]) -> Result<u64, StoreError>;

    /// Runs several statements without values.
    ///
    /// # Errors
    /// When the database does not do one.
    fn script(&self, statements: &str) -> Result<(), StoreError>;

    /// Begins to write. Another writer is waited for, in whatever process: from here to the commit there is one.
    ///
    /// # Errors
    /// When the other writer takes too long, or the database may not be written.
    fn begin(&self) -> Result<(), StoreError>;

    /// Begins to read: everything is as it is at this moment, until the end, while others go on writing.
    ///
    /// # Errors
    /// When the database does not answer.
    fn begin_to_read(&self) -> Result<(), StoreError>;

    /// Ends writing; it is on the disk.
    ///
    /// # Errors
    /// When that is not certain.
    fn commit(&self) -> Result<(), StoreError>;

    /// Ends writing; nothing has changed. What cannot be taken back is lost with the connection.
    fn rollback(&self);

    /// The database still is the one that entries are looked for in.
    ///
    /// # Errors
    /// When it is not.
    fn still_there(&self) -> Result<(), StoreError>;

    /// Puts lines into the table of entries, inside a transaction: what became of each.
    ///
    /// # Errors
    /// When the database does not take them.
    fn keep(&self, lines: &[Line]) -> Result<Vec<Kept>, StoreError>;

    /// Puts rows into a table as they are, many at once.
    ///
    /// # Errors
    /// When the database does not take one.
    fn fill(&self, table: &Table, rows: &mut Rows<'_>) -> Result<(), StoreError>;

    /// The number that was given out last in a table that counts its rows; 0: none.
    ///
    /// # Errors
    /// When the database does not answer.
    fn last_number(&self, table: &Table) -> Result<i64, StoreError>;

    /// Numbers of a table go on after this one.
    ///
    /// # Errors
    /// When the database does not do it.
    fn set_last_number(&self, table: &Table, number: i64) -> Result<(), StoreError>;

    /// Tells other programs on the same database, once what is being written is committed.
    ///
    /// # Errors
    /// When the database does not do it.
    fn tell(&self, what: Told) -> Result<(), StoreError>;

    /// How many migrations it has seen.
    ///
    /// # Errors
    /// When it is not ours, or newer than this program.
    fn version(&self) -> Result<usize, StoreError>;

    /// It has seen so many.
    ///
    /// # Errors
    /// When the database does not do it.
    fn set_version(&self, version: usize) -> Result<(), StoreError>;

    /// What the database says of itself when it is damaged; a quick look or a whole one.
    ///
    /// # Errors
    /// When it cannot even be asked.
    fn complaint(&self, whole: bool) -> Result<Option<String>, StoreError>;
}

/// The rows of an answer.
pub(crate) fn rows<T>(
    sql: &dyn Sql,
    question: &str,
    values: &[Value<'_>],
    read: impl Fn(&dyn Columns) -> Result<T, StoreError>,
) -> Result<Vec<T>, StoreError> {
    let mut found = Vec::new();
    sql.each(question, values, &mut |row| {
        found.push(read(row)?);
        Ok(true)
    })?;
    Ok(found)
}

/// The first row of an answer.
pub(crate) fn one<T>(
    sql: &dyn Sql,
    question: &str,
    values: &[Value<'_>],
    read: impl Fn(&dyn Columns) -> Result<T, StoreError>,
) -> Result<Option<T>, StoreError> {
    let mut found = None;
    sql.each(question, values, &mut |row| {
        found = Some(read(row)?);
        Ok(false)
    })?;
    Ok(found)
}

/// Writes all of something or nothing.
pub(crate) fn written<T>(
    sql: &dyn Sql,
    work: impl FnOnce() -> Result<T, StoreError>,
) -> Result<T, StoreError> {
    sql.begin()?;
    match work() {
        Ok(done) => sql.commit().map(|()| done),
        Err(error) => {
            sql.rollback();
            Err(error)
        }
    }
}

/// Reads everything as it is at one moment, while others go on writing.
pub(crate) fn at_one_moment<T>(
    sql: &dyn Sql,
    work: impl FnOnce() -> Result<T, StoreError>,
) -> Result<T, StoreError> {
    sql.begin_to_read()?;
    let read = work();
    sql.rollback();
    read
}

/// Rows of a large table asked for at a time.
const PIECE: i64 = 5000;

/// Every row of a table that counts its rows, piece by piece, so that it is never all in memory. The question begins with
/// the number, asks for those above `?1` in their order, and for `?2` at most.
pub(crate) fn each_numbered(sql: &dyn Sql, question: &str, take: &mut Take<'_>) -> Result<(), StoreError> {
    let mut last = i64::MIN;
    loop {
        let mut found = 0;
        sql.each(question, &[last.into(), PIECE.into()], &mut |row| {
            (found, last) = (found + 1, row.number(0)?);
            take(row)
        })?;
        if found < PIECE {
            return Ok(());
        }
    }
}

/// A number of rows as a database takes it.
pub(crate) fn most(rows: usize) -> i64 {
    i64::try_from(rows).unwrap_or(i64::MAX)
}

/// A row as it lies there.
pub(crate) struct KeptRow {
    pub(crate) arrival: i64,
    pub(crate) id: String,
    pub(crate) line: String,
}

impl KeptRow {
    /// Of a row that begins with arrival, id, line.
    pub(crate) fn read(row: &dyn Columns) -> Result<Self, StoreError> {
        Ok(KeptRow { arrival: row.number(0)?, id: row.text(1)?, line: row.text(2)? })
    }

    /// The entry, its id and signature proved, filed under its own name.
    pub(crate) fn proved(self, job: &str, reader: &mut Reader) -> Result<Held, StoreError> {
        let altered = |fault| StoreError::Altered { arrival: self.arrival, fault };
        let held = reader.read(&self.line).map_err(|fault| altered(Some(fault)))?;
        let filed = held.id().to_string() == self.id && held.job() == job;
        if filed { Ok(held) } else { Err(altered(None)) }
    }
}
