//! A measured value on its way to a verdict, and the distance between it and a limit.
//!
//! Words: *measured* = the value of a fact; *difference* = how far inside or outside a limit it lies.
//! Units: SI inside.
//! Never: round.

use crate::facts::Measure;
use crate::limit::{LimitUnit, Printed};
use crate::read::unit_named;
use quantity::{Exact, FunnelTime, Kind, Number, Quantity};

/// The value of a fact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measured {
    /// A quantity, in SI.
    Amount(Kind, Number),
    /// A Marsh time, with the volume it was measured for.
    Funnel(FunnelTime),
    /// A difference of temperatures, in kelvin.
    TemperatureStep(Number),
    /// A plain number.
    Plain(Number),
    /// It is so, or it is not.
    Truth(bool),
}

impl Measured {
    /// A quantity. For a Marsh time use `funnel`, which keeps the volume.
    ///
    /// Panics for a Marsh time.
    pub fn amount<Q: Quantity>(value: Q) -> Self {
        assert!(Q::KIND != Kind::FunnelTime, "a Marsh time keeps its volume: use Measured::funnel");
        Measured::Amount(Q::KIND, value.number())
    }

    /// A Marsh time.
    pub fn funnel(time: FunnelTime) -> Self {
        Measured::Funnel(time)
    }

    /// A number of things.
    pub fn count(count: u32) -> Self {
        Measured::Plain(Number::Exact(Exact::from_integer(count.into())))
    }

    /// A ratio. Panics when it is not finite.
    pub fn ratio(ratio: f64) -> Self {
        Measured::Plain(Number::computed(ratio))
    }

    /// A difference of temperatures in kelvin. Panics when it is not finite.
    pub fn temperature_step(kelvin: f64) -> Self {
        Measured::TemperatureStep(Number::computed(kelvin))
    }

    /// A value as a page or a test writes it: a number and the unit of what is measured, or `yes` or `no`.
    /// `None` when the text is no such value.
    pub fn read(measure: Measure, number: &str, unit: &str) -> Option<Self> {
        if measure == Measure::YesNo {
            return match number {
                "yes" => Some(Measured::Truth(true)),
                "no" => Some(Measured::Truth(false)),
                _ => None,
            };
        }
        let printed = Printed::parse(number, unit_named(measure, unit)?)?;
        let value = Number::Exact(printed.value);
        match (measure, printed.unit) {
            (Measure::Amount(Kind::FunnelTime), LimitUnit::Unit(unit)) => {
                FunnelTime::from_unit(printed.value, unit).map(Measured::Funnel)
            }
            (Measure::Amount(kind), _) => Some(Measured::Amount(kind, value)),
            (Measure::TemperatureStep, _) => Some(Measured::TemperatureStep(value)),
            (Measure::Plain(_), _) => Some(Measured::Plain(value)),
            (Measure::YesNo, _) => None,
        }
    }

    /// Is this the sort of value the fact has.
    pub fn fits(self, measure: Measure) -> bool {
        match (self, measure) {
            (Measured::Amount(kind, _), Measure::Amount(wanted)) => kind == wanted,
            (Measured::Funnel(_), Measure::Amount(wanted)) => wanted == Kind::FunnelTime,
            (Measured::TemperatureStep(_), Measure::TemperatureStep)
            | (Measured::Plain(_), Measure::Plain(_))
            | (Measured::Truth(_), Measure::YesNo) => true,
            _ => false,
        }
    }

    /// The number in SI; `None` for yes and no.
    pub fn number(self) -> Option<Number> {
        match self {
            Measured::Amount(_, number) | Measured::TemperatureStep(number) | Measured::Plain(number) => {
                Some(number)
            }
            Measured::Funnel(time) => Some(time.number()),
            Measured::Truth(_) => None,
        }
    }
}

impl From<bool> for Measured {
    fn from(value: bool) -> Self {
        Measured::Truth(value)
    }
}

impl From<FunnelTime> for Measured {
    fn from(value: FunnelTime) -> Self {
        Measured::Funnel(value)
    }
}

macro_rules! from_quantities {
    ($($name:ident),*) => {$(
        impl From<quantity::$name> for Measured {
            fn from(value: quantity::$name) -> Self {
                Measured::amount(value)
            }
        }
    )*};
}

from_quantities!(
    Length,
    Density,
    Span,
    Fraction,
    Ph,
    Slope,
    Inflow,
    Temperature,
    Pressure,
    Volume,
    WaterCement
);

/// A distance between a value and a limit. Never negative.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// In SI.
    pub number: Number,
    /// The unit of the limit.
    pub unit: LimitUnit,
}

impl Difference {
    /// In the unit of the limit. A difference of temperatures ignores where the scale begins.
    pub fn in_unit(self) -> f64 {
        self.unit.size_from_si(self.number)
    }
}
