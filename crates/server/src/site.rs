//! What a server is given to serve: a folder, a name, the app's files, and who makes the papers.
//!
//! The app and the makers of PDF and CSV are handed in, so that this crate builds without either.

use crate::desk::Desk;
use crate::journal::Journal;
use quantity::Moment;
use record::{EntryId, Record};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;
use store::{Address, DATABASE};
use wire::http::SiteClock;
use wording::Notice;

/// What a server serves.
pub struct Site {
    /// The folder that holds, or will hold, the photos, and the database where it is a file.
    pub folder: PathBuf,
    /// The database of the record; `None`: a file in the folder. Several servers may share one on a server of its own; they
    /// share the folder too.
    pub database: Option<Address>,
    /// What the office calls itself; shown on every paired device.
    pub office: String,
    /// How tablets reach it, `https://office.example:8443`, without a slash at the end; `None`: by the
    /// address it listens on. Pairing links lead there, and passkeys are bound to its name.
    pub address: Option<String>,
    /// Requests come from a proxy alone, which says in `X-Forwarded-For` whose they are. Where somebody else can
    /// reach the address too, they can pass for anybody, as far as limits by address go.
    pub behind_proxy: bool,
    /// The version of the program.
    pub version: String,
    /// The app.
    pub app: AppFiles,
    /// Who makes the papers.
    pub papers: Arc<dyn Papers>,
    /// The clock of a demonstration; `None`: the true time.
    pub clock: Option<Clock>,
    /// Who is told what happens; people are told without what went wrong inside.
    pub journal: Journal,
    /// Where a monitor asks for figures, bound already; `None`: nowhere. Whoever reaches it may read them.
    pub metrics: Option<TcpListener>,
    /// What is refused for being too much.
    pub limits: Limits,
}

/// The clock of a demonstration, asked anew each time.
pub type Clock = Arc<dyn Fn() -> SiteClock + Send + Sync>;

impl Site {
    /// A site with the true time and the ordinary limits, without a journal and without figures for a monitor.
    pub fn new(folder: &Path, office: &str, app: AppFiles, papers: Arc<dyn Papers>) -> Self {
        Site {
            folder: folder.to_owned(),
            database: None,
            office: office.to_owned(),
            address: None,
            behind_proxy: false,
            version: env!("CARGO_PKG_VERSION").to_owned(),
            app,
            papers,
            clock: None,
            journal: Arc::new(|_| ()),
            metrics: None,
            limits: Limits::default(),
        }
    }

    /// Where the record lies.
    pub(crate) fn record(&self) -> Address {
        self.database.clone().unwrap_or_else(|| Address::of_file(&self.folder.join(DATABASE)))
    }
}

/// Makes papers of a record. Runs on a thread of its own, so it may take its time.
pub trait Papers: Send + Sync {
    /// The package of a shaft as PDF.
    ///
    /// # Errors
    /// What a person is told when none can be made.
    fn package_pdf(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice>;

    /// The log of a shaft as CSV.
    ///
    /// # Errors
    /// What a person is told when none can be made.
    fn log_csv(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice>;

    /// Seals a shaft, and has the desk keep the entry that says so. Where it is sealed and nothing came after, that seal
    /// stands.
    ///
    /// # Errors
    /// What is lacking, each in a sentence; nothing was kept then.
    fn seal(&self, desk: &Desk, wanted: &SealWanted<'_>) -> Result<EntryId, Notice>;

    /// The sealed package of a shaft, as its last seal left it.
    ///
    /// # Errors
    /// Why there is none.
    fn sealed_pdf(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice>;

    /// The word of a time-stamp service that the last seal of a shaft was there, as the service gave it.
    ///
    /// # Errors
    /// Why there is none.
    fn time_stamp(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice>;

    /// A whole job as other programs read it; `None` where there is no such format.
    fn export(&self, record: &Record, format: &str) -> Option<Exported>;
}

/// What a seal is asked for.
pub struct SealWanted<'a> {
    /// The job.
    pub job: &'a str,
    /// One of its shafts.
    pub shaft: &'a str,
    /// Who seals.
    pub by: &'a str,
    /// Although findings fail that nobody decided about.
    pub with_open_findings: bool,
}

/// A job in a format of others.
pub struct Exported {
    /// The file.
    pub bytes: Vec<u8>,
    /// Its media type.
    pub media: &'static str,
    /// What its name ends in, without the dot.
    pub ending: &'static str,
}

/// What a paper is asked for. The shaft is one of the record's.
pub struct Asked<'a> {
    /// The record of the job.
    pub record: &'a Record,
    /// The name of the shaft.
    pub shaft: &'a str,
    /// The time it is made as of.
    pub at: Moment,
}

/// The files of the app, by their path without a slash in front, `index.html`.
pub type AppFiles = BTreeMap<String, AppFile>;

/// A file of the app.
#[derive(Debug, Clone)]
pub struct AppFile {
    /// Its content.
    pub bytes: Cow<'static, [u8]>,
    /// Its media type, `text/html; charset=utf-8`.
    pub media: Cow<'static, str>,
    /// Its name holds the hash of its content, so that a browser may keep it for ever.
    pub immutable: bool,
    /// Its content packed with Brotli, for browsers that take it.
    pub brotli: Option<Cow<'static, [u8]>>,
    /// Its content packed with gzip; browsers take Brotli only over HTTPS and from this machine.
    pub gzip: Option<Cow<'static, [u8]>>,
}

/// What is refused for being too much.
#[derive(Debug, Clone)]
pub struct Limits {
    /// Bytes in one delivery of entries.
    pub entries_bytes: usize,
    /// Bytes in one photo.
    pub photo_bytes: usize,
    /// Bytes in any other body.
    pub small_bytes: usize,
    /// Requests a device may make in a second, in the long run.
    pub rate: f64,
    /// Requests a device may make at once after a silence.
    pub burst: f64,
    /// How long a client may take for its headers, and for each further piece of a body.
    pub patience: Duration,
    /// How long a whole body may take.
    pub body_time: Duration,
    /// Connections open at once.
    pub connections: usize,
}

impl Default for Limits {
    /// 8 MB of entries, 25 MB a photo, 1 MB of anything else; 30 requests a second after a burst of 240.
    fn default() -> Self {
        Limits {
            entries_bytes: 8 * 1024 * 1024,
            photo_bytes: 25 * 1024 * 1024,
            small_bytes: 1024 * 1024,
            rate: 30.0,
            burst: 240.0,
            patience: Duration::from_secs(15),
            body_time: Duration::from_secs(180),
            connections: 2048,
        }
    }
}
