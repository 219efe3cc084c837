//! Every criterion of every shipped set has a page, and the cases on the page run.
//!
//! The expected verdicts on the pages were worked out apart from this crate, with exact fractions from the
//! printed limits; nothing here may write them.

use criteria::judge::judge;
use criteria::set::SHIPPED;
use criteria::{
    Change, Criterion, Dimension, Dimensions, InForce, Judgement, Measure, Measured, Override, Rule, Set,
    Side, Verdict,
};
use quantity::{Kind, Length, Pressure, Quantity, Span, Volume, WaterCement, units};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

const HEADINGS: [&str; 5] =
    ["## What is checked", "## Why it matters", "## How it is measured", "## If it fails", "## Source"];

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../criteria/pages")
}

fn shipped() -> Vec<Set> {
    let read = |(id, text): (&str, &str)| match Set::parse(text) {
        Ok(set) => set,
        Err(problems) => {
            let lines: Vec<_> = problems.iter().map(ToString::to_string).collect();
            panic!("{id} has mistakes:\n{}", lines.join("\n"))
        }
    };
    SHIPPED.into_iter().map(read).collect()
}

fn page_of(criterion: &Criterion) -> String {
    let path = folder().join(format!("{}.md", criterion.id));
    std::fs::read_to_string(&path).unwrap_or_else(|_| panic!("{} has no page", criterion.id))
}

#[test]
fn every_criterion_has_a_page_with_its_headings() {
    for criterion in shipped().iter().flat_map(|set| &set.criteria) {
        let page = page_of(criterion);
        assert!(page.starts_with(&format!("# {}\n", criterion.id)), "{}: first line", criterion.id);
        for heading in HEADINGS {
            let text = page.split(heading).nth(1).unwrap_or_default();
            let text = text.split("\n#").next().unwrap_or_default();
            assert!(text.trim().len() > 20, "{}: nothing under `{heading}`", criterion.id);
        }
        if let Some(source) = &criterion.source {
            assert!(page.contains(&format!("[{source}]")), "{}: the page names [{source}]", criterion.id);
        }
    }
}

#[test]
fn every_source_resolves() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/sources.md");
    let sources = std::fs::read_to_string(path).expect("the table of sources");
    for criterion in shipped().iter().flat_map(|set| &set.criteria) {
        let key = criterion.source.as_ref().unwrap_or_else(|| panic!("{}: a source", criterion.id));
        assert!(sources.contains(&format!("| [{key}] |")), "{}: [{key}] has no row", criterion.id);
    }
}

#[test]
fn every_page_belongs_to_a_criterion() {
    let sets = shipped();
    let known: BTreeSet<_> = sets.iter().flat_map(|set| &set.criteria).map(|one| one.id.clone()).collect();
    let mut found = BTreeSet::new();
    for set in std::fs::read_dir(folder()).expect("the folder of pages") {
        let set = set.expect("a folder").path();
        for page in std::fs::read_dir(&set).expect("a folder of one set") {
            let page = page.expect("a page").path();
            let name = |path: &Path| path.file_stem().expect("a name").to_string_lossy().into_owned();
            found.insert(format!("{}/{}", name(&set), name(&page)));
        }
    }
    let lost: Vec<_> = found.symmetric_difference(&known).collect();
    assert!(lost.is_empty(), "pages without criterion or criteria without page: {lost:?}");
}

#[test]
fn the_cases_of_every_page_hold() {
    let mut run = 0;
    for set in shipped() {
        for criterion in &set.criteria {
            run += check_page(&set, criterion);
        }
    }
    assert!(run >= 4 * 200, "only {run} cases ran");
}

/// Runs the cases of one page; how many there were.
fn check_page(set: &Set, criterion: &Criterion) -> usize {
    let page = page_of(criterion);
    let block = page.split("```case\n").nth(1).and_then(|rest| rest.split("```").next());
    let lines: Vec<_> = block.unwrap_or_default().lines().collect();
    let labels: BTreeSet<_> = lines.iter().filter_map(|line| line.split(' ').next()).collect();
    let wanted: &[&str] = match criterion.rule {
        Rule::Report => &["low", "high", "absent", "off"],
        Rule::Yes | Rule::No => &["on", "outside", "absent", "off"],
        _ => &["on", "inside", "outside", "absent"],
    };
    assert_eq!(labels, wanted.iter().copied().collect(), "{}: the cases of the page", criterion.id);
    for line in &lines {
        let (given, expected) = line.split_once("=>").expect("a case has an arrow");
        let got = outcome(set, criterion, given);
        assert_eq!(got, expected.trim(), "{}: {line}", criterion.id);
    }
    lines.len()
}

/// The verdict for `label value unit with dimension value unit, …`.
fn outcome(set: &Set, criterion: &Criterion, given: &str) -> String {
    let (label, rest) = given.trim().split_once(' ').unwrap_or((given.trim(), ""));
    let (value, dimensions) = match rest.trim().strip_prefix("with ") {
        Some(dimensions) => ("", dimensions),
        None => rest.trim().split_once(" with ").unwrap_or((rest.trim(), "")),
    };
    let in_force = if label == "off" { turned_off(set, criterion) } else { plain(set, criterion) };
    let measured = (label != "absent").then(|| measured(criterion.fact.measure, value));
    say(&judge(&in_force, measured, &self::dimensions(dimensions)))
}

fn plain(set: &Set, criterion: &Criterion) -> InForce {
    let (set, refused) = set.in_force(&[]);
    assert!(refused.is_empty());
    set.get(&criterion.id).expect("the criterion is in its set").clone()
}

fn turned_off(set: &Set, criterion: &Criterion) -> InForce {
    let change = Override {
        criterion: criterion.id.clone(),
        change: Change::TurnedOff,
        reason: "not in this contract".to_owned(),
        who: "R. Okafor".to_owned(),
    };
    let (set, refused) = set.in_force(&[change]);
    assert!(refused.is_empty());
    set.get(&criterion.id).expect("the criterion is in its set").clone()
}

/// `1 1/2 in`, `26 s/qt`, `yes`, `4`.
fn measured(measure: Measure, text: &str) -> Measured {
    let (number, unit) = split(text);
    Measured::read(measure, &number, unit).unwrap_or_else(|| panic!("`{text}` is no {measure:?}"))
}

fn split(text: &str) -> (String, &str) {
    let is_number = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit() || c == '-');
    let numbers: Vec<_> = text.split(' ').take_while(is_number).collect();
    if numbers.is_empty() {
        return (text.to_owned(), "");
    }
    let number = numbers.join(" ");
    let unit = text[number.len()..].trim();
    (number, unit)
}

fn dimensions(text: &str) -> Dimensions {
    let mut all = Dimensions::new();
    for one in text.split(',').map(str::trim).filter(|one| !one.is_empty()) {
        let (word, value) = one.split_once(' ').expect("a dimension and its value");
        let dimension = Dimension::named(word).unwrap_or_else(|| panic!("`{word}` is no dimension"));
        all = with(all, dimension, value);
    }
    all
}

fn with(all: Dimensions, dimension: Dimension, text: &str) -> Dimensions {
    match dimension.kind() {
        Kind::Length => all.with(dimension, read::<Length>(text)),
        Kind::Volume => all.with(dimension, read::<Volume>(text)),
        Kind::Pressure => all.with(dimension, read::<Pressure>(text)),
        Kind::Fraction => all.with(dimension, read::<quantity::Fraction>(text)),
        Kind::Span => all.with(dimension, read::<Span>(text)),
        Kind::WaterCement => all.with(dimension, read::<WaterCement>(text)),
        other => panic!("no dimension is a {other:?}"),
    }
}

fn read<Q: Quantity>(text: &str) -> Q {
    let (number, unit) = split(text);
    let unit = units::ALL.iter().find(|one| one.kind == Q::KIND && one.symbol == unit);
    let number = Measured::read(Measure::Plain(""), &number, "").and_then(Measured::number);
    let exact = number.and_then(|number| number.exact()).expect("a number");
    Q::from_unit(exact, unit.expect("a unit")).expect("a quantity")
}

/// The verdict in the words of the pages.
fn say(judgement: &Judgement) -> String {
    let amount = |number: f64, unit: &str| {
        let text = format!("{number:.6}");
        let text = text.trim_end_matches('0').trim_end_matches('.');
        if unit.is_empty() { text.to_owned() } else { format!("{text} {unit}") }
    };
    match &judgement.verdict {
        Verdict::Meets { margin: None } => "meets".to_owned(),
        Verdict::Meets { margin: Some(margin) } => {
            format!("meets, margin {}", amount(margin.in_unit(), margin.unit.symbol()))
        }
        Verdict::Fails { excess: None, .. } => "fails".to_owned(),
        Verdict::Fails { excess: Some(excess), side } => {
            let side = if *side == Side::Above { "above" } else { "below" };
            format!("fails, {} {side}", amount(excess.in_unit(), excess.unit.symbol()))
        }
        Verdict::NotMeasured => "not measured".to_owned(),
        Verdict::NoLimitSet(_) => "no limit set".to_owned(),
        Verdict::CannotSay(obstacles) => format!("cannot say: {obstacles:?}"),
    }
}
