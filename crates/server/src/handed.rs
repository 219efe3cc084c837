//! Codes that another program on this machine made, `shaftbook pair`, handed to the one that serves, so that the
//! desk page shows them too.
//!
//! The database keeps only the hash of a code, so the code itself travels in a file beside it. Its owner alone may
//! read the file, and it is taken away as soon as it was read. Whoever could read it could as well make a code.
//!
//! Never: leave a file that was read, or one from before the start.

use crate::code::{Code, typed};
use quantity::Moment;
use std::fs::{File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// How the name of such a file begins and ends.
const BEGINS: &str = "code-";
const ENDS: &str = ".handed";

/// Bytes read of one: a code, a number, an address.
const MOST: u64 = 4096;

impl Code {
    /// Hands the code to the program that serves a folder.
    ///
    /// # Errors
    /// When the folder cannot be written to.
    pub fn hand_over(&self, folder: &Path) -> io::Result<()> {
        let mark = record::entry::FileHash(wire::sha256(self.text.as_bytes())).short();
        let (part, whole) =
            (folder.join(format!("{BEGINS}{mark}.part")), folder.join(format!("{BEGINS}{mark}{ENDS}")));
        let mut file = owners(&part)?;
        write!(file, "{}\n{}\n{}\n", self.text, self.until.seconds(), self.link)?;
        drop(file);
        std::fs::rename(part, whole)
    }
}

/// A new file only its owner may read.
fn owners(path: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}

/// The codes that were handed over since it was last looked, that still serve at `now`.
pub(crate) fn take(folder: &Path, now: Moment) -> Vec<Code> {
    let taken = files(folder, ENDS).into_iter().filter_map(|path| {
        let code = read(&path);
        // One that cannot be taken away is not shown: it would be shown for ever.
        std::fs::remove_file(&path).ok()?;
        code.filter(|code| code.until > now)
    });
    taken.collect()
}

/// Takes away what was handed to a program that is gone.
pub(crate) fn clear(folder: &Path) -> io::Result<()> {
    files(folder, "").into_iter().try_for_each(std::fs::remove_file)
}

fn files(folder: &Path, ends: &str) -> Vec<PathBuf> {
    let all = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let ours = all.filter(|file| {
        let name = file.file_name();
        let name = name.to_string_lossy();
        name.starts_with(BEGINS) && name.ends_with(ends)
    });
    ours.map(|file| file.path()).collect()
}

fn read(path: &Path) -> Option<Code> {
    let mut text = String::new();
    io::Read::read_to_string(&mut io::Read::take(File::open(path).ok()?, MOST), &mut text).ok()?;
    let [code, until, link] = text.lines().collect::<Vec<_>>()[..] else { return None };
    let until = Moment::at(until.parse().ok()?, 0);
    Some(Code { text: typed(code)?, until, link: link.to_owned() })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn code(now: i64) -> Code {
        Code::draw("https://office.example", Moment::at(now, 0)).expect("chance")
    }

    fn left(folder: &Path) -> usize {
        std::fs::read_dir(folder).expect("a folder").count()
    }

    #[test]
    fn a_code_is_handed_over_once() {
        let folder = tempfile::tempdir().expect("a folder");
        let (one, other) = (code(1_900_000_000), code(1_900_000_000));
        one.hand_over(folder.path()).expect("handed over");
        other.hand_over(folder.path()).expect("handed over");
        let mut taken = take(folder.path(), Moment::at(1_900_000_001, 0));
        taken.sort_by_key(|code| code.text != one.text);
        assert_eq!(taken, [one, other]);
        assert_eq!((take(folder.path(), Moment::at(1_900_000_001, 0)), left(folder.path())), (vec![], 0));
    }

    #[test]
    fn one_that_came_too_late_and_one_that_is_no_code_are_taken_away() {
        let folder = tempfile::tempdir().expect("a folder");
        code(1_900_000_000).hand_over(folder.path()).expect("handed over");
        std::fs::write(folder.path().join("code-12ab34cd.handed"), "a letter\n\n\n").expect("written");
        std::fs::write(folder.path().join("code-12ab34ce.handed"), [0xff; 5000]).expect("written");
        assert_eq!(take(folder.path(), Moment::at(1_900_000_600, 0)), []);
        assert_eq!(left(folder.path()), 0);
    }

    #[test]
    fn what_was_handed_to_a_program_that_is_gone_is_cleared() {
        let folder = tempfile::tempdir().expect("a folder");
        code(1_900_000_000).hand_over(folder.path()).expect("handed over");
        std::fs::write(folder.path().join("code-12ab34cd.part"), "half").expect("written");
        std::fs::write(folder.path().join("record.sqlite"), "kept").expect("written");
        clear(folder.path()).expect("cleared");
        assert_eq!(left(folder.path()), 1);
    }

    /// Others on this machine do not read a code.
    #[cfg(unix)]
    #[test]
    fn its_owner_alone_may_read_it() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().expect("a folder");
        code(1_900_000_000).hand_over(folder.path()).expect("handed over");
        let file = files(folder.path(), ENDS).remove(0);
        assert_eq!(std::fs::metadata(file).expect("a file").permissions().mode() & 0o077, 0);
    }
}
