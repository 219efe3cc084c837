//! The units and signs a job wants to read.
//!
//! A job chooses once: feet and tenths, feet and inches, or metres; US or SI units for the rest; point or
//! comma. What a person typed stays as typed; the style is for what was computed.
//!
//! Never: convert a funnel time from one volume to another.

use crate::entered::Reading;
use crate::kind::Kind;
use crate::kinds::Quantity;
use crate::length::Length;
use crate::print::{InchFraction, LengthStyle, print, print_length, with_comma};
use crate::unit::{Unit, units};

/// The family of units for everything but lengths.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// Cubic yards, pounds per cubic foot, psi, degrees Fahrenheit.
    Us,
    /// Cubic metres, kilograms per cubic metre, megapascals, degrees Celsius.
    Si,
}

/// How a job wants to read its quantities.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Style {
    /// Depths, elevations, lengths.
    pub lengths: LengthStyle,
    /// Everything else.
    pub system: System,
    /// The decimal sign is a comma.
    pub comma: bool,
}

impl Style {
    /// Feet and tenths, US units, decimal point.
    pub const US: Style = Style { lengths: LengthStyle::FeetTenths, system: System::Us, comma: false };
    /// Metres, SI units, decimal point.
    pub const SI: Style = Style { lengths: LengthStyle::Meters, system: System::Si, comma: false };

    /// A depth, elevation or length. `decimals` counts for the decimal styles only.
    pub fn length(self, length: Length, decimals: u8) -> String {
        self.signed(print_length(length, self.lengths, decimals))
    }

    /// A small length, such as sediment, cover or slump: inches to the eighth, or whole millimetres.
    pub fn small_length(self, length: Length) -> String {
        let style = match self.system {
            System::Us => LengthStyle::Inches(InchFraction::Eighth),
            System::Si => LengthStyle::Millimeters,
        };
        self.signed(print_length(length, style, 0))
    }

    /// A quantity in the unit of this style. Lengths follow `lengths`, a funnel time its own volume.
    pub fn quantity<Q: Quantity>(self, value: Q, decimals: u8) -> String {
        if Q::KIND == Kind::Length {
            return value.number().exact().and_then(Length::exact).map_or_else(
                || self.signed(print(value, self.unit(Kind::Length), decimals)),
                |length| self.length(length, decimals),
            );
        }
        self.signed(print(value, self.unit(Q::KIND), decimals))
    }

    /// The unit a kind is printed in, and a bare number of it is read in.
    pub fn unit(self, kind: Kind) -> &'static Unit {
        match (kind, self.system) {
            (Kind::Length, _) => self.length_unit(),
            (Kind::Span, _) => &units::MINUTE,
            (Kind::Fraction, _) => &units::PERCENT,
            (Kind::Ph, _) => &units::PH,
            (Kind::Slope, _) => &units::PERCENT_SLOPE,
            (Kind::WaterCement, _) => &units::WATER_CEMENT,
            (kind, System::Us) => us(kind),
            (kind, System::Si) => si(kind),
        }
    }

    /// How a field of this kind reads a text on this job.
    pub fn reading(self, kind: Kind) -> Reading {
        Reading { unit: Some(self.unit(kind)), comma: self.comma }
    }

    fn length_unit(self) -> &'static Unit {
        match self.lengths {
            LengthStyle::FeetTenths | LengthStyle::FeetInches(_) => &units::FOOT,
            LengthStyle::Inches(_) => &units::INCH,
            LengthStyle::Meters => &units::METER,
            LengthStyle::Millimeters => &units::MILLIMETER,
        }
    }

    fn signed(self, text: String) -> String {
        if self.comma { with_comma(text) } else { text }
    }
}

fn us(kind: Kind) -> &'static Unit {
    match kind {
        Kind::Area => &units::SQUARE_FOOT,
        Kind::Volume => &units::CUBIC_YARD,
        Kind::Density => &units::POUND_PER_CUBIC_FOOT,
        Kind::Mass => &units::POUND,
        Kind::Force => &units::KIP,
        Kind::Pressure => &units::PSI,
        Kind::Temperature => &units::FAHRENHEIT,
        Kind::FunnelTime => &units::SECOND_PER_QUART,
        Kind::Inflow => &units::INCH_PER_HOUR,
        other => unreachable!("{other:?} has one unit in both systems"),
    }
}

fn si(kind: Kind) -> &'static Unit {
    match kind {
        Kind::Area => &units::SQUARE_METER,
        Kind::Volume => &units::CUBIC_METER,
        Kind::Density => &units::KILOGRAM_PER_CUBIC_METER,
        Kind::Mass => &units::KILOGRAM,
        Kind::Force => &units::KILONEWTON,
        Kind::Pressure => &units::MEGAPASCAL,
        Kind::Temperature => &units::CELSIUS,
        Kind::FunnelTime => &units::SECOND_PER_LITER,
        Kind::Inflow => &units::MILLIMETER_PER_HOUR,
        other => unreachable!("{other:?} has one unit in both systems"),
    }
}
