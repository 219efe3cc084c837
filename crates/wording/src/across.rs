//! What many shafts show together, in words.
//!
//! Every line says how many shafts it is of; a mean carries its interval, and one shaft alone has none.
//!
//! Never: call a crew better or worse; the ground below it is seldom the same.

use crate::label;
use crate::phrase::{capital, count};
use crate::show::Show;
use assess::across::{
    Across, Activity, By, ConcreteOfShaft, HandedIn, OfCriterion, Place, Spot, Stretch, Taken,
};
use quantity::{InOrder, Span, Volume};

mod readings;

/// One line: what it is, its value, and what stands beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AcrossLine {
    /// What the line belongs to: `By stratum`.
    pub group: &'static str,
    /// What it is: `Clay, stiff, brown`.
    pub label: String,
    /// Its value: `1.08 (1.04–1.12)`.
    pub value: String,
    /// What stands beside it: of how many shafts, and how far they lie apart.
    pub note: String,
    /// What it was made of: each shaft or entry with its own value.
    pub behind: Vec<Behind>,
}

/// What a line was made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Behind {
    /// The shaft, and the entry where it is one.
    pub spot: Spot,
    /// Its own value.
    pub value: String,
}

impl Behind {
    fn shaft(place: &Place, value: String) -> Self {
        Behind { spot: Spot { place: place.clone(), entry: None }, value }
    }
}

/// Lines under one heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AcrossSection {
    /// Stable word: `taken`.
    pub word: &'static str,
    /// Its heading.
    pub heading: &'static str,
    /// How to read it, in one or two sentences.
    pub lead: &'static str,
    /// The lines.
    pub lines: Vec<AcrossLine>,
}

/// Everything, in the order people ask for it.
pub fn across(across: &Across, show: &Show) -> Vec<AcrossSection> {
    let section = |word, heading, lead, lines| AcrossSection { word, heading, lead, lines };
    let all = vec![
        section(
            "taken",
            "What shafts took over the drawing",
            TAKEN,
            across.taken.iter().filter(|one| is_told(one)).map(|one| taken_words(one, show)).collect(),
        ),
        section("concrete", "Concrete", CONCRETE, concrete(&across.concrete, show)),
        section("hours", "Where the hours went", HOURS, hours(across, show)),
        section("readings", "Fluid and fresh concrete", READINGS, readings::lines(&across.readings, show)),
        section("criteria", "What fails, and how often", CRITERIA, criteria(&across.criteria)),
        section(
            "people",
            "Who wrote, and how late",
            PEOPLE,
            across.people.iter().map(|one| person(one, show)).collect(),
        ),
    ];
    all.into_iter().filter(|section| !section.lines.is_empty()).collect()
}

const TAKEN: &str = "Placed over theoretical, of shafts whose pour is over. The interval holds the mean of such shafts nine \
                     times in ten; ground, method and crew are seldom apart in a few shafts, so no line says why.";
const CONCRETE: &str =
    "By tickets and what was written beside them. An order nobody wrote down is not counted as none.";
const HOURS: &str = "Between two written moments; a shaft that lacks one of them is not counted.";
const READINGS: &str = "From the lowest reading to the highest, of all shafts. What a reading was held against stands in the drawing.";
const CRITERIA: &str =
    "Findings of all shafts by the criterion they come from, the one that fails most often first.";
const PEOPLE: &str =
    "From seeing to writing down. It says when something was written, not how good the work was.";

/// What a group of shafts has in common.
fn by(by: &By) -> (&'static str, String) {
    match by {
        By::All => ("All together", "every shaft whose pour is over".to_owned()),
        By::Ground(ground) => ("By ground", label::choice(ground.word())),
        By::Stratum(ground, words) if words.is_empty() => ("By stratum", label::choice(ground.word())),
        By::Stratum(_, words) => ("By stratum", capital(words)),
        By::Method(method) => ("By method", label::choice(method.word())),
        By::Crew(name) => ("By crew", name.clone()),
    }
}

/// Whether a group is worth a line: a stratum under words of its own that one shaft met says no more than its ground.
pub fn is_told(one: &Taken) -> bool {
    !matches!(one.by, By::Stratum(..)) || one.parts.len() > 1
}

/// The line of a group of shafts: what they have in common, and what they took.
pub fn taken_words(one: &Taken, show: &Show) -> AcrossLine {
    let (group, label) = by(&one.by);
    let shafts = count(one.parts.len(), "shaft", "shafts");
    let (value, note) = match (&one.together, one.parts.first()) {
        (Some(together), _) => {
            let [low, high] = together.ends.map(|end| show.ratio(end));
            let apart = format!("{shafts}; from shaft to shaft ± {}", show.ratio(together.between));
            (format!("{} ({low}–{high})", show.ratio(together.mean.value)), apart)
        }
        (None, Some(part)) => {
            (show.ratio_estimate(part.ratio), format!("{shafts}; one alone says little of the next"))
        }
        (None, None) => (String::new(), shafts),
    };
    let behind = one.parts.iter().map(|part| Behind::shaft(&part.place, show.ratio_estimate(part.ratio)));
    AcrossLine { group, label, value, note, behind: behind.collect() }
}

fn concrete(all: &[ConcreteOfShaft], show: &Show) -> Vec<AcrossLine> {
    if all.is_empty() {
        return Vec::new();
    }
    let line = |label: &str, of: &dyn Fn(&ConcreteOfShaft) -> Option<Volume>| volumes(label, all, of, show);
    vec![
        line("Ordered", &|one| one.totals.ordered),
        line("Delivered", &|one| Some(one.totals.delivered)),
        line("Placed", &|one| Some(one.totals.placed)),
        line("Sent back", &|one| Some(one.totals.rejected)),
        line("Wasted or left in lines", &|one| Some(one.totals.wasted + one.totals.left_in_lines)),
        line("Theoretical, as far as sounded", &|one| one.theoretical),
    ]
}

/// The sum over the shafts that have a figure.
fn volumes(
    label: &str,
    all: &[ConcreteOfShaft],
    of: &dyn Fn(&ConcreteOfShaft) -> Option<Volume>,
    show: &Show,
) -> AcrossLine {
    let known: Vec<(&ConcreteOfShaft, Volume)> = all.iter().filter_map(|one| Some((one, of(one)?))).collect();
    let sum = known.iter().fold(Volume::cubic_meters(0.0), |sum, (_, volume)| sum + *volume);
    let note = match all.len() - known.len() {
        0 => count(known.len(), "shaft", "shafts"),
        missing => format!("{}; {missing} without a figure", count(known.len(), "shaft", "shafts")),
    };
    let value = if known.is_empty() { "not written".to_owned() } else { show.volume(sum) };
    let behind = known.iter().map(|(one, volume)| Behind {
        spot: Spot::first(&one.place, &one.evidence),
        value: show.volume(*volume),
    });
    AcrossLine { group: "All shafts", label: label.to_owned(), value, note, behind: behind.collect() }
}

fn hours(across: &Across, show: &Show) -> Vec<AcrossLine> {
    [Activity::Drilling, Activity::Cleaning, Activity::Waiting, Activity::Pour]
        .into_iter()
        .filter_map(|activity| of_activity(activity, across, show))
        .collect()
}

/// An activity as people call it.
fn activity(activity: Activity) -> &'static str {
    match activity {
        Activity::Drilling => "Drilling: first tool in to bottom reached",
        Activity::Cleaning => "Cleaning: bottom reached to bottom accepted",
        Activity::Waiting => "Waiting: bottom accepted and cage set to first concrete",
        Activity::Pour => "Pour: first concrete to last",
    }
}

fn of_activity(which: Activity, across: &Across, show: &Show) -> Option<AcrossLine> {
    let stretches =
        across.hours.iter().flat_map(|one| one.stretches.iter().map(move |stretch| (&one.place, stretch)));
    let mut lasted: Vec<(&Place, &Stretch)> =
        stretches.filter(|(_, stretch)| stretch.activity == which).collect();
    let span = |one: &(&Place, &Stretch)| -> Span { one.1.lasted };
    lasted.put_in_order_by(|one, other| span(one).to_minutes().total_cmp(&span(other).to_minutes()));
    let (shortest, longest) = (span(lasted.first()?), span(lasted.last()?));
    let median = span(&lasted[lasted.len() / 2]);
    let shafts = count(lasted.len(), "shaft", "shafts");
    let note = match lasted.len() {
        1 => shafts,
        _ => format!("{shafts}; from {} to {}", show.span(shortest), show.span(longest)),
    };
    let behind = lasted.iter().map(|(place, stretch)| Behind {
        spot: Spot { place: (*place).clone(), entry: Some(stretch.evidence[1]) },
        value: show.span(stretch.lasted),
    });
    let behind = behind.collect();
    Some(AcrossLine {
        group: "Half of the shafts took less",
        label: activity(which).to_owned(),
        value: show.span(median),
        note,
        behind,
    })
}

/// Those that failed or left something open; the others in one line.
fn criteria(all: &[OfCriterion]) -> Vec<AcrossLine> {
    let (told, quiet): (Vec<&OfCriterion>, Vec<&OfCriterion>) =
        all.iter().partition(|one| one.fails > 0 || one.unknown > 0);
    let mut lines: Vec<AcrossLine> = told.into_iter().map(criterion).collect();
    if !quiet.is_empty() {
        let meets: usize = quiet.iter().map(|one| one.meets).sum();
        lines.push(AcrossLine {
            group: "Criteria in force",
            label: format!("{} more", count(quiet.len(), "criterion", "criteria")),
            value: "never failed".to_owned(),
            note: format!("meets {meets}; 0 not measured or not to be judged"),
            behind: Vec::new(),
        });
    }
    lines
}

fn criterion(one: &OfCriterion) -> AcrossLine {
    let value = match (one.fails, one.open) {
        (0, _) => "never failed".to_owned(),
        (fails, 0) => format!("fails {fails}"),
        (fails, open) => format!("fails {fails}, {open} open"),
    };
    let behind = one.places.iter().map(|(place, evidence)| Behind {
        spot: Spot::first(place, evidence),
        value: count(evidence.len(), "entry", "entries"),
    });
    AcrossLine {
        group: "Criteria in force",
        label: one.title.clone(),
        value,
        note: format!("meets {}; {} not measured or not to be judged", one.meets, one.unknown),
        behind: behind.collect(),
    }
}

fn person(one: &HandedIn, show: &Show) -> AcrossLine {
    let late = match one.late.len() {
        0 => "none late".to_owned(),
        late => format!("{late} late, the longest after {}", show.span(one.longest)),
    };
    AcrossLine {
        group: "Authors",
        label: one.author.clone(),
        value: late,
        note: format!(
            "{}; half of them written down {}; the last {}",
            count(one.entries, "entry", "entries"),
            if one.median.to_minutes() < 1.0 {
                "at once".to_owned()
            } else {
                format!("within {}", show.span(one.median))
            },
            show.stamp(one.last)
        ),
        behind: Vec::new(),
    }
}
