//! `begin`: the folder of a job.

use crate::folder::{DESK, Folder};
use crate::problem::Problem;
use std::path::Path;

/// Notes to fill in.
const TEMPLATE: &str = include_str!("../../notes-template.toml");

pub(crate) fn run(path: &Path) -> Result<(), Problem> {
    let folder = Folder::make(path)?;
    let desk = folder.key(DESK)?.device();
    let notes = path.join("notes.toml");
    if !notes.exists() {
        std::fs::write(&notes, TEMPLATE).map_err(|error| Problem::file("Writing", &notes, &error))?;
    }
    println!("Made {} with an empty record and a key for this desk ({}).", path.display(), desk.short());
    println!("Fill in {}, then: shaftbook enter {} --job {}", notes.display(), notes.display(), path.display());
    println!("Keep {} safe and to yourself: it signs what is entered here.", path.join("keys").display());
    Ok(())
}
