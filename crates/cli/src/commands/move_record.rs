//! `move`: everything of an office from its file into a database on a server, or back, in the same folder.
//!
//! The one it comes from is kept as it is, marked with where the record went, and takes nothing in any more. Broken off
//! at any moment, the same command is typed again.
//!
//! Never: write over anything; leave a folder in which two places both take entries.

use crate::folder::{is_job, is_served, no_record};
use crate::place;
use crate::problem::Problem;
use crate::screen::Screen;
use std::path::{Path, PathBuf};
use store::{Address, Checked, Database, StoreError, move_all};

/// The word for the file in the folder.
const FILE: &str = "file";

const NOT_MOVED: &str = "Nothing was moved; the record is where it was.";

pub(crate) fn run(folder: &Path, to: &str, screen: &mut Screen) -> Result<(), Problem> {
    if !is_job(folder) {
        return Err(no_record(folder));
    }
    if is_served(folder) {
        let what = format!("{} is being served.", folder.display());
        return Err(Problem::new(what, NOT_MOVED, "Stop that program first; tablets keep what they write."));
    }
    match to {
        FILE => to_file(folder, screen),
        address => to_server(folder, address, screen),
    }
}

/// From the file, or from another database, into a database.
///
/// # Errors
/// When something is in the database already, or one of the two does not answer; the file is as it was then.
pub(super) fn to_server(folder: &Path, text: &str, screen: &mut Screen) -> Result<(), Problem> {
    let to = place::read(text).map_err(|problem| problem.meaning(NOT_MOVED))?;
    let file = place::file(folder);
    // A file is what is moved even where a database is named beside it: then this was broken off before its end.
    let from = if file.exists() { Address::of_file(&file) } else { place::of(folder)? };
    let away = folder.join("record-moved.sqlite");
    if file.exists() && away.exists() {
        return Err(Problem::store(away.display(), &StoreError::InTheWay(away.clone())).meaning(NOT_MOVED));
    }
    let checked = carried(&from, &to, &to.to_string())?;
    if file.exists() {
        set_away(&file, &away)?;
    }
    place::keep(folder, text)?;
    tell(checked, &to.to_string(), screen);
    if away.exists() {
        screen.say(&format!("{} is kept as it was, and takes nothing in any more.", away.display()));
    }
    Ok(())
}

/// From a database into a file of the folder.
fn to_file(folder: &Path, screen: &mut Screen) -> Result<(), Problem> {
    let file = place::file(folder);
    if file.exists() {
        return Err(Problem::store(file.display(), &StoreError::InTheWay(file.clone())).meaning(NOT_MOVED));
    }
    let (from, part) = (place::of(folder)?, folder.join("record-part.sqlite"));
    let named = file.display().to_string();
    let whole = is_away(&from, &named) && part.exists();
    if !whole {
        beside(&part).iter().for_each(|path| drop(std::fs::remove_file(path)));
    }
    let checked = if whole { None } else { carried(&from, &Address::of_file(&part), &named)? };
    set_away(&part, &file)?;
    place::forget(folder)?;
    tell(checked, &named, screen);
    screen.say(&format!("{from} is kept as it was, and takes nothing in any more."));
    Ok(())
}

/// Everything is in the other database. `None`: it was already, by a move that was broken off before its end.
fn carried(from: &Address, to: &Address, named: &str) -> Result<Option<Checked>, Problem> {
    if is_away(from, named) {
        return Ok(None);
    }
    let wrong = |place: &Address| {
        let place = place.to_string();
        move |error: StoreError| Problem::store(&place, &error).meaning(NOT_MOVED)
    };
    let there = Database::open(from).map_err(wrong(from))?;
    let here = Database::open(to).map_err(wrong(to))?;
    let moved = move_all(&there, &here, named);
    let whose = if matches!(moved, Err(StoreError::Altered { .. })) { from } else { to };
    moved.map(Some).map_err(wrong(whose))
}

/// A record that was moved to just there before.
fn is_away(from: &Address, named: &str) -> bool {
    matches!(Database::open(from), Err(StoreError::Moved(to)) if to == named)
}

/// Gives a database that nobody has open another name.
fn set_away(file: &Path, to: &Path) -> Result<(), Problem> {
    for (from, to) in beside(file).iter().zip(beside(to)) {
        if from.exists() {
            std::fs::rename(from, &to).map_err(|error| Problem::file("Naming", &to, &error))?;
        }
    }
    Ok(())
}

/// A database and what may lie beside it.
fn beside(file: &Path) -> [PathBuf; 3] {
    ["-wal", "-shm", ""].map(|ending| PathBuf::from(format!("{}{ending}", file.display())))
}

fn tell(checked: Option<Checked>, to: &str, screen: &mut Screen) {
    match checked {
        Some(Checked { jobs, entries, .. }) => screen.say(&format!(
            "{entries} entries of {jobs} jobs are in {to}; every table was compared row by row, and every line proved."
        )),
        None => screen.say(&format!("Everything was in {to} already; the move is ended.")),
    }
}
