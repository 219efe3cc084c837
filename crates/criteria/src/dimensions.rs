//! The numbers of a shaft that a derived limit may hang on.
//!
//! Some limits are not numbers but recipes: "one twenty-fourth of the diameter", "five times the
//! aggregate". The file names a dimension of this closed list, the assessment supplies its value.
//!
//! Never: compute a dimension.

use quantity::{Kind, Number, Quantity};
use std::collections::BTreeMap;

/// One number of the shaft.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// Planned diameter at the judged place.
    Diameter,
    /// Planned depth of the shaft.
    Depth,
    /// Depth of the cut-off below the level from which the shaft is made.
    CutoffDepth,
    /// Length of the temporary casing.
    CasingLength,
    /// Inner width of the cage.
    CageInnerWidth,
    /// Inner diameter of the tremie.
    TremieInnerDiameter,
    /// Maximum size of the aggregate.
    AggregateSize,
    /// Diameter of the largest longitudinal bar.
    BarDiameter,
    /// Height of concrete whose weight balances water and fluid outside the casing.
    BalancingHead,
    /// Concrete needed to bury the discharge end as deep as required.
    FirstChargeNeeded,
    /// Specified compressive strength.
    SpecifiedStrength,
    /// Standard error of the ratio of this interval, from tape and load.
    RatioError,
    /// Slump life of the mix by its trial.
    SlumpLife,
    /// Time limit for discharge stated on the ticket.
    TicketTimeLimit,
    /// Water-cement ratio of the approved mix.
    MixWaterCement,
}

impl Dimension {
    const TABLE: [(Dimension, &'static str, Kind); 15] = [
        (Dimension::Diameter, "diameter", Kind::Length),
        (Dimension::Depth, "depth", Kind::Length),
        (Dimension::CutoffDepth, "cutoff_depth", Kind::Length),
        (Dimension::CasingLength, "casing_length", Kind::Length),
        (Dimension::CageInnerWidth, "cage_inner_width", Kind::Length),
        (Dimension::TremieInnerDiameter, "tremie_inner_diameter", Kind::Length),
        (Dimension::AggregateSize, "aggregate_size", Kind::Length),
        (Dimension::BarDiameter, "bar_diameter", Kind::Length),
        (Dimension::BalancingHead, "balancing_head", Kind::Length),
        (Dimension::FirstChargeNeeded, "first_charge_needed", Kind::Volume),
        (Dimension::SpecifiedStrength, "specified_strength", Kind::Pressure),
        (Dimension::RatioError, "ratio_error", Kind::Fraction),
        (Dimension::SlumpLife, "slump_life", Kind::Span),
        (Dimension::TicketTimeLimit, "ticket_time_limit", Kind::Span),
        (Dimension::MixWaterCement, "mix_water_cement", Kind::WaterCement),
    ];

    /// Every dimension.
    pub fn all() -> impl Iterator<Item = Dimension> {
        Self::TABLE.into_iter().map(|row| row.0)
    }

    /// The word in a criteria file.
    pub fn word(self) -> &'static str {
        Self::TABLE[self as usize].1
    }

    /// What kind of quantity it is.
    pub fn kind(self) -> Kind {
        Self::TABLE[self as usize].2
    }

    /// The dimension with that word.
    pub fn named(word: &str) -> Option<Dimension> {
        Self::all().find(|dimension| dimension.word() == word)
    }
}

/// The dimensions that are known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Dimensions(BTreeMap<Dimension, Number>);

impl Dimensions {
    /// Nothing is known.
    pub fn new() -> Self {
        Self::default()
    }

    /// The same, with one more.
    ///
    /// Panics when the kind of quantity is not that of the dimension.
    #[must_use]
    pub fn with<Q: Quantity>(mut self, dimension: Dimension, value: Q) -> Self {
        assert_eq!(dimension.kind(), Q::KIND, "the kind of `{}`", dimension.word());
        self.0.insert(dimension, value.number());
        self
    }

    /// Both together; where both know a dimension, that of `particular` counts.
    #[must_use]
    pub fn and(mut self, particular: &Dimensions) -> Self {
        self.0.extend(&particular.0);
        self
    }

    /// Its value in SI, if known.
    pub fn get(&self, dimension: Dimension) -> Option<Number> {
        self.0.get(&dimension).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_stands_in_the_order_of_the_dimensions() {
        for (index, dimension) in Dimension::all().enumerate() {
            assert_eq!(dimension as usize, index, "{}", dimension.word());
        }
    }
}
