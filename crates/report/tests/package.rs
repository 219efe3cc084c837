//! The package of one shaft, read back from the file that is handed in.

#[path = "../examples/invented/mod.rs"]
mod invented;
mod reader;

use expect_test::expect_file;
use reader::{Reader, packed};
use report::{Column, Fonts, Layout, LogTable, Mark, Paper, ReportInput, Row, package};

/// The one place that makes the file; the stories below do not know how.
#[track_caller]
fn read(input: &ReportInput) -> Reader {
    Reader::open(&package(input, &invented::fonts()).expect("a package").bytes)
}

/// A shaft with one log.
fn with_log(rows: Vec<Row>) -> ReportInput {
    let columns = vec![
        Column::centered("Time", 1.0),
        Column::numbers("Depth", "ft", 1.0),
        Column::words("Ground", 3.0),
    ];
    let log = LogTable {
        title: "Excavation".into(),
        note: String::new(),
        columns,
        rows,
        total: None,
        layout: Layout::Upright,
        width: 1.0,
        part: String::new(),
    };
    ReportInput { logs: vec![log], ..invented::bare(Paper::Letter) }
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let first = package(&invented::package(Paper::A4), &invented::fonts()).unwrap();
    package(&invented::package(Paper::Letter), &invented::fonts()).unwrap();
    let again = package(&invented::package(Paper::A4), &invented::fonts()).unwrap();
    assert!(first == again, "two files of one input differ");
}

/// Letter is 8.5 in × 11 in = 612 pt × 792 pt; A4 is 210 mm × 297 mm (ISO 216) = 595.28 pt × 841.89 pt.
#[test]
fn every_page_has_the_size_that_was_asked_for() {
    let letter = read(&invented::package(Paper::Letter)).sizes();
    assert_eq!(letter, vec![(612.0, 792.0); letter.len()]);
    for (width, height) in read(&invented::package(Paper::A4)).sizes() {
        let (short, long) = (width.min(height), width.max(height));
        assert!((short - 595.28).abs() < 0.01 && (long - 841.89).abs() < 0.01, "{width} × {height}");
    }
}

#[test]
fn a_log_turned_sideways_has_a_page_of_its_own() {
    let turned = |paper| read(&invented::package(paper)).sizes().iter().filter(|(w, h)| w > h).count();
    assert_eq!((turned(Paper::Letter), turned(Paper::A4)), (0, 1));
}

#[test]
fn the_words_of_a_whole_package() {
    let reader = read(&invented::package(Paper::Letter));
    let pages = reader.pages();
    assert_eq!(pages.len(), 10);
    let numbered = pages.iter().enumerate().map(|(at, page)| format!("=== page {} ===\n{page}\n", at + 1));
    expect_file!["package.txt"].assert_eq(&numbered.collect::<String>());
}

#[test]
fn nothing_that_was_handed_in_is_left_out() {
    let input = invented::package(Paper::Letter);
    let paper = read(&input).packed();
    let mut texts = Vec::new();
    collect(&serde_json::to_value(&input).unwrap(), "", &mut texts);
    assert!(texts.len() > 600, "only {} texts looked at", texts.len());
    for text in texts {
        assert!(paper.contains(&packed(&text)), "`{text}` is nowhere on paper");
    }
}

/// Every text of an input, except the words behind the shapes, those for readers who cannot see a drawing
/// (checked in `drawings.rs`) and the sixth finding of page one, for which section 1 stands.
fn collect(value: &serde_json::Value, key: &str, texts: &mut Vec<String>) {
    let tags = ["paper", "kind", "standing", "certainty", "align", "room", "alt", "layout"];
    match value {
        serde_json::Value::String(text) if !tags.contains(&key) => texts.push(text.clone()),
        serde_json::Value::Array(items) if key == "leading" => {
            items.iter().take(5).for_each(|item| collect(item, "", texts));
        }
        serde_json::Value::Array(items) => items.iter().for_each(|item| collect(item, "", texts)),
        serde_json::Value::Object(fields) => fields.iter().for_each(|(key, item)| collect(item, key, texts)),
        _ => {}
    }
}

#[test]
fn page_one_says_that_more_findings_matter_than_it_has_room_for() {
    let page = read(&invented::package(Paper::Letter)).pages().swap_remove(0);
    assert!(page.contains("1 more in section 1."), "{page}");
    assert!(!page.contains("Two readings of load 6"), "the sixth stands on page one");
}

#[test]
fn every_page_says_where_it_belongs() {
    let pages = read(&invented::package(Paper::A4)).pages();
    for (at, page) in pages.iter().enumerate() {
        let page = packed(page);
        for part in [
            "Juniper Wash overcrossing · B2-3",
            &format!("page {} of {}", at + 1, pages.len()),
            "record e3b0c44298fc",
            "The tool advises; contract documents govern; the engineer decides.",
        ] {
            assert!(page.contains(&packed(part)), "page {} lacks `{part}`", at + 1);
        }
    }
}

#[test]
fn a_struck_row_is_struck_cell_by_cell_and_says_by_whom() {
    let row = Row::stands(["10:00", "27.5", "Sand"]);
    let late = read(&with_log(vec![row.clone().marked(Mark::Late { note: "entered 16:05".into() })]));
    let by = Mark::Struck { by: "R. Vale 14:22".into(), why: "digits turned round".into() };
    let struck = read(&with_log(vec![row.marked(by)]));
    assert_eq!(struck.strokes(2), late.strokes(2) + 3, "one stroke for each of the three cells");
    assert!(struck.packed().contains(&packed("Struck by R. Vale 14:22: digits turned round")));
    assert!(late.packed().contains(&packed("Late: entered 16:05")));
}

#[test]
fn a_blank_is_a_visible_blank_and_an_empty_log_says_so() {
    let row = ["10:00", "", "Sand"];
    let page = packed(&read(&with_log(vec![Row::stands(row)])).pages()[1]);
    assert!(page.contains("10:00–Sand"), "{page}");
    let page = packed(&read(&with_log(Vec::new())).pages()[1]);
    assert!(page.contains(&packed("Nothing recorded.")), "{page}");
}

#[test]
fn an_empty_list_is_said_to_be_empty() {
    let words = read(&invented::bare(Paper::Letter)).packed();
    // Findings, plan, logs, drawings, corrections, questions, photos, sources, cautions, signatures.
    assert_eq!(words.matches(&packed("None recorded.")).count(), 10);
    assert!(!words.contains(&packed("What was about to happen")));
}

#[test]
fn a_long_log_repeats_its_head_on_every_page() {
    let rows = (0..240).map(|run| Row::stands([format!("run {run}"), "1.0".into(), "Sand".into()])).collect();
    let pages = read(&with_log(rows)).pages();
    let holding: Vec<_> = pages.iter().filter(|page| page.contains("run ")).collect();
    assert!(holding.len() >= 4, "240 rows on {} pages", holding.len());
    assert!(holding.iter().all(|page| page.contains("Depth") && page.contains("Ground")));
}

#[test]
fn no_page_break_parts_a_struck_row_from_its_reason_and_its_correction() {
    let mut pages_seen = std::collections::BTreeSet::new();
    for before in 28..48 {
        let mut rows: Vec<Row> = (0..before).map(|_| Row::stands(["10:00", "1.0", "Sand"])).collect();
        let struck = Mark::Struck { by: "somebody".into(), why: "REASON".into() };
        rows.push(Row::stands(["11:00", "2.0", "STRUCK"]).marked(struck));
        rows.push(Row::stands(["11:00", "3.0", "CORRECTED"]).marked(Mark::Replaces { what: "ENTRY".into() }));
        rows.extend((0..5).map(|_| Row::stands(["12:00", "4.0", "Clay"])));
        let pages = read(&with_log(rows)).pages();
        let page_of = |word: &str| pages.iter().position(|page| page.contains(word)).expect("on a page");
        let at = page_of("STRUCK");
        assert_eq!(
            [page_of("REASON"), page_of("CORRECTED"), page_of("ENTRY")],
            [at; 3],
            "{before} before it"
        );
        pages_seen.insert(at);
    }
    assert!(pages_seen.len() > 1, "no page break was tried");
}

#[test]
fn the_file_says_that_it_is_archival_accessible_and_when_it_was_made() {
    let metadata = read(&invented::package(Paper::Letter)).metadata();
    for part in [
        "<pdfaid:part>2</pdfaid:part>",
        "<pdfaid:conformance>A</pdfaid:conformance>",
        "<pdfuaid:part>1</pdfuaid:part>",
        "<xmp:CreateDate>2026-05-14T18:20:00-06:00</xmp:CreateDate>",
        "Shaft B2-3 – Juniper Wash overcrossing",
    ] {
        assert!(metadata.contains(part), "{part} is missing");
    }
}

#[test]
fn a_package_can_be_set_in_the_spare_fonts_alone() {
    let pdf = package(&invented::package(Paper::Letter), &Fonts::new(&[]).unwrap()).unwrap();
    let words = Reader::open(&pdf.bytes).packed();
    assert!(words.contains(&packed("Two criteria fail, one of them answered by the engineer")));
}
