//! What cannot be printed is refused, by name, before anything is written.

#[path = "../examples/invented/mod.rs"]
mod invented;

use expect_test::{Expect, expect};
use report::{Fonts, Paper, ReportInput, Row, job_summary, package};

#[track_caller]
fn check(change: impl FnOnce(&mut ReportInput), expected: Expect) {
    let mut input = invented::package(Paper::Letter);
    change(&mut input);
    let error = package(&input, &invented::fonts()).expect_err("no package");
    expected.assert_eq(&error.to_string());
}

#[test]
fn a_table_that_does_not_fit_its_columns() {
    check(
        |input| input.logs[0].rows.push(Row::stands(["07:30", "08:05"])),
        expect!["row 26 of `Excavation` has 2 cells where the table has 8 columns"],
    );
    check(
        |input| input.logs[5].total = Some(vec!["72.0".into()]),
        expect!["the totals of `Loads` have 1 cells where the table has 16 columns"],
    );
    check(
        |input| input.logs[1].columns[0].weight = f64::NAN,
        expect!["`Fluid tests` has no columns, or one whose weight is not a number above zero"],
    );
}

#[test]
fn a_drawing_that_cannot_be_read() {
    check(
        |input| input.sheet.svg = "no picture".into(),
        expect!["the drawing `The day in time and depth` cannot be placed: it is no SVG text"],
    );
    check(
        |input| {
            input.drawings[1].svg = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 9 9'><g>".into()
        },
        expect![
            "the drawing `Base` cannot be placed: SVG data parsing failed cause the root node was opened but never closed"
        ],
    );
    check(
        |input| input.drawings[2].alt.clear(),
        expect!["the drawing `Cage` cannot be placed: it has no words for a reader who cannot see it"],
    );
}

#[test]
fn a_package_without_a_name() {
    check(
        |input| input.heading.shaft = " ".into(),
        expect!["the job or the shaft has no name, and every page has to carry both"],
    );
    let mut input = invented::summary::summary(Paper::A4);
    input.heading.job.clear();
    assert!(job_summary(&input, &invented::fonts()).is_err());
}

#[test]
fn a_font_that_is_none() {
    let error = Fonts::new(&[include_bytes!("refused.rs")]).expect_err("no fonts");
    expect!["font number 1 of those given is no font"].assert_eq(&error.to_string());
}
