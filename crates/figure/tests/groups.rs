//! Values of many shafts in rows: said in full, inside the paper, with no bar for one shaft alone.

mod reading;

use expect_test::expect;
use figure::{GroupPart, GroupRow, GroupSheet, Lead, groups_svg};
use reading::{flaw, texts};

fn row(heading: &str, label: &str, parts: &[f64], together: Option<[f64; 3]>, beside: &str) -> GroupRow {
    let [heading, label, beside] = [heading, label, beside].map(str::to_owned);
    let part = |value: &f64| GroupPart { value: *value, lead: Lead::default() };
    GroupRow { heading, label, parts: parts.iter().map(part).collect(), together, beside }
}

fn sheet() -> GroupSheet {
    GroupSheet {
        title: "What shafts took over the drawing".to_owned(),
        subtitle: "each shaft a dot".to_owned(),
        reference: Some((1.0, "as drawn".to_owned())),
        rows: vec![
            row("By ground", "clay", &[1.01, 1.04, 1.06], Some([1.00, 1.037, 1.07]), "1.04 (1.00–1.07)"),
            row("", "sand", &[1.31], None, "1.31 ± 0.02"),
            row("By method", "wet", &[1.02, 1.09, 1.24], Some([0.98, 1.12, 1.26]), "1.12 (0.98–1.26)"),
        ],
        ..GroupSheet::default()
    }
}

fn drawn(sheet: &GroupSheet) -> String {
    groups_svg(sheet, sheet.size(560.0))
}

#[test]
fn every_row_says_what_it_is_and_how_sure() {
    let svg = drawn(&sheet());
    assert_eq!(flaw(&svg), None);
    let said: String = texts(&svg).iter().map(|text| format!("{:<9} {}\n", text.class, text.words)).collect();
    expect![[r#"
        title     What shafts took over the drawing
        subtitle  each shaft a dot
        tick      1.0
        tick      1.1
        tick      1.2
        tick      1.3
        note      as drawn
        head      By ground
        label     clay
        strong    1.04 (1.00–1.07)
        label     sand
        strong    1.31 ± 0.02
        head      By method
        label     wet
        strong    1.12 (0.98–1.26)
    "#]]
    .assert_eq(&said);
}

#[test]
fn one_shaft_alone_has_a_dot_and_no_bar() {
    let count = |class: &str| drawn(&sheet()).matches(&format!("class=\"{class}\"")).count();
    assert_eq!([count("together"), count("part")], [2, 7]);
}

#[test]
fn nothing_to_show_and_numbers_that_are_none_are_drawn_all_the_same() {
    assert_eq!(flaw(&drawn(&GroupSheet::default())), None);
    let mut odd = sheet();
    let odd_part = |value| GroupPart { value, lead: Lead::default() };
    odd.rows[0].parts.extend([f64::NAN, f64::INFINITY, -1e30].map(odd_part));
    assert_eq!(flaw(&drawn(&odd)), None);
}
