//! Migrations: numbered, each run once, in one transaction.
//!
//! Each stands in a folder of its own with the reason for it. The version is kept in the database's own
//! `user_version`, and whose it is in its `application_id`, so that a copy of the file knows what it is.

use crate::error::StoreError;
use rusqlite::{Connection, Transaction, TransactionBehavior};

/// Every migration, in order; the first is version 1.
const MIGRATIONS: &[&str] = &[
    include_str!("../migrations/0001-entries/sqlite.sql"),
    include_str!("../migrations/0002-office/sqlite.sql"),
    include_str!("../migrations/0003-people/sqlite.sql"),
];

/// What our databases carry as `application_id`: the letters SHFT.
const OURS: i64 = 0x5348_4654;

/// Brings a database to the newest version.
///
/// # Errors
/// When it is not ours, is newer than this program, or a migration fails; nothing has changed then.
pub(crate) fn migrate(connection: &mut Connection) -> Result<(), StoreError> {
    if version(connection)? == MIGRATIONS.len() {
        return Ok(());
    }
    // Whoever comes second waits here, and then finds the work done.
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    run(&transaction)?;
    Ok(transaction.commit()?)
}

fn run(transaction: &Transaction<'_>) -> Result<(), StoreError> {
    let done = version(transaction)?;
    for migration in &MIGRATIONS[done..] {
        transaction.execute_batch(migration)?;
    }
    transaction.pragma_update(None, "user_version", MIGRATIONS.len() as i64)?;
    Ok(transaction.pragma_update(None, "application_id", OURS)?)
}

/// How many migrations a database has seen.
///
/// # Errors
/// When it is not ours, or newer than this program.
pub(crate) fn version(connection: &Connection) -> Result<usize, StoreError> {
    let number = |pragma: &str| connection.query_row(pragma, [], |row| row.get::<_, i64>(0));
    let (found, whose) = (number("PRAGMA user_version")?, number("PRAGMA application_id")?);
    let filled = number("SELECT count(*) FROM sqlite_master")? > 0;
    if whose != OURS && (filled || found != 0 || whose != 0) {
        return Err(StoreError::Foreign);
    }
    let known = MIGRATIONS.len() as i64;
    let done = usize::try_from(found).ok().filter(|done| *done <= MIGRATIONS.len());
    done.ok_or(StoreError::Version { found, known })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn schema(connection: &Connection) -> Vec<String> {
        let mut statement = connection
            .prepare("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type, name")
            .expect("a question");
        let rows = statement.query_map([], |row| row.get(0)).expect("an answer");
        rows.collect::<Result<_, _>>().expect("texts")
    }

    /// Every migration played one after the other, each into a database that knows only those before it.
    #[test]
    fn migrations_one_by_one_give_the_schema_of_a_fresh_database() {
        let mut fresh = Connection::open_in_memory().expect("a database");
        migrate(&mut fresh).expect("migrated");
        let replayed = Connection::open_in_memory().expect("a database");
        for migration in MIGRATIONS {
            replayed.execute_batch(migration).expect("a migration");
        }
        assert_eq!(schema(&replayed), schema(&fresh));
        assert!(!schema(&fresh).is_empty());
    }

    #[test]
    fn migrating_twice_changes_nothing() {
        let mut connection = Connection::open_in_memory().expect("a database");
        migrate(&mut connection).expect("migrated");
        let once = schema(&connection);
        migrate(&mut connection).expect("migrated again");
        assert_eq!(schema(&connection), once);
        assert_eq!(version(&connection).ok(), Some(MIGRATIONS.len()));
    }

    #[test]
    fn a_newer_database_is_refused_and_left_alone() {
        let mut connection = Connection::open_in_memory().expect("a database");
        migrate(&mut connection).expect("migrated");
        connection.pragma_update(None, "user_version", 99).expect("set");
        let refused = migrate(&mut connection);
        assert!(matches!(refused, Err(StoreError::Version { found: 99, known: 3 })), "{refused:?}");
        let found: i64 = connection.query_row("PRAGMA user_version", [], |row| row.get(0)).expect("a number");
        assert_eq!(found, 99);
    }

    #[test]
    fn a_database_of_another_program_is_refused_and_left_alone() {
        let mut connection = Connection::open_in_memory().expect("a database");
        connection.execute_batch("CREATE TABLE song (title TEXT)").expect("a table");
        let before = schema(&connection);
        assert!(matches!(migrate(&mut connection), Err(StoreError::Foreign)));
        assert_eq!(schema(&connection), before);
    }

    /// The folders of the migrations, by their numbers, are those the program knows.
    #[test]
    fn numbers_rise_by_one() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/migrations");
        let mut names: Vec<String> = std::fs::read_dir(folder)
            .expect("a folder")
            .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        let numbers: Vec<usize> = names.iter().map(|name| name[..4].parse().expect("a number")).collect();
        assert_eq!(numbers, (1..=MIGRATIONS.len()).collect::<Vec<_>>());
    }
}
