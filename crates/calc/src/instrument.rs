//! What a field instrument can tell, and whether it was right in water.
//!
//! A mud balance reads to a hundredth of a gram per cubic centimetre. A reading nearer to a limit than that
//! is neither inside nor outside, and the report has to say so. A funnel and a balance show in clean water
//! whether they can be believed at all.
//!
//! Words: *accuracy* = the half width the maker or the test method states; *basis* = the volume a funnel
//! time is measured for.
//! Never: turn a quart time into a litre time; hold a limit of a contract.

use quantity::{Density, Exact, FunnelTime, Quantity, Temperature};

/// Where a reading lies against a limit, seen with the accuracy of its instrument.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearness {
    /// Reading minus limit, in the SI unit of the kind.
    pub difference_si: f64,
    /// The limit lies within the accuracy of the reading.
    pub within_accuracy: bool,
}

/// What a funnel has to show in clean water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FunnelInWater {
    /// The time it has to show.
    pub expected: FunnelTime,
    /// How far it may be off, seconds.
    pub allowed_seconds: f64,
}

/// What a balance has to show in clean water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BalanceInWater {
    /// The density it has to show.
    pub expected: Density,
    /// How far it may be off.
    pub allowed: Density,
}

/// The outcome of a check in water, in the unit of the instrument.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterCheck {
    /// Shown minus expected: seconds for a funnel, kg/m³ for a balance.
    pub off_by: f64,
    /// The instrument is as right as it has to be.
    pub right: bool,
}

/// Why a check in water says nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InstrumentError {
    /// The time was taken for another volume than the expected one.
    Basis {
        /// Unit of the reading.
        read: &'static str,
        /// Unit of the expected time.
        expected: &'static str,
    },
}

impl std::fmt::Display for InstrumentError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let InstrumentError::Basis { read, expected } = self;
        write!(f, "a time in {read} cannot be held against one in {expected}")
    }
}

impl std::error::Error for InstrumentError {}

/// The accuracy of a field mud balance: 0.01 g/cm³ either way.
///
/// **Source**: [ASTM-D4380].
pub fn mud_balance_accuracy() -> Density {
    Density::grams_per_cubic_centimeter(0.01)
}

/// Holds a reading against a limit with the accuracy of the instrument beside it.
///
/// `|reading − limit| ≤ accuracy`
///
/// **Valid for** kinds whose zero is a true zero; give temperatures as differences elsewhere. Exact when all
/// three were typed.
///
/// **Source**: definition.
///
/// ```
/// # use calc::instrument::{beside_limit, mud_balance_accuracy};
/// # use quantity::Density;
/// let pcf = Density::pounds_per_cubic_foot;
/// assert!(beside_limit(pcf(74.4), pcf(75.0), mud_balance_accuracy()).within_accuracy);
/// assert!(!beside_limit(pcf(74.3), pcf(75.0), mud_balance_accuracy()).within_accuracy);
/// ```
pub fn beside_limit<Q: Quantity>(reading: Q, limit: Q, accuracy: Q) -> Nearness {
    let difference_si = reading.number().to_f64() - limit.number().to_f64();
    let exact = exact_difference(reading, limit).zip(accuracy.number().exact());
    let within_accuracy = match exact {
        Some((difference, accuracy)) => difference <= accuracy,
        None => difference_si.abs() <= accuracy.number().to_f64(),
    };
    Nearness { difference_si, within_accuracy }
}

/// Checks a Marsh funnel in clean water.
///
/// **Valid for** a time of the same volume as the expected one; water near 70 °F.
///
/// **Errors** when the volumes differ: the head falls while the funnel runs, so no factor joins the two.
///
/// **Source**: 26 ± 0.5 s for a quart, [ASTM-D6910].
///
/// ```
/// # use calc::instrument::{FunnelInWater, funnel_in_water};
/// # use quantity::{Exact, FunnelTime, Quantity, units};
/// let quart = |seconds| FunnelTime::from_unit(Exact::from_integer(seconds), &units::SECOND_PER_QUART);
/// let rule = FunnelInWater { expected: quart(26).expect("a funnel time"), allowed_seconds: 0.5 };
/// let check = funnel_in_water(quart(28).expect("a funnel time"), rule)?;
/// assert_eq!((check.off_by, check.right), (2.0, false));
/// # Ok::<(), calc::instrument::InstrumentError>(())
/// ```
pub fn funnel_in_water(shown: FunnelTime, rule: FunnelInWater) -> Result<WaterCheck, InstrumentError> {
    if shown.basis() != rule.expected.basis() {
        let (read, expected) = (shown.basis().symbol, rule.expected.basis().symbol);
        return Err(InstrumentError::Basis { read, expected });
    }
    let off_by = shown.to_seconds() - rule.expected.to_seconds();
    Ok(WaterCheck { off_by, right: off_by.abs() <= rule.allowed_seconds })
}

/// Checks a mud balance in clean water.
///
/// **Valid for** water near 70 °F.
///
/// **Source**: 1.00 g/cm³ with an accuracy of 0.01 g/cm³, [ASTM-D4380].
///
/// ```
/// # use calc::instrument::{BalanceInWater, balance_in_water, mud_balance_accuracy};
/// # use quantity::Density;
/// let expected = Density::grams_per_cubic_centimeter(1.00);
/// let rule = BalanceInWater { expected, allowed: mud_balance_accuracy() };
/// assert!(!balance_in_water(Density::grams_per_cubic_centimeter(0.98), rule).right);
/// ```
pub fn balance_in_water(shown: Density, rule: BalanceInWater) -> WaterCheck {
    let near = beside_limit(shown, rule.expected, rule.allowed);
    WaterCheck { off_by: near.difference_si, right: near.within_accuracy }
}

/// Whether a fluid was colder at its test than a test needs, and by how many kelvin; `None` when warm enough.
///
/// **Valid for** any temperature; a fluid exactly at the limit is warm enough.
///
/// **Source**: definition; a limit of 40 °F stands in [IOWA-2433].
///
/// ```
/// # use calc::instrument::colder_by_kelvin;
/// # use quantity::Temperature;
/// let by = colder_by_kelvin(Temperature::celsius(3.0), Temperature::celsius(5.0));
/// assert!(by.is_some_and(|kelvin| (kelvin - 2.0).abs() < 1e-9));
/// assert_eq!(colder_by_kelvin(Temperature::celsius(8.0), Temperature::celsius(5.0)), None);
/// ```
pub fn colder_by_kelvin(measured: Temperature, least: Temperature) -> Option<f64> {
    let (number, limit) = (measured.number(), least.number());
    let colder = match number.exact().zip(limit.exact()) {
        Some((number, limit)) => number < limit,
        None => number.to_f64() < limit.to_f64(),
    };
    colder.then(|| limit.to_f64() - number.to_f64())
}

fn exact_difference<Q: Quantity>(reading: Q, limit: Q) -> Option<Exact> {
    let difference = reading.number().exact()? - limit.number().exact()?;
    Some(if difference < Exact::from_integer(0) { -difference } else { difference })
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Unit, units};

    fn typed<Q: Quantity>(hundredths: i128, unit: &'static Unit) -> Q {
        Q::from_unit(Exact::new(hundredths, 100), unit).expect("a unit of the kind")
    }

    #[track_caller]
    fn check_limit(reading: i128, limit: i128, accuracy: i128, expected: bool) {
        let density = |value| typed::<Density>(value, &units::GRAM_PER_CUBIC_CENTIMETER);
        let near = beside_limit(density(reading), density(limit), density(accuracy));
        assert_eq!(near.within_accuracy, expected);
    }

    #[test]
    fn a_reading_within_a_hundredth_of_the_limit_decides_nothing() {
        check_limit(120, 120, 1, true);
        check_limit(119, 120, 1, true);
        check_limit(121, 120, 1, true);
        check_limit(118, 120, 1, false);
        check_limit(122, 120, 1, false);
    }

    /// 0.01 g/cm³ is 0.624 pcf, so 74.4 pcf lies within the accuracy of 75.0 and 74.3 does not.
    #[test]
    fn the_same_in_pounds() {
        let pcf = Density::pounds_per_cubic_foot;
        assert!(beside_limit(pcf(74.4), pcf(75.0), mud_balance_accuracy()).within_accuracy);
        assert!(!beside_limit(pcf(74.3), pcf(75.0), mud_balance_accuracy()).within_accuracy);
    }

    fn funnel(seconds_hundredths: i128, unit: &'static Unit) -> String {
        let expected = typed(2600, &units::SECOND_PER_QUART);
        let rule = FunnelInWater { expected, allowed_seconds: 0.5 };
        match funnel_in_water(typed(seconds_hundredths, unit), rule) {
            Ok(check) => format!("{:+.2} s, right: {}", check.off_by, check.right),
            Err(error) => error.to_string(),
        }
    }

    #[test]
    fn a_funnel_in_water() {
        assert_eq!(funnel(2650, &units::SECOND_PER_QUART), "+0.50 s, right: true");
        assert_eq!(funnel(2545, &units::SECOND_PER_QUART), "-0.55 s, right: false");
        assert_eq!(
            funnel(2750, &units::SECOND_PER_LITER),
            "a time in s/L cannot be held against one in s/qt"
        );
    }

    #[test]
    fn a_balance_in_water() {
        let density = |value| typed::<Density>(value, &units::GRAM_PER_CUBIC_CENTIMETER);
        let rule = BalanceInWater { expected: density(100), allowed: density(1) };
        assert!(balance_in_water(density(101), rule).right);
        assert!(!balance_in_water(density(98), rule).right);
    }

    #[test]
    fn a_cold_fluid_is_named_and_one_on_the_limit_is_not() {
        let fahrenheit = |value| typed::<Temperature>(value, &units::FAHRENHEIT);
        assert_eq!(colder_by_kelvin(fahrenheit(4000), fahrenheit(4000)), None);
        let by = colder_by_kelvin(fahrenheit(3100), fahrenheit(4000)).unwrap();
        assert_eq!(format!("{by:.3}"), "5.000");
    }
}
