//! One type per kind of quantity, private number, unit named once at the door and once at the exit.
//!
//! A density cannot be added to a volume, and a Marsh time for a quart cannot be mistaken for one for a
//! litre: the compiler, or the type itself, says so.
//!
//! Words: *kind* as in `unit::Kind`; *basis* = the volume a Marsh time is measured for.
//! Units: SI inside.
//! Never: convert a quart time to a litre time.

use crate::kind::Kind;
use crate::length::{Depth, Elevation, Length};
use crate::number::{Exact, Number};
use crate::unit::{Unit, units};

/// What every quantity can do.
pub trait Quantity: Copy + PartialEq + std::fmt::Debug + Sized {
    /// Its kind.
    const KIND: Kind;
    /// From an exact number of a unit; `None` when the kind of unit does not fit or it is out of range.
    fn from_unit(number: Exact, unit: &'static Unit) -> Option<Self>;
    /// The number in the SI unit; of a funnel time the seconds, whatever volume they were measured for.
    fn number(self) -> Number;
    /// The one unit this quantity can be told in, when there is only one: the `s/qt` of a funnel time.
    fn own_unit(self) -> Option<&'static Unit> {
        None
    }
    /// As a float in a unit of its kind. Panics when the unit is of another kind, or when a funnel time
    /// is asked for in a volume it was not measured for.
    fn to_unit(self, unit: &Unit) -> f64 {
        assert_eq!(unit.kind, Self::KIND, "a unit of the same kind");
        assert!(self.own_unit().is_none_or(|own| own == unit), "a funnel time in its own volume");
        unit.from_si(self.number().to_f64())
    }
}

macro_rules! lengths {
    ($($name:ident: |$value:ident| $inner:expr, |$length:ident| $wrap:expr;)*) => {$(
        impl Quantity for $name {
            const KIND: Kind = Kind::Length;
            fn from_unit(number: Exact, unit: &'static Unit) -> Option<Self> {
                if unit.kind != Kind::Length { return None; }
                let $length = Length::exact(unit.checked_si_of(number)?)?;
                Some($wrap)
            }
            fn number(self) -> Number {
                let $value = self;
                Number::Exact(Length::to_exact($inner))
            }
        }
    )*};
}

lengths! {
    Length: |value| value, |length| length;
    Depth: |value| value.0, |length| Depth(length);
    Elevation: |value| value.0, |length| Elevation(length);
}

macro_rules! kinds {
    ($($(#[$doc:meta])* $name:ident($kind:ident) { $($(#[$fdoc:meta])* $from:ident, $to:ident = $unit:ident;)* })*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct $name(Number);

        impl $name {
            /// Around a number of the SI unit.
            pub(crate) const fn of(number: Number) -> Self {
                $name(number)
            }

            $(
                $(#[$fdoc])*
                ///
                /// Panics when it is not finite.
                pub fn $from(value: f64) -> Self {
                    let unit = &units::$unit;
                    $name(Number::computed(value * unit.numerator as f64 / unit.denominator as f64
                        + unit.offset.0 as f64 / unit.offset.1 as f64))
                }

                $(#[$fdoc])*
                pub fn $to(self) -> f64 {
                    units::$unit.from_si(self.0.to_f64())
                }
            )*
        }

        impl Quantity for $name {
            const KIND: Kind = Kind::$kind;
            fn from_unit(number: Exact, unit: &'static Unit) -> Option<Self> {
                let si = unit.checked_si_of(number)?;
                (unit.kind == Kind::$kind).then_some($name::of(Number::Exact(si)))
            }
            fn number(self) -> Number {
                self.0
            }
        }
    )*};
}

kinds! {
    /// An area.
    Area(Area) {
        /// Square metres.
        square_meters, to_square_meters = SQUARE_METER;
        /// Square inches.
        square_inches, to_square_inches = SQUARE_INCH;
        /// Square feet.
        square_feet, to_square_feet = SQUARE_FOOT;
        /// Square millimetres.
        square_millimeters, to_square_millimeters = SQUARE_MILLIMETER;
    }
    /// A volume.
    Volume(Volume) {
        /// Cubic metres.
        cubic_meters, to_cubic_meters = CUBIC_METER;
        /// Cubic yards.
        cubic_yards, to_cubic_yards = CUBIC_YARD;
        /// Cubic feet.
        cubic_feet, to_cubic_feet = CUBIC_FOOT;
        /// US gallons.
        gallons, to_gallons = GALLON;
        /// Litres.
        liters, to_liters = LITER;
    }
    /// A mass density, or a unit weight read as one.
    Density(Density) {
        /// Kilograms per cubic metre.
        kilograms_per_cubic_meter, to_kilograms_per_cubic_meter = KILOGRAM_PER_CUBIC_METER;
        /// Pounds per cubic foot.
        pounds_per_cubic_foot, to_pounds_per_cubic_foot = POUND_PER_CUBIC_FOOT;
        /// Grams per cubic centimetre.
        grams_per_cubic_centimeter, to_grams_per_cubic_centimeter = GRAM_PER_CUBIC_CENTIMETER;
        /// Kilonewtons per cubic metre at standard gravity.
        kilonewtons_per_cubic_meter, to_kilonewtons_per_cubic_meter = KILONEWTON_PER_CUBIC_METER;
    }
    /// A mass.
    Mass(Mass) {
        /// Kilograms.
        kilograms, to_kilograms = KILOGRAM;
        /// Pounds.
        pounds, to_pounds = POUND;
    }
    /// A force.
    Force(Force) {
        /// Kilonewtons.
        kilonewtons, to_kilonewtons = KILONEWTON;
        /// Pounds-force.
        pounds_force, to_pounds_force = POUND_FORCE;
    }
    /// A pressure or a strength.
    Pressure(Pressure) {
        /// Pascals.
        pascals, to_pascals = PASCAL;
        /// Kilopascals.
        kilopascals, to_kilopascals = KILOPASCAL;
        /// Megapascals.
        megapascals, to_megapascals = MEGAPASCAL;
        /// Pounds-force per square inch.
        psi, to_psi = PSI;
        /// Pounds-force per square foot.
        psf, to_psf = PSF;
    }
    /// A temperature.
    Temperature(Temperature) {
        /// Degrees Celsius.
        celsius, to_celsius = CELSIUS;
        /// Degrees Fahrenheit.
        fahrenheit, to_fahrenheit = FAHRENHEIT;
        /// Kelvin.
        kelvin, to_kelvin = KELVIN;
    }
    /// A span of time.
    Span(Span) {
        /// Seconds.
        seconds, to_seconds = SECOND;
        /// Minutes.
        minutes, to_minutes = MINUTE;
        /// Hours.
        hours, to_hours = HOUR;
        /// Days.
        days, to_days = DAY;
    }
    /// A part of a whole.
    Fraction(Fraction) {
        /// Part of one.
        part, to_part = PART;
        /// Percent.
        percent, to_percent = PERCENT;
    }
    /// Acidity.
    Ph(Ph) {
        /// pH units.
        units, to_units = PH;
    }
    /// A slope: horizontal over vertical.
    Slope(Slope) {
        /// Part of one.
        part, to_part = METER_PER_METER;
        /// Percent.
        percent, to_percent = PERCENT_SLOPE;
        /// Inches per foot.
        inches_per_foot, to_inches_per_foot = INCH_PER_FOOT;
    }
    /// How fast water rises in the hole.
    Inflow(Inflow) {
        /// Metres per hour.
        meters_per_hour, to_meters_per_hour = METER_PER_HOUR;
        /// Inches per hour.
        inches_per_hour, to_inches_per_hour = INCH_PER_HOUR;
    }
    /// Mass of water over mass of cementitious material.
    WaterCement(WaterCement) {
        /// Plain ratio.
        ratio, to_ratio = WATER_CEMENT;
    }
}

/// A Marsh funnel time, with the volume it was measured for.
///
/// A time for a quart and one for a litre are different measurements: the head falls while the funnel
/// runs, so neither is a fixed multiple of the other. They never compare.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FunnelTime {
    seconds: Number,
    unit: &'static Unit,
}

impl FunnelTime {
    /// A computed or measured number of seconds for one US quart. Panics when it is not finite.
    pub fn seconds_per_quart(seconds: f64) -> Self {
        FunnelTime { seconds: Number::computed(seconds), unit: &units::SECOND_PER_QUART }
    }

    /// A computed or measured number of seconds for one litre. Panics when it is not finite.
    pub fn seconds_per_liter(seconds: f64) -> Self {
        FunnelTime { seconds: Number::computed(seconds), unit: &units::SECOND_PER_LITER }
    }

    /// The unit it was measured in: `s/qt` or `s/L`.
    pub fn basis(self) -> &'static Unit {
        self.unit
    }

    /// Seconds, for whatever volume `basis` says.
    pub fn to_seconds(self) -> f64 {
        self.seconds.to_f64()
    }
}

impl Quantity for FunnelTime {
    const KIND: Kind = Kind::FunnelTime;
    fn from_unit(number: Exact, unit: &'static Unit) -> Option<Self> {
        (unit.kind == Kind::FunnelTime).then_some(FunnelTime { seconds: Number::Exact(number), unit })
    }
    fn number(self) -> Number {
        self.seconds
    }
    fn own_unit(self) -> Option<&'static Unit> {
        Some(self.unit)
    }
}
