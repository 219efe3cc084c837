//! The folder of a job: its database and the keys of its devices.
//!
//! ```text
//! my-job/
//!     record.sqlite       every entry, signed; or database.address, where they are in a database on a server
//!     pen.lock            held by the program that is writing, so that two do not sign under one number
//!     keys/desk.key       the key of this desk, 64 hexadecimal digits, readable by its owner only
//!     keys/<name>.key     the key of a notebook or tablet whose notes were read in here
//!     notes.toml          yours to fill in
//! ```
//!
//! The folder of an office holds the records of several jobs in the same form; `office/my-job` names one.

use crate::keys;
use crate::place;
use crate::problem::Problem;
use record::Record;
use std::fs::{File, TryLockError};
use std::path::{Path, PathBuf};
use std::time::Duration;
use store::{Address, Database, Store};
use wire::Key;

/// The key of whoever sits at this machine.
pub(crate) const DESK: &str = "desk";

/// How often, and how long each time, another writer is waited for.
const WAITS: u32 = 100;
const WAIT: Duration = Duration::from_millis(100);

/// An open job folder.
pub(crate) struct Folder {
    path: PathBuf,
    /// Which of the jobs in it is meant; `None`: the only one.
    job: Option<String>,
    store: Database,
    /// Where the record lies.
    address: Address,
    /// Held as long as entries may be signed here.
    _pen: Option<File>,
}

/// Whether a folder holds a record.
pub(crate) fn is_job(path: &Path) -> bool {
    place::is_one(path)
}

/// The bell of an office: the program that serves it holds it.
pub(crate) fn bell(path: &Path) -> PathBuf {
    path.join("bell.lock")
}

/// Whether a program serves a folder at the moment.
pub(crate) fn is_served(path: &Path) -> bool {
    File::open(bell(path)).is_ok_and(|bell| matches!(bell.try_lock(), Err(TryLockError::WouldBlock)))
}

/// Whether a path names a record: that of a folder, or one of several in a folder.
pub(crate) fn is_record(path: &Path) -> bool {
    is_job(path) || one_of_several(path).is_some()
}

impl Folder {
    /// Makes a folder; it must not hold a record yet.
    pub(crate) fn make(path: &Path) -> Result<Self, Problem> {
        if is_job(path) {
            let what = format!("{} holds a record already.", path.display());
            return Err(Problem::new(
                what,
                "Nothing was begun; the record is as it was.",
                "Choose another folder, or go on with `shaftbook enter`.",
            ));
        }
        Self::open_to_write(path)
    }

    /// Opens a folder that holds a record, to look at it.
    pub(crate) fn open(path: &Path) -> Result<Self, Problem> {
        let (path, job) = one_of_several(path).unwrap_or((path, None));
        if !is_job(path) {
            return Err(no_record(path));
        }
        let address = place::of(path)?;
        let store = Database::open_to_read(&address).map_err(|error| Problem::store(&address, &error))?;
        Ok(Folder { path: path.to_owned(), job, store, address, _pen: None })
    }

    /// Opens a folder to write, making it where there is none. Waits for another writer.
    pub(crate) fn open_to_write(path: &Path) -> Result<Self, Problem> {
        let (path, job) = one_of_several(path).unwrap_or((path, None));
        std::fs::create_dir_all(path).map_err(|error| Problem::file("Making", path, &error))?;
        let pen = pen(path)?;
        let address = place::of(path)?;
        let store = Database::open(&address).map_err(|error| Problem::store(&address, &error))?;
        Ok(Folder { path: path.to_owned(), job, store, address, _pen: Some(pen) })
    }

    /// The folder itself.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// The record in it; empty before the job is opened.
    pub(crate) fn record(&self) -> Result<Record, Problem> {
        let wrong = |error| Problem::store(&self.address, &error);
        if let Some(complaint) = self.store.whole_complaint().map_err(wrong)? {
            return Err(wrong(store::StoreError::Damaged(complaint)));
        }
        let jobs = self.store.jobs().map_err(wrong)?;
        match (&self.job, jobs.as_slice()) {
            (Some(job), _) => self.store.record(job).map_err(wrong),
            (None, []) => Ok(Record::new()),
            (None, [job]) => self.store.record(job).map_err(wrong),
            (None, [first, ..]) => {
                let what = format!("{} holds {} jobs: {}.", self.path.display(), jobs.len(), jobs.join(", "));
                let next = format!("Name one of them: --job {}.", self.path.join(first).display());
                Err(Problem::new(what, "Which one is meant was not said, so nothing was done.", next))
            }
        }
    }

    /// The record of one job in it; empty where it holds none of that name.
    pub(crate) fn record_named(&self, job: &str) -> Result<Record, Problem> {
        self.store.record(job).map_err(|error| Problem::store(&self.address, &error))
    }

    /// Keeps entries, all or none.
    pub(crate) fn add(&mut self, entries: &[record::Held]) -> Result<store::Added, Problem> {
        self.store.add(entries).map_err(|error| Problem::store(&self.address, &error))
    }

    /// The key of a device, drawn and kept when it is new.
    pub(crate) fn key(&self, name: &str) -> Result<Key, Problem> {
        keys::key(&self.path.join("keys"), name)
    }
}

/// What is told of a folder without a record.
pub(crate) fn no_record(path: &Path) -> Problem {
    let what = format!("{} holds no record.", path.display());
    let next = "Start one with `shaftbook begin FOLDER`, or name it with --job FOLDER.";
    Problem::new(what, "There was nothing to read there, and nothing was written.", next)
}

/// The folder and the job that `office/my-job` names, where `office` holds several.
fn one_of_several(path: &Path) -> Option<(&Path, Option<String>)> {
    let (office, job) = (path.parent()?, path.file_name()?.to_str()?);
    if path.exists() || !is_job(office) {
        return None;
    }
    let store = Database::open_to_read(&place::of(office).ok()?).ok()?;
    let known = store.jobs().ok()?.iter().any(|known| known == job);
    known.then(|| (office, Some(job.to_owned())))
}

/// Does something that nobody else may write beside, in a folder another part of this program has open: draws the pen of
/// the folder, and the key of its desk.
pub(crate) fn with_pen<T>(path: &Path, work: impl FnOnce(&Key) -> Result<T, Problem>) -> Result<T, Problem> {
    let pen = pen(path)?;
    let done = work(&keys::key(&path.join("keys"), DESK)?);
    drop(pen);
    done
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
    Err(Problem::new(what, "Nothing of this was written.", "Wait until it is done, then try again."))
}

/// The shaft a person named, as the record writes it.
pub(crate) fn shaft_of(record: &Record, wanted: &str) -> Result<String, Problem> {
    let shafts = record.shafts();
    let exact = shafts.iter().find(|shaft| **shaft == wanted);
    let found = exact.or_else(|| shafts.iter().find(|shaft| shaft.eq_ignore_ascii_case(wanted)));
    found.map(|shaft| (*shaft).to_owned()).ok_or_else(|| {
        let known = if shafts.is_empty() { "none yet".to_owned() } else { shafts.join(", ") };
        let what = format!("The record has no shaft `{wanted}`.");
        Problem::new(what, "No other was taken in its place.", format!("Its shafts: {known}."))
    })
}
