//! `enter`: field notes and tables into signed entries. All of it or nothing.

mod gone;
mod known;
mod preview;
mod sign;
mod take;

pub(crate) use sign::device_of;
pub(crate) use take::{Ask, read_files, take};

use crate::args::Command;
use crate::folder::{Folder, is_record};
use crate::problem::Problem;
use crate::progress::Progress;
use crate::screen::Screen;
use notes::Notes;
use quantity::Moment;
use record::{Held, Record};
use sign::Signed;
use take::File;

pub(crate) fn run(command: &Command, now: Moment, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Enter { files, table, sheet, shaft, date, author, dry_run, job } = command else {
        return Ok(());
    };
    let ask = Ask {
        table: table.as_deref(),
        shaft: shaft.as_deref(),
        date: date.as_deref(),
        author: author.as_deref(),
    };
    let files = read_files(files, sheet.as_deref())?;
    if *dry_run {
        return rehearse(&files, &ask, job.job.as_path(), screen);
    }
    if !is_record(&job.job) {
        // Notes with mistakes must not leave an empty folder behind.
        take(&files, &ask, &Record::new())?;
    }
    let mut folder = Folder::open_to_write(&job.job)?;
    let record = folder.record()?;
    let all = take(&files, &ask, &record)?;
    let progress = Progress::new();
    progress.say("Signing …");
    let signed = sign::sign(&folder, &record, (&files, &all), now)?;
    let held: Vec<Held> = signed.entries.iter().cloned().map(Held::Known).collect();
    let added = folder.add(&held)?;
    drop(progress);
    tell(&files, &all, &signed, screen);
    screen.say(&format!("{} entries are signed and kept in {}.", added.new, folder.path().display()));
    gone::tell(&folder.record()?, &files, &all, screen);
    Ok(())
}

/// Everything but the pen: what would be new, what would not, and what is wrong.
fn rehearse(
    files: &[File],
    ask: &Ask<'_>,
    job: &std::path::Path,
    screen: &mut Screen,
) -> Result<(), Problem> {
    let record = if is_record(job) { Folder::open(job)?.record()? } else { Record::new() };
    let all = match take::take_or_say(files, ask, &record)? {
        Ok(all) => all,
        Err(mistakes) => {
            preview::tell(files, &mistakes, &record, screen)?;
            return Err(take::refused(&mistakes));
        }
    };
    let signed = sign::rehearse(&record, &all);
    tell(files, &all, &signed, screen);
    screen.say(&format!("{} entries would be signed. Nothing was written: --dry-run.", signed.new));
    gone::tell(&record, files, &all, screen);
    Ok(())
}

fn tell(files: &[File], all: &[Notes], signed: &Signed, screen: &mut Screen) {
    for (file, notes) in files.iter().zip(all) {
        file.sheets_told().iter().for_each(|told| screen.say(told));
        screen.say(&format!("{}: {} lines read.", file.name, notes.drafted.len()));
        for row in &notes.passed_over {
            let why = format!("left out, because it says it is {}", row.standing);
            screen.say(&format!("{}, row {}: {why}.", file.name, row.row));
        }
    }
    if signed.known > 0 {
        screen
            .say(&format!("{} of them are in the record already and were not entered twice.", signed.known));
    }
}
