//! `compare`: what only many shafts show, of one job or of several.

use crate::folder::Folder;
use crate::problem::Problem;
use crate::screen::Screen;
use assess::across::Across;
use quantity::Moment;
use record::{Held, Log, Record};
use std::path::{Path, PathBuf};
use wording::{AcrossLine, AcrossSection, Show};

pub(crate) fn run(jobs: &[PathBuf], places: bool, as_json: bool, screen: &mut Screen) -> Result<(), Problem> {
    let here = [PathBuf::from(".")];
    let jobs = if jobs.is_empty() { &here } else { jobs };
    let records: Vec<Record> = jobs.iter().map(|job| read(job)).collect::<Result<_, _>>()?;
    let all: Vec<&Record> = records.iter().collect();
    let across = Across::of(&all, last(&all));
    if as_json {
        screen.json(&crate::json::across(&across));
        return Ok(());
    }
    if across.shafts.is_empty() {
        screen.say("No shafts yet. Plan one in your notes with [[shaft]], then `shaftbook enter`.");
    }
    let show =
        records.first().map_or_else(|| Show::of(None), |record| Show::of_log(&Log::of(record, None, None)));
    for section in wording::across(&across, &show) {
        print(&section, places, screen);
    }
    Ok(())
}

fn read(job: &Path) -> Result<Record, Problem> {
    Folder::open(job)?.record()
}

/// When the last entry of all of them was seen.
fn last(records: &[&Record]) -> Moment {
    let seen = records.iter().flat_map(|record| record.entries()).filter_map(|held| match held {
        Held::Known(entry) => Some(entry.observed_at),
        Held::Newer(_) => None,
    });
    seen.max().unwrap_or(Moment::at(0, 0))
}

fn print(section: &AcrossSection, places: bool, screen: &mut Screen) {
    screen.gap();
    screen.heading(section.heading);
    screen.set_in(0, 0, section.lead);
    let mut group = "";
    for line in &section.lines {
        if line.group != group {
            group = line.group;
            screen.set_in(2, 0, &format!("{group}:"));
        }
        print_line(line, places, screen);
    }
}

fn print_line(line: &AcrossLine, places: bool, screen: &mut Screen) {
    let style = screen.style();
    let lead = format!("{}: ", line.label);
    screen.led(4, 2, (&lead, &format!("{}; {}", line.value, line.note)), |lead| style.bold(lead));
    if places {
        for (place, value) in &line.places {
            screen.set_in(8, 2, &format!("{} {}: {value}", place.job, place.shaft));
        }
    }
}
