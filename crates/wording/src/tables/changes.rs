//! What became of entries: corrections, disputes, entries of a newer version.

use super::{Column, Row, Source, Table};
use crate::entry::{entry_reference, entry_text, line_of, marks};
use crate::label;
use record::kinds::{Correction, DisputeClosed};
use record::{Body, Entry, EntryId};

/// Every correction, in the order they were entered.
pub(super) fn corrections(source: &Source<'_, '_>) -> Table {
    let rows = source.log.corrections.iter().filter_map(|entry| match &entry.body {
        Body::Correction(correction) => Some(correction_row(entry, correction, source)),
        _ => None,
    });
    table(
        Head {
            id: "corrections",
            title: "Corrections",
            note: "The entry that was replaced stays in its log, struck through.",
        },
        &["Corrected at", "By", "Entry", "Was", "Is", "Observed", "Why"],
        rows.collect(),
    )
}

fn correction_row(entry: &Entry, correction: &Correction, source: &Source<'_, '_>) -> Row {
    let show = source.show;
    let was = line_of(correction.replaces, source.log).map(|line| entry_text(line.body, show));
    let is = correction.body.as_deref().map(|body| {
        format!("{}: {}", label::kind(body.kind()), entry_text(body, show))
            .trim_end_matches([' ', ':'])
            .to_owned()
    });
    Row {
        cells: vec![
            Some(show.stamp(entry.entered_at)),
            Some(entry.author.clone()),
            Some(entry_reference(correction.replaces, source.log, show)),
            was,
            is.or(Some("struck through, not replaced".to_owned())),
            correction.observed.map(|at| show.stamp(at)),
            Some(correction.reason.clone()),
        ],
        marks: Vec::new(),
        time: Some(entry.entered_at),
        entry: Some(entry.id.short()),
    }
}

/// Disputes, open ones first.
pub(super) fn disputes(source: &Source<'_, '_>) -> Table {
    let open = source.log.disputes.iter().map(|dispute| {
        let state = format!("open: {} candidates, none counts yet", dispute.candidates.len());
        let candidates: Vec<String> =
            dispute.candidates.iter().map(|id| entry_reference(*id, source.log, source.show)).collect();
        let cells =
            [None, None, Some(about(dispute.about, source)), Some(state), Some(candidates.join("; ")), None];
        Row { cells: cells.to_vec(), marks: Vec::new(), time: None, entry: None }
    });
    let lines = source.log.lines.iter().filter_map(|line| match line.body {
        Body::DisputeClosed(closed) => Some(closed_row(line, closed, source)),
        _ => None,
    });
    table(
        Head {
            id: "disputes",
            title: "Disputes",
            note: "Two or more corrections of one entry; nothing counts until a person decides.",
        },
        &["Closed at", "By", "Entry", "State", "Candidates", "Why"],
        open.chain(lines).collect(),
    )
}

fn closed_row(line: &record::Line<'_>, closed: &DisputeClosed, source: &Source<'_, '_>) -> Row {
    let show = source.show;
    Row {
        cells: vec![
            Some(show.stamp(line.at)),
            Some(closed.by.clone().unwrap_or_else(|| line.entry.author.clone())),
            Some(about(closed.about, source)),
            Some("closed".to_owned()),
            Some(format!("kept: {}", entry_reference(closed.keeps, source.log, show))),
            Some(closed.reason.clone()),
        ],
        marks: marks(line, source.log, show),
        time: Some(line.at),
        entry: Some(line.entry.id.short()),
    }
}

fn about(id: EntryId, source: &Source<'_, '_>) -> String {
    entry_reference(id, source.log, source.show)
}

/// Entries of a newer version: carried, not read.
pub(super) fn newer(source: &Source<'_, '_>) -> Table {
    let rows = source.log.newer.iter().map(|entry| Row {
        cells: vec![
            Some(source.show.stamp(entry.observed_at)),
            Some(format!("{} no. {}", entry.device.short(), entry.seq)),
            Some(entry.format.to_string()),
            Some(entry.id.short()),
        ],
        marks: Vec::new(),
        time: Some(entry.observed_at),
        entry: Some(entry.id.short()),
    });
    table(
        Head {
            id: "newer",
            title: "Entries that need an update",
            note: "Written by a newer version and kept byte for byte; no figure counts them.",
        },
        &["Time", "Device", "Format", "Entry"],
        rows.collect(),
    )
}

/// What stands over a table.
struct Head {
    id: &'static str,
    title: &'static str,
    note: &'static str,
}

fn table(head: Head, heads: &[&str], rows: Vec<Row>) -> Table {
    let column = |title: &&str| Column {
        title: (*title).to_owned(),
        unit: String::new(),
        numeric: false,
        weight: if ["Was", "Is", "Why", "Candidates"].contains(title) { 2.5 } else { 1.2 },
        may_be_blank: *title == "Observed",
    };
    let columns = heads.iter().map(column).collect();
    let (title, note) = (head.title.to_owned(), head.note.to_owned());
    Table { id: head.id, title, note, columns, rows }
}
