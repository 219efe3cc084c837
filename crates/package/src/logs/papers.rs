//! The papers of the job, those of this shaft in full, the others by name.
//!
//! A job has mixes and fluids for other shafts; their limits beside this pour would mislead a reader.

use super::form;
use crate::Source;
use record::kinds::FluidIntroduced;
use std::collections::BTreeSet;
use wording::{Column, Row, Table};

/// Sheets of materials that this shaft does not use become a line each.
pub(super) fn of_this_shaft(papers: Vec<Table>, source: &Source<'_, '_>) -> Vec<Table> {
    let (mixes, fluids) = (mixes(source), fluids(source));
    let unused = |table: &Table| match table.id {
        "mix_approved" => is_unused(table, &mixes),
        "fluid_approved" => is_unused(table, &fluids),
        _ => false,
    };
    let (others, mut kept): (Vec<Table>, Vec<Table>) = papers.into_iter().partition(unused);
    if !others.is_empty() {
        kept.push(by_name(&others));
    }
    kept
}

/// Nothing is unused while the record does not say what was used.
fn is_unused(table: &Table, used: &BTreeSet<&str>) -> bool {
    let name = table.title.split_once(": ").map_or("", |(_, name)| name);
    form::is_form(table) && !used.is_empty() && !used.contains(name)
}

fn mixes<'r>(source: &Source<'_, 'r>) -> BTreeSet<&'r str> {
    let loads = source.assessment.picture.loads.iter().filter_map(|load| load.arrival.mix.as_deref());
    let planned = source.assessment.picture.plan.as_ref().and_then(|plan| plan.shaft.mix.as_deref());
    loads.chain(planned).collect()
}

fn fluids<'r>(source: &Source<'_, 'r>) -> BTreeSet<&'r str> {
    source.log.each::<FluidIntroduced>().map(|(_, one)| one.product.as_str()).collect()
}

fn by_name(others: &[Table]) -> Table {
    let head = |title: &str| Column {
        title: title.to_owned(),
        unit: String::new(),
        numeric: false,
        weight: 1.0,
        may_be_blank: false,
    };
    let row = |table: &Table| {
        let first = table.rows.first()?;
        let cells = vec![Some(table.title.clone()), first.cells[1].clone()];
        Some(Row { cells, ..first.clone() })
    };
    Table {
        id: "papers_of_others",
        title: "Approved on this job, not used on this shaft".to_owned(),
        note: "In full in the record, and in the packages of the shafts that use them.".to_owned(),
        columns: vec![head("What"), head("Entered")],
        rows: others.iter().filter_map(row).collect(),
    }
}
