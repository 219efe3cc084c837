//! The PostgreSQL store: a database that several programs on several machines write to at once.
//!
//! **One writer at a time, whoever it is.** A number of arrival is given out before its commit is seen. If two commits
//! ran side by side, the later number could be seen first, a tablet would move its cursor over it, and the entry with the
//! smaller number would never be fetched. So every transaction that writes entries first takes one lock of the
//! database (`pg_advisory_xact_lock`), which falls free only after the commit can be seen.
//!
//! Words: *session* = a connection with the statements it has ready.
//! Never: acknowledge what the server has not on its disk; send a password or a record over a network in the open.

mod asked;
mod listener;
mod texts;

pub use listener::Listener;

use crate::address::Server;
use crate::error::StoreError;
use crate::migrate::migrate;
use crate::moved;
use crate::sql::Sql;
use postgres::{Client, NoTls, Statement};
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use texts::dollars;

/// The number of the lock a writer holds: the letters SHFT.
const WRITER: i64 = 0x5348_4654;

/// What holds for every connection: how long another writer is waited for, in milliseconds, and how long a program that
/// fell silent in the middle of writing may keep the others waiting.
const SETTINGS: &str = "SET lock_timeout = 5000; SET idle_in_transaction_session_timeout = 10000;
    SET tcp_keepalives_idle = 10; SET tcp_keepalives_interval = 5; SET tcp_keepalives_count = 3";

/// Entries in a PostgreSQL database.
pub struct Postgres {
    server: Server,
    session: RefCell<Session>,
    /// A transaction is open.
    inside: Cell<bool>,
    only_reads: bool,
    /// The plan of each statement asked, for the test that none reads a whole table.
    #[cfg(test)]
    pub(crate) plans: crate::plans::Plans,
}

struct Session {
    client: Client,
    ready: BTreeMap<String, Statement>,
    /// What it was doing was broken off: it is not to be used again.
    broken: bool,
}

impl Session {
    fn begin(server: &Server, only_reads: bool) -> Result<Self, StoreError> {
        let mut client = server.config.connect(NoTls)?;
        client.batch_execute(SETTINGS)?;
        if only_reads {
            client.batch_execute("SET default_transaction_read_only = on")?;
        } else {
            durable(&mut client)?;
        }
        Ok(Session { client, ready: BTreeMap::new(), broken: false })
    }

    fn is_over(&self) -> bool {
        self.broken || self.client.is_closed()
    }

    /// A statement, made ready the first time it is asked for.
    fn statement(&mut self, text: &str) -> Result<Statement, postgres::Error> {
        if let Some(ready) = self.ready.get(text) {
            return Ok(ready.clone());
        }
        let statement = self.client.prepare(&dollars(text))?;
        self.ready.insert(text.to_owned(), statement.clone());
        Ok(statement)
    }
}

/// The server waits for its disk. Where it was told not to wait for each commit, this connection waits all the same.
fn durable(client: &mut Client) -> Result<(), StoreError> {
    let question = "SELECT current_setting('fsync'), current_setting('full_page_writes'),
        current_setting('synchronous_commit')";
    let row = client.query_one(question, &[])?;
    let set = |at: usize| row.try_get::<_, String>(at);
    if set(0)? == "off" {
        return Err(StoreError::NotDurable("fsync is off"));
    }
    if set(1)? == "off" {
        return Err(StoreError::NotDurable("full_page_writes is off"));
    }
    if set(2)? == "off" {
        client.batch_execute("SET synchronous_commit = on")?;
    }
    Ok(())
}

impl Postgres {
    /// Opens a database, makes the tables where there are none, and brings it to the newest version.
    ///
    /// # Errors
    /// When the server does not answer or does not wait for its disk; when the database is not ours or is newer than this
    /// program; when what was in it was moved away.
    pub fn open(server: &Server) -> Result<Self, StoreError> {
        let store = Self::connected(server, false)?;
        migrate(&store)?;
        moved::not_away(&store)?;
        Ok(store)
    }

    /// Opens a database to read from it only. Tables are not made and not brought to a newer version.
    ///
    /// # Errors
    /// When the server does not answer, or the database is not ours or newer than this program.
    pub fn open_to_read(server: &Server) -> Result<Self, StoreError> {
        let store = Self::connected(server, true)?;
        store.version()?;
        Ok(store)
    }

    fn connected(server: &Server, only_reads: bool) -> Result<Self, StoreError> {
        let session = RefCell::new(Session::begin(server, only_reads)?);
        Ok(Postgres {
            server: server.clone(),
            session,
            inside: Cell::new(false),
            only_reads,
            #[cfg(test)]
            plans: crate::plans::Plans::default(),
        })
    }

    /// Does something with a session that is alive: one that ended, as when the server was started anew, is begun again,
    /// unless a transaction ended with it.
    fn with<T>(
        &self,
        work: impl FnOnce(&mut Session) -> Result<T, postgres::Error>,
    ) -> Result<T, StoreError> {
        let mut session = self.session.borrow_mut();
        if session.is_over() && !self.inside.get() {
            *session = Session::begin(&self.server, self.only_reads)?;
        }
        Ok(work(&mut session)?)
    }

    /// The same, once more when the session turns out to have ended: for what may be done twice.
    fn with_again<T>(
        &self,
        mut work: impl FnMut(&mut Session) -> Result<T, postgres::Error>,
    ) -> Result<T, StoreError> {
        match self.with(&mut work) {
            Err(StoreError::Unreachable(_)) if !self.inside.get() => {
                self.session.borrow_mut().broken = true;
                self.with(work)
            }
            done => done,
        }
    }

    /// Everything, while nobody writes anything.
    ///
    /// # Errors
    /// Those of the work; when somebody else writes for too long.
    pub(crate) fn still<T>(&self, work: impl FnOnce() -> Result<T, StoreError>) -> Result<T, StoreError> {
        // The lock first: a writer that waits for it looks afterwards whether the record was moved. What is seen is
        // fixed by the first question, and that is asked after nobody else can write.
        self.script(&format!("SELECT pg_advisory_lock({WRITER})"))?;
        let tables: Vec<&str> = crate::carry::TABLES.iter().map(|table| table.name).collect();
        let lock = format!("LOCK TABLE {} IN SHARE MODE", tables.join(", "));
        let begun = self
            .script("BEGIN ISOLATION LEVEL REPEATABLE READ")
            .and_then(|()| self.script(&lock))
            .and_then(|()| self.script("SET LOCAL idle_in_transaction_session_timeout = 0"));
        let done = begun.and_then(|()| self.ended(work));
        // Where that fails the connection is gone, and the lock with it.
        drop(self.script(&format!("ROLLBACK; SELECT pg_advisory_unlock({WRITER})")));
        done
    }

    /// Runs work inside the transaction that was begun, and ends it.
    fn ended<T>(&self, work: impl FnOnce() -> Result<T, StoreError>) -> Result<T, StoreError> {
        self.inside.set(true);
        match work() {
            Ok(done) => self.commit().map(|()| done),
            Err(error) => {
                self.rollback();
                Err(error)
            }
        }
    }
}
