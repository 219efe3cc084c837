//! Strength: what the breaks say, and beside them what usual curves would expect at an age.
//!
//! Never: put an estimate in the place of a break.

use super::Figure;
use crate::show::Show;
use assess::{Assessment, Finding};
use calc::gain::{CementClass, TYPE_I_MOIST, american_gain, european_gain};
use quantity::{Pressure, Span};
use record::Log;
use record::kinds::{CylinderBroken, MixApproved};

/// Before this age the curves say nothing about a concrete. From memory.
const FIRST_DAYS: f64 = 1.0;

pub(super) fn figures(assessment: &Assessment<'_>, log: &Log<'_>, show: &Show) -> Vec<Figure> {
    let mut all: Vec<Figure> = log.each::<CylinderBroken>().map(|(_, one)| broken(one, show)).collect();
    all.extend(estimates(assessment, log, show));
    all.extend(ratios(assessment, show));
    all
}

fn broken(one: &CylinderBroken, show: &Show) -> Figure {
    let specimen = one.specimen.as_ref().map_or_else(String::new, |mark| format!(", {mark}"));
    let age = one.age.as_ref().map_or_else(String::new, |age| format!(" at {}", show.span(age.value())));
    let value = format!("{}{age}", one.strength.shown());
    Figure {
        id: format!("strength.break.{}", one.set),
        label: format!("Strength of set {}{specimen}", one.set),
        value,
        how: "As the break was entered.".to_owned(),
    }
}

/// What usual curves expect at the age the assessment is made for.
fn estimates(assessment: &Assessment<'_>, log: &Log<'_>, show: &Show) -> Vec<Figure> {
    let Some(finished) = assessment.picture.concrete_finished() else { return Vec::new() };
    let age = Span::minutes(assessment.at.minutes_since(finished));
    if age.to_days() < FIRST_DAYS {
        return Vec::new();
    }
    let mix = log.each::<MixApproved>().map(|(_, mix)| mix).find(|mix| mix.strength.is_some());
    let Some(strength) = mix.and_then(|mix| mix.strength.as_ref()) else { return Vec::new() };
    let class = mix.and_then(|mix| cement_class(mix.cement_class.as_deref()?));
    let european = class.and_then(|class| european_gain(class, age).ok()).map(|gain| {
        (gain, "strength.estimate.en1992", "EN 1992-1-1 curve for the cement class of the mix [EN-1992-1-1]")
    });
    let american = american_gain(TYPE_I_MOIST, age).ok().map(|gain| {
        (
            gain,
            "strength.estimate.aci209",
            "ACI 209 curve, Type I cement, moist cured, from memory [ACI-209R]",
        )
    });
    european
        .into_iter()
        .chain(american)
        .map(|(gain, id, curve)| {
            let value = Pressure::pascals(gain.to_part() * strength.value().to_pascals());
            let label = format!("Strength expected at {}", show.span(age));
            let how = format!(
                "{curve}, times the specified strength. An estimate beside breaks, never instead of one."
            );
            Figure { id: id.to_owned(), label, value: format!("about {}", show.pressure(value)), how }
        })
        .collect()
}

/// Strength development class as in EN 1992: R, N or S.
fn cement_class(word: &str) -> Option<CementClass> {
    match word.trim() {
        "R" | "r" => Some(CementClass::Rapid),
        "N" | "n" => Some(CementClass::Normal),
        "S" | "s" => Some(CementClass::Slow),
        _ => None,
    }
}

/// Water-cement ratio of every load that has one.
fn ratios(assessment: &Assessment<'_>, show: &Show) -> Vec<Figure> {
    let of_load =
        |finding: &&Finding| finding.fact.name == "concrete.water_cement" && finding.value.is_some();
    let figure = |finding: &Finding| {
        let assess::Subject::Load(ticket) = &finding.subject else { return None };
        let value = crate::value::measured_text(finding.value?, finding.fact, None, show);
        let id = format!("concrete.water_cement.{ticket}");
        Some(Figure {
            id,
            label: format!("w/cm of load {ticket}"),
            value,
            how: finding.fact.meaning.to_owned(),
        })
    };
    let mut all: Vec<Figure> = assessment.findings.iter().filter(of_load).filter_map(figure).collect();
    all.dedup_by(|a, b| a.id == b.id);
    all
}
