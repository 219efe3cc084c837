//! `begin`: the folder of a job.

use crate::folder::{DESK, Folder};
use crate::problem::Problem;
use crate::screen::Screen;
use std::path::Path;

/// Notes to fill in.
const TEMPLATE: &str = include_str!("../../notes-template.toml");

pub(crate) fn run(path: &Path, screen: &mut Screen) -> Result<(), Problem> {
    let folder = Folder::make(path)?;
    let desk = folder.key(DESK)?.device();
    let notes = path.join("notes.toml");
    if !notes.exists() {
        crate::file::write(&notes, TEMPLATE.as_bytes())?;
    }
    screen.line(&format!(
        "Made {} with an empty record and a key for this desk ({}).",
        path.display(),
        desk.short()
    ));
    screen.line(&format!("Fill in {}, then:", notes.display()));
    screen.line(&format!("  shaftbook enter {} --job {}", quoted(&notes), quoted(path)));
    screen.line(&format!(
        "Keep {} safe and to yourself: it signs what is entered here.",
        path.join("keys").display()
    ));
    Ok(())
}

/// A path as one types it: in quotes where it needs them.
fn quoted(path: &Path) -> String {
    let text = path.display().to_string();
    if text.contains([' ', '\'', '(', ')', '&', ';', '$']) { format!("{text:?}") } else { text }
}
