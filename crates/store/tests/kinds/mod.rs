//! A store of each kind there is, so that one story is told to all of them.

#![allow(dead_code, reason = "each program of tests tells other stories")]

use std::ops::{Deref, DerefMut};
use std::path::Path;
use store::{Address, Database};
use tempfile::TempDir;

/// An empty store, what it lies in, and where.
pub(crate) struct Kept {
    store: Database,
    pub(crate) address: Address,
    pub(crate) folder: TempDir,
    /// The database of the server, if it is on one; it is thrown away when the story is over.
    pub(crate) server: Option<testkit::postgres::Database>,
}

impl Deref for Kept {
    type Target = Database;

    fn deref(&self) -> &Database {
        &self.store
    }
}

impl DerefMut for Kept {
    fn deref_mut(&mut self) -> &mut Database {
        &mut self.store
    }
}

impl Kept {
    pub(crate) fn sqlite() -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let address = Address::of_file(&folder.path().join(store::DATABASE));
        Self::open(folder, address, None)
    }

    pub(crate) fn postgres() -> Self {
        let server = testkit::postgres::database();
        let address = Address::read(&server.address()).expect("an address");
        Self::open(tempfile::tempdir().expect("a folder"), address, Some(server))
    }

    fn open(folder: TempDir, address: Address, server: Option<testkit::postgres::Database>) -> Self {
        let store = Database::open(&address).expect("a store");
        Kept { store, address, folder, server }
    }

    /// The same record, by another connection.
    pub(crate) fn again(&self) -> Database {
        Database::open(&self.address).expect("opens again")
    }

    pub(crate) fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Somebody goes around the program and does something with the database; what is said when it refuses.
    pub(crate) fn by_hand(&self, statement: &str) -> Result<(), String> {
        match &self.server {
            None => {
                let hand = rusqlite::Connection::open(self.path().join(store::DATABASE)).expect("opened");
                hand.execute_batch(statement).map_err(|error| error.to_string())
            }
            Some(server) => server.by_hand(statement).map(drop),
        }
    }
}

/// Tells each kind of store the same story.
#[track_caller]
pub(crate) fn each_kind(story: impl Fn(Kept)) {
    story(Kept::sqlite());
    story(Kept::postgres());
}
