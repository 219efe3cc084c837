//! `merge`: the entries of another record into this one.

mod faults;

use crate::folder::{Folder, is_record};
use crate::problem::{ALTERED, Problem};
use crate::screen::Screen;
use record::{Held, Record};
use std::path::Path;

/// What every refusal to merge means.
const NOTHING_CAME: &str = "Nothing of it came in; the record is as it was.";

pub(crate) fn run(job: &Path, other: &Path, screen: &mut Screen) -> Result<(), Problem> {
    // Theirs is proved first: a file that is not sound must not leave an empty folder behind.
    let theirs = record_of(other).map_err(|problem| problem.meaning(NOTHING_CAME))?;
    if theirs.is_empty() {
        let what = format!("{} holds no entries.", other.display());
        return Err(Problem::new(what, NOTHING_CAME, "Check that it is the right one."));
    }
    let mine = if is_record(job) { Folder::open(job)?.record()? } else { Record::new() };
    let both = mine.merge(&theirs).map_err(|error| {
        let what = format!("The records cannot be one: {error}.");
        Problem::new(what, NOTHING_CAME, "Check that both belong to the same job.")
    })?;
    let entries: Vec<Held> = theirs.entries().cloned().collect();
    let added = Folder::open_to_write(job)?.add(&entries)?;
    let now = format!("the record now holds {}", both.len());
    screen.say(&format!("{} entries came in, {} were here already; {now}.", added.new, added.known));
    super::verify::tell_alarms(&both, screen);
    Ok(())
}

/// A record from a file of lines, a csvw package or a job's folder, every line proved.
pub(crate) fn record_of(path: &Path) -> Result<Record, Problem> {
    if path.join(formats::csvw::SUMS).is_file() {
        let text = formats::csvw::lines(|name| std::fs::read(path.join(file_alone(name)?)).ok());
        return proved(path, &text.map_err(|error| altered(format!("{}: {error}.", path.display())))?);
    }
    if path.is_dir() || crate::folder::is_record(path) {
        return Folder::open(path)?.record();
    }
    let text = std::fs::read(path).map_err(|error| Problem::file("Reading", path, &error))?;
    let text = String::from_utf8(text).map_err(|_| altered(format!("{} is not text.", path.display())))?;
    proved(path, &text)
}

fn proved(path: &Path, text: &str) -> Result<Record, Problem> {
    let held = wire::read_lines(text).map_err(|errors| altered(faults::told(path, text, &errors)))?;
    Record::of(held).map_err(|error| altered(format!("{}: {error}.", path.display())))
}

/// A name that stays in its folder; a package may come from anybody.
fn file_alone(name: &str) -> Option<&str> {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    (name.chars().all(plain) && !name.starts_with('.')).then_some(name)
}

fn altered(what: String) -> Problem {
    let meaning = "This file is not a record as it was signed; what it says there cannot be relied on.";
    let next = "Keep the file as it is, and ask for the record again where the device or the office has it.";
    Problem::new(what, meaning, next).exit(ALTERED)
}
