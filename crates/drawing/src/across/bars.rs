//! Hours and concrete of each shaft, as bars end to end.

use super::AcrossView;
use assess::across::{Activity, ConcreteOfShaft, HoursOfShaft, Spot, Stretch};
use figure::{Bar, BarFill, BarKind, BarRow, BarSheet, Scale};
use quantity::{InOrder, Volume, units};

/// More rows than this nobody reads; the rest stands in the list.
const MOST: usize = 40;

/// Where the hours of each shaft went; `None` where nobody wrote two moments.
pub fn hours(view: &AcrossView<'_>) -> Option<BarSheet> {
    let rows: Vec<BarRow> = view.across.hours.iter().map(|one| hours_row(view, one)).collect();
    let (rows, told) = longest(rows, "took longest");
    let kind = |name: &str, fill| BarKind { name: name.to_owned(), fill };
    (!rows.is_empty()).then(|| BarSheet {
        title: "Where the hours went".to_owned(),
        subtitle: format!("between two written moments; {told}"),
        axis: "Time".to_owned(),
        scale: Scale::of(&units::HOUR, 1),
        kinds: vec![
            kind("drilling", BarFill::Striped),
            kind("cleaning", BarFill::Lined),
            kind("waiting for concrete", BarFill::Open),
            kind("pour", BarFill::Full),
        ],
        rows,
        ..BarSheet::default()
    })
}

fn kind(activity: Activity) -> usize {
    match activity {
        Activity::Drilling => 0,
        Activity::Cleaning => 1,
        Activity::Waiting => 2,
        Activity::Pour => 3,
    }
}

fn hours_row(view: &AcrossView<'_>, one: &HoursOfShaft) -> BarRow {
    let scale = Scale::of(&units::HOUR, 1);
    let name = view.name(&one.place);
    let bar = |stretch: &Stretch| {
        let spot = Spot { place: one.place.clone(), entry: Some(stretch.evidence[1]) };
        let value = stretch.lasted.to_seconds();
        let says = || format!("{name}, {}: {}", WORDS[kind(stretch.activity)], scale.label(value));
        Bar { kind: kind(stretch.activity), value, lead: view.lead(&spot, says) }
    };
    let bars: Vec<Bar> = one.stretches.iter().map(bar).collect();
    let total: f64 = bars.iter().map(|bar| bar.value).sum();
    BarRow {
        lead: view.lead_to_shaft(&one.place),
        label: name.clone(),
        bars,
        beside: scale.label(total),
        ..BarRow::default()
    }
}

const WORDS: [&str; 4] = ["drilling", "cleaning", "waiting for concrete", "pour"];

/// Concrete of each shaft: placed, wasted, sent back, beside what was ordered and what the drawing asks for.
pub fn concrete(view: &AcrossView<'_>) -> Option<BarSheet> {
    let rows: Vec<BarRow> = view.across.concrete.iter().map(|one| concrete_row(view, one)).collect();
    let (rows, told) = longest(rows, "took most");
    let kind = |name: &str, fill| BarKind { name: name.to_owned(), fill };
    (!rows.is_empty()).then(|| BarSheet {
        title: "Concrete of each shaft".to_owned(),
        subtitle: format!("by tickets; placed at the right; {told}"),
        axis: "Concrete".to_owned(),
        scale: view.scales.volume,
        kinds: vec![
            kind("placed", BarFill::Full),
            kind("wasted or left in lines", BarFill::Striped),
            kind("sent back", BarFill::Open),
        ],
        asked: ["ordered", "theoretical, as far as sounded"].map(str::to_owned),
        rows,
        ..BarSheet::default()
    })
}

fn concrete_row(view: &AcrossView<'_>, one: &ConcreteOfShaft) -> BarRow {
    let (name, totals, scale) = (view.name(&one.place), &one.totals, view.scales.volume);
    let spot = Spot::first(&one.place, &one.evidence);
    let parts = [
        ("placed", totals.placed),
        ("wasted", totals.wasted + totals.left_in_lines),
        ("sent back", totals.rejected),
    ];
    let bar = |(kind, (word, volume)): (usize, (&str, Volume))| {
        let value = volume.to_cubic_meters();
        let says = || format!("{name}, {word}: {}", scale.label(value));
        (value > 0.0).then(|| Bar { kind, value, lead: view.lead(&spot, says) })
    };
    BarRow {
        lead: view.lead_to_shaft(&one.place),
        bars: parts.into_iter().enumerate().filter_map(bar).collect(),
        asked: [totals.ordered, one.theoretical].map(|volume| volume.map(Volume::to_cubic_meters)),
        beside: scale.label(totals.placed.to_cubic_meters()),
        label: name,
    }
}

/// The longest rows where there are too many, and how many that is.
fn longest(mut rows: Vec<BarRow>, word: &str) -> (Vec<BarRow>, String) {
    let all = rows.len();
    let total = |row: &BarRow| row.bars.iter().map(|bar| bar.value).sum::<f64>();
    if all > MOST {
        rows.put_in_order_by(|one, other| total(other).total_cmp(&total(one)));
        rows.truncate(MOST);
        return (rows, format!("the {MOST} of {all} shafts that {word}"));
    }
    (rows, if all == 1 { "1 shaft".to_owned() } else { format!("{all} shafts") })
}
