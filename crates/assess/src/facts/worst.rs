//! One value for the shaft where there are two lines: the least favourable one.
//!
//! A fact of the shaft has one value. What was not written of one line is not made good by the other.

use crate::measure::Measurement;
use criteria::Measured;
use std::collections::BTreeMap;

/// Of each fact the least favourable measurement, in the order the facts first came.
pub(super) fn of_each(all: Vec<Measurement>) -> Vec<Measurement> {
    let mut place: BTreeMap<&'static str, usize> = BTreeMap::new();
    let mut kept: Vec<Measurement> = Vec::new();
    for one in all {
        match place.get(one.fact) {
            Some(index) if worse(&one, &kept[*index]) => kept[*index] = one,
            Some(_) => {}
            None => {
                place.insert(one.fact, kept.len());
                kept.push(one);
            }
        }
    }
    kept
}

fn worse(one: &Measurement, other: &Measurement) -> bool {
    let number = |of: &Measurement| of.value.and_then(Measured::number).map(quantity::Number::to_f64);
    match (one.value, other.value) {
        (None, other) => other.is_some(),
        (Some(_), None) => false,
        (Some(Measured::Truth(so)), Some(_)) => so == (one.fact == "line.breached"),
        _ if is_worse_when_small(one.fact) => number(one) < number(other),
        _ => number(one) > number(other),
    }
}

fn is_worse_when_small(fact: &str) -> bool {
    ["line.embedment.least", "line.inner_diameter", "line.concrete_at_first_lift"].contains(&fact)
}
