//! `export`: the record as lines, as tables, what it means as JSON, or in a format other programs read.

pub(crate) mod outside;

use crate::args::Export;
use crate::file::{file_name, write};
use crate::folder::Folder;
use crate::problem::Problem;
use crate::progress::Progress;
use crate::screen::Screen;
use crate::view::View;
use record::Log;
use record::kinds::KINDS;
use std::path::Path;

pub(crate) fn run(job: &Path, what: Export, out: Option<&Path>, screen: &mut Screen) -> Result<(), Problem> {
    match what {
        Export::Record => lines(job, out, screen),
        Export::Tables => tables(job, out.unwrap_or(Path::new("tables")), screen),
        Export::Figures => figures(job, out.unwrap_or(Path::new("figures")), screen),
        format => outside::write_out(job, format, out, screen),
    }
}

fn lines(job: &Path, out: Option<&Path>, screen: &mut Screen) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let text = wire::write_lines(&record);
    match out {
        None => screen.raw(&text),
        Some(path) if path.as_os_str() == "-" => screen.raw(&text),
        Some(path) => {
            write(path, text.as_bytes())?;
            screen.line(&format!("{} entries written to {}.", record.len(), path.display()));
        }
    }
    Ok(())
}

fn tables(job: &Path, out: &Path, screen: &mut Screen) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let mut written = 0;
    let places: Vec<Option<&str>> = record.shafts().into_iter().map(Some).chain([None]).collect();
    for shaft in places {
        let log = Log::of(&record, shaft, None);
        let own = |line: &&record::Line<'_>| line.entry.shaft.as_deref() == shaft;
        let lines = log.lines.iter().filter(own).cloned().collect();
        let log = Log { lines, ..log };
        for kind in
            KINDS.iter().filter(|kind| log.lines.iter().any(|line| line.body.kind().word == kind.word))
        {
            let folder = out.join(shaft.map_or_else(|| "job".to_owned(), file_name));
            write(&folder.join(format!("{}.csv", kind.word)), notes::table::csv_of(kind, &log).as_bytes())?;
            written += 1;
        }
    }
    screen.line(&format!("{written} tables written to {}.", out.display()));
    Ok(())
}

fn figures(job: &Path, out: &Path, screen: &mut Screen) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let progress = Progress::new();
    for shaft in record.shafts() {
        progress.say(&format!("Reckoning {shaft} …"));
        let view = View::of(&record, shaft, None)?;
        let text = format!("{:#}\n", crate::json::assessment(&view));
        write(&out.join(format!("{}.json", file_name(shaft))), text.as_bytes())?;
    }
    drop(progress);
    screen.line(&format!("{} files written to {}.", record.shafts().len(), out.display()));
    Ok(())
}
