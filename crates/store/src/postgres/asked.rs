//! How a PostgreSQL database answers what the rest of the crate asks.

use super::texts::{field, given, kept};
use super::{Postgres, Session, WRITER};
use crate::Kept;
use crate::carry::Table;
use crate::error::StoreError;
use crate::line::Line;
use crate::migrate::known_version;
use crate::moved;
use crate::sql::{Columns, Kind, Rows, Sql, Take, Told, Value, one};
use postgres::fallible_iterator::FallibleIterator;
use postgres::types::private::BytesMut;
use postgres::types::{IsNull, ToSql, Type, to_sql_checked};
use postgres::{Row, RowIter};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::error::Error;
use std::io::Write;

/// Bytes of rows gathered before they are sent.
const PIECE: usize = 256 * 1024;

impl ToSql for Value<'_> {
    fn to_sql(&self, kind: &Type, out: &mut BytesMut) -> Result<IsNull, Box<dyn Error + Sync + Send>> {
        match self {
            Value::Nothing => Ok(IsNull::Yes),
            Value::Number(number) if *kind == Type::INT8 => number.to_sql(kind, out),
            Value::Number(_) => Err(format!("a number is given where {kind} is expected").into()),
            Value::Text(text) => kept(text).to_sql(kind, out),
        }
    }

    fn accepts(_: &Type) -> bool {
        true
    }

    to_sql_checked!();
}

fn unreadable(error: &postgres::Error) -> StoreError {
    StoreError::Damaged(error.to_string())
}

impl Columns for Row {
    fn maybe_number(&self, at: usize) -> Result<Option<i64>, StoreError> {
        self.try_get(at).map_err(|error| unreadable(&error))
    }

    fn maybe_text(&self, at: usize) -> Result<Option<String>, StoreError> {
        let text: Option<String> = self.try_get(at).map_err(|error| unreadable(&error))?;
        Ok(text.map(given))
    }

    fn flag(&self, at: usize) -> Result<bool, StoreError> {
        self.try_get(at).map_err(|error| unreadable(&error))
    }
}

impl Session {
    fn ask(&mut self, question: &str, values: &[Value<'_>]) -> Result<RowIter<'_>, postgres::Error> {
        let statement = self.statement(question)?;
        self.client.query_raw(&statement, values.iter().copied())
    }
}

/// Values as the driver takes them.
fn given_over<'a>(values: &'a [Value<'a>]) -> Vec<&'a (dyn ToSql + Sync)> {
    values.iter().map(|value| value as &(dyn ToSql + Sync)).collect()
}

/// Takes rows until no more are wanted. What fails in taking is told apart from what fails in reading.
fn each_of(rows: &mut RowIter<'_>, take: &mut Take<'_>) -> Result<Result<(), StoreError>, postgres::Error> {
    while let Some(row) = rows.next()? {
        match take(&row) {
            Ok(true) => {}
            Ok(false) => break,
            Err(error) => return Ok(Err(error)),
        }
    }
    Ok(Ok(()))
}

impl Sql for Postgres {
    fn kind(&self) -> Kind {
        Kind::Postgres
    }

    fn each(&self, question: &str, values: &[Value<'_>], take: &mut Take<'_>) -> Result<(), StoreError> {
        #[cfg(test)]
        self.note_plan(question, values);
        let mut took = false;
        let mut taking = |row: &dyn Columns| {
            took = true;
            take(row)
        };
        let asked = self.with(|session| each_of(&mut session.ask(question, values)?, &mut taking));
        match asked {
            // Nothing was handed over yet, and asking twice changes nothing.
            Err(StoreError::Unreachable(_)) if !took && !self.inside.get() => {
                self.session.borrow_mut().broken = true;
                self.with(|session| each_of(&mut session.ask(question, values)?, take))?
            }
            asked => asked?,
        }
    }

    fn run(&self, statement: &str, values: &[Value<'_>]) -> Result<u64, StoreError> {
        #[cfg(test)]
        self.note_plan(statement, values);
        self.with(|session| {
            let statement = session.statement(statement)?;
            session.client.execute(&statement, &given_over(values))
        })
    }

    fn script(&self, statements: &str) -> Result<(), StoreError> {
        self.with(|session| session.client.batch_execute(statements))
    }

    fn begin(&self) -> Result<(), StoreError> {
        let begin = format!("BEGIN; SELECT pg_advisory_xact_lock({WRITER})");
        let begun = self.with_again(|session| session.client.batch_execute(&begin));
        if begun.is_err() {
            self.rollback();
        }
        self.inside.set(begun.is_ok());
        begun
    }

    fn begin_to_read(&self) -> Result<(), StoreError> {
        let begin = "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY";
        let begun = self.with_again(|session| session.client.batch_execute(begin));
        self.inside.set(begun.is_ok());
        begun
    }

    fn commit(&self) -> Result<(), StoreError> {
        let done = self.script("COMMIT");
        self.inside.set(false);
        if done.is_err() {
            self.session.borrow_mut().broken = true;
        }
        done
    }

    fn rollback(&self) {
        self.inside.set(true);
        let done = self.script("ROLLBACK");
        self.inside.set(false);
        if done.is_err() {
            self.session.borrow_mut().broken = true;
        }
    }

    /// Asked after the lock of the writer is held: whoever moves the record away holds it too.
    fn still_there(&self) -> Result<(), StoreError> {
        moved::not_away(self)
    }

    fn keep(&self, lines: &[Line]) -> Result<Vec<Kept>, StoreError> {
        let here = self.here(lines)?;
        let mut fresh = BTreeMap::<&str, &Line>::new();
        let mut ordered = Vec::new();
        for line in lines.iter().filter(|line| !here.contains_key(&line.id)) {
            fresh.entry(&line.id).or_insert_with(|| {
                ordered.push(line);
                line
            });
        }
        let arrivals = if ordered.is_empty() { BTreeMap::new() } else { self.insert(&ordered)? };
        let answer = |line: &Line| match here.get(&line.id) {
            Some((arrival, kept)) => Ok(again(*arrival, kept, line)),
            None => {
                let arrival = *arrivals.get(&line.id).ok_or_else(not_kept)?;
                let first = fresh.get(line.id.as_str()).copied().ok_or_else(not_kept)?;
                let is_first = std::ptr::eq(first, line);
                Ok(if is_first { Kept::New(arrival) } else { again(arrival, &first.text, line) })
            }
        };
        lines.iter().map(answer).collect()
    }

    fn fill(&self, table: &Table, rows: &mut Rows<'_>) -> Result<(), StoreError> {
        let mut session = self.session.borrow_mut();
        let copy = format!("COPY {} ({}) FROM STDIN", table.name, table.names());
        let mut writer = session.client.copy_in(&copy)?;
        let mut piece = Vec::with_capacity(PIECE);
        rows(&mut |values| {
            spell(values, &mut piece);
            if piece.len() >= PIECE {
                writer.write_all(&piece)?;
                piece.clear();
            }
            Ok(())
        })?;
        writer.write_all(&piece)?;
        writer.finish()?;
        Ok(())
    }

    fn last_number(&self, table: &Table) -> Result<i64, StoreError> {
        let Some(sequence) = sequence(table) else { return Ok(0) };
        let question = format!("SELECT CASE WHEN is_called THEN last_value ELSE 0 END FROM {sequence}");
        Ok(one(self, &question, &[], |row| row.number(0))?.unwrap_or(0))
    }

    fn set_last_number(&self, table: &Table, number: i64) -> Result<(), StoreError> {
        let Some(sequence) = sequence(table) else { return Ok(()) };
        let set = match number {
            0 => format!("SELECT setval('{sequence}', 1, false)"),
            number => format!("SELECT setval('{sequence}', {number})"),
        };
        self.script(&set)
    }

    fn tell(&self, what: Told) -> Result<(), StoreError> {
        self.run("SELECT pg_notify(?1, '')", &[what.channel().into()]).map(drop)
    }

    fn version(&self) -> Result<usize, StoreError> {
        let ours = "SELECT to_regclass('shaftbook') IS NOT NULL";
        let filled = "SELECT EXISTS (SELECT 1 FROM pg_class
            WHERE relnamespace = to_regnamespace(current_schema()) AND relkind IN ('r', 'p', 'v', 'm'))";
        let is =
            |question| Ok::<_, StoreError>(one(self, question, &[], |row| row.flag(0))?.unwrap_or(false));
        match (is(ours)?, is(filled)?) {
            (true, _) => {
                let found = one(self, "SELECT version FROM shaftbook", &[], |row| row.number(0))?;
                known_version(found.unwrap_or(0))
            }
            (false, true) => Err(StoreError::Foreign),
            (false, false) => Ok(0),
        }
    }

    fn set_version(&self, version: usize) -> Result<(), StoreError> {
        self.run("DELETE FROM shaftbook", &[])?;
        self.run("INSERT INTO shaftbook (version) VALUES (?1)", &[(version as i64).into()]).map(drop)
    }

    /// The server looks after its files itself; `pg_amcheck` asks it to compare them.
    fn complaint(&self, _: bool) -> Result<Option<String>, StoreError> {
        Ok(None)
    }
}

fn not_kept() -> StoreError {
    StoreError::Database("an entry was put in, and its arrival was not told".into())
}

/// What counts the rows of a table.
fn sequence(table: &Table) -> Option<String> {
    table.numbered.map(|column| format!("{}_{column}_seq", table.name))
}

/// A row as it is copied in.
fn spell(values: &[Value<'_>], to: &mut Vec<u8>) {
    for (at, value) in values.iter().enumerate() {
        if at > 0 {
            to.push(b'\t');
        }
        match value {
            Value::Nothing => to.extend(b"\\N"),
            Value::Number(number) => to.extend(number.to_string().bytes()),
            Value::Text(text) => field(text, to),
        }
    }
    to.push(b'\n');
}

/// Entries by id: their arrival and their line.
type Here = BTreeMap<String, (i64, String)>;

/// A line under an id that is taken: the same, or a contradiction.
fn again(arrival: i64, kept: &str, line: &Line) -> Kept {
    if kept == line.text { Kept::Known(arrival) } else { Kept::Contradicts }
}

impl Postgres {
    /// Those of these lines that are here already.
    fn here(&self, lines: &[Line]) -> Result<Here, StoreError> {
        let question = "SELECT id, arrival, line FROM entry WHERE id = ANY(?1)";
        let ids: Vec<&str> = lines.iter().map(|line| line.id.as_str()).collect();
        #[cfg(test)]
        self.note_plan_of(question, &[&ids]);
        let rows = self.with(|session| {
            let statement = session.statement(question)?;
            session.client.query(&statement, &[&ids])
        })?;
        let read = |row: &Row| Ok((Columns::text(row, 0)?, (row.number(1)?, Columns::text(row, 2)?)));
        rows.iter().map(read).collect()
    }

    /// Puts lines in, in their order; the arrival of each by its id.
    fn insert(&self, lines: &[&Line]) -> Result<BTreeMap<String, i64>, StoreError> {
        let put = "INSERT INTO entry (id, job, shaft, device, seq, line)
            SELECT id, job, shaft, device, seq, line
            FROM unnest(?1::text[], ?2::text[], ?3::text[], ?4::text[], ?5::bigint[], ?6::text[])
                WITH ORDINALITY AS new (id, job, shaft, device, seq, line, place)
            ORDER BY place RETURNING id, arrival";
        let texts = |read: fn(&Line) -> &str| lines.iter().map(|line| kept(read(line))).collect::<Vec<_>>();
        let [ids, jobs, devices] =
            [texts(|line| &line.id), texts(|line| &line.job), texts(|line| &line.device)];
        let shafts: Vec<Option<Cow<'_, str>>> =
            lines.iter().map(|line| line.shaft.as_deref().map(kept)).collect();
        let numbers: Vec<i64> = lines.iter().map(|line| line.seq).collect();
        let bodies = texts(|line| &line.text);
        let values: [&(dyn ToSql + Sync); 6] = [&ids, &jobs, &shafts, &devices, &numbers, &bodies];
        #[cfg(test)]
        self.note_plan_of(put, &values);
        let rows = self.with(|session| {
            let statement = session.statement(put)?;
            session.client.query(&statement, &values)
        })?;
        rows.iter().map(|row| Ok((Columns::text(row, 0)?, row.number(1)?))).collect()
    }
}

#[cfg(test)]
impl Postgres {
    fn note_plan(&self, statement: &str, values: &[Value<'_>]) {
        self.note_plan_of(statement, &given_over(values));
    }

    /// Asks the server how it would do something.
    fn note_plan_of(&self, statement: &str, values: &[&(dyn ToSql + Sync)]) {
        self.plans.note(statement, || {
            let asked = super::texts::dollars(&format!("EXPLAIN {statement}"));
            let rows = self.session.borrow_mut().client.query(&asked, values).expect("a plan");
            rows.iter().map(|row| row.get(0)).collect()
        });
    }
}
