//! A sheet of a workbook as a table of texts, as somebody would have saved it as CSV.
//!
//! Numbers come as they were typed, dates as dates, a formula as the value beside it. Rows keep their number, so that a
//! mistake names the row a person sees.
//!
//! Words: *shared text* = a text kept once for all cells that hold it.
//! Source: [ECMA-376]; from memory, tried on files of a general library.
//! Never: reckon a formula; guess what a cell without a value means.

use super::unpack::unzip;
use quantity::Moment;
use roxmltree::{Document, Node};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// Why no table came out of a workbook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotRead {
    /// It is no workbook, or one saved in another format, or too large to be a schedule.
    NoWorkbook,
    /// It has no sheet, or the one asked for has no cell that is filled in.
    Empty,
    /// It has no sheet of that name; those it has.
    NoSuchSheet(Vec<String>),
    /// It holds more columns or rows than a table of ours has.
    TooLarge,
}

impl fmt::Display for NotRead {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotRead::NoWorkbook => f.write_str("it is no workbook (.xlsx) that can be read"),
            NotRead::Empty => f.write_str("its sheet is empty"),
            NotRead::NoSuchSheet(names) => write!(f, "it has no such sheet, but {}", names.join(", ")),
            NotRead::TooLarge => f.write_str("its sheet has more than 1,000 columns or 100,000 rows"),
        }
    }
}

const COLUMNS_MOST: usize = 1000;
const ROWS_MOST: usize = 100_000;

const BOOK: &str = "xl/workbook.xml";
const RELATIONS: &str = "xl/_rels/workbook.xml.rels";
const TEXTS: &str = "xl/sharedStrings.xml";
const STYLES: &str = "xl/styles.xml";

/// A sheet as it was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetRead {
    /// Its name.
    pub name: String,
    /// The names of the others, which were not read.
    pub others: Vec<String>,
    /// Its cells as CSV.
    pub csv: String,
}

/// The sheet of a name, or the first one; `comma` where the job writes the decimal comma. Names are compared without
/// regard to capitals, as spreadsheets do.
///
/// # Errors
/// When it is no workbook, has no such sheet, or the sheet is empty or too large.
pub fn sheet_of(bytes: &[u8], named: Option<&str>, comma: bool) -> Result<SheetRead, NotRead> {
    let files = unzip(bytes, |name| name.starts_with("xl/")).ok_or(NotRead::NoWorkbook)?;
    let text = |name: &str| files.get(name).map(|bytes| String::from_utf8_lossy(bytes).into_owned());
    let sheets = sheets(&text(BOOK).ok_or(NotRead::NoWorkbook)?, text(RELATIONS).as_deref())?;
    let (at, (name, path)) = chosen(&sheets, named)?;
    let names = sheets.iter().enumerate().filter(|(other, _)| *other != at);
    let others = names.map(|(_, (name, _))| name.clone()).collect();
    let shared = text(TEXTS).map_or_else(Vec::new, |text| shared(&text));
    let dates = text(STYLES).map_or_else(BTreeSet::new, |text| dates(&text));
    let sheet = text(path).ok_or(NotRead::NoWorkbook)?;
    let cells = cells(&sheet, &Reading { shared, dates, comma })?;
    Ok(SheetRead { name: name.clone(), others, csv: csv_of(&cells, comma) })
}

/// Which of the sheets is meant.
fn chosen<'s>(
    sheets: &'s [(String, String)],
    named: Option<&str>,
) -> Result<(usize, &'s (String, String)), NotRead> {
    let Some(named) = named else { return sheets.first().map(|first| (0, first)).ok_or(NotRead::Empty) };
    let wanted = named.to_lowercase();
    let found = sheets.iter().enumerate().find(|(_, (name, _))| name.to_lowercase() == wanted);
    found.ok_or_else(|| NotRead::NoSuchSheet(sheets.iter().map(|(name, _)| name.clone()).collect()))
}

/// Name and path of each sheet, in their order.
fn sheets(book: &str, relations: Option<&str>) -> Result<Vec<(String, String)>, NotRead> {
    let book = Document::parse(book).map_err(|_| NotRead::NoWorkbook)?;
    let relations = relations.and_then(|text| Document::parse(text).ok());
    let path = |number: usize, sheet: &Node<'_, '_>| {
        let id = sheet.attributes().find(|attribute| attribute.name() == "id").map(|id| id.value());
        let related = relations.as_ref().zip(id).and_then(|(document, id)| {
            let mut nodes = document.descendants();
            nodes.find(|node| node.attribute("Id") == Some(id))?.attribute("Target").map(str::to_owned)
        });
        let target = related.unwrap_or_else(|| format!("worksheets/sheet{}.xml", number + 1));
        target.strip_prefix('/').map_or_else(|| format!("xl/{target}"), str::to_owned)
    };
    let sheets = book.descendants().filter(|node| node.has_tag_name_local("sheet")).enumerate();
    let named = |node: &Node<'_, '_>| node.attribute("name").unwrap_or_default().to_owned();
    Ok(sheets.map(|(number, node)| (named(&node), path(number, &node))).collect())
}

/// Local names, whatever prefix a program gives them.
trait Local {
    fn has_tag_name_local(&self, name: &str) -> bool;
}

impl Local for Node<'_, '_> {
    fn has_tag_name_local(&self, name: &str) -> bool {
        self.is_element() && self.tag_name().name() == name
    }
}

fn shared(text: &str) -> Vec<String> {
    let Ok(document) = Document::parse(text) else { return Vec::new() };
    document.descendants().filter(|node| node.has_tag_name_local("si")).map(|node| said(&node)).collect()
}

/// All the text of a node but the hints to pronounce it.
fn said(node: &Node<'_, '_>) -> String {
    let spoken = |text: &Node<'_, '_>| text.ancestors().any(|above| above.has_tag_name_local("rPh"));
    let texts = node.descendants().filter(|node| node.has_tag_name_local("t")).filter(|text| !spoken(text));
    texts.filter_map(|text| text.text()).collect()
}

/// The forms that show a number as a day or a time.
fn dates(text: &str) -> BTreeSet<usize> {
    let Ok(document) = Document::parse(text) else { return BTreeSet::new() };
    let own = document.descendants().filter(|node| node.has_tag_name_local("numFmt"));
    let own: BTreeMap<&str, &str> =
        own.filter_map(|node| Some((node.attribute("numFmtId")?, node.attribute("formatCode")?))).collect();
    let is_date = |id: &str| match own.get(id) {
        Some(code) => shows_date(code),
        None => id.parse::<u32>().is_ok_and(|id| matches!(id, 14..=22 | 45..=47)),
    };
    let Some(forms) = document.descendants().find(|node| node.has_tag_name_local("cellXfs")) else {
        return BTreeSet::new();
    };
    let forms = forms.children().filter(|node| node.has_tag_name_local("xf")).enumerate();
    forms.filter(|(_, form)| form.attribute("numFmtId").is_some_and(is_date)).map(|(at, _)| at).collect()
}

/// Letters of a day or a time outside quotes and brackets.
fn shows_date(code: &str) -> bool {
    let (mut quoted, mut bracket, mut escaped) = (false, false, false);
    for letter in code.chars() {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '"' => quoted = !quoted,
            '[' => bracket = true,
            ']' => bracket = false,
            'y' | 'd' | 'h' | 'Y' | 'D' | 'H' if !quoted && !bracket => return true,
            _ => {}
        }
    }
    false
}

/// What the cells are read by.
struct Reading {
    shared: Vec<String>,
    dates: BTreeSet<usize>,
    comma: bool,
}

/// Rows of cells, both counted from zero; those nobody filled in are left out.
type Cells = BTreeMap<usize, BTreeMap<usize, String>>;

fn cells(sheet: &str, reading: &Reading) -> Result<Cells, NotRead> {
    let document = Document::parse(sheet).map_err(|_| NotRead::NoWorkbook)?;
    let mut cells = Cells::new();
    let mut row = 0;
    for node in document.descendants().filter(|node| node.has_tag_name_local("row")) {
        row = node.attribute("r").and_then(|number| number.parse().ok()).unwrap_or(row + 1);
        let mut column = 0;
        for cell in node.children().filter(|node| node.has_tag_name_local("c")) {
            column = cell.attribute("r").and_then(column_of).unwrap_or(column);
            let said = value(&cell, reading);
            if row == 0 || row > ROWS_MOST || column >= COLUMNS_MOST {
                return Err(NotRead::TooLarge);
            }
            if !said.trim().is_empty() {
                cells.entry(row - 1).or_default().insert(column, said);
            }
            column += 1;
        }
    }
    if cells.is_empty() { Err(NotRead::Empty) } else { Ok(cells) }
}

/// `AB7` is column 27, counted from zero.
fn column_of(place: &str) -> Option<usize> {
    let letters = place.bytes().take_while(u8::is_ascii_alphabetic).take(4);
    let number =
        letters.fold(0, |sum, letter| sum * 26 + usize::from(letter.to_ascii_uppercase() - b'A') + 1);
    number.checked_sub(1)
}

fn value(cell: &Node<'_, '_>, reading: &Reading) -> String {
    let held = cell.children().find(|node| node.has_tag_name_local("v")).and_then(|node| node.text());
    let held = held.unwrap_or_default();
    match cell.attribute("t") {
        Some("s") => {
            let at = held.trim().parse::<usize>().ok();
            at.and_then(|at| reading.shared.get(at)).cloned().unwrap_or_default()
        }
        Some("inlineStr") => said(cell),
        Some("b") => if held.trim() == "1" { "yes" } else { "no" }.to_owned(),
        Some("str" | "e" | "d") => held.to_owned(),
        _ => {
            let style = cell.attribute("s").and_then(|style| style.parse().ok());
            let date = style.is_some_and(|style: usize| reading.dates.contains(&style));
            number(held.trim(), date, reading.comma)
        }
    }
}

/// A number as it was typed: what a spreadsheet keeps of it beyond fifteen digits is noise.
fn number(held: &str, date: bool, comma: bool) -> String {
    let Some(number) = held.parse::<f64>().ok().filter(|number| number.is_finite()) else {
        return held.to_owned();
    };
    if date {
        return day(number);
    }
    let rounded: f64 = format!("{number:.14e}").parse().unwrap_or(number);
    let text = rounded.to_string();
    if comma { text.replace('.', ",") } else { text }
}

/// Days since the last day of 1899 as a date, a time, or both.
fn day(days: f64) -> String {
    const DAY: f64 = 86_400.0;
    const DAYS_TO_1970: f64 = 25_569.0;
    let seconds = ((days - DAYS_TO_1970) * DAY).round();
    let at = Moment::at(seconds as i64, 0).local();
    let time = format!("{:02}:{:02}", at.hour(), at.minute());
    match (days < 1.0, days.fract() == 0.0) {
        (true, _) => time,
        (false, true) => at.date().to_string(),
        (false, false) => format!("{} {time}", at.date()),
    }
}

/// Cells as CSV, a line for each row of the sheet.
fn csv_of(cells: &Cells, comma: bool) -> String {
    let columns = cells.values().filter_map(|row| row.keys().next_back()).max().map_or(0, |last| last + 1);
    let rows = cells.keys().next_back().map_or(0, |last| last + 1);
    let separator = if comma { b';' } else { b',' };
    let mut writer = csv::WriterBuilder::new().delimiter(separator).from_writer(Vec::new());
    for row in 0..rows {
        let cell = |column: usize| {
            let said = cells.get(&row).and_then(|row| row.get(&column)).map_or("", String::as_str);
            // A line break would shift the numbers of the rows below.
            said.replace(['\r', '\n'], " ")
        };
        // Writing to memory cannot fail, and every row has as many cells.
        writer.write_record((0..columns).map(cell)).expect("memory takes every row");
    }
    String::from_utf8(writer.into_inner().expect("memory takes every row")).expect("texts are UTF-8")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::packed::zip;

    fn book(cells: &str) -> Vec<u8> {
        let file = |name: &str, text: &str| (name.to_owned(), text.as_bytes().to_vec());
        zip(&[
            file(
                BOOK,
                "<workbook xmlns:r=\"r\"><sheets><sheet name=\"Plan\" r:id=\"rId7\"/><sheet name=\"Bores\" r:id=\"rId8\"/></sheets></workbook>",
            ),
            file(
                RELATIONS,
                "<Relationships><Relationship Id=\"rId7\" Target=\"worksheets/one.xml\"/><Relationship Id=\"rId8\" Target=\"/xl/worksheets/two.xml\"/></Relationships>",
            ),
            file(
                TEXTS,
                "<sst><si><t>shaft</t></si><si><r><t>t</t></r><r><t>op</t></r><rPh><t>x</t></rPh></si></sst>",
            ),
            file(
                STYLES,
                "<styleSheet><numFmts><numFmt numFmtId=\"164\" formatCode=\"yyyy\\-mm\"/></numFmts><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"164\"/><xf numFmtId=\"20\"/></cellXfs></styleSheet>",
            ),
            file("xl/worksheets/one.xml", &format!("<worksheet><sheetData>{cells}</sheetData></worksheet>")),
            file(
                "xl/worksheets/two.xml",
                "<worksheet><sheetData><row><c><v>7</v></c></row></sheetData></worksheet>",
            ),
        ])
    }

    #[track_caller]
    fn check(cells: &str, comma: bool, expected: &str) {
        let (name, others) = ("Plan".to_owned(), vec!["Bores".to_owned()]);
        assert_eq!(
            sheet_of(&book(cells), None, comma),
            Ok(SheetRead { name, others, csv: expected.to_owned() })
        );
    }

    #[test]
    fn texts_and_numbers_come_as_they_were_typed() {
        let heads = "<row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"C1\" t=\"s\"><v>1</v></c></row>";
        let row = "<row r=\"3\"><c r=\"A3\" t=\"inlineStr\"><is><t>S-1, east</t></is></c>\
                   <c r=\"C3\"><v>5280.6000000000004</v></c></row>";
        check(&format!("{heads}{row}"), false, "shaft,,top\n,,\n\"S-1, east\",,5280.6\n");
        check(&format!("{heads}{row}"), true, "shaft;;top\n;;\nS-1, east;;5280,6\n");
    }

    #[test]
    fn days_times_answers_and_errors_are_texts() {
        let cells = "<row><c s=\"1\"><v>46000</v></c><c s=\"2\"><v>0.4375</v></c><c s=\"1\"><v>46000.5</v></c>\
                     <c t=\"b\"><v>1</v></c><c t=\"e\"><v>#REF!</v></c><c t=\"str\"><f>A1</f><v>wet</v></c></row>";
        check(cells, false, "2025-12-09,10:30,2025-12-09 12:00,yes,#REF!,wet\n");
    }

    #[test]
    fn a_sheet_is_found_by_its_name() {
        let other = sheet_of(&book(""), Some("bores"), false).expect("the other sheet");
        assert_eq!((other.name.as_str(), other.csv.as_str()), ("Bores", "7\n"));
        assert_eq!(other.others, ["Plan"]);
        let none = sheet_of(&book(""), Some("Borings"), false).expect_err("no such sheet");
        assert_eq!(none.to_string(), "it has no such sheet, but Plan, Bores");
    }

    #[test]
    fn what_is_no_workbook_is_said_to_be_none() {
        assert_eq!(sheet_of(b"shaft,top\n", None, false), Err(NotRead::NoWorkbook));
        assert_eq!(sheet_of(&book(""), None, false), Err(NotRead::Empty));
        assert_eq!(
            sheet_of(&book("<row r=\"9999999\"><c><v>1</v></c></row>"), None, false),
            Err(NotRead::TooLarge)
        );
        assert_eq!(
            sheet_of(&book("<row><c r=\"ZZZZ1\"><v>1</v></c></row>"), None, false),
            Err(NotRead::TooLarge)
        );
        assert_eq!(sheet_of(&book("<row"), None, false), Err(NotRead::NoWorkbook));
    }
}
