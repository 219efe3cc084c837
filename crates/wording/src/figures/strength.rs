//! Strength: what the breaks say, and beside them what usual curves and sensors would expect.
//!
//! Never: put an estimate in the place of a break.

use super::Figure;
use crate::show::Show;
use assess::Assessment;
use assess::reckon::{StrengthReckoning, StrengthSet, TicketReckoning};
use quantity::{Fraction, Pressure};

/// Before this age the curves say nothing about a concrete. From memory.
const FIRST_DAYS: f64 = 1.0;

pub(super) fn figures(assessment: &Assessment<'_>, show: &Show) -> Vec<Figure> {
    let strength = &assessment.reckoning.strength;
    let mut all: Vec<Figure> =
        assessment.reckoning.tickets.iter().flat_map(|ticket| of_ticket(ticket, show)).collect();
    all.extend(strength.sets.iter().filter_map(|set| of_set(set, show)));
    all.extend(estimates(strength, show));
    all.extend(maturities(strength, show));
    all
}

/// Water-cement ratio and water that may still be added.
fn of_ticket(ticket: &TicketReckoning, show: &Show) -> Vec<Figure> {
    let name = &ticket.ticket;
    let mut all = Vec::new();
    if let Some(ratio) = ticket.water_cement {
        let how = "Batch water, free moisture and all water added, over cementitious material, by mass.";
        let (id, label) = (format!("ticket.water_cement.{name}"), format!("w/cm of load {name}"));
        all.push(Figure::new(&id, &label, show.ratio(ratio.to_ratio()), how));
    }
    if let Some(room) = ticket.room_to_ratio {
        let how = "Up to the ratio of the approved mix; negative when too much is in already.";
        let (id, label) = (format!("ticket.room.{name}"), format!("Water load {name} could still take"));
        all.push(Figure::new(&id, &label, show.liquid(room), how));
    }
    all
}

/// Mean and spread of the last breaks of a set.
fn of_set(set: &StrengthSet, show: &Show) -> Option<Figure> {
    let last = set.last?;
    let age = set
        .breaks
        .iter()
        .filter_map(|(age, ..)| *age)
        .reduce(|a, b| if a.to_days() < b.to_days() { b } else { a });
    let age = age.map_or_else(String::new, |age| format!(" at {}", show.span(age)));
    let value = format!(
        "{}{age}, {} to {} of {}",
        show.pressure(last.mean),
        show.pressure(last.lowest),
        show.pressure(last.highest),
        crate::phrase::count(last.cylinders, "cylinder", "cylinders")
    );
    let (id, label) = (format!("strength.set.{}", set.set), format!("Strength of set {}", set.set));
    Some(Figure::new(&id, &label, value, "Mean of the breaks at the greatest age, lowest to highest."))
}

/// What usual curves expect at the age the assessment is made for.
fn estimates(strength: &StrengthReckoning, show: &Show) -> Vec<Figure> {
    let (Some(specified), Some(age)) = (strength.specified, strength.age) else { return Vec::new() };
    if age.to_days() < FIRST_DAYS {
        return Vec::new();
    }
    let curves: [(&str, Option<Fraction>, &str); 2] = [
        (
            "strength.estimate.en1992",
            strength.european,
            "EN 1992-1-1 curve of the cement class [EN-1992-1-1]",
        ),
        (
            "strength.estimate.aci209",
            strength.american,
            "ACI 209 curve, Type I cement kept moist, from memory [ACI-209R]",
        ),
    ];
    let figure = |(id, gain, curve): (&str, Option<Fraction>, &str)| {
        let value = Pressure::pascals(gain?.to_part() * specified.to_pascals());
        let label = format!("Strength expected at {}", show.span(age));
        let how = format!(
            "{curve}, times the specified strength. An estimate beside breaks, never instead of one."
        );
        Some(Figure::new(id, &label, format!("about {}", show.pressure(value)), &how))
    };
    curves.into_iter().filter_map(figure).collect()
}

/// Equivalent ages at sensors.
fn maturities(strength: &StrengthReckoning, show: &Show) -> Vec<Figure> {
    let figure = |sensor: &assess::reckon::strength::SensorMaturity| {
        let value = format!(
            "{} by {} ({} °C·h)",
            show.span(sensor.equivalent_age),
            show.moment(sensor.until),
            show.plain(sensor.degree_hours.0, 0)
        );
        let how = "From its temperatures, by assumed constants and not those of the mix. [ASTM-C1074], from memory.";
        let (id, label) =
            (format!("strength.maturity.{}", sensor.sensor), format!("Equivalent age at {}", sensor.sensor));
        Figure::new(&id, &label, value, how)
    };
    strength.maturity.iter().map(figure).collect()
}
