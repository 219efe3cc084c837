//! The shafts of a job as ground data: AGS 4.1.1, with groups of our own declared in its dictionary.
//!
//! What the standard has a group for goes there: project, transmission, locations and the ground met. What it has none
//! for, the plan, the loads, the volume curve, the estimate, fluid tests and findings of a bored pile, goes in groups
//! that `DICT` declares, all of them children of `LOCA`.
//!
//! Units: metres, cubic metres, kilograms per cubic metre, seconds; times on the clock of the site.
//! Source: [AGS-4-1-1]; every file is checked against its rules by a general library.
//! Never: write a letter outside ASCII, which the rules do not allow; leave out a row for want of a value.

mod ascii;
mod group;
mod own;
mod rows;
mod standard;

use crate::Job;
use group::{Group, Table};
use std::collections::BTreeSet;

/// The file of a job. The same record gives the same bytes.
pub fn write(job: &Job<'_, '_>) -> String {
    let mut tables = standard::head(job);
    let own: Vec<Table> = own::tables(job).into_iter().filter(|table| !table.rows.is_empty()).collect();
    tables.push(dictionary(&own));
    tables.push(standard::locations(job));
    tables.extend(standard::ground(job));
    tables.extend(own);
    tables.push(standard::abbreviations(&tables));
    tables.push(standard::units(&tables));
    tables.push(standard::types(&tables));
    tables.iter().map(Table::text).collect::<Vec<String>>().join("\r\n")
}

/// The groups of our own that are used, and their headings.
fn dictionary(tables: &[Table]) -> Table {
    let mut known = BTreeSet::new();
    let mut rows = Vec::new();
    for group in tables.iter().map(|table| table.group).filter(|group| known.insert(group.name)) {
        let row = |cells: [&str; 9]| cells.map(str::to_owned).to_vec();
        rows.push(row(["GROUP", group.name, "", "", "", group.says, "", "", "LOCA"]));
        for heading in group.headings {
            let status = if heading.key { "KEY" } else { "OTHER" };
            let cells = [heading.kind, heading.says, heading.unit];
            let [kind, says, unit] = cells;
            rows.push(row(["HEADING", group.name, heading.name, status, kind, says, unit, "", ""]));
        }
    }
    Table { group: &standard::DICT, rows }
}

/// A group and the rows that were found for it.
fn table(group: &'static Group, rows: Vec<Vec<String>>) -> Table {
    Table { group, rows }
}
