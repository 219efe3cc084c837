//! The keys of a folder: each signs what its device writes, and whoever has it can write in its name.
//!
//! Never: print a key; replace one that is there.

use crate::file::file_name;
use crate::problem::{Problem, warn};
use record::entry::FileHash;
use std::io::Write;
use std::path::Path;
use wire::Key;

/// The key of a device, drawn and kept when it is new.
pub(crate) fn key(folder: &Path, name: &str) -> Result<Key, Problem> {
    let path = folder.join(format!("{}.key", file_name(name)));
    if path.exists() { read(&path) } else { draw(&path) }
}

fn read(path: &Path) -> Result<Key, Problem> {
    let text = std::fs::read(path).map_err(|error| Problem::file("Reading", path, &error))?;
    let secret = String::from_utf8(text).ok().and_then(|text| FileHash::from_hex(text.trim()));
    if is_open(path) {
        warn(&format!("{} can be read by others: chmod 600 keeps it yours.", path.display()));
    }
    secret.map(|secret| Key::of_secret(secret.0)).ok_or_else(|| {
        let what = format!("{} holds no key: 64 hexadecimal digits are expected.", path.display());
        let next = "Put the key back from a copy. Without it, move the file away: a new key begins a new \
                    chain, and what was signed before stays good.";
        Problem::new(what, "Nothing was signed; the record is as it was.", next)
    })
}

/// Others than the owner have rights to the file.
#[cfg(unix)]
fn is_open(path: &Path) -> bool {
    use std::os::unix::fs::PermissionsExt;
    std::fs::metadata(path).is_ok_and(|file| file.permissions().mode() & 0o077 != 0)
}

/// Rights are kept in another way here, and the folder of a user is the user's own.
#[cfg(not(unix))]
fn is_open(_: &Path) -> bool {
    false
}

fn draw(path: &Path) -> Result<Key, Problem> {
    let mut secret = [0; 32];
    getrandom::fill(&mut secret).map_err(|error| {
        let what = format!("This machine gave no random bytes: {error}.");
        Problem::new(what, "No key was made, so nothing was signed.", "Try again.")
    })?;
    keep(path, &FileHash(secret).to_string())?;
    Ok(Key::of_secret(secret))
}

/// Writes a file only its owner may read.
fn keep(path: &Path, text: &str) -> Result<(), Problem> {
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
