//! A shaft schedule pasted from a spreadsheet: what each row would plan, before anything is entered.
//!
//! An office keeps its shafts in a spreadsheet. Pasted here, every row becomes the draft of a planned
//! shaft or says why it cannot; the rows go in together or not at all, so that no schedule is half there.
//!
//! Words: *draft* = the planned shaft a row would become; *for all* = what holds for every row and has no
//! column of its own.
//! Never: take a row in part, guess at a heading, leave out a row a person did not leave out.

mod cells;
mod heading;

use super::form::{Asked, FieldFault, Form, When};
use quantity::{Gather, Moment};
use record::kinds::{EntryKind, ShaftPlanned};
use record::{Body, Entry, Held, Log, Record};
use std::collections::{BTreeMap, BTreeSet};

/// More rows than this are no schedule of one job.
const ROWS_MAX: usize = 5000;

/// A pasted schedule.
#[derive(Debug, Clone)]
pub struct Schedule {
    /// The columns, as far as they were recognised.
    pub columns: Vec<Column>,
    rows: Vec<Pasted>,
    blank: Form,
    planned: BTreeSet<String>,
    for_all: BTreeMap<String, String>,
    left_out: BTreeSet<usize>,
}

/// One column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its heading.
    pub heading: String,
    /// What is taken from it; `None`: nothing, and a screen says so.
    pub takes: Option<String>,
    fills: Option<heading::Fills>,
}

/// One row of the preview.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its line in what was pasted, from 1.
    pub line: usize,
    /// The shaft, as written.
    pub shaft: String,
    /// A person left it out.
    pub left_out: bool,
    /// The planned shaft, or every reason why it is none.
    pub outcome: Result<Body, Vec<FieldFault>>,
}

#[derive(Debug, Clone)]
struct Pasted {
    line: usize,
    cells: Vec<String>,
}

impl Schedule {
    /// Reads what was pasted: a heading row, then one shaft a row.
    ///
    /// # Errors
    /// A sentence when there is nothing, no heading row, or no column that names the shafts.
    pub fn read(pasted: &str, record: &Record, at: Moment) -> Result<Schedule, String> {
        let mut lines = cells::cells(pasted)?.into_iter().map(|(line, cells)| Pasted { line, cells });
        let Some(head) = lines.next() else {
            return Err(
                "Nothing was pasted. Copy the schedule with its heading row and paste it here.".to_owned()
            );
        };
        let columns = columns(&head.cells)?;
        let rows: Vec<Pasted> = lines.collect();
        if rows.is_empty() {
            return Err("Only a heading row was pasted. Copy the rows of the shafts as well.".to_owned());
        }
        if rows.len() > ROWS_MAX {
            return Err(format!(
                "{} rows are more than a schedule of one job; paste {ROWS_MAX} at most.",
                rows.len()
            ));
        }
        let blank = Form::new(ShaftPlanned::WORD, record, None, at).expect("a planned shaft is a kind");
        let (for_all, left_out) = (BTreeMap::new(), BTreeSet::new());
        let planned = planned(record, &rows.iter().map(|row| shaft_of(&columns, row)).into_set());
        Ok(Schedule { columns, rows, blank, planned, for_all, left_out })
    }

    /// Needed fields that no column holds: asked once, for all rows.
    pub fn lacking(&self) -> Vec<Asked> {
        let mut form = self.blank.clone();
        self.for_all.iter().for_each(|(path, text)| form.set(path, text));
        let filled = |path: &str| {
            self.columns.iter().any(|column| column.fills == Some(heading::Fills::Field(path.to_owned())))
        };
        let fields = form.fields().into_iter();
        fields.filter(|field| field.when == When::Needed && !filled(&field.path)).collect()
    }

    /// Writes what holds for every row whose own cell is blank.
    pub fn set_for_all(&mut self, path: &str, text: &str) {
        self.for_all.insert(path.to_owned(), text.to_owned());
    }

    /// Leaves a row out, or takes it in again: a row of sums, a shaft of another contract.
    pub fn leave_out(&mut self, line: usize, out: bool) {
        if out {
            self.left_out.insert(line);
        } else {
            self.left_out.remove(&line);
        }
    }

    /// Every row as it would be taken.
    pub fn rows(&self) -> Vec<Row> {
        let mut seen: BTreeMap<String, usize> = BTreeMap::new();
        self.rows.iter().map(|row| self.row(row, &mut seen)).collect()
    }

    /// The planned shafts by their names, once every row that was not left out can be taken.
    pub fn bodies(&self) -> Option<Vec<(String, Body)>> {
        let rows = self.rows().into_iter().filter(|row| !row.left_out);
        let taken: Option<Vec<_>> = rows.map(|row| Some((row.shaft, row.outcome.ok()?))).collect();
        taken.filter(|bodies| !bodies.is_empty())
    }

    fn row(&self, row: &Pasted, seen: &mut BTreeMap<String, usize>) -> Row {
        let shaft = shaft_of(&self.columns, row).to_owned();
        let left_out = self.left_out.contains(&row.line);
        let mut faults: Vec<FieldFault> = Vec::new();
        if !left_out {
            faults.extend(self.name_fault(&shaft, seen).map(|sentence| fault("shaft", "Shaft", sentence)));
            seen.entry(shaft.clone()).or_insert(row.line);
        }
        faults.extend(self.beyond(row));
        let body = self.form_of(row).body().map_err(|more| faults.extend(more));
        let outcome = match body {
            Ok(body) if faults.is_empty() => Ok(body),
            _ => Err(faults),
        };
        Row { line: row.line, shaft, left_out, outcome }
    }

    fn name_fault(&self, shaft: &str, seen: &BTreeMap<String, usize>) -> Option<String> {
        if shaft.is_empty() {
            return Some("The row names no shaft.".to_owned());
        }
        if let Some(line) = seen.get(shaft) {
            return Some(format!("`{shaft}` stands in line {line} already."));
        }
        let known = self.planned.contains(shaft);
        known.then(|| format!("`{shaft}` is planned in the record already; correct that entry instead."))
    }

    /// Something is written beyond the last heading.
    fn beyond(&self, row: &Pasted) -> Option<FieldFault> {
        let beyond = row.cells.iter().skip(self.columns.len()).find(|cell| !cell.trim().is_empty())?;
        let sentence = format!("`{}` stands beyond the last heading.", beyond.trim());
        Some(fault("", "Row", sentence))
    }

    fn form_of(&self, row: &Pasted) -> Form {
        let mut form = self.blank.clone();
        self.for_all.iter().for_each(|(path, text)| form.set(path, text));
        for (column, cell) in self.columns.iter().zip(&row.cells) {
            if let Some(heading::Fills::Field(path)) =
                column.fills.as_ref().filter(|_| !cell.trim().is_empty())
            {
                let unit = heading::unit(&column.heading);
                form.set_in_row(path, &heading::with_unit(cell, unit, form.is_quantity(path)));
            }
        }
        form
    }
}

fn fault(path: &str, label: &str, sentence: String) -> FieldFault {
    FieldFault { path: path.to_owned(), label: label.to_owned(), sentence }
}

/// Those of the pasted shafts that are planned in the record.
fn planned(record: &Record, pasted: &BTreeSet<&str>) -> BTreeSet<String> {
    let plans = |held: &Held| match held {
        Held::Known(Entry { shaft: Some(shaft), body: Body::ShaftPlanned(_), .. }) => Some(shaft.clone()),
        _ => None,
    };
    let named: BTreeSet<String> = record.entries().filter_map(plans).into_set();
    // A plan that was struck out leaves its name free.
    let stands = |shaft: &String| Log::of(record, Some(shaft), None).last::<ShaftPlanned>().is_some();
    named.into_iter().filter(|shaft| pasted.contains(shaft.as_str())).filter(stands).into_set()
}

/// What a row calls its shaft.
fn shaft_of<'c>(columns: &[Column], row: &'c Pasted) -> &'c str {
    let column = columns.iter().position(|column| column.fills == Some(heading::Fills::Shaft));
    column.and_then(|index| row.cells.get(index)).map_or("", |cell| cell.trim())
}

fn columns(headings: &[String]) -> Result<Vec<Column>, String> {
    let mut columns: Vec<Column> = Vec::new();
    for text in headings {
        let fills = heading::fills(text);
        let twice = fills.is_some() && columns.iter().any(|other| other.fills == fills);
        if twice {
            return Err(format!("Two columns fill the same as `{}`. Keep one of them.", text.trim()));
        }
        let takes = fills.as_ref().map(heading::Fills::label);
        columns.push(Column { heading: text.trim().to_owned(), takes, fills });
    }
    let shafts = columns.iter().any(|column| column.fills == Some(heading::Fills::Shaft));
    let others = columns.iter().filter(|column| column.fills.is_some()).count() > 1;
    match (shafts, others) {
        (true, true) => Ok(columns),
        (false, true) => Err("No column names the shafts. One heading must be “Shaft”.".to_owned()),
        _ => Err("The first row holds no headings that are known here, such as Shaft, Top elevation, Tip \
                  elevation, Diameter. Copy the heading row as well."
            .to_owned()),
    }
}
