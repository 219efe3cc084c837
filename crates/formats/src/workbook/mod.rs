//! The schedule and the logs of a job as a workbook a spreadsheet opens (XLSX).
//!
//! What follows from other cells is a formula, so that whoever has the file can follow a figure to the readings;
//! beside each formula stands the value of the log, for programs that do not calculate.
//!
//! Words: *sheet* = a table with headings in its first row; *cell* = what is written in it.
//! Units: those of the job, named in the headings; times on the clock of the site.
//! Never: write what somebody typed as a formula.

mod about;
mod loads;
mod log;
mod pour;
mod read;
mod schedule;
mod sheet;
mod units;
mod unpack;
mod write;
mod xml;

use crate::Job;
use sheet::Sheet;
use std::collections::BTreeSet;
use units::Units;

pub use read::{NotRead, SheetRead, sheet_of};

/// The workbook of a job. The same record gives the same bytes.
pub fn write(job: &Job<'_, '_>) -> Vec<u8> {
    let units = Units::of(job.opened());
    let mut names = Names::default();
    let (mut rows, mut of_shafts) = (Vec::new(), Vec::new());
    for shaft in &job.shafts {
        let [pour, loads, log] = ["pour", "loads", "log"].map(|what| names.take(shaft.name, what));
        let pour = pour::sheet(shaft, units, pour);
        rows.push(schedule::row(shaft, units, pour.as_ref()));
        of_shafts.extend(pour);
        of_shafts.extend(loads::sheet(shaft, units, loads));
        of_shafts.push(log::sheet(shaft, log));
    }
    let mut sheets: Vec<Sheet> = vec![about::sheet(job), schedule::sheet(rows, units)];
    sheets.extend(of_shafts);
    write::workbook(job, &sheets)
}

/// Names of sheets that were given away.
#[derive(Default)]
struct Names(BTreeSet<String>);

impl Names {
    /// A name no other sheet has: 31 characters, none that a reference to it could not hold.
    fn take(&mut self, shaft: &str, what: &str) -> String {
        let plain = |c: char| if "[]:*?/\\'!".contains(c) || c.is_control() { '-' } else { c };
        let short: String = shaft.chars().map(plain).take(20).collect();
        let mut name = format!("{} {what}", short.trim());
        let mut number = 2;
        while !self.0.insert(name.to_lowercase()) {
            name = format!("{} {what} {number}", short.trim());
            number += 1;
        }
        name
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_has_a_name_of_its_own_that_can_be_referred_to() {
        let mut names = Names::default();
        assert_eq!(names.take("S-1", "pour"), "S-1 pour");
        assert_eq!(names.take("s-1", "pour"), "s-1 pour 2");
        assert_eq!(names.take("=A\"5', [ö]/<b>", "log"), "=A\"5-, -ö--<b> log");
        assert_eq!(names.take(&"x".repeat(40), "loads").chars().count(), 26);
    }
}
