//! Identity, plan and computed figures, in groups of label and value.

use crate::Source;
use report::{Fact, FactGroup};

pub(crate) fn groups(source: &Source<'_, '_>) -> Vec<FactGroup> {
    let show = source.show();
    let figures = wording::figures(source.assessment, source.log, &show);
    let mut groups = vec![identity(source)];
    groups.push(FactGroup {
        title: "Figures".to_owned(),
        facts: figures.into_iter().map(|figure| Fact::new(figure.label, figure.value)).collect(),
    });
    let assumed = wording::assumptions(&show);
    groups.push(FactGroup {
        title: "Assumed where the record is silent".to_owned(),
        facts: assumed.into_iter().map(|assumed| Fact::new(assumed.about, format!("{} ({})", assumed.value, assumed.how))).collect(),
    });
    groups
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
