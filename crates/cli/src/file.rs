//! Files that are written whole or not at all.
//!
//! A full disk in the middle of a package must not leave half a PDF under the name of a whole one, nor take
//! the old one away: what is written goes beside the file first, is synced, and takes its name at the end.

use crate::problem::Problem;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Writes a file, making its folder.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<(), Problem> {
    let folder = path.parent().filter(|parent| !parent.as_os_str().is_empty());
    if let Some(folder) = folder {
        std::fs::create_dir_all(folder).map_err(|error| Problem::file("Making", folder, &error))?;
    }
    if is_special(path) {
        return std::fs::write(path, bytes).map_err(|error| Problem::file("Writing", path, &error));
    }
    let beside = beside(path);
    let written = write_synced(&beside, bytes).and_then(|()| std::fs::rename(&beside, path));
    written.map_err(|error| {
        // The failure to write is what a person has to know; that half a file could not be removed is not.
        let _ = std::fs::remove_file(&beside);
        Problem::file("Writing", path, &error)
    })
}

/// A device or a pipe: nothing could take its place.
fn is_special(path: &Path) -> bool {
    std::fs::metadata(path).is_ok_and(|what| !what.is_file() && !what.is_dir())
}

fn beside(path: &Path) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!(".{name}.{}.part", std::process::id()))
}

fn write_synced(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let mut file = std::fs::File::create(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

/// A name of the record as the name of a file.
///
/// A shaft may be called `../A` or `S/1`. What is no plain name gets a mark of its own behind it, so that
/// two names never fall on one file and none leaves the folder. `job` is taken: it names what is about the
/// whole job.
pub(crate) fn file_name(name: &str) -> String {
    let plain = |c: char| if c.is_alphanumeric() || matches!(c, '-' | '_' | '.') { c } else { '-' };
    let made: String = name.chars().map(plain).take(60).collect();
    let made = made.trim_matches(['.', '-']).to_owned();
    if made == name && !made.is_empty() && !is_taken(&made) {
        return made;
    }
    let mark = record::entry::FileHash(wire::sha256(name.as_bytes())).short();
    format!("{}-{mark}", if made.is_empty() { "unnamed" } else { &made })
}

/// Names that mean something else: to us, or to the system of a laptop on site.
fn is_taken(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or(name).to_ascii_lowercase();
    let numbered = |word: &str| stem.strip_prefix(word).is_some_and(|rest| rest.len() == 1);
    matches!(stem.as_str(), "job" | "con" | "prn" | "aux" | "nul") || numbered("com") || numbered("lpt")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(name: &str, expected: &str) {
        assert_eq!(file_name(name), expected);
    }

    /// The marks are the first digits of the SHA-256 of the name, computed with `printf NAME | sha256sum`.
    #[test]
    fn names_become_files_that_stay_in_their_folder() {
        check("S-1", "S-1");
        check("Pfahl_7.2", "Pfahl_7.2");
        check("Pfähle", "Pfähle");
        check("S/1", "S-1-ac1175e6");
        check("../A", "A-80dd8502");
        check("..", "unnamed-5ec1f7e7");
        check("job", "job-5e8c9902");
    }

    #[test]
    fn different_names_are_different_files() {
        let names =
            ["S-1", "S/1", "S 1", "S\\1", "S:1", ".S-1", "..", ".", "", "S\n1", "CON", "job", "Job", "COM1"];
        let files: std::collections::BTreeSet<String> = names.iter().map(|name| file_name(name)).collect();
        assert_eq!(files.len(), names.len());
        assert!(
            files.iter().all(|file| !file.contains(['/', '\\', ':', '\n', ' ']) && !file.starts_with('.'))
        );
    }

    #[test]
    fn a_file_is_written_whole_or_not_at_all() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a").join("b.txt");
        write(&path, b"first").expect("written");
        write(&path, b"second").expect("written again");
        assert_eq!(std::fs::read(&path).ok().as_deref(), Some(&b"second"[..]));
        // A folder of the same name cannot be replaced: the failure leaves nothing half written behind.
        let taken = folder.path().join("a");
        assert!(write(&taken, b"third").is_err());
        let left: Vec<_> = std::fs::read_dir(folder.path()).expect("readable").flatten().collect();
        assert_eq!(left.len(), 1);
    }
}
