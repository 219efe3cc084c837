//! A record that was moved from one database to another: everything, or nothing.
//!
//! The other database must be empty. All tables go over as they are, arrivals included, because the cursors of the
//! tablets hang on them. Then both are read again, row by row, and the new one is proved line by line. Only then the
//! old one is marked: it takes nothing in any more and says where the record is. Nothing in it is erased.
//!
//! Never: write over anything; take an entry into two databases.

use crate::carry::{TABLES, Table, carry, digest};
use crate::check::{Checked, Proved};
use crate::database::Database;
use crate::error::StoreError;
use crate::office::{set, setting};
use crate::sql::{Sql, one, written};

/// The setting that says where the record went.
pub(crate) const MOVED: &str = "moved_to";

/// Nothing of it was moved away.
///
/// # Errors
/// `Moved` when it was.
pub(crate) fn not_away(sql: &dyn Sql) -> Result<(), StoreError> {
    setting(sql, MOVED)?.map_or(Ok(()), |to| Err(StoreError::Moved(to)))
}

/// Moves everything from one database to another, and marks the first with where it went.
///
/// # Errors
/// `Occupied` when there is something in the second; `Differs` when they do not hold the same afterwards; when one of
/// them does not answer. The first is as it was then, and the second is empty or to be thrown away.
pub fn move_all(from: &Database, to: &Database, named: &str) -> Result<Checked, StoreError> {
    from.still(|| {
        not_away(from)?;
        written(to, || {
            TABLES.iter().try_for_each(|table| empty(to, table))?;
            carry(from, to)
        })?;
        TABLES.iter().try_for_each(|table| same(from, to, table))?;
        let checked = to.check()?;
        set(from, MOVED, named)?;
        Ok(checked)
    })
}

fn empty(sql: &dyn Sql, table: &Table) -> Result<(), StoreError> {
    let question = format!("SELECT 1 FROM {} LIMIT 1", table.name);
    match one(sql, &question, &[], |_| Ok(()))? {
        None => Ok(()),
        Some(()) => Err(StoreError::Occupied),
    }
}

fn same(from: &dyn Sql, to: &dyn Sql, table: &Table) -> Result<(), StoreError> {
    let [there, here] = [digest(from, table)?, digest(to, table)?];
    if there == here {
        return Ok(());
    }
    let what = format!("the table {}, {} rows and {} rows", table.name, there.rows, here.rows);
    Err(StoreError::Differs(what))
}
