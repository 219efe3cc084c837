//! What an office hands out of a record: the package of a shaft as PDF, its log as a table, its seal, the job in formats
//! other programs read.
//!
//! They are the same as those the command line makes, so that nobody has to ask which one is right.
//!
//! Never: look at a moment other than the one asked for.

use crate::commands::package::{house_fonts, paper_of, source};
use crate::commands::seal;
use crate::folder::with_pen;
use crate::problem::Problem;
use crate::stamps::Stamps;
use crate::view::View;
use quantity::Moment;
use record::kinds::JobOpened;
use record::{EntryId, Held, Line, Log, Record, Standing};
use report::{Fonts, ReportError};
use server::{Asked, Desk, Exported, Happened, Journal, Level, Papers, SealWanted};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use wire::Key;
use wording::{Notice, Show};

/// Columns of a log as a table. What was typed stands in `says`, as on the pages.
const HEADINGS: [&str; 9] =
    ["at", "shaft", "entry", "says", "author", "status", "late_minutes", "corrected_because", "entry_id"];

/// Makes the papers, with fonts that are read once.
pub(crate) struct House {
    fonts: Fonts,
    /// The folder that is served: the key of its desk signs seals.
    folder: PathBuf,
    stamps: Stamps,
    /// What nobody who asks over the network is told.
    journal: Journal,
}

impl House {
    /// Reads the fonts. Seals are stamped where a service is named.
    pub(crate) fn new(folder: &Path, time_stamps: Option<&str>, journal: Journal) -> Result<Self, Problem> {
        let fonts = Fonts::new(&house_fonts()).map_err(|error| crate::commands::package::failed(&error))?;
        let stamps = Stamps::of(folder, time_stamps, Arc::clone(&journal));
        Ok(House { fonts, folder: folder.to_owned(), stamps, journal })
    }
}

impl Papers for House {
    fn package_pdf(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        let view = View::at(asked.record, asked.shaft, None);
        let made = on_site(&view.log, asked.at);
        let source = source(asked.record, &view, made, paper_of(None, &view));
        let pdf = report::package(&package::shaft(&source), &self.fonts).map_err(|error| no_pages(&error))?;
        Ok(pdf.bytes)
    }

    fn log_csv(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        Ok(log_table(&View::at(asked.record, asked.shaft, None)).into_bytes())
    }

    fn seal(&self, desk: &Desk, wanted: &SealWanted<'_>) -> Result<EntryId, Notice> {
        // Why the pen or the key was not to be had names files of this machine: that is for its journal alone.
        let sealed = with_pen(&self.folder, |key| Ok(self.sealed(desk, wanted, key)));
        let sealed = sealed.unwrap_or_else(|why| {
            let inside = Some(why.what);
            (self.journal)(&Happened {
                level: Level::Error,
                what: "not-sealed",
                inside,
                ..Happened::default()
            });
            let next = "Try again; the machine of the office says why.";
            Err(Problem::new("The desk cannot sign the seal.", "The shaft is not sealed.", next))
        });
        sealed.map_err(|problem| problem.notice("not_sealed"))
    }

    fn sealed_pdf(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        let made = match asked.record.seals(asked.shaft).pop() {
            Some(seal) => seal::made_again(asked.record, seal.entry, &self.fonts),
            None => Err(seal::not_sealed(asked.record, asked.shaft)),
        };
        made.map_err(|problem| problem.notice("not_sealed"))
    }

    fn time_stamp(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        let stamp = match asked.record.seals(asked.shaft).pop() {
            Some(seal) => self.stamps.stamp(seal.entry),
            None => Err(seal::not_sealed(asked.record, asked.shaft)),
        };
        stamp.map_err(|problem| problem.notice("no_time_stamp"))
    }

    fn export(&self, record: &Record, format: &str) -> Option<Exported> {
        crate::commands::export::outside::as_one_file(record, format)
    }
}

impl House {
    /// Seals with the pen in hand, so that no other program writes with the same key meanwhile.
    fn sealed(&self, desk: &Desk, wanted: &SealWanted<'_>, key: &Key) -> Result<EntryId, Problem> {
        let failed = |error: &dyn std::fmt::Display| {
            let what = format!("The desk could not read or write what it keeps: {error}.");
            Problem::new(what, "The shaft is not sealed.", "Try again; if it stays, inspect the office.")
        };
        let record = desk.record(wanted.job).map_err(|error| failed(&error))?;
        if let Some(entry) = seal::standing(&record, wanted.shaft)? {
            return Ok(entry.id);
        }
        let asked = seal::Asked {
            shaft: wanted.shaft,
            by: wanted.by,
            paper: None,
            with_open_findings: wanted.with_open_findings,
            now: desk.site_time(wanted.job),
        };
        let (entry, _) = seal::sealed(&record, &asked, key, &self.fonts)?;
        let id = entry.id;
        desk.add(&[Held::Known(entry.clone())]).map_err(|error| failed(&error))?;
        self.stamps.begin(entry);
        Ok(id)
    }
}

/// A moment on the clock of the job: a package is dated where the shaft is, wherever it was made.
pub(crate) fn on_site(log: &Log<'_>, at: Moment) -> Moment {
    let zone = log.last::<JobOpened>().and_then(|(_, job)| notes::Zone::named(&job.time_zone).ok());
    zone.map_or(at, |zone| zone.moment_at(at.seconds()))
}

fn no_pages(error: &ReportError) -> Notice {
    Notice {
        code: "pages_not_made",
        what: format!("The pages could not be made: {error}."),
        meaning: "The record is whole; only the paper is missing.".to_owned(),
        next: "Export the record, and report what was told here.".to_owned(),
    }
}

/// The log of a shaft, one line a row, with the lines that were struck through.
fn log_table(view: &View<'_>) -> String {
    let show = Show::of_log(&view.log);
    let mut writer = csv::Writer::from_writer(Vec::new());
    // Writing to memory cannot fail, and every row has as many cells as there are headings.
    writer.write_record(HEADINGS).expect("memory takes every row");
    for line in &view.log.lines {
        let cells = cells(line, view, &show).map(|cell| harmless(&cell));
        writer.write_record(cells).expect("memory takes every row");
    }
    String::from_utf8(writer.into_inner().expect("memory takes every row")).expect("texts are UTF-8")
}

fn cells(line: &Line<'_>, view: &View<'_>, show: &Show) -> [String; 9] {
    let text = wording::entry_line(line, &view.log, Some(&view.assessment.picture), show);
    let says = text.splitn(3, "  ").nth(2).unwrap_or_default().to_owned();
    let status = match line.standing {
        Standing::Stands => "stands",
        Standing::Struck { .. } => "struck",
        Standing::Disputed { .. } => "disputed",
    };
    [
        line.at.to_string(),
        line.entry.shaft.clone().unwrap_or_default(),
        line.body.kind().word.to_owned(),
        says,
        line.entry.author.clone(),
        status.to_owned(),
        line.late_minutes().map(|minutes| format!("{minutes:.0}")).unwrap_or_default(),
        line.reason.unwrap_or_default().to_owned(),
        line.entry.id.to_string(),
    ]
}

/// A text as a spreadsheet shows it and does nothing else: what begins like a formula gets a mark in front.
fn harmless(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if formula { format!("'{cell}") } else { cell.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_begins_like_a_formula_does_not_run() {
        for text in ["=1+1", "+49 170", "-2 ft", "@sum", "\tx"] {
            assert_eq!(harmless(text), format!("'{text}"));
        }
        assert_eq!(harmless("2 ft = 24 in"), "2 ft = 24 in");
    }
}
