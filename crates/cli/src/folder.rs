//! The folder of a job: its database and the keys of its devices.
//!
//! ```text
//! my-job/
//!     record.sqlite       every entry, signed
//!     pen.lock            held by the program that is writing, so that two do not sign under one number
//!     keys/desk.key       the key of this desk, 64 hexadecimal digits, readable by its owner only
//!     keys/<name>.key     the key of a notebook or tablet whose notes were read in here
//!     notes.toml          yours to fill in
//! ```

use crate::keys;
use crate::problem::{ALTERED, Problem};
use record::Record;
use std::fs::{File, TryLockError};
use std::path::{Path, PathBuf};
use std::time::Duration;
use store::{Sqlite, Store};
use wire::Key;

/// The key of whoever sits at this machine.
pub(crate) const DESK: &str = "desk";

const DATABASE: &str = "record.sqlite";

/// How often, and how long each time, another writer is waited for.
const WAITS: u32 = 100;
const WAIT: Duration = Duration::from_millis(100);

/// An open job folder.
pub(crate) struct Folder {
    path: PathBuf,
    store: Sqlite,
    /// Held as long as entries may be signed here.
    _pen: Option<File>,
}

/// Whether a folder holds a record.
pub(crate) fn is_job(path: &Path) -> bool {
    path.join(DATABASE).exists()
}

impl Folder {
    /// Makes a folder; it must not hold a record yet.
    pub(crate) fn make(path: &Path) -> Result<Self, Problem> {
        if is_job(path) {
            let what = format!("{} holds a record already.", path.display());
            return Err(Problem::new(what, "Choose another folder, or go on with `shaftbook enter`."));
        }
        Self::open_to_write(path)
    }

    /// Opens a folder that holds a record, to look at it.
    pub(crate) fn open(path: &Path) -> Result<Self, Problem> {
        if !is_job(path) {
            let what = format!("{} holds no record.", path.display());
            return Err(Problem::new(
                what,
                "Start one with `shaftbook begin FOLDER`, or name it with --job FOLDER.",
            ));
        }
        let store = Sqlite::open_to_read(&path.join(DATABASE));
        let store = store.map_err(|error| Problem::store(&path.join(DATABASE), &error))?;
        Ok(Folder { path: path.to_owned(), store, _pen: None })
    }

    /// Opens a folder to write, making it where there is none. Waits for another writer.
    pub(crate) fn open_to_write(path: &Path) -> Result<Self, Problem> {
        std::fs::create_dir_all(path).map_err(|error| Problem::file("Making", path, &error))?;
        let pen = pen(path)?;
        let store = Sqlite::open(&path.join(DATABASE));
        let store = store.map_err(|error| Problem::store(&path.join(DATABASE), &error))?;
        Ok(Folder { path: path.to_owned(), store, _pen: Some(pen) })
    }

    /// The folder itself.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// The record in it; empty before the job is opened.
    pub(crate) fn record(&self) -> Result<Record, Problem> {
        let wrong = |error| Problem::store(&self.path.join(DATABASE), &error);
        if let Some(complaint) = self.store.complaint().map_err(wrong)? {
            return Err(wrong(store::StoreError::Damaged(complaint)));
        }
        let jobs = self.store.jobs().map_err(wrong)?;
        match jobs.as_slice() {
            [] => Ok(Record::new()),
            [job] => self.store.record(job).map_err(wrong),
            _ => Err(Problem::new(
                format!("{} holds the entries of {} jobs.", self.path.display(), jobs.len()),
                "One folder is for one job. Keep it as it is; merge an exported record into a new folder.",
            )
            .exit(ALTERED)),
        }
    }

    /// Keeps entries, all or none.
    pub(crate) fn add(&mut self, entries: &[record::Held]) -> Result<store::Added, Problem> {
        self.store.add(entries).map_err(|error| Problem::store(&self.path.join(DATABASE), &error))
    }

    /// The key of a device, drawn and kept when it is new.
    pub(crate) fn key(&self, name: &str) -> Result<Key, Problem> {
        keys::key(&self.path.join("keys"), name)
    }
}

/// The pen of a folder: one program at a time has it, and it falls free when that program ends, however.
fn pen(path: &Path) -> Result<File, Problem> {
    let path = path.join("pen.lock");
    let wrong = |error: std::io::Error| Problem::file("Opening", &path, &error);
    let file = File::options().create(true).append(true).open(&path).map_err(wrong)?;
    for _ in 0..WAITS {
        match file.try_lock() {
            Ok(()) => return Ok(file),
            Err(TryLockError::WouldBlock) => std::thread::sleep(WAIT),
            Err(TryLockError::Error(error)) => return Err(wrong(error)),
        }
    }
    let what = format!("Another program has been writing to this record for a while ({}).", path.display());
    Err(Problem::new(what, "Wait until it is done, then try again.").meaning("Nothing of this was written."))
}

/// The shaft a person named, as the record writes it.
pub(crate) fn shaft_of(record: &Record, wanted: &str) -> Result<String, Problem> {
    let shafts = record.shafts();
    let exact = shafts.iter().find(|shaft| **shaft == wanted);
    let found = exact.or_else(|| shafts.iter().find(|shaft| shaft.eq_ignore_ascii_case(wanted)));
    found.map(|shaft| (*shaft).to_owned()).ok_or_else(|| {
        let known = if shafts.is_empty() { "none yet".to_owned() } else { shafts.join(", ") };
        Problem::new(format!("The record has no shaft `{wanted}`."), format!("Its shafts: {known}."))
    })
}
