//! A record wherever it lies: the one kind of database or the other, opened by its address.

use crate::Kept;
use crate::address::{Address, Server};
use crate::carry::Table;
use crate::check::{Checked, Proved};
use crate::error::StoreError;
use crate::line::Line;
use crate::postgres::{Listener, Postgres};
use crate::sql::{Kind, Rows, Sql, Take, Told, Value, at_one_moment, one, written};
use crate::sqlite::Sqlite;
use crate::{backup, migrate};
use std::path::Path;

/// A record wherever it lies.
pub enum Database {
    /// In a file.
    Sqlite(Sqlite),
    /// On a server.
    Postgres(Box<Postgres>),
}

impl Database {
    /// Opens a database to write, making it where there is none, and brings it to the newest version. A server's
    /// database itself has to be there.
    ///
    /// # Errors
    /// When it is not ours, is damaged, is newer than this program, cannot be written, or was moved away.
    pub fn open(address: &Address) -> Result<Self, StoreError> {
        match address {
            Address::File(path) => Sqlite::open(path).map(Database::Sqlite),
            Address::Server(server) => Postgres::open(server).map(Self::on_a_server),
        }
    }

    /// Opens a database that is there, to ask it beside a writer.
    ///
    /// # Errors
    /// When there is none, it is not ours, or is damaged.
    pub fn open_existing(address: &Address) -> Result<Self, StoreError> {
        match address {
            Address::File(path) => Sqlite::open_existing(path).map(Database::Sqlite),
            Address::Server(server) => Postgres::open_to_read(server).map(Self::on_a_server),
        }
    }

    /// Opens a database to look at it, also where nothing may be written.
    ///
    /// # Errors
    /// As for `open`; what was moved away can still be looked at.
    pub fn open_to_read(address: &Address) -> Result<Self, StoreError> {
        match address {
            Address::File(path) => Sqlite::open_to_read(path).map(Database::Sqlite),
            Address::Server(server) => match Postgres::open(server) {
                Err(StoreError::ReadOnly | StoreError::Moved(_) | StoreError::NotDurable(_)) => {
                    Postgres::open_to_read(server).map(Self::on_a_server)
                }
                opened => opened.map(Self::on_a_server),
            },
        }
    }

    /// What the database says of itself at a quick look. `Ok(None)`: it is whole.
    ///
    /// # Errors
    /// When it cannot even be asked.
    pub fn quick_complaint(&self) -> Result<Option<String>, StoreError> {
        self.complaint(false)
    }

    /// The same at a whole look.
    ///
    /// # Errors
    /// When it cannot even be asked.
    pub fn whole_complaint(&self) -> Result<Option<String>, StoreError> {
        self.complaint(true)
    }

    /// Copies the record as it is at this moment into a file, and proves the copy.
    ///
    /// # Errors
    /// `InTheWay` when there is such a file; when the copy cannot be written or is not whole.
    pub fn backup(&self, to: &Path) -> Result<Checked, StoreError> {
        match self {
            Database::Sqlite(sqlite) => sqlite.backup(to),
            Database::Postgres(postgres) => {
                let postgres: &Postgres = postgres;
                let write = |part: &Path| {
                    let copy = Sqlite::open(part)?;
                    at_one_moment(postgres, || written(&copy, || crate::carry::carry(postgres, &copy)))?;
                    let checked = copy.check()?;
                    copy.settle()?;
                    Ok(checked)
                };
                backup::named_when_whole(to, write)
            }
        }
    }

    /// It is there and answers.
    ///
    /// # Errors
    /// When it does not, or is no longer the one entries are looked for in.
    pub fn answers(&self) -> Result<(), StoreError> {
        self.still_there()?;
        one(self, "SELECT value FROM setting LIMIT 1", &[], |_| Ok(())).map(drop)
    }

    /// How many bytes it takes, without what is on its way into it.
    ///
    /// # Errors
    /// When the database does not answer.
    pub fn bytes(&self) -> Result<u64, StoreError> {
        let question = match self.kind() {
            Kind::Sqlite => "SELECT page_count * page_size FROM pragma_page_count(), pragma_page_size()",
            Kind::Postgres => "SELECT pg_database_size(current_database())",
        };
        let bytes = one(self, question, &[], |row| row.number(0))?;
        Ok(bytes.unwrap_or_default().unsigned_abs())
    }

    /// Does something while nobody else writes to the database.
    pub(crate) fn still<T>(&self, work: impl FnOnce() -> Result<T, StoreError>) -> Result<T, StoreError> {
        match self {
            Database::Sqlite(sqlite) => written(sqlite, work),
            Database::Postgres(postgres) => postgres.still(work),
        }
    }

    fn on_a_server(postgres: Postgres) -> Self {
        Database::Postgres(Box::new(postgres))
    }

    fn sql(&self) -> &dyn Sql {
        match self {
            Database::Sqlite(sqlite) => sqlite,
            Database::Postgres(postgres) => &**postgres,
        }
    }

    /// The record is of the newest version, so that everything can be asked.
    ///
    /// # Errors
    /// When the database does not answer.
    pub fn is_newest(&self) -> Result<bool, StoreError> {
        self.version().map(migrate::is_newest)
    }
}

impl Address {
    /// Listens to what other programs write to the same database; `None`: they do not tell, one has to look.
    pub fn listener(&self) -> Option<Result<Listener, StoreError>> {
        match self {
            Address::File(_) => None,
            Address::Server(server) => Some(Listener::begin(server)),
        }
    }

    /// The server, if it is on one.
    pub fn server(&self) -> Option<&Server> {
        match self {
            Address::File(_) => None,
            Address::Server(server) => Some(server),
        }
    }
}

impl Sql for Database {
    fn kind(&self) -> Kind {
        self.sql().kind()
    }

    fn each(&self, question: &str, values: &[Value<'_>], take: &mut Take<'_>) -> Result<(), StoreError> {
        self.sql().each(question, values, take)
    }

    fn run(&self, statement: &str, values: &[Value<'_>]) -> Result<u64, StoreError> {
        self.sql().run(statement, values)
    }

    fn script(&self, statements: &str) -> Result<(), StoreError> {
        self.sql().script(statements)
    }

    fn begin(&self) -> Result<(), StoreError> {
        self.sql().begin()
    }

    fn begin_to_read(&self) -> Result<(), StoreError> {
        self.sql().begin_to_read()
    }

    fn commit(&self) -> Result<(), StoreError> {
        self.sql().commit()
    }

    fn rollback(&self) {
        self.sql().rollback();
    }

    fn still_there(&self) -> Result<(), StoreError> {
        self.sql().still_there()
    }

    fn keep(&self, lines: &[Line]) -> Result<Vec<Kept>, StoreError> {
        self.sql().keep(lines)
    }

    fn fill(&self, table: &Table, rows: &mut Rows<'_>) -> Result<(), StoreError> {
        self.sql().fill(table, rows)
    }

    fn last_number(&self, table: &Table) -> Result<i64, StoreError> {
        self.sql().last_number(table)
    }

    fn set_last_number(&self, table: &Table, number: i64) -> Result<(), StoreError> {
        self.sql().set_last_number(table, number)
    }

    fn tell(&self, what: Told) -> Result<(), StoreError> {
        self.sql().tell(what)
    }

    fn version(&self) -> Result<usize, StoreError> {
        self.sql().version()
    }

    fn set_version(&self, version: usize) -> Result<(), StoreError> {
        self.sql().set_version(version)
    }

    fn complaint(&self, whole: bool) -> Result<Option<String>, StoreError> {
        self.sql().complaint(whole)
    }
}
