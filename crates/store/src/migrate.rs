//! Migrations: numbered, each run once, in one transaction.
//!
//! Each stands in a folder of its own with the reason for it, in the words of each kind of database side by side.
//! How many a database has seen is kept in the database itself, so that a copy of it knows what it is.

use crate::error::StoreError;
use crate::sql::{Kind, Sql, written};
use crate::{count, named};

/// What is done beside the statements of a migration.
type Then = fn(&dyn Sql) -> Result<(), StoreError>;

/// One migration.
struct Migration {
    sqlite: &'static str,
    postgres: &'static str,
    /// What no statement says.
    then: Option<Then>,
}

macro_rules! migration {
    ($name:literal) => {
        Migration {
            sqlite: include_str!(concat!("../migrations/", $name, "/sqlite.sql")),
            postgres: include_str!(concat!("../migrations/", $name, "/postgres.sql")),
            then: None,
        }
    };
}

/// Every migration, in order; the first is version 1.
const MIGRATIONS: &[Migration] = &[
    migration!("0001-entries"),
    migration!("0002-office"),
    migration!("0003-people"),
    Migration { then: Some(count::fill), ..migration!("0004-counts") },
    migration!("0005-names"),
    Migration { then: Some(named::fill), ..migration!("0006-photos") },
    migration!("0007-passkeys"),
    migration!("0008-tries"),
];

/// Brings a database to the newest version.
///
/// # Errors
/// When it is not ours, is newer than this program, or a migration fails; nothing has changed then.
pub(crate) fn migrate(sql: &dyn Sql) -> Result<(), StoreError> {
    if sql.version()? == MIGRATIONS.len() {
        return Ok(());
    }
    // Whoever comes second waits here, and then finds the work done.
    written(sql, || {
        for migration in &MIGRATIONS[sql.version()?..] {
            run(sql, migration)?;
        }
        sql.set_version(MIGRATIONS.len())
    })
}

fn run(sql: &dyn Sql, migration: &Migration) -> Result<(), StoreError> {
    sql.script(match sql.kind() {
        Kind::Sqlite => migration.sqlite,
        Kind::Postgres => migration.postgres,
    })?;
    migration.then.map_or(Ok(()), |then| then(sql))
}

/// A version that this program knows.
///
/// # Errors
/// When it is newer.
pub(crate) fn known_version(found: i64) -> Result<usize, StoreError> {
    let known = MIGRATIONS.len() as i64;
    let done = usize::try_from(found).ok().filter(|done| *done <= MIGRATIONS.len());
    done.ok_or(StoreError::Version { found, known })
}

/// A database has seen every migration.
pub(crate) fn is_newest(version: usize) -> bool {
    version == MIGRATIONS.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sqlite::Sqlite;

    fn schema(sqlite: &Sqlite) -> Vec<String> {
        let question = "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type, name";
        crate::sql::rows(sqlite, question, &[], |row| row.text(0)).expect("texts")
    }

    /// Every migration played one after the other, each into a database that knows only those before it.
    #[test]
    fn migrations_one_by_one_give_the_schema_of_a_fresh_database() {
        let fresh = Sqlite::in_memory();
        migrate(&fresh).expect("migrated");
        let replayed = Sqlite::in_memory();
        for migration in MIGRATIONS {
            replayed.script(migration.sqlite).expect("a migration");
        }
        assert_eq!(schema(&replayed), schema(&fresh));
        assert!(!schema(&fresh).is_empty());
    }

    #[test]
    fn migrating_twice_changes_nothing() {
        let sqlite = Sqlite::in_memory();
        migrate(&sqlite).expect("migrated");
        let once = schema(&sqlite);
        migrate(&sqlite).expect("migrated again");
        assert_eq!(schema(&sqlite), once);
        assert_eq!(sqlite.version().ok(), Some(MIGRATIONS.len()));
    }

    #[test]
    fn a_newer_database_is_refused_and_left_alone() {
        let sqlite = Sqlite::in_memory();
        migrate(&sqlite).expect("migrated");
        sqlite.script("PRAGMA user_version = 99").expect("set");
        let refused = migrate(&sqlite);
        let newest = i64::try_from(MIGRATIONS.len()).expect("a few");
        assert!(
            matches!(refused, Err(StoreError::Version { found: 99, known }) if known == newest),
            "{refused:?}"
        );
        let found =
            crate::sql::one(&sqlite, "PRAGMA user_version", &[], |row| row.number(0)).expect("a number");
        assert_eq!(found, Some(99));
    }

    #[test]
    fn a_database_of_another_program_is_refused_and_left_alone() {
        let sqlite = Sqlite::in_memory();
        sqlite.script("CREATE TABLE song (title TEXT)").expect("a table");
        let before = schema(&sqlite);
        assert!(matches!(migrate(&sqlite), Err(StoreError::Foreign)));
        assert_eq!(schema(&sqlite), before);
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
