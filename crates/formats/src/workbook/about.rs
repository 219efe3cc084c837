//! What the workbook says of itself.

use super::sheet::{Cell, Sheet, texts};
use crate::Job;

pub(super) fn sheet(job: &Job<'_, '_>) -> Sheet {
    let opened = job.opened();
    let rehearsal = opened.and_then(|job| job.rehearsal) == Some(true);
    let entries = job.record.len().to_string();
    let (digest, as_of) = (job.digest(), job.as_of().to_string());
    let row = |what: &str, says: Option<&str>| vec![Cell::Text(what.to_owned()), Cell::text(says)];
    let mut rows = vec![
        row("Job", opened.map(|job| job.name.as_str())),
        row("Number", opened.and_then(|job| job.number.as_deref())),
        row("Owner", opened.and_then(|job| job.owner.as_deref())),
        row("Contractor", opened.and_then(|job| job.contractor.as_deref())),
        row("Engineer", opened.and_then(|job| job.engineer.as_deref())),
        row("Datum", opened.and_then(|job| job.datum.as_deref())),
        row("Grid", opened.and_then(|job| job.grid.as_deref())),
        row("Time zone", opened.map(|job| job.time_zone.as_str())),
        row("Entries", Some(&entries)),
        row("Digest of the record", Some(&digest)),
        row("As of", Some(&as_of)),
        row("Program", Some(job.program)),
        row("How to read it", Some(READ)),
    ];
    if rehearsal {
        rows.insert(0, row("Rehearsal", Some("Made up for practice; no part of a real record.")));
    }
    let columns = vec![texts("What", 22.0), texts("Says", 90.0)];
    Sheet { name: "About".to_owned(), columns, rows }
}

const READ: &str = "Readings are values; what follows from them is a formula. A blank was not recorded. This is a \
                    copy for reading and reckoning on: the signed record is what counts.";
