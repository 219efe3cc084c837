//! Sheets into the bytes of a workbook: XML in a ZIP, as Office Open XML has it.
//!
//! Source: [ECMA-376]; every file is opened by a general library.

use super::sheet::{Cell, Form, Sheet};
use super::xml::escaped;
use crate::Job;
use crate::packed::zip;
use quantity::Moment;

/// A cell holds no more letters; what is longer ends in three points, and stands whole in the record.
const LETTERS: usize = 32_000;

/// The forms of cells, by their place in `STYLES`.
fn style(form: Form) -> usize {
    match form {
        Form::Plain => 2,
        Form::Time => 3,
        Form::Decimals(decimals) => 4 + decimals.min(3),
    }
}

/// The form of a heading.
const HEAD: usize = 1;

const STYLES: &str = r#"<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts count="3"><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd\ hh:mm"/><numFmt numFmtId="165" formatCode="0.0"/><numFmt numFmtId="166" formatCode="0.000"/></numFmts><fonts count="2"><font><sz val="11"/><name val="Calibri"/><family val="2"/></font><font><b/><sz val="11"/><name val="Calibri"/><family val="2"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="8"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1" applyAlignment="1"><alignment vertical="top" wrapText="1"/></xf><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0" applyAlignment="1"><alignment vertical="top" wrapText="1"/></xf><xf numFmtId="164" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf><xf numFmtId="1" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf><xf numFmtId="165" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf><xf numFmtId="2" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf><xf numFmtId="166" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1"><alignment vertical="top"/></xf></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>"#;

const DECLARED: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006";
const MEDIA: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml";

pub(super) fn workbook(job: &Job<'_, '_>, sheets: &[Sheet]) -> Vec<u8> {
    let mut files = vec![
        part("[Content_Types].xml", &content_types(sheets)),
        part("_rels/.rels", &top_relations()),
        part("docProps/core.xml", &core(job)),
        part("xl/workbook.xml", &book(sheets)),
        part("xl/_rels/workbook.xml.rels", &relations(sheets)),
        part("xl/styles.xml", STYLES),
    ];
    files.extend((1..).zip(sheets).map(|(number, sheet)| part(&path(number), &worksheet(sheet))));
    zip(&files)
}

fn part(name: &str, text: &str) -> (String, Vec<u8>) {
    (name.to_owned(), format!("{DECLARED}{text}").into_bytes())
}

fn path(number: usize) -> String {
    format!("xl/worksheets/sheet{number}.xml")
}

fn content_types(sheets: &[Sheet]) -> String {
    let overridden =
        |name: &str, media: &str| format!("<Override PartName=\"/{name}\" ContentType=\"{media}\"/>");
    let pages = (1..=sheets.len()).map(|number| overridden(&path(number), &format!("{MEDIA}.worksheet+xml")));
    let others = [
        overridden("xl/workbook.xml", &format!("{MEDIA}.sheet.main+xml")),
        overridden("xl/styles.xml", &format!("{MEDIA}.styles+xml")),
        overridden("docProps/core.xml", "application/vnd.openxmlformats-package.core-properties+xml"),
    ];
    format!(
        "<Types xmlns=\"{PACKAGE}/content-types\"><Default Extension=\"rels\" \
         ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Default Extension=\"xml\" \
         ContentType=\"application/xml\"/>{}{}</Types>",
        others.concat(),
        pages.collect::<String>()
    )
}

fn relation(id: usize, kind: &str, target: &str) -> String {
    format!("<Relationship Id=\"rId{id}\" Type=\"{kind}\" Target=\"{target}\"/>")
}

fn related(relations: &str) -> String {
    format!("<Relationships xmlns=\"{PACKAGE}/relationships\">{relations}</Relationships>")
}

fn top_relations() -> String {
    let properties = format!("{PACKAGE}/relationships/metadata/core-properties");
    let book = relation(1, &format!("{OFFICE}/officeDocument"), "xl/workbook.xml");
    related(&(book + &relation(2, &properties, "docProps/core.xml")))
}

fn relations(sheets: &[Sheet]) -> String {
    let page = |number: usize| {
        relation(number, &format!("{OFFICE}/worksheet"), &format!("worksheets/sheet{number}.xml"))
    };
    let pages: String = (1..=sheets.len()).map(page).collect();
    related(&(pages + &relation(sheets.len() + 1, &format!("{OFFICE}/styles"), "styles.xml")))
}

fn core(job: &Job<'_, '_>) -> String {
    let made = job.as_of();
    let utc = Moment::at(made.seconds(), 0).local().to_string();
    format!(
        "<cp:coreProperties xmlns:cp=\"{PACKAGE}/metadata/core-properties\" \
         xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:dcterms=\"http://purl.org/dc/terms/\" \
         xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\"><dc:creator>{}</dc:creator>\
         <dcterms:created xsi:type=\"dcterms:W3CDTF\">{utc}Z</dcterms:created></cp:coreProperties>",
        escaped(job.program)
    )
}

/// Whoever opens it reckons the formulas anew.
fn book(sheets: &[Sheet]) -> String {
    let sheet = |(number, sheet): (usize, &Sheet)| {
        format!("<sheet name=\"{}\" sheetId=\"{number}\" r:id=\"rId{number}\"/>", escaped(&sheet.name))
    };
    format!(
        "<workbook xmlns=\"{MAIN}\" xmlns:r=\"{OFFICE}\"><bookViews><workbookView/></bookViews><sheets>{}</sheets>\
         <calcPr calcId=\"0\" fullCalcOnLoad=\"1\"/></workbook>",
        (1..).zip(sheets).map(sheet).collect::<String>()
    )
}

fn worksheet(sheet: &Sheet) -> String {
    let width = |(number, column): (usize, &super::sheet::Column)| {
        format!("<col min=\"{number}\" max=\"{number}\" width=\"{}\" customWidth=\"1\"/>", column.width)
    };
    let widths: String = (1..).zip(&sheet.columns).map(width).collect();
    let heads = sheet.columns.iter().enumerate();
    let heads: String = heads.map(|(at, column)| text((at, 1), HEAD, &column.title)).collect();
    let rows = (2..).zip(&sheet.rows).map(|(number, cells)| row(number, cells, sheet));
    format!(
        "<worksheet xmlns=\"{MAIN}\"><sheetViews><sheetView workbookViewId=\"0\"><pane xSplit=\"1\" ySplit=\"1\" \
         topLeftCell=\"B2\" activePane=\"bottomRight\" state=\"frozen\"/></sheetView></sheetViews>\
         <cols>{widths}</cols><sheetData><row r=\"1\">{heads}</row>{}</sheetData></worksheet>",
        rows.collect::<String>()
    )
}

fn row(number: usize, cells: &[Cell], sheet: &Sheet) -> String {
    let each = cells.iter().zip(&sheet.columns).enumerate();
    let cells: String = each.map(|(at, (one, column))| cell((at, number), one, style(column.form))).collect();
    format!("<row r=\"{number}\">{cells}</row>")
}

fn cell(at: (usize, usize), cell: &Cell, style: usize) -> String {
    let place = place(at);
    match cell {
        Cell::Blank => String::new(),
        Cell::Text(said) => text(at, style, said),
        Cell::Number(number) => format!("<c r=\"{place}\" s=\"{style}\"><v>{number}</v></c>"),
        Cell::Time(moment) => match serial(*moment) {
            Some(days) => format!("<c r=\"{place}\" s=\"{style}\"><v>{days}</v></c>"),
            None => text(at, style, &moment.to_string()),
        },
        Cell::Formula(formula, value) => {
            let formula = escaped(formula.trim_start_matches('='));
            format!("<c r=\"{place}\" s=\"{style}\"><f>{formula}</f><v>{value}</v></c>")
        }
    }
}

fn text(at: (usize, usize), style: usize, said: &str) -> String {
    let place = place(at);
    let said = escaped(&short(said));
    format!(
        "<c r=\"{place}\" s=\"{style}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{said}</t></is></c>"
    )
}

/// `B7`; a sheet of ours has no more columns than there are letters.
fn place((column, row): (usize, usize)) -> String {
    let letter = u8::try_from(column).ok().and_then(|column| b'A'.checked_add(column));
    format!("{}{row}", char::from(letter.unwrap_or(b'Z').min(b'Z')))
}

fn short(text: &str) -> String {
    match text.char_indices().nth(LETTERS) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}

/// The clock of the site in days as spreadsheets count them; none before March 1900, where they count wrong.
fn serial(at: Moment) -> Option<f64> {
    const DAYS_TO_1970: f64 = 25_569.0;
    const SECONDS: f64 = 86_400.0;
    let local = at.seconds() + i64::from(at.offset_seconds());
    let days = DAYS_TO_1970 + local as f64 / SECONDS;
    (days >= 61.0).then_some(days)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_that_no_cell_can_hold_is_cut_and_says_so() {
        assert_eq!(short("a"), "a");
        let long = short(&"ö".repeat(40_000));
        assert_eq!((long.chars().count(), long.chars().last()), (32_001, Some('…')));
    }

    #[test]
    fn times_are_days_on_the_clock_of_the_site() {
        // 1 January 2000 is day 36526 of every spreadsheet; from memory, and read back by a general library.
        let at = |text: &str| serial(Moment::parse(text).expect("a moment"));
        assert_eq!(at("2000-01-01T12:00:00-06:00"), Some(36_526.5));
        assert_eq!(at("1880-05-04T07:08:09+00:00"), None);
    }

    #[test]
    fn what_somebody_typed_is_never_a_formula() {
        let typed = cell((1, 2), &Cell::Text("=1+1".to_owned()), 2);
        assert_eq!(
            typed,
            "<c r=\"B2\" s=\"2\" t=\"inlineStr\"><is><t xml:space=\"preserve\">=1+1</t></is></c>"
        );
    }
}
