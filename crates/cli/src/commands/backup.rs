//! `backup` and `restore`: everything a folder holds as one file, taken while it is in use, and back again.
//!
//! A backup is proved before it gets its name, and again before a folder is made of it. Photos lie beside the
//! backup in a folder of their own, where those of the last one lie already: a season of them is copied once. Time
//! stamps of seals lie in another.
//!
//! The keys are not in it. A desk that went on signing from an earlier state would write two entries under
//! one number, and everybody would be told it was cloned; a restored desk draws a new key instead.
//!
//! Never: write over anything.

use super::move_record;
use crate::folder::{is_job, no_record};
use crate::place;
use crate::problem::Problem;
use crate::screen::Screen;
use crate::stamps::{self, STAMPS};
use std::fmt::Display;
use std::path::{Path, PathBuf};
use store::{Checked, Database, Photos, StoreError};

/// `backup`.
pub(crate) fn run(folder: &Path, to: &Path, screen: &mut Screen) -> Result<(), Problem> {
    if !is_job(folder) {
        return Err(no_record(folder));
    }
    let from = place::of(folder)?;
    let store = Database::open_to_read(&from).map_err(|error| Problem::store(&from, &error))?;
    let checked = store.backup(to).map_err(|error| about(&error, &from, to))?;
    let copied = copy_photos(&folder.join(store::PHOTOS), &photos_beside(to))?;
    stamps::copy(&folder.join(STAMPS), &to.with_file_name(STAMPS))?;
    screen.say(&format!("{} were copied to {} and proved there.", counted(&checked), to.display()));
    tell_photos(copied, &photos_beside(to), screen);
    screen.say(&format!("The keys are not in it: keep a copy of {} apart.", folder.join("keys").display()));
    Ok(())
}

/// `restore`, into a file of the folder, and from there into the database that `--database` names.
pub(crate) fn restore(file: &Path, to: &Path, screen: &mut Screen) -> Result<(), Problem> {
    if place::holds_one(to) {
        let what = format!("{} holds a record already.", to.display());
        return Err(Problem::new(
            what,
            "Nothing was restored; that record is as it was.",
            "Name a folder that is not there yet; nothing is ever written over.",
        ));
    }
    if !file.is_file() {
        let what = format!("{} is no backup: there is no such file.", file.display());
        return Err(Problem::new(what, "Nothing was restored.", "Name the file `shaftbook backup` wrote."));
    }
    let into = place::file(to);
    let checked = store::restore(file, &into).map_err(|error| about(&error, file.display(), &into))?;
    let copied = copy_photos(&photos_beside(file), &to.join(store::PHOTOS))?;
    stamps::copy(&file.with_file_name(STAMPS), &to.join(STAMPS))?;
    screen.say(&format!("{} were proved and are now in {}.", counted(&checked), to.display()));
    tell_photos(copied, &to.join(store::PHOTOS), screen);
    if let Some(address) = place::told() {
        move_record::to_server(to, address, screen)?;
    }
    screen.say(
        "Devices that were paired stay paired, and bring again what came in after the backup. A desk draws a \
         new key when it next enters notes here.",
    );
    Ok(())
}

/// Where the photos of a backup lie: backups in one folder share them, as a photo is named by what is in it.
fn photos_beside(backup: &Path) -> PathBuf {
    backup.with_file_name(store::PHOTOS)
}

/// Copies what is not there yet; `None`: there are no photos.
fn copy_photos(from: &Path, to: &Path) -> Result<Option<usize>, Problem> {
    if !from.is_dir() {
        return Ok(None);
    }
    let wrong = |error| Problem::store(from.display(), &error);
    let there = Photos::open(to).map_err(|error| Problem::store(to.display(), &error))?;
    Photos::at(from).copy_to(&there).map(Some).map_err(wrong)
}

fn tell_photos(copied: Option<usize>, to: &Path, screen: &mut Screen) {
    if let Some(copied) = copied {
        screen.say(&format!("{copied} photos that were not there yet were copied to {}.", to.display()));
    }
}

fn counted(checked: &Checked) -> String {
    let jobs = if checked.jobs == 1 { "job" } else { "jobs" };
    format!("{} entries of {} {jobs}", checked.entries, checked.jobs)
}

/// Whose fault it was: what is written over is there, everything else is told of what was read.
fn about(error: &StoreError, from: impl Display, to: &Path) -> Problem {
    match error {
        StoreError::InTheWay(_) | StoreError::Full | StoreError::File(_) => {
            Problem::store(to.display(), error)
        }
        _ => Problem::store(from, error),
    }
}
