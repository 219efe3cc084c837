//! Usual curves of strength against age: what to expect before the breaks are in.
//!
//! Words: *gain* = mean strength at an age over mean strength at 28 days.
//! Units: ages as spans; gains as plain parts.
//! Never: stand for a break; know which cement a mix has.

use quantity::{Fraction, Pressure, Span};

/// Strength classes of cement. [EN-1992-1-1], 3.1.2 (6).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CementClass {
    /// Rapid.
    Rapid,
    /// Normal.
    Normal,
    /// Slow.
    Slow,
}

/// The two constants of `t / (a + b t)`, `t` in days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgeConstants {
    /// Days.
    pub a: f64,
    /// Plain.
    pub b: f64,
}

/// Type I cement, moist cured. [ACI-209R].
pub const TYPE_I_MOIST: AgeConstants = AgeConstants { a: 4.0, b: 0.85 };
/// Type III cement, moist cured. [ACI-209R].
pub const TYPE_III_MOIST: AgeConstants = AgeConstants { a: 2.3, b: 0.92 };
/// Type I cement, steam cured. [ACI-209R].
pub const TYPE_I_STEAM: AgeConstants = AgeConstants { a: 1.0, b: 0.95 };
/// Type III cement, steam cured. [ACI-209R].
pub const TYPE_III_STEAM: AgeConstants = AgeConstants { a: 0.70, b: 0.98 };

/// How fast a concrete gains strength. [EN-206], strength development.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Development {
    /// Ratio below 0.15.
    VerySlow,
    /// From 0.15.
    Slow,
    /// From 0.3.
    Medium,
    /// From 0.5.
    Rapid,
}

/// Mean strengths of one concrete at two ages.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoAges {
    /// At two days.
    pub two_days: Pressure,
    /// At 28 days.
    pub twenty_eight_days: Pressure,
}

/// Why a gain has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GainError {
    /// An age that is not greater than zero.
    Age,
    /// A constant or strength that is not greater than zero.
    NotPositive,
}

impl std::fmt::Display for GainError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            GainError::Age => write!(f, "the age is not greater than zero"),
            GainError::NotPositive => write!(f, "a constant or a strength is not greater than zero"),
        }
    }
}

impl std::error::Error for GainError {}

impl CementClass {
    /// The coefficient `s`. [EN-1992-1-1], 3.1.2 (6).
    fn coefficient(self) -> f64 {
        match self {
            CementClass::Rapid => 0.20,
            CementClass::Normal => 0.25,
            CementClass::Slow => 0.38,
        }
    }
}

/// Gain by the European code.
///
/// `β(t) = exp{ s [ 1 − √(28 / t) ] }`, `t` in days
///
/// **Valid for** concrete cured at a mean of 20 °C; at another temperature put in the equivalent age.
///
/// **Errors** when the age is not greater than zero.
///
/// **Source**: [EN-1992-1-1], 3.1.2 (6).
///
/// ```
/// use calc::gain::{CementClass, european_gain};
/// use quantity::Span;
/// let gain = european_gain(CementClass::Normal, Span::days(7.0)).unwrap();
/// assert_eq!(format!("{:.3}", gain.to_part()), "0.779");
/// ```
pub fn european_gain(class: CementClass, age: Span) -> Result<Fraction, GainError> {
    let days = positive_days(age)?;
    Ok(Fraction::part(libm::exp(class.coefficient() * (1.0 - (28.0 / days).sqrt()))))
}

/// Gain by the American committee report.
///
/// `f(t) / f28 = t / (a + b t)`, `t` in days
///
/// **Valid for** normal temperatures; the constants name cement and curing.
///
/// **Errors** when the age or a constant is not greater than zero.
///
/// **Source**: [ACI-209R].
///
/// ```
/// # use calc::gain::{TYPE_I_MOIST, american_gain};
/// # use quantity::Span;
/// assert_eq!(format!("{:.3}", american_gain(TYPE_I_MOIST, Span::days(7.0))?.to_part()), "0.704");
/// # Ok::<(), calc::gain::GainError>(())
/// ```
pub fn american_gain(constants: AgeConstants, age: Span) -> Result<Fraction, GainError> {
    let days = positive_days(age)?;
    if constants.a <= 0.0 || constants.b <= 0.0 {
        return Err(GainError::NotPositive);
    }
    Ok(Fraction::part(days / (constants.a + constants.b * days)))
}

/// How fast a concrete gains strength, by its ratio of strengths at 2 and 28 days.
///
/// `r = f2 / f28`
///
/// **Errors** when a strength is not greater than zero.
///
/// **Source**: [EN-206], strength development: rapid from 0.5, medium from 0.3, slow from 0.15.
///
/// ```
/// # use calc::gain::{Development, TwoAges, development};
/// # use quantity::Pressure;
/// let [two_days, twenty_eight_days] = [12.0, 40.0].map(Pressure::megapascals);
/// assert_eq!(development(TwoAges { two_days, twenty_eight_days })?.1, Development::Medium);
/// # Ok::<(), calc::gain::GainError>(())
/// ```
pub fn development(ages: TwoAges) -> Result<(Fraction, Development), GainError> {
    let (early, late) = (ages.two_days.to_pascals(), ages.twenty_eight_days.to_pascals());
    if early <= 0.0 || late <= 0.0 {
        return Err(GainError::NotPositive);
    }
    let ratio = early / late;
    let class = match ratio {
        r if 0.5 <= r => Development::Rapid,
        r if 0.3 <= r => Development::Medium,
        r if 0.15 <= r => Development::Slow,
        _ => Development::VerySlow,
    };
    Ok((Fraction::part(ratio), class))
}

fn positive_days(age: Span) -> Result<f64, GainError> {
    let days = age.to_days();
    if days > 0.0 { Ok(days) } else { Err(GainError::Age) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn european(class: CementClass, days: f64) -> f64 {
        european_gain(class, Span::days(days)).unwrap().to_part()
    }

    /// From the formula of [EN-1992-1-1] 3.1.2 (6) with a desk calculator, three digits.
    #[test]
    fn european_table() {
        let ages = [1.0, 3.0, 7.0, 14.0, 28.0, 56.0, 90.0, 300.0];
        let rows = [
            (CementClass::Rapid, [0.424, 0.663, 0.819, 0.920, 1.0, 1.060, 1.092, 1.149]),
            (CementClass::Normal, [0.342, 0.598, 0.779, 0.902, 1.0, 1.076, 1.117, 1.190]),
            (CementClass::Slow, [0.196, 0.458, 0.684, 0.854, 1.0, 1.118, 1.183, 1.302]),
        ];
        for (class, row) in rows {
            for (days, expected) in ages.into_iter().zip(row) {
                let gain = european(class, days);
                assert!((gain - expected).abs() <= 0.000_5, "{class:?} {days} d: {gain} beside {expected}");
            }
        }
    }

    /// Source: [CONCRETE-CENTRE-56-DAY]: at 300 days class S lies 15 % above class R; a mix made for 56 days
    /// has just under 90 % at 28 days, one made for 90 days about 85 %. Tolerance: half of the last digit
    /// printed, which is one percent; "just under" is read as within one percent below.
    #[test]
    fn published_figures_on_slow_cement() {
        let slow = |days| european(CementClass::Slow, days);
        assert!((slow(300.0) - european(CementClass::Rapid, 300.0) - 0.15).abs() <= 0.005);
        assert!((0.89..0.90).contains(&(1.0 / slow(56.0))));
        assert!((1.0 / slow(90.0) - 0.85).abs() <= 0.005);
    }

    /// From `t / (a + b t)` by hand, three digits, constants of [ACI-209R].
    #[test]
    fn american_table() {
        let ages = [3.0, 7.0, 14.0, 28.0, 90.0];
        let rows = [
            (TYPE_I_MOIST, [0.458, 0.704, 0.881, 1.007, 1.118]),
            (TYPE_III_MOIST, [0.593, 0.801, 0.922, 0.998, 1.058]),
        ];
        for (constants, row) in rows {
            for (days, expected) in ages.into_iter().zip(row) {
                let gain = american_gain(constants, Span::days(days)).unwrap().to_part();
                assert!((gain - expected).abs() <= 0.000_5, "{constants:?} {days} d: {gain}");
            }
        }
    }

    #[track_caller]
    fn check_development(two_days: f64, expected: Development) {
        let ages = TwoAges {
            two_days: Pressure::megapascals(two_days),
            twenty_eight_days: Pressure::megapascals(40.0),
        };
        assert_eq!(development(ages).unwrap().1, expected);
    }

    #[test]
    fn strength_development() {
        check_development(20.0, Development::Rapid);
        check_development(19.9, Development::Medium);
        check_development(12.0, Development::Medium);
        check_development(6.0, Development::Slow);
        check_development(5.9, Development::VerySlow);
    }

    #[test]
    fn no_gain_before_time_begins() {
        assert_eq!(european_gain(CementClass::Slow, Span::days(0.0)), Err(GainError::Age));
        assert_eq!(
            american_gain(AgeConstants { a: 0.0, b: 1.0 }, Span::days(1.0)),
            Err(GainError::NotPositive)
        );
    }
}
