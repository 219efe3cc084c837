//! `export`: the record as lines, as tables, or what it means as JSON.

use crate::args::Export;
use crate::folder::Folder;
use crate::problem::Problem;
use crate::view::View;
use record::Log;
use record::kinds::KINDS;
use std::path::Path;

pub(crate) fn run(job: &Path, what: Export, out: Option<&Path>) -> Result<(), Problem> {
    match what {
        Export::Record => lines(job, out),
        Export::Tables => tables(job, out.unwrap_or(Path::new("tables"))),
        Export::Figures => figures(job, out.unwrap_or(Path::new("figures"))),
    }
}

fn lines(job: &Path, out: Option<&Path>) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let text = wire::write_lines(&record);
    match out {
        None => print!("{text}"),
        Some(path) if path.as_os_str() == "-" => print!("{text}"),
        Some(path) => {
            write(path, &text)?;
            println!("{} entries written to {}.", record.len(), path.display());
        }
    }
    Ok(())
}

fn tables(job: &Path, out: &Path) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let mut written = 0;
    let places: Vec<Option<&str>> = record.shafts().into_iter().map(Some).chain([None]).collect();
    for shaft in places {
        let log = Log::of(&record, shaft, None);
        let own = |line: &&record::Line<'_>| line.entry.shaft.as_deref() == shaft;
        let lines = log.lines.iter().filter(own).cloned().collect();
        let log = Log { lines, ..log };
        for kind in KINDS.iter().filter(|kind| log.lines.iter().any(|line| line.body.kind().word == kind.word)) {
            let folder = out.join(shaft.map_or_else(|| "job".to_owned(), crate::view::file_name));
            write(&folder.join(format!("{}.csv", kind.word)), &notes::table::csv_of(kind, &log))?;
            written += 1;
        }
    }
    println!("{written} tables written to {}.", out.display());
    Ok(())
}

fn figures(job: &Path, out: &Path) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    for shaft in record.shafts() {
        let view = View::of(&record, shaft, None)?;
        let text = format!("{:#}\n", crate::json::assessment(&view));
        write(&out.join(format!("{}.json", crate::view::file_name(shaft))), &text)?;
    }
    println!("{} files written to {}.", record.shafts().len(), out.display());
    Ok(())
}

/// Writes a file, making its folder.
pub(crate) fn write(path: &Path, text: &str) -> Result<(), Problem> {
    write_bytes(path, text.as_bytes())
}

/// Writes a file, making its folder.
pub(crate) fn write_bytes(path: &Path, bytes: &[u8]) -> Result<(), Problem> {
    if let Some(parent) = path.parent().filter(|parent| !parent.as_os_str().is_empty()) {
        std::fs::create_dir_all(parent).map_err(|error| Problem::file("Making", parent, &error))?;
    }
    std::fs::write(path, bytes).map_err(|error| Problem::file("Writing", path, &error))
}
