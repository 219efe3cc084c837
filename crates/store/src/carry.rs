//! Every table with its columns, so that all of one database can be carried into another, whatever their kinds.
//!
//! Words: *carry* = to put every row of every table into another database as it is.
//! Never: leave a table or a column out; a test compares this list with the tables themselves.

use crate::error::StoreError;
use crate::sql::{Columns, Sql, Take, Value, each_numbered};

/// A table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Table {
    /// Its name.
    pub name: &'static str,
    /// The column that counts its rows, if one does.
    pub numbered: Option<&'static str>,
    /// What tells its rows apart, to put them in order.
    pub order: &'static str,
    /// Its columns; those that hold numbers begin with `#`.
    pub columns: &'static [&'static str],
}

/// Every table.
pub(crate) const TABLES: &[Table] = &[
    Table {
        name: "entry",
        numbered: Some("arrival"),
        order: "arrival",
        columns: &["#arrival", "id", "job", "shaft", "device", "#seq", "line"],
    },
    Table {
        name: "job_count",
        numbered: None,
        order: "job",
        columns: &["job", "#entries", "#cursor", "sum"],
    },
    Table { name: "named_file", numbered: None, order: "hash, job", columns: &["hash", "job"] },
    Table {
        name: "device",
        numbered: Some("number"),
        order: "number",
        columns: &["#number", "device", "name", "token", "paired_at", "#person", "#gone"],
    },
    Table { name: "pairing_code", numbered: None, order: "code", columns: &["code", "#until", "#person"] },
    Table { name: "setting", numbered: None, order: "name", columns: &["name", "value"] },
    Table {
        name: "person",
        numbered: Some("number"),
        order: "number",
        columns: &["#number", "name", "secret", "#since", "#gone", "signs_as"],
    },
    Table { name: "role", numbered: None, order: "person, job, role", columns: &["#person", "job", "role"] },
    Table { name: "invitation", numbered: None, order: "code", columns: &["code", "#person", "#until"] },
    Table {
        name: "session",
        numbered: None,
        order: "token",
        columns: &["token", "#person", "#seen", "#until"],
    },
    Table {
        name: "sign_in",
        numbered: Some("number"),
        order: "number",
        columns: &["#number", "#at", "what", "person", "address", "about"],
    },
    Table {
        name: "passkey",
        numbered: Some("number"),
        order: "number",
        columns: &["#number", "#person", "id", "handle", "name", "key", "#since", "#used"],
    },
    Table {
        name: "ceremony",
        numbered: None,
        order: "token",
        columns: &["token", "#person", "address", "state", "#until"],
    },
    Table { name: "wrong_try", numbered: None, order: "who", columns: &["who", "#tries", "#last", "#until"] },
    Table { name: "device_key", numbered: None, order: "key", columns: &["key", "#device"] },
    Table {
        name: "set_aside",
        numbered: Some("number"),
        order: "number",
        columns: &[
            "#number",
            "id",
            "job",
            "shaft",
            "device",
            "#seq",
            "line",
            "#brought_by",
            "#at",
            "#let_in_at",
            "let_in_by",
            "reason",
        ],
    },
];

impl Table {
    /// The names of its columns, with commas between.
    pub(crate) fn names(&self) -> String {
        let names: Vec<&str> = self.columns.iter().map(|column| column.trim_start_matches('#')).collect();
        names.join(", ")
    }

    /// Hands over every row, in order; the number of one that counts them is its first column.
    fn each(&self, sql: &dyn Sql, take: &mut Take<'_>) -> Result<(), StoreError> {
        let (names, name, order) = (self.names(), self.name, self.order);
        match self.numbered {
            None => sql.each(&format!("SELECT {names} FROM {name} ORDER BY {order}"), &[], take),
            Some(number) => {
                let piece =
                    format!("SELECT {names} FROM {name} WHERE {number} > ?1 ORDER BY {number} LIMIT ?2");
                each_numbered(sql, &piece, take)
            }
        }
    }

    fn read(&self, row: &dyn Columns) -> Result<Vec<Owned>, StoreError> {
        let read = |(at, column): (usize, &&str)| match column.starts_with('#') {
            true => Ok(row.maybe_number(at)?.map_or(Owned::Nothing, Owned::Number)),
            false => Ok(row.maybe_text(at)?.map_or(Owned::Nothing, Owned::Text)),
        };
        self.columns.iter().enumerate().map(read).collect()
    }
}

/// A value that was read.
enum Owned {
    Nothing,
    Number(i64),
    Text(String),
}

impl Owned {
    fn value(&self) -> Value<'_> {
        match self {
            Owned::Nothing => Value::Nothing,
            Owned::Number(number) => Value::Number(*number),
            Owned::Text(text) => Value::Text(text),
        }
    }

    /// The value so that no two rows look alike that are not.
    fn spell(&self, to: &mut Vec<u8>) {
        match self {
            Owned::Nothing => to.push(0),
            Owned::Number(number) => {
                to.push(1);
                to.extend(number.to_be_bytes());
            }
            Owned::Text(text) => {
                to.push(2);
                to.extend((text.len() as u64).to_be_bytes());
                to.extend(text.as_bytes());
            }
        }
    }
}

/// Puts every row of one database into another, inside a transaction of the other.
pub(crate) fn carry(from: &dyn Sql, to: &dyn Sql) -> Result<(), StoreError> {
    for table in TABLES {
        to.fill(table, &mut |put| {
            table.each(from, &mut |row| {
                let owned = table.read(row)?;
                put(&owned.iter().map(Owned::value).collect::<Vec<_>>())?;
                Ok(true)
            })
        })?;
        if table.numbered.is_some() {
            to.set_last_number(table, from.last_number(table)?)?;
        }
    }
    Ok(())
}

/// What a table holds, so that two can be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Digest {
    /// How many rows.
    pub(crate) rows: u64,
    /// Over every row, in order, and the number given out last.
    sum: [u8; 32],
}

/// Reads a table through.
pub(crate) fn digest(sql: &dyn Sql, table: &Table) -> Result<Digest, StoreError> {
    let last = if table.numbered.is_some() { sql.last_number(table)? } else { 0 };
    let mut digest = Digest { rows: 0, sum: wire::sha256(&last.to_be_bytes()) };
    let mut bytes = Vec::new();
    table.each(sql, &mut |row| {
        bytes.clear();
        bytes.extend(digest.sum);
        table.read(row)?.iter().for_each(|value| value.spell(&mut bytes));
        digest = Digest { rows: digest.rows + 1, sum: wire::sha256(&bytes) };
        Ok(true)
    })?;
    Ok(digest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::migrate::migrate;
    use crate::sql::rows;
    use crate::sqlite::Sqlite;

    /// Expected: what the database itself says of its tables.
    #[test]
    fn every_table_and_every_column_is_in_the_list() {
        let sqlite = Sqlite::in_memory();
        migrate(&sqlite).expect("migrated");
        let question = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'";
        let mut tables = rows(&sqlite, question, &[], |row| row.text(0)).expect("tables");
        tables.sort();
        let mut listed: Vec<&str> = TABLES.iter().map(|table| table.name).collect();
        listed.sort_unstable();
        assert_eq!(tables, listed);
        for table in TABLES {
            let question = format!("SELECT name, type FROM pragma_table_info('{}')", table.name);
            let column = |row: &dyn Columns| {
                let mark = if row.text(1)? == "INTEGER" { "#" } else { "" };
                Ok(format!("{mark}{}", row.text(0)?))
            };
            let mut columns = rows(&sqlite, &question, &[], column).expect("columns");
            let mut listed = table.columns.to_vec();
            columns.sort();
            listed.sort_unstable();
            assert_eq!(columns, listed, "{}", table.name);
        }
    }
}
