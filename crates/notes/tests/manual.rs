//! The manual keeps step with the program: its lists are printed from the declared kinds, its examples are
//! read. `UPDATE_EXPECT=1 cargo test -p notes --test manual` writes the lists anew.

use expect_test::expect_file;
use notes::table::{Request, Table};
use notes::{Criteria, Source, Surroundings, kinds_manual, tables_manual};
use record::entry::FileHash;
use record::kinds::KINDS;

const NOTES_PAGE: &str = include_str!("../../../docs/field-notes.md");
const TABLES_PAGE: &str = include_str!("../../../docs/spreadsheets.md");

/// One criteria set, as the pages name it.
struct Shelf;

impl Surroundings for Shelf {
    fn criteria(&self, key: &str) -> Option<Criteria> {
        (key == "roadside-common-practice-1").then_some(Criteria { file: FileHash([1; 32]), text: None })
    }
}

/// A page with what stands between two markers replaced.
fn with(page: &str, marker: &str, list: &str) -> String {
    let (begin, end) = (format!("<!-- {marker} -->\n"), format!("<!-- end of {marker} -->"));
    let (before, rest) = page.split_once(&begin).expect("the page has the marker");
    let (_, after) = rest.split_once(&end).expect("the page has the end marker");
    format!("{before}{begin}\n{list}\n{end}{after}")
}

#[test]
fn the_list_of_kinds_is_fresh() {
    let page = with(NOTES_PAGE, "kinds", &kinds_manual());
    expect_file!["../../../docs/field-notes.md"].assert_eq(&page);
}

#[test]
fn the_list_of_tables_is_fresh() {
    let page = with(TABLES_PAGE, "tables", &tables_manual());
    expect_file!["../../../docs/spreadsheets.md"].assert_eq(&page);
}

#[test]
fn every_kind_and_field_is_listed() {
    for kind in KINDS {
        let section = NOTES_PAGE.split(&format!("#### `{}`\n", kind.word)).nth(1);
        let section = section.unwrap_or_else(|| panic!("{} has a section", kind.word));
        let section = section.split("\n#### ").next().expect("a section ends");
        for field in kind.fields {
            let written = |sign: &str| section.contains(&format!("| `{}{sign}` |", field.name));
            assert!(written("") || written("_"), "{} of {}", field.name, kind.word);
        }
    }
}

/// The examples of a page with a mark behind their language.
fn examples<'p>(page: &'p str, mark: &str) -> Vec<&'p str> {
    let begin = format!("```{mark}\n");
    let blocks = page.split(begin.as_str()).skip(1);
    let blocks: Vec<&str> = blocks.map(|rest| rest.split("\n```").next().expect("a block ends")).collect();
    assert!(!blocks.is_empty(), "the page has examples of {mark}");
    blocks
}

#[track_caller]
fn read(name: &str, text: &str) -> notes::Notes {
    match notes::read(Source { name, bytes: text.as_bytes() }, None, &Shelf) {
        Ok(notes) => notes,
        Err(mistakes) => {
            panic!("{}\n{text}", mistakes.iter().map(|one| format!("{one}\n")).collect::<String>())
        }
    }
}

#[test]
fn the_examples_are_read() {
    let whole = examples(NOTES_PAGE, "toml");
    for (number, text) in whole.iter().enumerate() {
        let notes = read(&format!("example {}", number + 1), text);
        assert!(notes.opens && !notes.drafted.is_empty());
    }
    let frame = |lines: &str| {
        format!(
            "{}\n[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"A\"\nlog = [\n{lines}\n]\n",
            whole[1]
        )
    };
    for (number, lines) in examples(NOTES_PAGE, "toml lines").iter().enumerate() {
        let own = lines.lines().filter(|line| line.starts_with('{')).count();
        let before = read("frame", &frame("")).drafted.len();
        let notes = read(&format!("lines {}", number + 1), &frame(lines));
        assert_eq!(notes.drafted.len(), before + own, "{lines}");
    }
    for (number, part) in examples(NOTES_PAGE, "toml part").iter().enumerate() {
        read(&format!("part {}", number + 1), &format!("{}\n{part}\n", whole[1]));
    }
}

#[test]
fn the_tables_of_the_page_are_read() {
    let context = read("example 1", examples(NOTES_PAGE, "toml")[1]).context;
    for table in Table::named() {
        for text in examples(TABLES_PAGE, &format!("csv {}", table.word)) {
            let request = Request {
                context: &context,
                table: None,
                shaft: Some("S-1").filter(|_| table.word != "shaft_schedule"),
                date: Some("2026-05-04"),
                author: Some("A"),
                device: None,
            };
            let source = Source { name: "sheet.csv", bytes: text.as_bytes() };
            let drafted = notes::table::read(source, request, &Shelf)
                .unwrap_or_else(|mistakes| panic!("{}\n{text}", mistakes[0]))
                .drafted;
            assert!(drafted.len() >= text.lines().count() - 1, "{text}");
        }
    }
}

#[test]
fn no_field_has_the_name_of_a_row_heading_or_a_part() {
    let rows = ["shaft", "date", "at", "noted", "author", "device"];
    let of_the_log = ["status", "late_minutes", "corrected_because", "entry_id"];
    let parts = ["strata", "casing", "cage", "anchors", "pour"];
    for kind in KINDS {
        for field in kind.fields {
            let name = &field.name;
            assert!(!rows.contains(name) && !of_the_log.contains(name), "{name} of {}", kind.word);
            assert!(kind.word != "shaft_planned" || !parts.contains(name), "{name} of a plan");
        }
    }
}
