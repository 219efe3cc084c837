//! Rows into drafts: each part of a row that has something of its own becomes an entry.

use super::cells::Row;
use super::heading::{Column, Fills, leads};
use super::{Part, Request, Table};
use crate::clock::{Clock, TimeProblem, date_of};
use crate::context::{Context, Surroundings};
use crate::draft::{Drafted, PassedOver};
use crate::fit::Readings;
use crate::label::Labels;
use crate::mistake::{Mistake, Place, Wrong};
use crate::near::nearest;
use crate::node::{Named, Node, Sort};
use crate::take::{Desk, Raw};
use jiff::civil::Date;
use quantity::Moment;
use record::Family;
use record::field::Shape;
use record::kinds::KindSpec;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// The place of what no column holds.
const NOWHERE: Range<usize> = usize::MAX..usize::MAX;

/// The rows of a table on their way to drafts.
pub(crate) struct Rows<'a> {
    file: &'a str,
    table: &'a Table,
    headings: usize,
    columns: Vec<Column>,
    request: Request<'a>,
    surroundings: &'a dyn Surroundings,
    labels: &'a Labels,
    line: usize,
    told: BTreeSet<&'static str>,
    planned: BTreeMap<String, usize>,
    pub(crate) context: Context,
    pub(crate) drafted: Vec<Drafted>,
    pub(crate) passed_over: Vec<PassedOver>,
    pub(crate) mistakes: Vec<Mistake>,
}

/// How a table is laid out.
pub(crate) struct Layout<'a> {
    pub(crate) table: &'a Table,
    /// How many headings there are.
    pub(crate) headings: usize,
    pub(crate) columns: Vec<Column>,
}

/// What is not in the table.
pub(crate) struct Outside<'a> {
    pub(crate) surroundings: &'a dyn Surroundings,
    pub(crate) labels: &'a Labels,
}

/// What holds for every part of a row.
struct Head {
    shaft: Option<String>,
    date: Option<Date>,
    /// A date is written that is none; that has been told.
    date_wrong: bool,
    author: Option<String>,
    device: Option<String>,
    noted: Option<Option<Moment>>,
}

impl<'a> Rows<'a> {
    pub(crate) fn new(file: &'a str, layout: Layout<'a>, request: Request<'a>, desk: Outside<'a>) -> Self {
        let Layout { table, headings, columns } = layout;
        let Outside { surroundings, labels } = desk;
        Rows {
            file,
            table,
            headings,
            columns,
            request,
            surroundings,
            labels,
            line: 0,
            told: BTreeSet::new(),
            planned: BTreeMap::new(),
            context: request.context.clone(),
            drafted: Vec::new(),
            passed_over: Vec::new(),
            mistakes: Vec::new(),
        }
    }

    pub(crate) fn row(&mut self, row: &Row) {
        self.line = row.line;
        let beyond =
            row.cells.iter().enumerate().skip(self.headings).find(|(_, cell)| !cell.trim().is_empty());
        if let Some((index, _)) = beyond {
            self.wrong(index..index, "", Wrong::CellsBeyond { headings: self.headings });
            return;
        }
        if let Some(status) = self.cell(row, "status").filter(|status| !status.eq_ignore_ascii_case("stands"))
        {
            self.passed_over.push(PassedOver { row: row.line, standing: status.to_owned() });
            return;
        }
        let head = self.head(row);
        for (number, part) in self.table.parts.iter().enumerate() {
            self.part(row, &head, number, part);
        }
    }

    fn column(&self, name: &str) -> Option<&Column> {
        self.columns.iter().find(|column| column.fills == Fills::Row(name.to_owned()))
    }

    fn cell<'r>(&self, row: &'r Row, name: &str) -> Option<&'r str> {
        let column = self.column(name)?;
        row.cells.get(column.index).map(str::trim).filter(|cell| !cell.is_empty())
    }

    fn span(&self, name: &str) -> Range<usize> {
        self.column(name).map_or(NOWHERE, |column| column.index..column.index)
    }

    fn head(&mut self, row: &Row) -> Head {
        let or = |cell: Option<&str>, given: Option<&str>| cell.or(given).map(str::to_owned);
        let shaft = or(self.cell(row, "shaft"), self.request.shaft);
        let author = or(self.cell(row, "author"), self.request.author);
        let device = or(self.cell(row, "device"), self.request.device);
        let date = self.date(row);
        if author.is_none() {
            self.blank_once("author", "who wrote it");
        }
        let shaft = shaft.and_then(|shaft| self.shaft(shaft));
        let clock = |date| Clock { zone: &self.context.zone, date };
        let noted = self.cell(row, "noted").map(|noted| (noted.to_owned(), clock(date).read(noted)));
        let noted = noted.map(|(found, read)| match read {
            Ok(moment) => Some(moment),
            Err(problem) => {
                self.wrong(self.span("noted"), "noted", Wrong::Time { found, problem });
                None
            }
        });
        let date_wrong = date.is_none() && self.cell(row, "date").or(self.request.date).is_some();
        Head { shaft, date, date_wrong, author, device, noted }
    }

    fn date(&mut self, row: &Row) -> Option<Date> {
        let found = self.cell(row, "date").or(self.request.date)?.to_owned();
        let date = date_of(&found);
        if date.is_none() {
            self.wrong(self.span("date"), "date", Wrong::Date(found));
        }
        date
    }

    /// A shaft a row is about: planned already, or planned by this row.
    fn shaft(&mut self, found: String) -> Option<String> {
        let known = self.context.shafts.contains(&found);
        let plans = self.table.parts.iter().any(|part| part.kind == "shaft_planned");
        let again = self.context.again && !self.planned.contains_key(&found);
        if plans && known && !again {
            let first = self.planned.get(&found).copied();
            self.wrong(self.span("shaft"), "shaft", Wrong::ShaftTwice { id: found.clone(), first });
        } else if plans {
            self.planned.insert(found.clone(), self.line);
            self.context.shafts.insert(found.clone());
        } else if !known {
            let planned: Vec<String> = self.context.shafts.iter().cloned().collect();
            let near = nearest(&found, planned.iter().map(String::as_str));
            self.wrong(self.span("shaft"), "shaft", Wrong::UnknownShaft { found, near, planned });
            return None;
        }
        Some(found)
    }

    fn part(&mut self, row: &Row, head: &Head, number: usize, part: &Part) {
        let timed = number > 0 && self.cell(row, part.times[0]).is_some();
        let fields = self.fields(row, number);
        if number > 0 && fields.is_empty() && !timed {
            return;
        }
        let kind = part.spec();
        let observed = self.observed(row, head, part);
        let mut fields = fields;
        for (field, heading) in part.shared {
            let cell = self.shared(row, heading);
            fields.extend(cell.map(|(index, text)| named(field, Node::text(index..index, text))));
        }
        // A log that went out as a table says of every line how it stands; its lines about the whole job
        // have no shaft. In a sheet a blank shaft is an omission.
        let needs_shaft = !matches!(kind.family, Family::Job | Family::Before | Family::Always);
        let from_log = self.column("status").is_some() && kind.family != Family::Plan;
        let no_shaft = self.cell(row, "shaft").or(self.request.shaft).is_none();
        if needs_shaft && no_shaft && !from_log {
            self.blank_once("shaft", "which shaft it is about");
        }
        let clock_date = head.date.or_else(|| Some(Date::constant(2000, 1, 3)));
        let zone = self.context.zone.clone();
        let desk = Desk {
            clock: Clock { zone: &zone, date: clock_date },
            defaults: self.context.defaults,
            surroundings: self.surroundings,
            labels: self.labels,
            stored_cells: true,
        };
        match (desk.take(kind, Node::group(NOWHERE, fields)), observed, head.author.clone(), head.noted) {
            (Err(raws), ..) => {
                // What is shared is told of the first part alone.
                let shared = |raw: &Raw| {
                    raw.span == NOWHERE && part.shared.iter().any(|(field, _)| *field == raw.path)
                };
                raws.into_iter().filter(|raw| !shared(raw)).for_each(|raw| self.raw(raw, number));
            }
            (Ok(said), Some(observed_at), Some(author), noted) => self.drafted.push(Drafted {
                shaft: head.shaft.clone(),
                observed_at,
                noted_at: noted.flatten(),
                author,
                device: head.device.clone(),
                label: None,
                line: row.line,
                said,
            }),
            _ => {}
        }
    }

    /// When a part was seen: under the first of its headings that is filled in.
    fn observed(&mut self, row: &Row, head: &Head, part: &Part) -> Option<Moment> {
        let time = part.times.iter().find_map(|name| Some((*name, self.cell(row, name)?.to_owned())));
        let Some((name, found)) = time else {
            if let (Some(date), "shaft_planned") = (head.date, part.kind) {
                return self.context.zone.start_of(date);
            }
            let of = format!("{} of this row", part.kind);
            let wrong = Wrong::Blank { field: part.times[0].to_owned(), of, meaning: "the time it was seen" };
            self.wrong(self.span(part.times[0]), part.times[0], wrong);
            return None;
        };
        let read = Clock { zone: &self.context.zone, date: head.date }.read(&found);
        match read {
            Ok(moment) => Some(moment),
            Err(TimeProblem::NoDate) if head.date_wrong => None,
            Err(problem) => {
                self.wrong(self.span(name), name, Wrong::Time { found, problem });
                None
            }
        }
    }

    fn shared(&self, row: &Row, heading: &str) -> Option<(usize, String)> {
        let own = (0, heading.to_owned());
        let fills =
            |column: &&Column| matches!(&column.fills, Fills::Fields(fields) if fields.contains(&own));
        let column = self.columns.iter().find(fills)?;
        let cell = row.cells.get(column.index)?.trim();
        (!cell.is_empty()).then(|| (column.index, cell.to_owned()))
    }

    /// The cells of a part as a tree of fields.
    fn fields(&self, row: &Row, number: usize) -> Vec<Named> {
        let kind = self.table.parts[number].spec();
        // A log that went out as a table comes back to the character.
        let exact = self.column("status").is_some();
        let mut fields: Vec<Named> = Vec::new();
        for column in &self.columns {
            let Fills::Fields(places) = &column.fills else { continue };
            let Some((_, path)) = places.iter().find(|(part, _)| *part == number) else { continue };
            let cell = row.cells.get(column.index).filter(|cell| !cell.trim().is_empty());
            let Some(cell) = cell.map(|cell| if exact { cell } else { cell.trim() }) else { continue };
            let shape = shape_at(kind, path);
            let text = with_unit(cell, column.unit.as_deref(), shape);
            put(&mut fields, path, column.index, text);
        }
        fields.iter_mut().for_each(|field| close_gaps(&mut field.node));
        fields
    }

    fn wrong(&mut self, span: Range<usize>, path: &str, wrong: Wrong) {
        let column = self.columns.iter().find(|column| column.index == span.start);
        let heading = column.map_or(String::new(), |column| column.heading.clone());
        let column = if span == NOWHERE { 1 } else { span.start + 1 };
        let place = Place::Cell { row: self.line, column, heading };
        let mistake = Mistake { file: self.file.to_owned(), place, path: path.to_owned(), wrong };
        self.mistakes.push(mistake);
    }

    /// A mistake of a part: in its cell, or under the heading of the field that is blank.
    fn raw(&mut self, raw: Raw, number: usize) {
        let own = (number, raw.path.clone());
        let fills =
            |column: &&Column| matches!(&column.fills, Fills::Fields(fields) if fields.contains(&own));
        let under = self.columns.iter().find(fills).map(|column| column.index..column.index);
        let span = if raw.span == NOWHERE { under.unwrap_or(NOWHERE) } else { raw.span };
        self.wrong(span, &raw.path, raw.wrong);
    }

    /// Says once, not for every row, what the whole table lacks.
    fn blank_once(&mut self, field: &'static str, meaning: &'static str) {
        let has_column = self.column(field).is_some();
        if has_column || self.told.insert(field) {
            let of = if has_column { "the row" } else { "every row of the table" };
            let wrong = Wrong::Blank { field: field.to_owned(), of: of.to_owned(), meaning };
            self.wrong(self.span(field), field, wrong);
        }
    }
}

/// What a column holds.
fn shape_at(kind: &'static KindSpec, path: &str) -> Option<Shape> {
    let Some((list, _)) = path.split_once('@') else { return leads(kind.fields, path) };
    let list = kind.fields.iter().find(|field| list.split('[').next() == Some(field.name))?;
    Readings::of((list.shape)()).map(|readings| (readings.needed.shape)())
}

fn named(name: &str, node: Node) -> Named {
    Named { name: name.to_owned(), at: node.span.clone(), node }
}

/// A bare number with the unit its heading names.
fn with_unit(cell: &str, unit: Option<&str>, shape: Option<Shape>) -> String {
    let bare = |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',' | '-' | '+' | '/' | ' ');
    match (unit, shape) {
        (Some(unit), Some(Shape::Quantity(..))) if cell.chars().all(bare) => format!("{cell} {unit}"),
        _ => cell.to_owned(),
    }
}

/// Puts a cell at a path counted from 1: `points[1].depth`, or `points[2]@north` for the reading of a place.
fn put(fields: &mut Vec<Named>, path: &str, column: usize, text: String) {
    let (first, rest) = match path.find(['.', '@']) {
        Some(at) => (&path[..at], &path[at..]),
        None => (path, ""),
    };
    let (name, index) = first.split_once('[').map_or((first, None), |(name, index)| (name, Some(index)));
    let index = index.and_then(|index| index.trim_end_matches(']').parse::<usize>().ok());
    let at = match fields.iter().position(|field| field.name == name) {
        Some(at) => at,
        None => {
            fields.push(named(name, Node::list(column..column, Vec::new())));
            fields.len() - 1
        }
    };
    fill(&mut fields[at].node, index, rest, (column, text));
}

fn fill(node: &mut Node, index: Option<usize>, rest: &str, cell: (usize, String)) {
    let span = cell.0..cell.0;
    if let Some(index) = index {
        let Sort::List(items) = &mut node.sort else { return };
        while items.len() < index {
            items.push(Node::group(span.clone(), Vec::new()));
        }
        return fill(&mut items[index - 1], None, rest, cell);
    }
    if let Some(place) = rest.strip_prefix('@') {
        // One reading of a place, in the short way that `fit` reads.
        *node = Node::group(span.clone(), vec![named(place, Node::text(span, cell.1))]);
    } else if let Some(inner) = rest.strip_prefix('.') {
        if !matches!(node.sort, Sort::Group(_)) {
            *node = Node::group(span.clone(), Vec::new());
        }
        if let Sort::Group(fields) = &mut node.sort {
            put(fields, inner, cell.0, cell.1);
        }
    } else {
        *node = Node::text(span, cell.1);
    }
}

/// Numbers of a list that no cell fills are left out; readings of places are laid side by side.
fn close_gaps(node: &mut Node) {
    match &mut node.sort {
        Sort::List(items) => {
            items.retain(|item| !matches!(&item.sort, Sort::Group(fields) if fields.is_empty()));
            items.iter_mut().for_each(close_gaps);
        }
        Sort::Group(fields) => fields.iter_mut().for_each(|field| close_gaps(&mut field.node)),
        Sort::Text(_) | Sort::Flag(_) => {}
    }
}
