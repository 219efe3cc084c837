//! Numbers outside anything usual: pH 80, a sand content of 25 for 2.5, a temperature in the other unit.
//!
//! Every range is a placeholder, to be agreed with a practising inspector. None is an acceptance limit.

use super::Doubt;
use crate::kinds::Body;
use crate::log::Log;
use crate::question::Suspicion;
use quantity::{Density, Entered, Fraction, FunnelTime, Ph, Pressure, Quantity, Temperature, WaterCement};

/// What most sites would write, in the unit of `read`.
struct Usual<Q> {
    field: &'static str,
    low: f64,
    high: f64,
    usual: &'static str,
    read: fn(Q) -> f64,
}

macro_rules! usual {
    ($($name:ident: $kind:ident $field:literal $low:literal to $high:literal $read:path, $usual:literal;)*) => {$(
        const $name: Usual<$kind> =
            Usual { field: $field, low: $low, high: $high, usual: $usual, read: $read };
    )*};
}

// Placeholder ranges: to be agreed with a practising inspector.
usual! {
    FLUID_PH: Ph "ph" 5.0 to 13.0 Ph::to_units, "5 to 13";
    FLUID_DENSITY: Density "density" 62.0 to 85.0 Density::to_pounds_per_cubic_foot, "62 to 85 pcf";
    VISCOSITY: FunnelTime "viscosity" 24.0 to 160.0 FunnelTime::to_seconds, "24 to 160 s";
    SAND: Fraction "sand" 0.0 to 20.0 Fraction::to_percent, "0 to 20 %";
    FLUID_TEMPERATURE: Temperature "temperature" 32.0 to 110.0 Temperature::to_fahrenheit, "32 to 110 °F";
    CONCRETE_TEMPERATURE: Temperature "temperature" 35.0 to 110.0 Temperature::to_fahrenheit, "35 to 110 °F";
    CURING_TEMPERATURE: Temperature "temperature" 20.0 to 200.0 Temperature::to_fahrenheit, "20 to 200 °F";
    AIR_TEMPERATURE: Temperature "temperature" -50.0 to 130.0 Temperature::to_fahrenheit, "-50 to 130 °F";
    AIR: Fraction "air" 0.0 to 12.0 Fraction::to_percent, "0 to 12 %";
    UNIT_WEIGHT: Density "unit_weight" 100.0 to 170.0 Density::to_pounds_per_cubic_foot, "100 to 170 pcf";
    STRENGTH: Pressure "strength" 300.0 to 20_000.0 Pressure::to_psi, "300 to 20,000 psi";
    WATER_RATIO: WaterCement "w_cm" 0.2 to 0.8 WaterCement::to_ratio, "0.2 to 0.8";
    TIED: Fraction "tied" 0.0 to 100.0 Fraction::to_percent, "0 to 100 %";
    SHARE: Fraction "share" 0.0 to 100.0 Fraction::to_percent, "0 to 100 %";
}

/// Numbers outside what is usual for their field.
pub(super) fn unusual(log: &Log<'_>) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    for line in log.lines.iter().filter(|line| line.stands()) {
        let odd = odd(line.body).into_iter().flatten();
        doubts.extend(odd.map(|suspicion| (line.entry.id, suspicion)));
    }
    doubts
}

impl<Q: Quantity> Usual<Q> {
    fn ask(&self, entered: Option<&Entered<Q>>) -> Option<Suspicion> {
        let entered = entered?;
        let odd = !(self.low..=self.high).contains(&(self.read)(entered.value()));
        let written = entered.shown();
        odd.then_some(Suspicion::ValueUnusual { field: self.field, written, usual: self.usual })
    }
}

fn odd(body: &Body) -> Vec<Option<Suspicion>> {
    match body {
        Body::FluidTest(test) => vec![
            FLUID_PH.ask(test.ph.as_ref()),
            FLUID_DENSITY.ask(test.density.as_ref()),
            VISCOSITY.ask(test.viscosity.as_ref()),
            SAND.ask(test.sand.as_ref()),
            FLUID_TEMPERATURE.ask(test.temperature.as_ref()),
        ],
        Body::ConcreteTest(test) => vec![
            AIR.ask(test.air.as_ref()),
            CONCRETE_TEMPERATURE.ask(test.temperature.as_ref()),
            UNIT_WEIGHT.ask(test.unit_weight.as_ref()),
        ],
        Body::MixApproved(mix) => vec![
            STRENGTH.ask(mix.strength.as_ref()),
            WATER_RATIO.ask(mix.w_cm.as_ref()),
            UNIT_WEIGHT.ask(mix.unit_weight.as_ref()),
        ],
        Body::CylinderBroken(broken) => vec![STRENGTH.ask(Some(&broken.strength))],
        Body::TemperatureRead(read) => vec![CURING_TEMPERATURE.ask(Some(&read.temperature))],
        Body::Weather(weather) => vec![AIR_TEMPERATURE.ask(weather.temperature.as_ref())],
        Body::CageChecked(cage) => vec![TIED.ask(cage.tied.as_ref())],
        Body::ConcreteSounded(sounding) => vec![SHARE.ask(sounding.share.as_ref())],
        _ => Vec::new(),
    }
}
