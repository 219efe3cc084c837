//! How an SQLite file answers what the rest of the crate asks.

use super::{Sqlite, identity};
use crate::Kept;
use crate::carry::Table;
use crate::error::StoreError;
use crate::line::Line;
use crate::migrate::known_version;
use crate::sql::{Columns, Kind, Put, Rows, Sql, Take, Told, Value};
use rusqlite::types::{ToSqlOutput, ValueRef};
use rusqlite::{OptionalExtension, Row, ToSql, params, params_from_iter};
use std::path::PathBuf;

/// What our databases carry as `application_id`: the letters SHFT.
const OURS: i64 = 0x5348_4654;

impl ToSql for Value<'_> {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(match self {
            Value::Nothing => ValueRef::Null,
            Value::Number(number) => ValueRef::Integer(*number),
            Value::Text(text) => ValueRef::Text(text.as_bytes()),
        }))
    }
}

impl Columns for Row<'_> {
    fn maybe_number(&self, at: usize) -> Result<Option<i64>, StoreError> {
        Ok(self.get(at)?)
    }

    fn maybe_text(&self, at: usize) -> Result<Option<String>, StoreError> {
        Ok(self.get(at)?)
    }

    fn flag(&self, at: usize) -> Result<bool, StoreError> {
        Ok(self.get(at)?)
    }
}

impl Sql for Sqlite {
    fn kind(&self) -> Kind {
        Kind::Sqlite
    }

    fn each(&self, question: &str, values: &[Value<'_>], take: &mut Take<'_>) -> Result<(), StoreError> {
        #[cfg(test)]
        self.note_plan(question, values);
        let mut statement = self.connection.prepare_cached(question)?;
        let mut rows = statement.query(params_from_iter(values))?;
        while let Some(row) = rows.next()? {
            if !take(row)? {
                break;
            }
        }
        Ok(())
    }

    fn run(&self, statement: &str, values: &[Value<'_>]) -> Result<u64, StoreError> {
        #[cfg(test)]
        self.note_plan(statement, values);
        let changed = self.connection.prepare_cached(statement)?.execute(params_from_iter(values))?;
        Ok(changed as u64)
    }

    fn script(&self, statements: &str) -> Result<(), StoreError> {
        Ok(self.connection.execute_batch(statements)?)
    }

    fn begin(&self) -> Result<(), StoreError> {
        self.script("BEGIN IMMEDIATE")
    }

    fn begin_to_read(&self) -> Result<(), StoreError> {
        self.script("BEGIN")
    }

    fn commit(&self) -> Result<(), StoreError> {
        self.script("COMMIT").inspect_err(|_| self.rollback())
    }

    fn rollback(&self) {
        // After some errors SQLite has taken everything back by itself, and then there is nothing to take back.
        if !self.connection.is_autocommit() {
            drop(self.script("ROLLBACK"));
        }
    }

    /// A file that was moved away or replaced would take entries to where nobody finds them.
    fn still_there(&self) -> Result<(), StoreError> {
        let path = self.connection.path().map(PathBuf::from).unwrap_or_default();
        if identity(&path) == self.file {
            return Ok(());
        }
        Err(StoreError::Damaged(format!("{} was moved or replaced while it was in use", path.display())))
    }

    fn keep(&self, lines: &[Line]) -> Result<Vec<Kept>, StoreError> {
        lines.iter().map(|line| self.insert(line)).collect()
    }

    fn fill(&self, table: &Table, rows: &mut Rows<'_>) -> Result<(), StoreError> {
        let places: Vec<String> = (1..=table.columns.len()).map(|at| format!("?{at}")).collect();
        let put = format!("INSERT INTO {} ({}) VALUES ({})", table.name, table.names(), places.join(", "));
        let put: &mut Put<'_> = &mut |values| self.run(&put, values).map(drop);
        rows(put)
    }

    fn last_number(&self, table: &Table) -> Result<i64, StoreError> {
        let question = "SELECT seq FROM sqlite_sequence WHERE name = ?1";
        let found = self.connection.query_row(question, [table.name], |row| row.get(0)).optional()?;
        Ok(found.unwrap_or(0))
    }

    fn set_last_number(&self, table: &Table, number: i64) -> Result<(), StoreError> {
        self.run("DELETE FROM sqlite_sequence WHERE name = ?1", &[table.name.into()])?;
        let set = "INSERT INTO sqlite_sequence (name, seq) VALUES (?1, ?2)";
        self.run(set, &[table.name.into(), number.into()]).map(drop)
    }

    /// Other programs on the same file look by themselves.
    fn tell(&self, _: Told) -> Result<(), StoreError> {
        Ok(())
    }

    fn version(&self) -> Result<usize, StoreError> {
        let number = |pragma: &str| self.connection.query_row(pragma, [], |row| row.get::<_, i64>(0));
        let (found, whose) = (number("PRAGMA user_version")?, number("PRAGMA application_id")?);
        let filled = number("SELECT count(*) FROM sqlite_master")? > 0;
        if whose != OURS && (filled || found != 0 || whose != 0) {
            return Err(StoreError::Foreign);
        }
        known_version(found)
    }

    fn set_version(&self, version: usize) -> Result<(), StoreError> {
        self.connection.pragma_update(None, "user_version", version as i64)?;
        Ok(self.connection.pragma_update(None, "application_id", OURS)?)
    }

    /// Quick is without comparing indexes with their tables: for every start.
    fn complaint(&self, whole: bool) -> Result<Option<String>, StoreError> {
        let question = if whole { "PRAGMA integrity_check" } else { "PRAGMA quick_check" };
        let said: String = self.connection.query_row(question, [], |row| row.get(0))?;
        Ok((said != "ok").then_some(said))
    }
}

impl Sqlite {
    /// What becomes of a line. One that is here must be the same, byte for byte.
    fn insert(&self, line: &Line) -> Result<Kept, StoreError> {
        let question = "SELECT arrival, line FROM entry WHERE id = ?1";
        #[cfg(test)]
        self.note_plan(question, &[Value::from(&line.id)]);
        let mut here = self.connection.prepare_cached(question)?;
        let kept: Option<(i64, String)> =
            here.query_row([&line.id], |row| Ok((row.get(0)?, row.get(1)?))).optional()?;
        if let Some((arrival, kept)) = kept {
            return Ok(if kept == line.text { Kept::Known(arrival) } else { Kept::Contradicts });
        }
        let mut insert = self.connection.prepare_cached(
            "INSERT INTO entry (id, job, shaft, device, seq, line) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
        )?;
        insert.execute(params![line.id, line.job, line.shaft, line.device, line.seq, line.text])?;
        Ok(Kept::New(self.connection.last_insert_rowid()))
    }
}

#[cfg(test)]
impl Sqlite {
    fn note_plan(&self, statement: &str, values: &[Value<'_>]) {
        self.plans.note(statement, || {
            let mut asked =
                self.connection.prepare(&format!("EXPLAIN QUERY PLAN {statement}")).expect("a plan");
            let lines = asked.query_map(params_from_iter(values), |row| row.get(3)).expect("a plan");
            lines.collect::<Result<_, _>>().expect("texts")
        });
    }
}
