//! The list of facts, conditions and dimensions that people who write a file read, kept true by this test.
//!
//! `UPDATE_EXPECT=1 cargo test -p criteria --test fact_list` writes it again; read the difference.

use criteria::{Dimension, Fact, Measure, Per, Topic, facts};
use expect_test::expect_file;
use quantity::Kind;
use std::fmt::Write;

#[test]
fn the_page_for_writers_of_criteria_names_everything_that_can_be_said() {
    let mut page = String::from(
        "# What a criterion can measure\n\n\
         Kept by a test of the crate `criteria`; the words are those of the code. *Per* says what one value \
         belongs to;\nper shaft it is the least favorable value so far.\n",
    );
    facts(&mut page);
    topics(&mut page);
    dimensions(&mut page);
    expect_file!["../../../criteria/facts.md"].assert_eq(&page);
}

fn facts(page: &mut String) {
    let family = |fact: &Fact| fact.name.split('.').next().unwrap_or_default();
    let mut families = Vec::new();
    for fact in facts::all() {
        if !families.contains(&family(fact)) {
            families.push(family(fact));
        }
    }
    for name in families {
        let head = "| fact | measured as | stage | per | meaning |\n|---|---|---|---|---|";
        write!(page, "\n## {name}\n\n{head}\n").expect("text");
        for fact in facts::all().filter(|fact| family(fact) == name) {
            let (measure, stage, per) = (measure(fact.measure), fact.stage.word(), per(fact.per));
            writeln!(page, "| `{}` | {measure} | `{stage}` | {per} | {} |", fact.name, fact.meaning)
                .expect("text");
        }
    }
}

fn topics(page: &mut String) {
    page.push_str("\n## Conditions (`when`)\n\n| key | answers or range |\n|---|---|\n");
    for topic in Topic::all() {
        let answers: Vec<_> = topic.words().iter().map(|word| format!("`{word}`")).collect();
        let range = topic.range_of().map(|kind| format!("range of a {}", word(kind)));
        writeln!(page, "| `{}` | {} |", topic.key(), range.unwrap_or(answers.join(", "))).expect("text");
    }
}

fn dimensions(page: &mut String) {
    page.push_str("\n## Dimensions (`of`)\n\n| dimension | measured as |\n|---|---|\n");
    for dimension in Dimension::all() {
        writeln!(page, "| `{}` | {} |", dimension.word(), word(dimension.kind())).expect("text");
    }
}

fn measure(measure: Measure) -> String {
    match measure {
        Measure::Amount(kind) => word(kind).to_owned(),
        Measure::TemperatureStep => "difference of temperatures".to_owned(),
        Measure::Plain("") => "plain number".to_owned(),
        Measure::Plain(counted) => format!("number of `{counted}`"),
        Measure::YesNo => "yes or no".to_owned(),
    }
}

fn word(kind: Kind) -> &'static str {
    match kind {
        Kind::Length => "length",
        Kind::Volume => "volume",
        Kind::Density => "density",
        Kind::Pressure => "pressure or strength",
        Kind::Temperature => "temperature",
        Kind::Span => "time",
        Kind::FunnelTime => "Marsh time",
        Kind::Fraction => "share in %",
        Kind::Ph => "pH",
        Kind::Slope => "slope",
        Kind::Inflow => "speed",
        Kind::WaterCement => "water-cement ratio",
        other => panic!("no fact is a {other:?}"),
    }
}

fn per(per: Per) -> &'static str {
    match per {
        Per::Shaft => "shaft",
        Per::Test => "test",
        Per::Load => "load",
        Per::Interval => "interval",
        Per::Lift => "lift",
        Per::Tube => "tube",
        Per::Bolt => "bolt",
    }
}
