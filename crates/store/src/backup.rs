//! A copy of the database while it is in use, and a database out of such a copy.
//!
//! SQLite's own backup takes one state of the database and does not stop the writer. The copy is made
//! under another name, synced, proved, and only then gets its name: a copy with that name is whole.
//!
//! Never: write over anything.

use crate::check::{Checked, Proved};
use crate::error::StoreError;
use crate::sqlite::Sqlite;
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Arrivals that are never given out after a restore: what came between the backup and the loss had some of
/// them, and whoever read those must not take the next entries for ones already seen.
const LEAP: i64 = 1_000_000_000;

/// How often a database another program holds is asked again.
const TRIES: u32 = 200;
const WAIT: Duration = Duration::from_millis(25);

impl Sqlite {
    /// Copies the database as it is at this moment, and proves the copy.
    ///
    /// # Errors
    /// `InTheWay` when there is such a file; when the copy cannot be written or is not whole.
    pub fn backup(&self, to: &Path) -> Result<Checked, StoreError> {
        named_when_whole(to, |part| {
            copy(&self.connection, part)?;
            Sqlite::open_untouched(part)?.check()
        })
    }

    /// Brings everything into the one file, so that it can be copied.
    pub(crate) fn settle(self) -> Result<(), StoreError> {
        self.connection.pragma_update(None, "wal_checkpoint", "TRUNCATE")?;
        Ok(self.connection.pragma_update(None, "journal_mode", "DELETE")?)
    }
}

/// Writes a file under another name, and gives it its own once it is whole.
pub(crate) fn named_when_whole(
    to: &Path,
    write: impl FnOnce(&Path) -> Result<Checked, StoreError>,
) -> Result<Checked, StoreError> {
    let part = begin(to)?;
    let checked = write(&part)?;
    finish(&part, to)?;
    Ok(checked)
}

/// Makes a database out of a backup, once the backup is proved. What arrives in it is counted anew, so
/// that no device takes it for something it has seen.
///
/// # Errors
/// `InTheWay` when there is such a file; when the backup is not whole or cannot be read.
pub fn restore(backup: &Path, to: &Path) -> Result<Checked, StoreError> {
    let part = begin(to)?;
    let kept = Sqlite::open_untouched(backup)?;
    let checked = kept.check()?;
    copy(&kept.connection, &part)?;
    let restored = Sqlite::open(&part)?;
    restored.connection.execute("UPDATE sqlite_sequence SET seq = seq + ?1 WHERE name = 'entry'", [LEAP])?;
    // What was ended or used up since the backup must not open a door again.
    restored.connection.execute_batch(
        "DELETE FROM session; DELETE FROM invitation; DELETE FROM pairing_code; DELETE FROM ceremony;",
    )?;
    restored.connection.pragma_update(None, "wal_checkpoint", "TRUNCATE")?;
    drop(restored);
    finish(&part, to)?;
    Ok(checked)
}

fn begin(to: &Path) -> Result<PathBuf, StoreError> {
    for path in [to.to_owned(), beside(to, "-wal"), beside(to, "-shm")] {
        if path.try_exists()? {
            return Err(StoreError::InTheWay(path));
        }
    }
    if let Some(folder) = to.parent() {
        std::fs::create_dir_all(folder)?;
    }
    let part = beside(to, ".part");
    for ending in ["", "-wal", "-shm"] {
        // What an earlier, broken attempt left; it never got its name.
        match std::fs::remove_file(beside(&part, ending)) {
            Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(error.into()),
            _ => {}
        }
    }
    Ok(part)
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

/// One step takes all pages of one state; only a lock makes it wait.
fn copy(from: &Connection, to: &Path) -> Result<(), StoreError> {
    let mut copy = Connection::open(to)?;
    let backup = Backup::new(from, &mut copy)?;
    for _ in 0..TRIES {
        match backup.step(-1)? {
            StepResult::Done => return Ok(()),
            _ => std::thread::sleep(WAIT),
        }
    }
    Err(StoreError::Busy)
}

fn finish(part: &Path, to: &Path) -> Result<(), StoreError> {
    File::open(part)?.sync_all()?;
    std::fs::rename(part, to)?;
    if let Some(folder) = to.parent() {
        sync_folder(folder)?;
    }
    Ok(())
}

/// A name is on the disk only once its folder is.
pub(crate) fn sync_folder(folder: &Path) -> Result<(), StoreError> {
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    // Only where a folder can be opened like a file.
    if cfg!(unix) { Ok(File::open(folder)?.sync_all()?) } else { Ok(()) }
}
