//! The unit a drawing counts in, and how many decimals it prints.
//!
//! The data are SI; the person reads feet and tenths, or metres. Rounding happens here, last, for display.
//!
//! Units: SI in, the unit of the scale out.

use quantity::{Unit, units};

/// A unit with the decimals its labels are printed with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// The unit of the labels.
    pub unit: &'static Unit,
    /// Decimals of a single value (ticks print as few as they need).
    pub decimals: u8,
}

impl Scale {
    /// A scale in this unit.
    pub const fn of(unit: &'static Unit, decimals: u8) -> Self {
        Scale { unit, decimals }
    }

    /// Feet and tenths.
    pub const fn feet() -> Self {
        Self::of(&units::FOOT, 1)
    }

    /// Metres to the centimetre.
    pub const fn meters() -> Self {
        Self::of(&units::METER, 2)
    }

    /// Inches to the tenth.
    pub const fn inches() -> Self {
        Self::of(&units::INCH, 1)
    }

    /// Whole millimetres.
    pub const fn millimeters() -> Self {
        Self::of(&units::MILLIMETER, 0)
    }

    /// Cubic yards to the tenth.
    pub const fn cubic_yards() -> Self {
        Self::of(&units::CUBIC_YARD, 1)
    }

    /// Cubic metres to the tenth.
    pub const fn cubic_meters() -> Self {
        Self::of(&units::CUBIC_METER, 1)
    }

    /// The number in the unit of the scale.
    pub fn in_unit(&self, si: f64) -> f64 {
        self.unit.from_si(si)
    }

    /// The SI value of a number of this unit.
    pub(crate) fn si(&self, value: f64) -> f64 {
        value * self.unit.numerator as f64 / self.unit.denominator as f64
            + self.unit.offset.0 as f64 / self.unit.offset.1 as f64
    }

    /// The number alone, `23.4`.
    pub fn figure(&self, si: f64) -> String {
        fixed(self.in_unit(si), usize::from(self.decimals))
    }

    /// The number with its unit, `23.4 ft`; a blank unit adds nothing.
    pub fn label(&self, si: f64) -> String {
        with_unit(self.figure(si), self.unit.symbol)
    }

    /// A signed number with its unit, `+0.4 ft`.
    pub fn signed(&self, si: f64) -> String {
        let figure = self.figure(si);
        let zero = figure.chars().all(|c| c == '0' || c == '.');
        let sign = if si > 0.0 && !zero { "+" } else { "" };
        with_unit(format!("{sign}{figure}"), self.unit.symbol)
    }

    /// The unit for the head of an axis, `ft`.
    pub fn symbol(&self) -> &'static str {
        self.unit.symbol
    }
}

fn with_unit(figure: String, symbol: &str) -> String {
    match symbol {
        "" => figure,
        "%" => format!("{figure} %"),
        _ => format!("{figure} {symbol}"),
    }
}

/// Fixed decimals with a true minus sign and no negative zero.
pub(crate) fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        Some(rest) => format!("−{rest}"),
        None => text,
    }
}

/// A step of 1, 2 or 5 times a power of ten that gives at most `most` steps over `span`, with the decimals
/// it needs.
pub(crate) fn step(span: f64, most: f64) -> (f64, usize) {
    let raw = if span.is_finite() && span > 0.0 { span / most.max(1.0) } else { 1.0 };
    let power = libm::floor(libm::log10(raw)).clamp(-9.0, 12.0);
    let base = libm::pow(10.0, power);
    let factor = [1.0, 2.0, 5.0, 10.0].into_iter().find(|f| f * base >= raw * 0.999_999).unwrap_or(10.0);
    let decimals = if factor == 10.0 { -power - 1.0 } else { -power };
    (factor * base, decimals.max(0.0) as usize)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 3.048 m is 10 ft exactly, 0.764 554 857 984 m³ is 1 yd³: [NIST-SP-811], App. B.8.
    #[test]
    fn labels_are_in_the_unit_of_the_scale() {
        assert_eq!(Scale::feet().label(3.048), "10.0 ft");
        assert_eq!(Scale::cubic_yards().label(0.764_554_857_984), "1.0 yd³");
        assert_eq!(Scale::meters().label(-0.001), "0.00 m");
        assert_eq!(Scale::meters().label(-1.25), "−1.25 m");
        assert_eq!(Scale::inches().signed(0.0254), "+1.0 in");
        assert_eq!(Scale::inches().signed(0.0), "0.0 in");
    }

    #[test]
    fn steps_are_ones_twos_and_fives() {
        for (span, most, expected) in
            [(24.0, 8.0, (5.0, 0)), (1.0, 5.0, (0.2, 1)), (100.0, 10.0, (10.0, 0)), (0.9, 10.0, (0.1, 1))]
        {
            let (size, decimals) = step(span, most);
            assert!((size - expected.0).abs() < 1e-12 && decimals == expected.1, "{span}: {size} {decimals}");
        }
    }
}
