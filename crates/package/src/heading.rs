//! The band at the top of page one.

use crate::Source;
use record::choices::Role;
use record::kinds::PersonNamed;
use report::Heading;
use std::collections::BTreeSet;

pub(crate) fn heading(source: &Source<'_, '_>) -> Heading {
    let job = source.assessment.picture.job;
    let plan = source.assessment.picture.plan.as_ref().map(|plan| plan.shaft);
    let text = |value: Option<&String>| value.cloned().unwrap_or_default();
    Heading {
        job: job
            .map_or_else(|| source.record.job().unwrap_or("unnamed job").to_owned(), |job| job.name.clone()),
        shaft: source.shaft.to_owned(),
        structure: plan.map_or_else(String::new, |plan| {
            let name = text(plan.structure_name.as_ref());
            let kind = wording::label::choice(plan.structure.word());
            if name.is_empty() { kind } else { format!("{kind}, {name}") }
        }),
        owner: text(job.and_then(|job| job.owner.as_ref())),
        contractor: text(job.and_then(|job| job.contractor.as_ref())),
        inspector: inspectors(source),
        dates: dates(source),
        criteria: match source.set.criteria.is_empty() {
            true => "no criteria were chosen".to_owned(),
            false => format!("{}, edition {}", source.set.about.title, source.set.about.edition),
        },
        judged_at: source.assessment.at.local().strftime("%Y-%m-%d %H:%M").to_string(),
        made_by: format!("Shaftbook {}", env!("CARGO_PKG_VERSION")),
    }
}

/// The inspectors named on the job who wrote about this shaft; else everybody who wrote about it.
fn inspectors(source: &Source<'_, '_>) -> String {
    let own = source.log.lines.iter().filter(|line| line.entry.shaft.as_deref() == Some(source.shaft));
    let wrote: BTreeSet<&str> = own.map(|line| line.entry.author.as_str()).collect();
    let named = source.log.each::<PersonNamed>().filter(|(_, person)| person.role == Role::Inspector);
    let named: Vec<&str> =
        named.map(|(_, person)| person.name.as_str()).filter(|name| wrote.contains(name)).collect();
    if named.is_empty() { wrote.into_iter().collect::<Vec<_>>().join(", ") } else { named.join(", ") }
}

/// First and last day of work on the shaft; the plan and the tests afterwards do not count as work.
fn dates(source: &Source<'_, '_>) -> String {
    let drilled = source.assessment.picture.hole.iter().map(|step| step.from);
    let poured = source.assessment.picture.loads.iter().filter_map(|load| load.ended);
    let days: BTreeSet<String> = drilled.chain(poured).map(|at| at.date()).collect();
    match (days.first(), days.last()) {
        (Some(first), Some(last)) if first == last => first.clone(),
        (Some(first), Some(last)) => format!("{first} to {last}"),
        _ => String::new(),
    }
}
