//! Who is on the job, and with what it is built: people, mixes, fluids.
//!
//! Never: leave a limit that is not set looking like one that is.

use record::Log;
use record::kinds::{FluidApproved, MixApproved, PersonNamed};
use wording::{Show, label};

/// A person of the job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PersonRow {
    /// Name.
    pub name: String,
    /// Part: `inspector`.
    pub role: String,
    /// Organization and certificate; may be empty.
    pub more: String,
}

/// A mix or a fluid of the job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MixRow {
    /// What it is called.
    pub name: String,
    /// What was approved, as it was written.
    pub text: String,
    /// Id of the entry it stands in.
    pub entry: String,
}

/// Everybody, each name once, as last entered.
pub(crate) fn people(log: &Log<'_>) -> Vec<PersonRow> {
    let mut rows: Vec<PersonRow> = Vec::new();
    for (_, person) in log.each::<PersonNamed>() {
        let more: Vec<&str> =
            [&person.organization, &person.certificate].into_iter().flatten().map(String::as_str).collect();
        let row = PersonRow {
            name: person.name.clone(),
            role: label::choice(person.role.word()),
            more: more.join(", "),
        };
        match rows.iter_mut().find(|other| other.name == row.name) {
            Some(there) => *there = row,
            None => rows.push(row),
        }
    }
    rows
}

/// Every mix, each name once, as last approved.
pub(crate) fn mixes(log: &Log<'_>, show: &Show) -> Vec<MixRow> {
    let rows = log.each::<MixApproved>().map(|(line, mix)| (mix.mix.clone(), line));
    named(rows, show)
}

/// Every fluid product, each name once, as last approved.
pub(crate) fn fluids(log: &Log<'_>, show: &Show) -> Vec<MixRow> {
    let rows = log.each::<FluidApproved>().map(|(line, fluid)| (fluid.product.clone(), line));
    named(rows, show)
}

fn named<'l, 'r: 'l>(rows: impl Iterator<Item = (String, &'l record::Line<'r>)>, show: &Show) -> Vec<MixRow> {
    let mut all: Vec<MixRow> = Vec::new();
    for (name, line) in rows {
        let text = wording::entry_text(line.body, show);
        let row = MixRow { name, text, entry: line.entry.id.to_string() };
        match all.iter_mut().find(|other| other.name == row.name) {
            Some(there) => *there = row,
            None => all.push(row),
        }
    }
    all
}
