//! The heading of a shaft: which one, what it should be, judged by what, and whether this is a rehearsal.
//!
//! Never: leave out that a record is a rehearsal.

use super::looked::Looked;
use assess::picture::Plan;
use quantity::Length;
use wording::label;

/// What stands over a shaft.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Heading {
    /// Name of the job; its key where no job was opened.
    pub job: String,
    /// Name of the shaft.
    pub shaft: String,
    /// What it carries: `sign, Panel 14`; empty where no plan was entered.
    pub structure: String,
    /// Planned diameter, or diameters from the top down: `48 in`; empty where no plan was entered.
    pub diameter: String,
    /// Planned depth: `60.0 ft below ground`.
    pub depth: String,
    /// Planned tip: `+40.0 ft`.
    pub tip: String,
    /// Planned cut-off: `+100.0 ft`.
    pub cut_off: String,
    /// How it is drilled: `wet`.
    pub method: String,
    /// The criteria in force, with their edition; says so where none are.
    pub criteria: String,
    /// Depths are measured from: `top of casing at +101.0 ft`.
    pub reference: String,
    /// The record is a rehearsal, made up to learn with.
    pub rehearsal: bool,
}

/// The heading of what is looked at.
pub(crate) fn heading(looked: &Looked<'_>) -> Heading {
    let picture = &looked.assessment.picture;
    let show = &looked.show;
    let mut heading = Heading {
        job: job_name(looked),
        shaft: looked.shaft.to_owned(),
        criteria: criteria_text(looked),
        reference: reference(looked),
        rehearsal: picture.job.is_some_and(|job| job.rehearsal == Some(true)),
        ..Heading::default()
    };
    if let Some(plan) = &picture.plan {
        heading.structure = structure(plan.shaft);
        heading.diameter = diameters(plan.shaft, looked);
        heading.depth = format!("{} {}", show.length(plan.depth()), planned_zero(plan));
        heading.tip = show.elevation(plan.tip);
        heading.cut_off = show.elevation(plan.cut_off);
        heading.method = label::choice(plan.shaft.method.word());
    }
    heading
}

fn job_name(looked: &Looked<'_>) -> String {
    let opened = looked.assessment.picture.job.map(|job| job.name.clone());
    opened.or_else(|| looked.record.job().map(str::to_owned)).unwrap_or_default()
}

/// `fhwa style 1, edition 2018`; what is in force has a name or says that nothing is.
pub(crate) fn criteria_text(looked: &Looked<'_>) -> String {
    let about = &looked.set.about;
    match (&looked.no_rules, about.edition.is_empty()) {
        (Some(_), _) => "no criteria in force".to_owned(),
        (None, true) => about.title.clone(),
        (None, false) => format!("{}, {}", about.title, about.edition),
    }
}

fn structure(plan: &record::kinds::ShaftPlanned) -> String {
    let sort = label::choice(plan.structure.word());
    match &plan.structure_name {
        // A name that says what it is needs no second word for it.
        Some(name) if name.to_lowercase().contains(&sort) => name.clone(),
        Some(name) => format!("{sort}, {name}"),
        None => sort,
    }
}

/// From the top down, each once.
fn diameters(plan: &record::kinds::ShaftPlanned, looked: &Looked<'_>) -> String {
    let mut all: Vec<Length> = plan.bore.iter().map(|piece| piece.diameter.value()).collect();
    all.dedup();
    let mut told: Vec<String> = all.into_iter().map(|size| looked.show.small(size)).collect();
    told.extend(plan.bell.iter().map(|bell| format!("bell {}", looked.show.small(bell.diameter.value()))));
    told.join(", ")
}

/// What the depths of the moment are measured from: `below top of casing`.
pub(crate) fn zero(looked: &Looked<'_>) -> String {
    let picture = &looked.assessment.picture;
    match (picture.references.name(looked.at), &picture.plan) {
        (Some(name), _) => format!("below {}", name.trim()),
        (None, Some(plan)) => planned_zero(plan).to_owned(),
        (None, None) => String::new(),
    }
}

/// What the planned depth of a shaft is measured from.
pub(crate) fn planned_zero(plan: &Plan<'_>) -> &'static str {
    if plan.ground.is_some() { "below ground" } else { "below its top" }
}

fn reference(looked: &Looked<'_>) -> String {
    let references = &looked.assessment.picture.references;
    let name = references.name(looked.at).unwrap_or("ground of the plan");
    match references.in_force(None, looked.at) {
        Some((level, _)) => format!("{name} at {}", looked.show.elevation(level)),
        None => String::new(),
    }
}
