//! Migrations: numbered, each run once, in one transaction.
//!
//! Each stands in a folder of its own with the reason for it. The version is kept in the database's own
//! `user_version`, so that a copy of the file knows what it is.

use crate::error::StoreError;
use rusqlite::Connection;

/// Every migration, in order; the first is version 1.
const MIGRATIONS: &[&str] = &[include_str!("../migrations/0001-entries/sqlite.sql")];

/// Brings a database to the newest version.
///
/// # Errors
/// When it is newer than this program, or a migration fails; nothing has changed then.
pub(crate) fn migrate(connection: &mut Connection) -> Result<(), StoreError> {
    let found: i64 = connection.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    let known = MIGRATIONS.len() as i64;
    let done = usize::try_from(found).ok().filter(|done| *done <= MIGRATIONS.len());
    let Some(done) = done else { return Err(StoreError::Version { found, known }) };
    if done == MIGRATIONS.len() {
        return Ok(());
    }
    let transaction = connection.transaction()?;
    for migration in &MIGRATIONS[done..] {
        transaction.execute_batch(migration)?;
    }
    transaction.pragma_update(None, "user_version", known)?;
    Ok(transaction.commit()?)
}
