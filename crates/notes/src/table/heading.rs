//! Headings: which field of which part a column fills.
//!
//! A heading is the field's name, however it is spelt with blanks, hyphens and capitals; a unit in
//! parentheses is the unit of the bare numbers below it; the usual words of such sheets are known too.

use super::cells::Sheet;
use super::{Part, ROW_HEADINGS, Table};
use crate::fit::Readings;
use crate::mistake::{Mistake, Place, Wrong};
use crate::near::{nearest, plain};
use record::field::{FieldSpec, Shape};
use record::kinds::{KindSpec, kind_of};

/// The greatest number of a list in a heading.
const INDEX_MAX: usize = 99;

/// The usual words of sheets, and the headings they mean; the first that the table has is taken.
pub(crate) const OTHER_WORDS: &[(&str, &str)] = &[
    ("time", "at"),
    ("time_in", "at"),
    ("in", "at"),
    ("observed", "at"),
    ("arrival", "arrived"),
    ("arrival_time", "arrived"),
    ("time", "arrived"),
    ("time_out", "out"),
    ("shaft_id", "shaft"),
    ("shaft_no", "shaft"),
    ("id", "shaft"),
    ("day", "date"),
    ("inspector", "author"),
    ("written_by", "author"),
    ("start_depth", "from"),
    ("depth_from", "from"),
    ("end_depth", "to"),
    ("depth_to", "to"),
    ("depth", "to"),
    ("depth_to_concrete", "depth"),
    ("concrete_depth", "depth"),
    ("sounding", "depth"),
    ("ticket", "after"),
    ("ticket_no", "ticket"),
    ("ticket_number", "ticket"),
    ("load", "ticket"),
    ("after_load", "after"),
    ("load", "after"),
    ("truck_no", "truck"),
    ("quantity", "volume"),
    ("batch_time", "batched"),
    ("time_batched", "batched"),
    ("temp", "temperature"),
    ("concrete_temperature", "temperature"),
    ("start_discharge", "discharge_started"),
    ("discharge_start", "discharge_started"),
    ("end_discharge", "discharge_ended"),
    ("discharge_end", "discharge_ended"),
    ("finish_discharge", "discharge_ended"),
    ("sand_content", "sand"),
    ("funnel", "viscosity"),
    ("marsh_funnel", "viscosity"),
    ("unit_weight", "density"),
    ("tester", "by"),
    ("remarks", "note"),
    ("remark", "note"),
    ("comments", "note"),
    ("notes", "note"),
    ("soil", "material"),
    ("description", "material"),
    ("elevation_of_top", "top"),
    ("top_elevation", "top"),
    ("tip_elevation", "tip"),
    ("ground_elevation", "ground"),
];

/// A column and what it fills.
#[derive(Debug, Clone)]
pub(crate) struct Column {
    /// From 0.
    pub(crate) index: usize,
    pub(crate) heading: String,
    /// The unit of its bare numbers, where the heading names one.
    pub(crate) unit: Option<String>,
    pub(crate) fills: Fills,
}

/// What a column fills.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Fills {
    /// Something about the row, or the time of a part.
    Row(String),
    /// A field of parts: number of the part, and path counted from 1.
    Fields(Vec<(usize, String)>),
}

/// The columns of a table, and the headings that are none.
pub(crate) fn columns(file: &str, table: &Table, sheet: &Sheet) -> (Vec<Column>, Vec<Mistake>) {
    let (mut columns, mut mistakes): (Vec<Column>, Vec<Mistake>) = (Vec::new(), Vec::new());
    for (index, heading) in sheet.headings.iter().enumerate() {
        let mut wrong = |wrong: Wrong| {
            let place = Place::Cell { row: sheet.heading_row, column: index + 1, heading: heading.clone() };
            mistakes.push(Mistake { file: file.to_owned(), place, path: String::new(), wrong });
        };
        let filled =
            || sheet.rows.iter().any(|row| row.cells.get(index).is_some_and(|cell| !cell.trim().is_empty()));
        if heading.is_empty() && !filled() {
            continue;
        }
        let (name, unit) = name_and_unit(heading);
        match fills(table, &name) {
            Some(fills) if columns.iter().any(|other| clash(&other.fills, &fills)) => {
                wrong(Wrong::HeadingTwice { field: name });
            }
            Some(fills) => columns.push(Column { index, heading: heading.clone(), unit, fills }),
            None if name.contains('[') && too_high(&name) => wrong(Wrong::IndexHigh),
            None => {
                let names = heading_names(table);
                let near = nearest(&name, names.iter().map(String::as_str));
                wrong(Wrong::UnknownHeading { found: heading.clone(), table: table.word.to_owned(), near });
            }
        }
    }
    (columns, mistakes)
}

/// The table a file is, by its name or else by its headings.
pub(crate) fn table_of(name: &str, sheet: &Sheet) -> Option<Table> {
    let stem = plain(name.rsplit(['/', '\\']).next().unwrap_or(name).split('.').next().unwrap_or(name));
    let by_name =
        Table::every().filter(|table| stem.starts_with(table.word)).max_by_key(|table| table.word.len());
    by_name.or_else(|| by_headings(sheet))
}

fn by_headings(sheet: &Sheet) -> Option<Table> {
    let names: Vec<String> =
        sheet.headings.iter().filter(|text| !text.is_empty()).map(|text| name_and_unit(text).0).collect();
    let own = |table: &Table| {
        names.iter().filter(|name| matches!(fills(table, name), Some(Fills::Fields(_)))).count()
    };
    let strange = |table: &Table| names.iter().filter(|name| fills(table, name).is_none()).count();
    let fits = |table: &Table| own(table) >= 2 && strange(table) * 3 <= names.len();
    Table::every().filter(fits).min_by_key(|table| (strange(table), usize::MAX - own(table)))
}

/// `Depth (ft)` is `depth`, in feet.
fn name_and_unit(heading: &str) -> (String, Option<String>) {
    match heading.strip_suffix(')').and_then(|rest| rest.rsplit_once('(')) {
        Some((name, unit)) if !name.trim().is_empty() => (plain(name), Some(unit.trim().to_owned())),
        _ => (plain(heading), None),
    }
}

/// What a name fills in a table: itself, or one of the usual other words.
fn fills(table: &Table, name: &str) -> Option<Fills> {
    let others = OTHER_WORDS.iter().filter(|(word, _)| *word == name).map(|(_, heading)| *heading);
    fills_exactly(table, name)
        .or_else(|| others.into_iter().find_map(|heading| fills_exactly(table, heading)))
}

fn fills_exactly(table: &Table, name: &str) -> Option<Fills> {
    let mut fields = Vec::new();
    for (number, part) in table.parts.iter().enumerate() {
        let renamed = part.renamed.iter().find(|(heading, _)| *heading == name);
        let path = match renamed {
            Some((_, path)) => Some(*path),
            None => (!part.only_renamed).then_some(name),
        };
        let kind = kind_of(part.kind).expect("a part is of a known kind");
        fields.extend(path.and_then(|path| resolve(kind, path)).map(|path| (number, path)));
    }
    if !fields.is_empty() {
        return Some(Fills::Fields(fields));
    }
    let of_row = ROW_HEADINGS.iter().any(|(heading, _)| *heading == name);
    let of_time = table.parts.iter().any(|part| part.times.contains(&name));
    (of_row || of_time).then(|| Fills::Row(name.to_owned()))
}

/// A path of a kind as its fields are nested, with the short ways of one reading and of places.
fn resolve(kind: &'static KindSpec, path: &str) -> Option<String> {
    if leads(kind.fields, path).is_some() {
        return Some(path.to_owned());
    }
    let lists = kind.fields.iter().filter_map(|spec| Some((spec, Readings::of((spec.shape)())?)));
    let mut found = lists.filter_map(|(spec, readings)| {
        if readings.fields.iter().any(|field| field.name == path) {
            return Some(format!("{}[1].{path}", spec.name));
        }
        let (_, words) = readings.place()?;
        let at = words.iter().position(|word| word.word == path)?;
        Some(format!("{}[{}]@{path}", spec.name, at + 1))
    });
    let first = found.next();
    first.filter(|_| found.next().is_none())
}

/// The shape at the end of a path counted from 1; `None` when it leads nowhere.
pub(crate) fn leads(fields: &'static [FieldSpec], path: &str) -> Option<Shape> {
    let (first, rest) = path.split_once('.').map_or((path, None), |(first, rest)| (first, Some(rest)));
    let (name, index) = first.split_once('[').map_or((first, None), |(name, index)| (name, Some(index)));
    let spec = fields.iter().find(|spec| spec.name == name)?;
    let shape = match ((spec.shape)(), index) {
        (Shape::List(item), Some(index)) => {
            let index: usize = index.strip_suffix(']')?.parse().ok()?;
            (1..=INDEX_MAX).contains(&index).then(item)?
        }
        (shape, None) => shape,
        _ => return None,
    };
    match (shape, rest) {
        (Shape::Group(inner), Some(rest)) => leads(inner, rest),
        (Shape::Body | Shape::Group(_), None) | (_, Some(_)) => None,
        (shape, None) => Some(shape),
    }
}

fn too_high(name: &str) -> bool {
    let indices = name.split('[').skip(1).filter_map(|part| part.split(']').next()?.parse::<usize>().ok());
    indices.into_iter().any(|index| index > INDEX_MAX)
}

/// Whether two columns would fill the same place, or one the whole of the other.
fn clash(a: &Fills, b: &Fills) -> bool {
    match (a, b) {
        (Fills::Row(a), Fills::Row(b)) => a == b,
        (Fills::Fields(a), Fills::Fields(b)) => a.iter().any(|one| b.iter().any(|other| same(one, other))),
        _ => false,
    }
}

fn same(a: &(usize, String), b: &(usize, String)) -> bool {
    let list = |path: &str| path.split(['[', '.']).next().unwrap_or_default().to_owned();
    let by_place = |path: &str| path.contains('@');
    let whole = |path: &str| !path.contains(['[', '.']);
    let mixed = list(&a.1) == list(&b.1) && (by_place(&a.1) != by_place(&b.1) || whole(&a.1) || whole(&b.1));
    a.0 == b.0 && (a.1 == b.1 || mixed)
}

/// Every heading of a table that holds no list number above 1.
pub(crate) fn heading_names(table: &Table) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for part in &table.parts {
        let kind = kind_of(part.kind).expect("a part is of a known kind");
        names.extend(part.renamed.iter().map(|(heading, _)| (*heading).to_owned()));
        if !part.only_renamed {
            leaves(kind.fields, "", &mut names);
        }
        names.extend(part.times.iter().map(|time| (*time).to_owned()));
    }
    names.extend(ROW_HEADINGS.iter().map(|(heading, _)| (*heading).to_owned()));
    let mut seen = std::collections::BTreeSet::new();
    names.retain(|name| seen.insert(name.clone()));
    names
}

fn leaves(fields: &'static [FieldSpec], before: &str, names: &mut Vec<String>) {
    for field in fields {
        let path = format!("{before}{}", field.name);
        leaf((field.shape)(), path, names);
    }
}

fn leaf(shape: Shape, path: String, names: &mut Vec<String>) {
    match shape {
        Shape::Group(inner) => leaves(inner, &format!("{path}."), names),
        Shape::List(item) => leaf(item(), format!("{path}[1]"), names),
        Shape::Body => {}
        _ => names.push(path),
    }
}

impl Part {
    /// The kind of entry.
    pub(crate) fn spec(&self) -> &'static KindSpec {
        kind_of(self.kind).expect("a part is of a known kind")
    }
}
