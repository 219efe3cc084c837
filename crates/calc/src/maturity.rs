//! Maturity of concrete from its temperatures: an estimate beside the breaks, never instead of them.
//!
//! Warm concrete gains strength faster. Both forms of maturity turn a temperature history into one number;
//! the relation of that number to strength has to be tried for the mix.
//!
//! Words: *datum* = the temperature below which nothing is gained; *reference* = the temperature an
//! equivalent age is meant for; *Q* = activation energy over the gas constant.
//! Units: kelvin and seconds inside; the factor in degree-hours because the tables are.
//! Never: assume a datum or a Q; turn maturity into strength.

use quantity::{Span, Temperature};

/// A stretch of time at one mean temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmStretch {
    /// How long.
    pub duration: Span,
    /// Mean temperature of the concrete.
    pub mean: Temperature,
}

/// Temperature-time factor.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct DegreeHours(
    /// °C · h above the datum.
    pub f64,
);

/// Constants of an equivalent age; to be stated for the mix.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Activation {
    /// Activation energy over the gas constant, kelvin.
    pub q_kelvin: f64,
    /// The temperature the equivalent age is meant for.
    pub reference: Temperature,
}

/// A stretch to look at again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MaturityIssue {
    /// Colder than the datum: it was counted as no gain.
    BelowDatum {
        /// Index of the stretch.
        stretch: usize,
    },
}

/// Why a maturity has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MaturityError {
    /// A duration below zero.
    NegativeTime {
        /// Index of the stretch.
        stretch: usize,
    },
    /// A temperature or a Q that is not greater than zero kelvin.
    NotPositive,
}

impl std::fmt::Display for MaturityError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            MaturityError::NegativeTime { .. } => write!(f, "a duration is below zero"),
            MaturityError::NotPositive => write!(f, "a temperature or Q is not greater than zero kelvin"),
        }
    }
}

impl std::error::Error for MaturityError {}

/// Temperature-time factor (Nurse–Saul).
///
/// `M = Σ (T − T0) Δt`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `T`, `Δt` | `history` | mean temperature and length of each stretch |
/// | `T0` | `datum` | temperature below which nothing is gained |
///
/// **Valid for** the temperature range the mix was tried in. A stretch below the datum adds nothing and is
/// named.
///
/// **Errors** with a duration below zero.
///
/// **Source**: [ASTM-C1074], temperature-time factor; 24 h at 20 °C over 0 °C is 480 °C·h by hand.
///
/// ```
/// # use calc::maturity::{WarmStretch, nurse_saul};
/// # use quantity::{Span, Temperature};
/// let day = WarmStretch { duration: Span::hours(24.0), mean: Temperature::celsius(20.0) };
/// let (factor, issues) = nurse_saul(&[day], Temperature::celsius(0.0))?;
/// assert_eq!((format!("{:.0} °C·h", factor.0), issues.len()), ("480 °C·h".to_owned(), 0));
/// # Ok::<(), calc::maturity::MaturityError>(())
/// ```
pub fn nurse_saul(
    history: &[WarmStretch],
    datum: Temperature,
) -> Result<(DegreeHours, Vec<MaturityIssue>), MaturityError> {
    check_times(history)?;
    let mut issues = Vec::new();
    let mut total = 0.0;
    for (stretch, warm) in history.iter().enumerate() {
        let above = warm.mean.to_kelvin() - datum.to_kelvin();
        if above < 0.0 {
            issues.push(MaturityIssue::BelowDatum { stretch });
        } else {
            total += above * warm.duration.to_hours();
        }
    }
    Ok((DegreeHours(total), issues))
}

/// Equivalent age at the reference temperature (Arrhenius form).
///
/// `te = Σ exp[−Q (1/T − 1/Ts)] Δt`, temperatures in kelvin
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `T`, `Δt` | `history` | mean temperature and length of each stretch |
/// | `Q`, `Ts` | `activation` | activation energy over gas constant, reference temperature |
///
/// **Valid for** the temperature range the mix was tried in. A sensor in the core does not speak for the
/// cool edge.
///
/// **Errors** with a duration below zero or a temperature or Q not above zero kelvin.
///
/// **Source**: [ASTM-C1074], equivalent age; factors by hand from the formula.
///
/// ```
/// use calc::maturity::{Activation, WarmStretch, equivalent_age};
/// use quantity::{Span, Temperature};
/// let day = WarmStretch { duration: Span::hours(24.0), mean: Temperature::celsius(10.0) };
/// let activation = Activation { q_kelvin: 5000.0, reference: Temperature::celsius(20.0) };
/// let age = equivalent_age(&[day], activation).unwrap();
/// assert_eq!(format!("{:.2} h", age.to_hours()), "13.14 h");
/// ```
pub fn equivalent_age(history: &[WarmStretch], activation: Activation) -> Result<Span, MaturityError> {
    check_times(history)?;
    let reference = kelvin(activation.reference.to_kelvin())?;
    let q = kelvin(activation.q_kelvin)?;
    let mut hours = 0.0;
    for warm in history {
        let rate = libm::exp(-q * (1.0 / kelvin(warm.mean.to_kelvin())? - 1.0 / reference));
        hours += rate * warm.duration.to_hours();
    }
    Ok(Span::hours(hours))
}

fn check_times(history: &[WarmStretch]) -> Result<(), MaturityError> {
    match history.iter().position(|warm| warm.duration.to_seconds() < 0.0) {
        Some(stretch) => Err(MaturityError::NegativeTime { stretch }),
        None => Ok(()),
    }
}

fn kelvin(value: f64) -> Result<f64, MaturityError> {
    if value > 0.0 { Ok(value) } else { Err(MaturityError::NotPositive) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(celsius: f64, hours: f64) -> WarmStretch {
        WarmStretch { duration: Span::hours(hours), mean: Temperature::celsius(celsius) }
    }

    /// 24 h at one temperature: factor over 0 and −10 °C; equivalent ages for (Q, Ts) of (5000, 20),
    /// (4000, 20) and (5000, 23), all worked from the formulas with a desk calculator.
    #[track_caller]
    fn check(celsius: f64, factors: [f64; 2], ages: [&str; 3]) {
        let day = [at(celsius, 24.0)];
        for (datum, expected) in [0.0, -10.0].into_iter().zip(factors) {
            let (factor, issues) = nurse_saul(&day, Temperature::celsius(datum)).unwrap();
            assert!((factor.0 - expected).abs() < 1e-9, "{} beside {expected}", factor.0);
            assert_eq!(issues, []);
        }
        for ((q_kelvin, reference), expected) in
            [(5000.0, 20.0), (4000.0, 20.0), (5000.0, 23.0)].into_iter().zip(ages)
        {
            let activation = Activation { q_kelvin, reference: Temperature::celsius(reference) };
            let age = equivalent_age(&day, activation).unwrap();
            assert_eq!(format!("{:.3}", age.to_hours()), expected);
        }
    }

    #[test]
    fn a_day_at_one_temperature() {
        check(5.0, [120.0, 360.0], ["9.566", "11.498", "8.048"]);
        check(10.0, [240.0, 480.0], ["13.140", "14.823", "11.055"]);
        check(20.0, [480.0, 720.0], ["24.000", "24.000", "20.192"]);
        check(30.0, [720.0, 960.0], ["42.127", "37.643", "35.442"]);
        check(35.0, [840.0, 1080.0], ["55.053", "46.630", "46.318"]);
        check(50.0, [1200.0, 1440.0], ["116.919", "85.182", "98.366"]);
    }

    /// Hours gained in one hour at Ts 20 °C and Q 5000, from the formula with a desk calculator.
    #[test]
    fn what_one_hour_is_worth() {
        let activation = Activation { q_kelvin: 5000.0, reference: Temperature::celsius(20.0) };
        let worth = |celsius| equivalent_age(&[at(celsius, 1.0)], activation).unwrap().to_hours();
        for (celsius, expected, half_digit) in [
            (0.0, 0.287, 0.0005),
            (10.0, 0.5475, 0.000_05),
            (15.0, 0.7438, 0.000_05),
            (25.0, 1.331, 0.0005),
            (30.0, 1.755, 0.0005),
            (40.0, 2.972, 0.0005),
            (50.0, 4.872, 0.0005),
            (60.0, 7.751, 0.0005),
        ] {
            assert!((worth(celsius) - expected).abs() <= half_digit, "{celsius} °C: {}", worth(celsius));
        }
    }

    #[test]
    fn frost_gains_nothing_and_is_named() {
        let history = [at(20.0, 10.0), at(-5.0, 10.0)];
        let (factor, issues) = nurse_saul(&history, Temperature::celsius(0.0)).unwrap();
        assert!((factor.0 - 200.0).abs() < 1e-9);
        assert_eq!(issues, [MaturityIssue::BelowDatum { stretch: 1 }]);
    }

    #[test]
    fn no_answer_for_negative_time_or_no_activation() {
        let zero = Temperature::celsius(0.0);
        assert_eq!(nurse_saul(&[at(20.0, -1.0)], zero), Err(MaturityError::NegativeTime { stretch: 0 }));
        let activation = Activation { q_kelvin: 0.0, reference: Temperature::celsius(20.0) };
        assert_eq!(equivalent_age(&[at(20.0, 1.0)], activation), Err(MaturityError::NotPositive));
    }
}
