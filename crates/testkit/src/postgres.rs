//! A PostgreSQL for tests: started in a folder of its own, thrown away afterwards.
//!
//! It lies in memory where there is room, so that tests do not wait for a disk nobody needs, with all its promises about the
//! disk switched on as an office's has them. It listens on a socket in its folder alone, so that two test programs
//! never meet, and ends by itself when the test program ends, however.
//!
//! Never: use a server that somebody else relies on; pass over a test because there is no PostgreSQL.

use crate::disk::SmallDisk;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError, Weak};

/// Says where the programs of PostgreSQL lie when they are not where Debian puts them.
const ELSEWHERE: &str = "SHAFTBOOK_POSTGRES";

/// The cluster the tests of this program share at the moment.
static SHARED: Mutex<Weak<Cluster>> = Mutex::new(Weak::new());

/// A PostgreSQL server.
pub struct Cluster {
    keeper: Child,
    /// Closed when it is to end.
    input: Option<ChildStdin>,
    socket: String,
    made: AtomicUsize,
}

/// An empty database on a server of its own kind.
pub struct Database {
    cluster: Arc<Cluster>,
    name: String,
}

/// An empty database on the server that the tests of this program share.
///
/// # Panics
/// When there is no PostgreSQL on this machine, or it does not start: with what to do.
pub fn database() -> Database {
    cluster().database()
}

/// The server that the tests of this program share, started when none runs.
///
/// # Panics
/// As for [`database`].
pub fn cluster() -> Arc<Cluster> {
    let mut shared = SHARED.lock().unwrap_or_else(PoisonError::into_inner);
    shared.upgrade().unwrap_or_else(|| {
        let begun = Arc::new(Cluster::begin(None));
        *shared = Arc::downgrade(&begun);
        begun
    })
}

impl Cluster {
    /// A server of its own whose folder is made at a place, as on a disk that is to be measured.
    ///
    /// # Panics
    /// As for [`database`].
    pub fn at(place: &Path) -> Arc<Self> {
        Arc::new(Self::begin(Some(place)))
    }

    fn begin(place: Option<&Path>) -> Self {
        let mut keeper = command(place).spawn().expect("a shell");
        let input = keeper.stdin.take();
        let mut socket = String::new();
        BufReader::new(keeper.stdout.take().expect("its output")).read_line(&mut socket).expect("a line");
        if socket.trim().is_empty() {
            let mut said = String::new();
            let _ = keeper.stderr.take().map(|mut errors| errors.read_to_string(&mut said));
            panic!("PostgreSQL did not start:\n{said}");
        }
        Cluster { keeper, input, socket: socket.trim().to_owned(), made: AtomicUsize::new(0) }
    }

    /// A new, empty database.
    ///
    /// # Panics
    /// When the server does not make one.
    pub fn database(self: &Arc<Self>) -> Database {
        let name = format!("office_{}", self.made.fetch_add(1, Ordering::Relaxed));
        let database = Database { cluster: Arc::clone(self), name };
        self.psql("postgres", &format!("CREATE DATABASE {}", database.name)).expect("a database");
        database
    }

    /// A new, empty database whose tables lie on a disk of their own; what the server writes ahead does not.
    ///
    /// # Panics
    /// When the server does not make one.
    pub fn database_on(self: &Arc<Self>, disk: &SmallDisk) -> Database {
        let tables = disk.path().join("tables");
        std::fs::create_dir(&tables).expect("a folder");
        // They have to belong to whom the server runs as.
        let mut own = Command::new("chown");
        let owned = own.arg(format!("--reference={}", self.socket)).arg(&tables).status();
        assert!(owned.is_ok_and(|status| status.success()), "the tables cannot be given to the server");
        let name = format!("office_{}", self.made.fetch_add(1, Ordering::Relaxed));
        for statement in [
            format!("CREATE TABLESPACE small_{name} LOCATION '{}'", tables.display()),
            format!("CREATE DATABASE {name} TABLESPACE small_{name}"),
        ] {
            self.psql("postgres", &statement).expect("a database");
        }
        Database { cluster: Arc::clone(self), name }
    }

    /// Runs one of the programs of PostgreSQL against this server; what it says.
    ///
    /// # Errors
    /// What it says when it fails.
    ///
    /// # Panics
    /// When there is no such program.
    pub fn run(&self, program: &str, words: &[&str]) -> Result<String, String> {
        let mut command = Command::new(bin().join(program));
        command.args(["--host", &self.socket, "--username", "shaftbook"]).args(words);
        let done = command.output().expect("it runs");
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        if done.status.success() { Ok(text(&done.stdout)) } else { Err(text(&done.stderr)) }
    }

    fn psql(&self, database: &str, statement: &str) -> Result<String, String> {
        self.run("psql", &["--no-psqlrc", "-qAt", "-v", "ON_ERROR_STOP=1", "-c", statement, database])
    }
}

impl Drop for Cluster {
    fn drop(&mut self) {
        drop(self.input.take());
        let _ = self.keeper.wait();
    }
}

impl Database {
    /// Its address.
    pub fn address(&self) -> String {
        format!("postgres://shaftbook@{}/{}", self.cluster.socket.replace('/', "%2F"), self.name)
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The server it is on.
    pub fn cluster(&self) -> &Arc<Cluster> {
        &self.cluster
    }

    /// Does something in it by hand, around the program; what is said.
    ///
    /// # Errors
    /// What is said when the database refuses.
    pub fn by_hand(&self, statement: &str) -> Result<String, String> {
        self.cluster.psql(&self.name, statement)
    }
}

/// The newest PostgreSQL there is.
fn bin() -> PathBuf {
    if let Some(folder) = std::env::var_os(ELSEWHERE) {
        return folder.into();
    }
    let versions = std::fs::read_dir("/usr/lib/postgresql").into_iter().flatten().flatten();
    let folders = versions.map(|version| version.path().join("bin"));
    let newest = folders.filter(|folder| folder.join("initdb").exists()).max_by_key(|path| number(path));
    newest.unwrap_or_else(|| {
        panic!(
            "There is no PostgreSQL on this machine, so what it has to do was not tried. \
             Install it (Debian: apt-get install postgresql), or name the folder of initdb in {ELSEWHERE}."
        )
    })
}

fn number(bin: &Path) -> u32 {
    let version = bin.parent().and_then(Path::file_name).unwrap_or_default();
    version.to_string_lossy().parse().unwrap_or(0)
}

/// PostgreSQL refuses to run as root: then it runs as the user its package brings.
fn command(place: Option<&Path>) -> Command {
    let mut command = if is_root() {
        let mut command = Command::new("runuser");
        command.args(["-u", "postgres", "--", "sh"]);
        command
    } else {
        Command::new("sh")
    };
    command.args(["-c", include_str!("postgres.sh"), "sh"]).arg(bin()).args(place);
    command.current_dir(std::env::temp_dir());
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

fn is_root() -> bool {
    let said = Command::new("id").arg("-u").output();
    said.is_ok_and(|said| said.stdout.trim_ascii() == b"0")
}
