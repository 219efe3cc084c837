//! The folder of a job: its database and the keys of its devices.
//!
//! ```text
//! my-job/
//!     record.sqlite       every entry, signed
//!     keys/desk.key       the key of this desk, 64 hexadecimal digits, readable by its owner only
//!     keys/<name>.key     the key of a notebook or tablet whose notes were read in here
//!     notes.toml          yours to fill in
//! ```

use crate::problem::{ALTERED, Problem};
use quantity::Moment;
use record::{Log, Record};
use std::path::{Path, PathBuf};
use store::{Sqlite, Store};
use wire::Key;

/// The key of whoever sits at this machine.
pub(crate) const DESK: &str = "desk";

/// An open job folder.
pub(crate) struct Folder {
    path: PathBuf,
    store: Sqlite,
}

impl Folder {
    /// Makes a folder; it must not hold a record yet.
    pub(crate) fn make(path: &Path) -> Result<Self, Problem> {
        if path.join("record.sqlite").exists() {
            let what = format!("{} holds a record already.", path.display());
            return Err(Problem::new(what, "Choose another folder, or go on with `shaftbook enter`."));
        }
        std::fs::create_dir_all(path).map_err(|error| Problem::file("Making", path, &error))?;
        Self::at(path)
    }

    /// Opens a folder that holds a record.
    pub(crate) fn open(path: &Path) -> Result<Self, Problem> {
        if !path.join("record.sqlite").exists() {
            let what = format!("{} holds no record.", path.display());
            return Err(Problem::new(what, "Start one with `shaftbook begin FOLDER`, or name it with --job FOLDER."));
        }
        Self::at(path)
    }

    fn at(path: &Path) -> Result<Self, Problem> {
        let store = Sqlite::open(&path.join("record.sqlite"))?;
        Ok(Folder { path: path.to_owned(), store })
    }

    /// The folder itself.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// The record in it; empty before the job is opened.
    pub(crate) fn record(&self) -> Result<Record, Problem> {
        if let Some(complaint) = self.store.complaint()? {
            let what = format!("The database of {} is damaged: {complaint}.", self.path.display());
            let next = "Keep the folder as it is and work on a copy.";
            return Err(Problem::new(what, next).meaning("Entries may be missing.").exit(ALTERED));
        }
        let jobs = self.store.jobs()?;
        match jobs.as_slice() {
            [] => Ok(Record::new()),
            [job] => Ok(self.store.record(job)?),
            _ => Err(Problem::new(
                format!("{} holds the entries of {} jobs.", self.path.display(), jobs.len()),
                "One folder is for one job; this one was made by something else.",
            )),
        }
    }

    /// Keeps entries, all or none.
    pub(crate) fn add(&mut self, entries: &[record::Held]) -> Result<store::Added, Problem> {
        Ok(self.store.add(entries)?)
    }

    /// The key of a device, drawn and kept when it is new.
    pub(crate) fn key(&self, name: &str) -> Result<Key, Problem> {
        let path = self.path.join("keys").join(format!("{}.key", file_name(name)));
        if path.exists() {
            let text = std::fs::read_to_string(&path).map_err(|error| Problem::file("Reading", &path, &error))?;
            let secret = record::entry::FileHash::from_hex(text.trim());
            let next = "Put the key back from a copy; without it this device cannot go on in its chain.";
            return secret.map(|secret| Key::of_secret(secret.0)).ok_or_else(|| {
                Problem::new(format!("{} holds no key.", path.display()), next)
            });
        }
        let mut secret = [0; 32];
        getrandom::fill(&mut secret).map_err(|error| {
            Problem::new(format!("This machine gave no random bytes: {error}."), "Try again.")
        })?;
        keep_secret(&path, &record::entry::FileHash(secret).to_string())?;
        Ok(Key::of_secret(secret))
    }
}

/// Writes a file only its owner may read.
fn keep_secret(path: &Path, text: &str) -> Result<(), Problem> {
    use std::io::Write;
    let wrong = |error: std::io::Error| Problem::file("Writing", path, &error);
    if let Some(parent) = path.parent() {
        std::fs::create_dir_all(parent).map_err(wrong)?;
    }
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(path).map_err(wrong)?;
    file.write_all(text.as_bytes()).and_then(|()| file.sync_all()).map_err(wrong)
}

/// A device name as a file name.
fn file_name(name: &str) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    let plain: String = name.trim().chars().map(plain).collect();
    if plain == name { plain } else { format!("{plain}-{}", &record::entry::FileHash(wire::sha256(name.as_bytes())).short()) }
}

/// The shaft a person named, as the record writes it.
pub(crate) fn shaft_of(record: &Record, wanted: &str) -> Result<String, Problem> {
    let shafts = record.shafts();
    let found = shafts.iter().find(|shaft| shaft.eq_ignore_ascii_case(wanted));
    found.map(|shaft| (*shaft).to_owned()).ok_or_else(|| {
        let known = if shafts.is_empty() { "none yet".to_owned() } else { shafts.join(", ") };
        Problem::new(format!("The record has no shaft `{wanted}`."), format!("Its shafts: {known}."))
    })
}

/// The moment a person meant: full, or a clock time on the last day of the log.
pub(crate) fn moment_of(log: &Log<'_>, text: Option<&str>) -> Result<Option<Moment>, Problem> {
    let Some(text) = text else { return Ok(None) };
    if let Ok(moment) = Moment::parse(text) {
        return Ok(Some(moment));
    }
    let wrong = || Problem::new(format!("`{text}` is no moment."), "Write 10:40, 2026-05-04 10:40, or RFC 3339.");
    let last = last_day(log).ok_or_else(wrong)?;
    let (date, time) = text.trim().split_once([' ', 'T']).map_or((last.date(), text.trim()), |(d, t)| (d.to_owned(), t));
    let local = format!("{date}T{:0>5}:00", time);
    let offset = last.to_string();
    let offset = &offset[offset.len() - 6..];
    Moment::parse(&format!("{local}{offset}")).map(Some).map_err(|_| wrong())
}

/// The day a clock time without a date means: that of the last concrete, else of the last thing seen.
fn last_day(log: &Log<'_>) -> Option<Moment> {
    let poured = log.last::<record::kinds::DischargeEnded>().map(|(line, _)| line.at);
    poured.or(log.end())
}
