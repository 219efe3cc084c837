//! Maturity and gain of strength.

use calc::gain::{
    AgeConstants, CementClass, TYPE_I_MOIST, TYPE_I_STEAM, TYPE_III_MOIST, TYPE_III_STEAM, american_gain,
    european_gain,
};
use calc::maturity::{Activation, WarmStretch, equivalent_age, nurse_saul};

use super::{Checks, Given, Outputs, numbers};

pub(super) const CHECKS: Checks = &[
    ("maturity::nurse_saul", factor),
    ("maturity::equivalent_age", equivalent),
    ("gain::european", european),
    ("gain::american", american),
];

fn stretch(given: &Given) -> Result<[WarmStretch; 1], String> {
    Ok([WarmStretch { duration: given.quantity("duration")?, mean: given.quantity("temperature")? }])
}

fn factor(given: &Given) -> Result<Outputs, String> {
    let (factor, _) =
        nurse_saul(&stretch(given)?, given.quantity("datum")?).map_err(|error| error.to_string())?;
    numbers([("degree_hours", factor.0)])
}

fn equivalent(given: &Given) -> Result<Outputs, String> {
    let activation =
        Activation { q_kelvin: given.number("q_kelvin")?, reference: given.quantity("reference")? };
    let age = equivalent_age(&stretch(given)?, activation).map_err(|error| error.to_string())?;
    numbers([("age_h", age.to_hours())])
}

fn european(given: &Given) -> Result<Outputs, String> {
    let class = match given.text("class")? {
        "R" => CementClass::Rapid,
        "N" => CementClass::Normal,
        "S" => CementClass::Slow,
        other => return Err(format!("no class `{other}`")),
    };
    let gain = european_gain(class, given.quantity("age")?).map_err(|error| error.to_string())?;
    numbers([("gain", gain.to_part())])
}

fn american(given: &Given) -> Result<Outputs, String> {
    let constants: AgeConstants = match given.text("cement")? {
        "I moist" => TYPE_I_MOIST,
        "III moist" => TYPE_III_MOIST,
        "I steam" => TYPE_I_STEAM,
        "III steam" => TYPE_III_STEAM,
        other => return Err(format!("no cement `{other}`")),
    };
    let gain = american_gain(constants, given.quantity("age")?).map_err(|error| error.to_string())?;
    numbers([("gain", gain.to_part())])
}
