//! Identity, plan and computed figures, in groups of label and value.

use crate::Source;
use report::{Assumed, Fact, FactGroup};
use std::collections::BTreeSet;
use wording::Figure;

pub(crate) fn groups(source: &Source<'_, '_>) -> Vec<FactGroup> {
    let show = source.show();
    let figures = wording::figures(source.assessment, &show);
    let mut groups = vec![identity(source)];
    groups.extend(GROUPS.iter().map(|group| of_figures(group, &figures)));
    groups.push(loads(&figures));
    let rest = figures.iter().filter(|one| !is_of_load(one) && !GROUPS.iter().any(|group| has(group, one)));
    groups.push(FactGroup { title: "Other figures".to_owned(), facts: rest.map(fact).collect() });
    groups.retain(|group| !group.facts.is_empty());
    groups
}

/// What the reckoning took where the record is silent.
pub(crate) fn assumed(source: &Source<'_, '_>) -> Vec<Assumed> {
    let assumed = wording::assumptions(&source.show()).into_iter();
    let one = |one: wording::Assumption| Assumed {
        about: one.about.to_owned(),
        value: one.value,
        how: one.how.to_owned(),
    };
    assumed.map(one).collect()
}

/// Figures of one topic, by the beginning of their ids.
struct Group {
    title: &'static str,
    ids: &'static [&'static str],
}

const GROUPS: [Group; 6] = [
    Group { title: "Volumes and placing", ids: &["volume.", "placing.", "line."] },
    Group { title: "Bottom", ids: &["bottom."] },
    Group { title: "Cage", ids: &["cage."] },
    Group { title: "As built", ids: &["asbuilt."] },
    Group { title: "Strength", ids: &["strength."] },
    Group { title: "Quantities for payment", ids: &["payment."] },
];

fn has(group: &Group, figure: &Figure) -> bool {
    group.ids.iter().any(|id| figure.id.starts_with(id))
}

fn fact(figure: &Figure) -> Fact {
    Fact::new(figure.label.clone(), figure.value.clone())
}

fn of_figures(group: &Group, figures: &[Figure]) -> FactGroup {
    let mine = figures.iter().filter(|figure| has(group, figure) && !is_of_load(figure));
    FactGroup { title: group.title.to_owned(), facts: mine.map(fact).collect() }
}

/// Beginnings of the ids of figures that every load has, with their short names.
const OF_LOAD: [(&str, &str); 3] = [
    ("ticket.water_cement.", "w/cm"),
    ("ticket.room.", "water it could still take"),
    ("slump.life.", "slump life"),
];

fn is_of_load(figure: &Figure) -> bool {
    OF_LOAD.iter().any(|(prefix, _)| figure.id.starts_with(prefix))
}

/// A line for each load, instead of one for each figure of each load.
fn loads(figures: &[Figure]) -> FactGroup {
    let ticket = |figure: &Figure| {
        OF_LOAD.iter().find_map(|(prefix, _)| figure.id.strip_prefix(prefix)).map(str::to_owned)
    };
    let tickets: BTreeSet<String> = figures.iter().filter_map(ticket).collect();
    let line = |ticket: String| {
        let told = OF_LOAD.iter().filter_map(|(prefix, name)| {
            let figure = figures.iter().find(|figure| figure.id == format!("{prefix}{ticket}"))?;
            Some(format!("{name} {}", figure.value))
        });
        Fact::new(format!("Load {ticket}"), told.collect::<Vec<_>>().join("; "))
    };
    FactGroup { title: "Loads".to_owned(), facts: tickets.iter().cloned().map(line).collect() }
}

fn identity(source: &Source<'_, '_>) -> FactGroup {
    let job = source.assessment.picture.job;
    let plan = source.assessment.picture.plan.as_ref().map(|plan| plan.shaft);
    let text = |value: Option<&String>| value.cloned().unwrap_or_default();
    let shown = |value: Option<String>| value.unwrap_or_default();
    let facts = vec![
        Fact::new("Contract", text(job.and_then(|job| job.number.as_ref()))),
        Fact::new("Location", text(job.and_then(|job| job.location.as_ref()))),
        Fact::new("Datum", text(job.and_then(|job| job.datum.as_ref()))),
        Fact::new("Station", text(plan.and_then(|plan| plan.station.as_ref()))),
        Fact::new("Ground", shown(plan.and_then(|plan| plan.ground.as_ref()).map(|level| level.shown()))),
        Fact::new("Top", shown(plan.map(|plan| plan.top.shown()))),
        Fact::new("Cut-off", shown(plan.and_then(|plan| plan.cut_off.as_ref()).map(|level| level.shown()))),
        Fact::new("Tip", shown(plan.map(|plan| plan.tip.shown()))),
        Fact::new("Bore", plan.map_or_else(String::new, bore)),
        Fact::new("Method", plan.map_or_else(String::new, |plan| wording::label::choice(plan.method.word()))),
    ];
    FactGroup { title: "Identity and plan".to_owned(), facts }
}

fn bore(plan: &record::kinds::ShaftPlanned) -> String {
    let pieces: Vec<String> = plan.bore.iter().map(|piece| piece.diameter.shown()).collect();
    pieces.join(", then ")
}
