//! The kinds of quantity a shaft record holds.
//!
//! Every entry field is of one kind; a unit of another kind in it is a slip that has to be shown, never
//! converted.
//!
//! Words: *kind* = what sort of thing a quantity measures.

/// What sort of thing a quantity measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Metres.
    Length,
    /// Square metres.
    Area,
    /// Cubic metres.
    Volume,
    /// Kilograms per cubic metre: densities, unit weights, cement contents.
    Density,
    /// Kilograms.
    Mass,
    /// Newtons.
    Force,
    /// Pascals.
    Pressure,
    /// Kelvin.
    Temperature,
    /// Seconds.
    Span,
    /// Seconds for the funnel to run out; the measured volume is part of the unit.
    FunnelTime,
    /// Part of one: sand content, air, moisture.
    Fraction,
    /// pH units.
    Ph,
    /// Horizontal over vertical, or rise over run.
    Slope,
    /// Metres per second: rise of water in the hole.
    Inflow,
    /// Mass of water over mass of cementitious material.
    WaterCement,
}

impl Kind {
    /// The kind with its article, as a sentence needs it: `a length`.
    pub fn noun(self) -> &'static str {
        self.words().0
    }

    /// A text of this kind that reads well, for hints.
    pub fn example(self) -> &'static str {
        self.words().1
    }

    /// Whether the SI value may lie below zero: an elevation may, a volume or a temperature in kelvin not.
    pub fn may_be_negative(self) -> bool {
        matches!(self, Kind::Length | Kind::Force | Kind::Slope | Kind::Inflow)
    }

    fn words(self) -> (&'static str, &'static str) {
        match self {
            Kind::Length => ("a length", "12.54 ft"),
            Kind::Area => ("an area", "12.57 ft²"),
            Kind::Volume => ("a volume", "9.5 yd³"),
            Kind::Density => ("a density", "64.3 pcf"),
            Kind::Mass => ("a mass", "675 lb"),
            Kind::Force => ("a force", "2.5 kip"),
            Kind::Pressure => ("a pressure or strength", "2500 psi"),
            Kind::Temperature => ("a temperature", "72 °F"),
            Kind::Span => ("a span of time", "90 min"),
            Kind::FunnelTime => ("a Marsh funnel time with its volume", "38 s/qt"),
            Kind::Fraction => ("a percentage", "3.5 %"),
            Kind::Ph => ("a pH value", "8.5"),
            Kind::Slope => ("a slope", "1.5 %"),
            Kind::Inflow => ("a rate of rise", "6 in/h"),
            Kind::WaterCement => ("a water-cement ratio", "0.42"),
        }
    }
}
