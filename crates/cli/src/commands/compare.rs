//! `compare`: what only many shafts show, of one job or of several.

use crate::args::Command;
use crate::file::write;
use crate::folder::Folder;
use crate::problem::Problem;
use crate::screen::Screen;
use assess::across::{Across, Taken};
use drawing::Scales;
use drawing::across::{AcrossView, GroupWords};
use figure::{bars_svg, groups_svg, trend_svg};
use quantity::Moment;
use record::choices::JobUnits;
use record::kinds::JobOpened;
use record::{Held, Log, Record};
use std::path::{Path, PathBuf};
use wording::{AcrossLine, AcrossSection, Show};

/// Points: as wide as the text of a page.
const WIDE: f64 = 520.0;

pub(crate) fn run(command: &Command, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Compare { jobs, places, draw, json } = command else { return Ok(()) };
    let here = [PathBuf::from(".")];
    let jobs: &[PathBuf] = if jobs.is_empty() { &here } else { jobs };
    let records: Vec<Record> = jobs.iter().map(|job| read(job)).collect::<Result<_, _>>()?;
    let all: Vec<&Record> = records.iter().collect();
    let across = Across::of(&all, last(&all));
    if *json {
        screen.json(&crate::json::across(&across));
        return Ok(());
    }
    if across.shafts.is_empty() {
        screen.say("No shafts yet. Plan one in your notes with [[shaft]], then `shaftbook enter`.");
    }
    let log = records.first().map(|record| Log::of(record, None, None)).unwrap_or_default();
    let show = Show::of_log(&log);
    for section in wording::across(&across, &show) {
        print(&section, *places, screen);
    }
    draw.as_ref().map_or(Ok(()), |folder| pictures(folder, (&across, &log, &show), screen))
}

/// Every drawing that has something to show, as a file.
fn pictures(
    folder: &Path,
    (across, log, show): (&Across, &Log<'_>, &Show),
    screen: &mut Screen,
) -> Result<(), Problem> {
    let units = log.last::<JobOpened>().map(|(_, job)| job.units);
    let scales = if units == Some(JobUnits::Us) { Scales::US } else { Scales::METRIC };
    let view = AcrossView::new(across, scales, &|_| String::new());
    let words = |taken: &Taken| {
        let line = wording::taken_words(taken, show);
        GroupWords { heading: line.group.to_owned(), label: line.label, beside: line.value }
    };
    let told: Vec<&Taken> = across.taken.iter().filter(|one| wording::is_told(one)).collect();
    let drawn = [
        ("taken", drawing::across::taken(&view, &told, &words).map(|one| groups_svg(&one, one.size(WIDE)))),
        ("fluid", drawing::across::fluid(&view).map(|one| trend_svg(&one, one.size(WIDE)))),
        ("fresh", drawing::across::fresh(&view).map(|one| trend_svg(&one, one.size(WIDE)))),
        ("concrete", drawing::across::concrete(&view).map(|one| bars_svg(&one, one.size(WIDE)))),
        ("hours", drawing::across::hours(&view).map(|one| bars_svg(&one, one.size(WIDE)))),
    ];
    screen.gap();
    for (word, svg) in drawn {
        let Some(svg) = svg else { continue };
        let path = folder.join(format!("across-{word}.svg"));
        write(&path, svg.as_bytes())?;
        screen.line(&format!("Drawn: {}", path.display()));
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
        for behind in &line.behind {
            let place = &behind.spot.place;
            screen.set_in(8, 2, &format!("{} {}: {}", place.job, place.shaft, behind.value));
        }
    }
}
