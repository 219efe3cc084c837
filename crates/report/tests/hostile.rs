//! Whatever people type stands on paper as they typed it, and never becomes a command of the template.

#[path = "../examples/invented/mod.rs"]
mod invented;
mod reader;

use reader::{Reader, packed};
use report::{Column, Layout, LogTable, Mark, Paper, Pdf, ReportInput, Row, package};

/// A package in which `text` stands in the heading, in a finding, in a cell, in a mark and in a title.
#[track_caller]
fn placed(text: &str) -> (Pdf, Reader) {
    let mut input = invented::bare(Paper::Letter);
    input.heading.structure = text.to_owned();
    input.leading = vec![text.to_owned()];
    let row = Row::stands([text, "x"]).marked(Mark::Note { text: text.to_owned() });
    input.logs = vec![LogTable {
        title: text.to_owned(),
        note: text.to_owned(),
        columns: vec![Column::words(text, 1.0), Column::numbers("n", "", 1.0)],
        rows: vec![row],
        total: None,
        layout: Layout::Upright,
        width: 1.0,
        part: String::new(),
    }];
    let input = ReportInput { ..input };
    let pdf = package(&input, &invented::fonts()).expect("a package");
    let reader = Reader::open(&pdf.bytes);
    (pdf, reader)
}

/// The text stands at least in heading, finding, title, contents, note, column, cell and mark.
#[track_caller]
fn check(text: &str, expected: &str) {
    let (_, reader) = placed(text);
    let found = reader.packed().matches(&packed(expected)).count();
    assert!(found >= 8, "`{expected}` stands {found} times on paper");
}

#[test]
fn the_signs_of_the_template_language_are_plain_letters() {
    check("#panic(1) #let x = 2", "#panic(1) #let x = 2");
    check("*bold* _em_ `raw` $x^2$ @ref <label>", "*bold* _em_ `raw` $x^2$ @ref <label>");
    check("= Heading\n- list\n+ enum\n/ term: x", "= Heading - list + enum / term: x");
    check("a \\ b // c /* d */ ~ --- ...", "a \\ b // c /* d */ ~ --- ...");
    check("\"quoted\" 'single' “curly” }] )", "\"quoted\" 'single' “curly” }] )");
    check("<b>&amp;</b> {{x}} %s \\u0041", "<b>&amp;</b> {{x}} %s \\u0041");
}

#[test]
fn the_signs_of_the_trade_are_drawn() {
    check(
        "12'-6 1/2\" Ø 900 mm ½ ¾ 7.3 m³ ≤ ≥ ± × · – °F µ",
        "12'-6 1/2\" Ø 900 mm ½ ¾ 7.3 m³ ≤ ≥ ± × · – °F µ",
    );
}

#[test]
fn other_alphabets_are_drawn_where_a_font_has_them() {
    check("Шурф Ω ñ ß Å", "Шурф Ω ñ ß Å");
    check("ab שלום cd", "ab םולש cd");
}

#[test]
fn what_no_font_has_stands_as_its_number_and_is_counted() {
    check("good 👍 pile 杭", "good ‹U+1F44D› pile ‹U+676D›");
    let (pdf, reader) = placed("👍");
    assert_eq!(pdf.numbered_characters, 7, "heading, finding, title, note, column, cell, mark");
    assert!(reader.packed().contains(&packed("7 characters of the record cannot be drawn")));
}

#[test]
fn what_would_turn_or_hide_its_neighbours_is_shown() {
    check("load \u{202E}9.0\u{202C} yd", "load ‹U+202E›9.0‹U+202C› yd");
    check("nul\u{0} bell\u{7} zwsp\u{200B} soft\u{AD}", "nul‹U+0000› bell‹U+0007› zwsp‹U+200B› soft‹U+00AD›");
}

#[test]
fn a_word_longer_than_a_page_is_wide_is_broken_and_kept_whole() {
    let word = "W".repeat(300);
    let (_, reader) = placed(&word);
    assert!(reader.packed().contains(&word));
    let pages = reader.pages();
    let lines = pages.iter().flat_map(|page| page.lines()).filter(|line| line.starts_with("WW"));
    // The text of a Letter page is 612 − 54 − 43 = 515 pt wide; a W of the smallest type is over 5 pt wide.
    let longest = lines.map(str::len).max();
    assert!(longest.is_some_and(|letters| letters <= 103), "a line of {longest:?} letters");
}

#[test]
fn a_word_wider_than_its_column_is_broken_inside_the_column() {
    let columns = vec![Column::words("Ticket", 1.0), Column::words("Ground", 9.0)];
    let rows = vec![Row::stands(["TICKET9021490214", "Sand"])];
    let log = LogTable {
        title: "Loads".into(),
        note: String::new(),
        columns,
        rows,
        total: None,
        layout: Layout::Upright,
        width: 1.0,
        part: String::new(),
    };
    let input = ReportInput { logs: vec![log], ..invented::bare(Paper::Letter) };
    let reader = Reader::open(&package(&input, &invented::fonts()).unwrap().bytes);
    assert!(reader.packed().contains("TICKET9021490214"));
    // A tenth of 515 pt less 8 pt of margin is 43.5 pt; a letter or digit at 7.4 pt is over 3 pt wide.
    let pages = reader.pages();
    let whole =
        pages.iter().flat_map(|page| page.lines()).find(|line| line.len() > 14 && line.contains("TICKET"));
    assert_eq!(whole, None, "the ticket runs into its neighbour");
}

#[test]
fn a_hostile_job_name_does_not_break_the_foot_or_the_metadata() {
    let mut input = invented::bare(Paper::A4);
    input.heading.job = "#job \"<&>\" *x* \\".into();
    input.heading.shaft = "$1$ [a](b) @c".into();
    let reader = Reader::open(&package(&input, &invented::fonts()).unwrap().bytes);
    for page in reader.pages() {
        assert!(packed(&page).contains(&packed("#job \"<&>\" *x* \\ · $1$ [a](b) @c")), "{page}");
    }
    assert!(reader.metadata().contains("&lt;&amp;&gt;"), "{}", reader.metadata());
}
