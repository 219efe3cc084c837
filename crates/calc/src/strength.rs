//! Cylinder breaks, and what may be done once they are strong enough.
//!
//! Breaks decide; maturity and gain curves only say what to expect. A form may come off at an age, or
//! earlier at a strength, and the record has to show which of the two it was.
//!
//! Words: *break* = the strength of one cylinder; *test* = the mean of the breaks of one sample at one age.
//! Units: SI inside.
//! Never: take an estimate for a break; know the strength a contract asks for.

use quantity::{Force, Fraction, Length, Pressure, Span};

/// The breaks of one sample at one age.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrengthTest {
    /// Mean of the breaks: what counts as the test.
    pub mean: Pressure,
    /// The weakest.
    pub lowest: Pressure,
    /// The strongest.
    pub highest: Pressure,
    /// Strongest minus weakest, over the mean; zero for a single cylinder.
    pub range: Fraction,
    /// How many cylinders.
    pub cylinders: usize,
}

/// When a form may come off: at an age, or earlier at a strength. At least one has to be set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RemovalRule {
    /// By breaks.
    pub strength: Option<Pressure>,
    /// By age.
    pub age: Option<Span>,
}

/// What is known when somebody wants to take the form off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RemovalState {
    /// Age of the concrete.
    pub age: Span,
    /// The best test so far.
    pub tested: Option<Pressure>,
}

/// What the rule says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Removal {
    /// Strong enough by breaks; `None` without a test or without a strength in the rule.
    pub by_strength: Option<bool>,
    /// Old enough; `None` without an age in the rule.
    pub by_age: Option<bool>,
    /// Strength still missing; `None` without a test or a strength, negative when there is more.
    pub strength_missing: Option<Pressure>,
    /// Time still to wait; `None` without an age in the rule, negative when it is over.
    pub wait: Option<Span>,
}

/// Why a strength has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StrengthError {
    /// No cylinder was broken.
    NoBreak,
    /// A strength that is not greater than zero.
    NotPositive,
    /// A diameter that is not greater than zero.
    Diameter {
        /// As given.
        given: Length,
    },
    /// A rule without an age and without a strength.
    EmptyRule,
}

impl std::fmt::Display for StrengthError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            StrengthError::NoBreak => write!(f, "no cylinder was broken"),
            StrengthError::NotPositive => write!(f, "a strength is not greater than zero"),
            StrengthError::Diameter { .. } => write!(f, "the diameter is not greater than zero"),
            StrengthError::EmptyRule => write!(f, "the rule sets neither an age nor a strength"),
        }
    }
}

impl std::error::Error for StrengthError {}

impl Removal {
    /// Whether the form may come off by one or the other.
    ///
    /// **Source**: either condition is enough.
    pub fn allowed(&self) -> bool {
        self.by_strength == Some(true) || self.by_age == Some(true)
    }
}

/// Strength of one cylinder from the load that broke it.
///
/// `f = F / (π d² / 4)`
///
/// **Valid for** a cylinder twice as long as wide; a shorter one needs the factor of the test method.
///
/// **Errors** when the diameter is not greater than zero.
///
/// **Source**: definition. 113 097 lbf on 6 in are 4 000 psi.
///
/// ```
/// # use calc::strength::break_strength;
/// # use quantity::{Force, Length};
/// let strength = break_strength(Force::pounds_force(113_097.0), Length::inches(6.0))?;
/// assert_eq!(format!("{:.0} psi", strength.to_psi()), "4000 psi");
/// # Ok::<(), calc::strength::StrengthError>(())
/// ```
pub fn break_strength(load: Force, diameter: Length) -> Result<Pressure, StrengthError> {
    if diameter <= Length::ZERO {
        return Err(StrengthError::Diameter { given: diameter });
    }
    let d = diameter.to_meters();
    Ok(Pressure::kilopascals(load.to_kilonewtons() / (std::f64::consts::PI * d * d / 4.0)))
}

/// Mean, least and range of the breaks of one sample at one age.
///
/// **Valid for** cylinders of one size, one sample and one age.
///
/// **Errors** without a break or with one that is not greater than zero.
///
/// **Source**: definitions.
///
/// ```
/// use quantity::Pressure;
/// let breaks = [2480.0, 2560.0].map(Pressure::psi);
/// let test = calc::strength::strength_test(&breaks).unwrap();
/// assert_eq!(format!("{:.0} psi", test.mean.to_psi()), "2520 psi");
/// ```
pub fn strength_test(breaks: &[Pressure]) -> Result<StrengthTest, StrengthError> {
    let pascals: Vec<f64> = breaks.iter().map(|one| one.to_pascals()).collect();
    if pascals.is_empty() {
        return Err(StrengthError::NoBreak);
    }
    if pascals.iter().any(|one| *one <= 0.0) {
        return Err(StrengthError::NotPositive);
    }
    let mean = pascals.iter().sum::<f64>() / pascals.len() as f64;
    let lowest = pascals.iter().copied().fold(f64::INFINITY, f64::min);
    let highest = pascals.iter().copied().fold(0.0, f64::max);
    Ok(StrengthTest {
        mean: Pressure::pascals(mean),
        lowest: Pressure::pascals(lowest),
        highest: Pressure::pascals(highest),
        range: Fraction::part((highest - lowest) / mean),
        cylinders: pascals.len(),
    })
}

/// What a removal rule says about a form.
///
/// **Valid for** tests of the concrete in question.
///
/// **Errors** when the rule sets neither age nor strength.
///
/// **Source**: the rule comes in as an argument.
///
/// ```
/// # use calc::strength::{RemovalRule, RemovalState, removal};
/// # use quantity::{Pressure, Span};
/// let rule = RemovalRule { strength: Some(Pressure::psi(2500.0)), age: Some(Span::days(7.0)) };
/// let state = RemovalState { age: Span::days(3.0), tested: Some(Pressure::psi(2520.0)) };
/// let removal = removal(rule, state)?;
/// assert_eq!((removal.allowed(), removal.by_age), (true, Some(false)));
/// # Ok::<(), calc::strength::StrengthError>(())
/// ```
pub fn removal(rule: RemovalRule, state: RemovalState) -> Result<Removal, StrengthError> {
    if rule.strength.is_none() && rule.age.is_none() {
        return Err(StrengthError::EmptyRule);
    }
    let both = rule.strength.zip(state.tested);
    Ok(Removal {
        by_strength: both.map(|(needed, tested)| needed.to_pascals() <= tested.to_pascals()),
        by_age: rule.age.map(|needed| needed.to_seconds() <= state.age.to_seconds()),
        strength_missing: both
            .map(|(needed, tested)| Pressure::pascals(needed.to_pascals() - tested.to_pascals())),
        wait: rule.age.map(|needed| Span::seconds(needed.to_seconds() - state.age.to_seconds())),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_test(breaks_psi: &[f64], expected: &str) {
        let breaks: Vec<_> = breaks_psi.iter().copied().map(Pressure::psi).collect();
        let got = match strength_test(&breaks) {
            Ok(test) => format!(
                "mean {:.0}, {:.0} to {:.0}, range {:.2} %",
                test.mean.to_psi(),
                test.lowest.to_psi(),
                test.highest.to_psi(),
                test.range.to_percent()
            ),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    /// (2480 + 2560) / 2 and 80 / 2520 = 3.17 %.
    #[test]
    fn two_cylinders() {
        check_test(&[2560.0, 2480.0], "mean 2520, 2480 to 2560, range 3.17 %");
        check_test(&[2480.0], "mean 2480, 2480 to 2480, range 0.00 %");
        check_test(&[], "no cylinder was broken");
        check_test(&[2480.0, 0.0], "a strength is not greater than zero");
    }

    /// π/4 · 6² = 28.2743 in²; 113 097 / 28.2743 = 4000.0 psi.
    #[test]
    fn strength_from_the_load() {
        let strength = break_strength(Force::pounds_force(113_097.0), Length::inches(6.0)).unwrap();
        assert_eq!(format!("{:.1}", strength.to_psi()), "4000.0");
        assert!(break_strength(Force::pounds_force(1.0), Length::ZERO).is_err());
    }

    /// The rule of small roadside shafts: 7 days, or earlier at 2 500 psi.
    #[track_caller]
    fn check_removal(age_days: f64, tested_psi: Option<f64>, allowed: bool, why: [Option<bool>; 2]) {
        let rule = RemovalRule { strength: Some(Pressure::psi(2500.0)), age: Some(Span::days(7.0)) };
        let state = RemovalState { age: Span::days(age_days), tested: tested_psi.map(Pressure::psi) };
        let removal = removal(rule, state).unwrap();
        assert_eq!((removal.allowed(), [removal.by_strength, removal.by_age]), (allowed, why));
    }

    #[test]
    fn a_form_comes_off_by_strength_or_by_age() {
        check_removal(3.0, Some(2520.0), true, [Some(true), Some(false)]);
        check_removal(3.0, Some(2500.0), true, [Some(true), Some(false)]);
        check_removal(3.0, Some(2490.0), false, [Some(false), Some(false)]);
        check_removal(3.0, None, false, [None, Some(false)]);
        check_removal(7.0, None, true, [None, Some(true)]);
    }

    #[test]
    fn what_is_still_missing() {
        let rule = RemovalRule { strength: Some(Pressure::psi(2500.0)), age: Some(Span::days(7.0)) };
        let state = RemovalState { age: Span::days(3.0), tested: Some(Pressure::psi(2200.0)) };
        let removal = super::removal(rule, state).unwrap();
        assert_eq!(format!("{:.0}", removal.strength_missing.unwrap().to_psi()), "300");
        assert_eq!(removal.wait.unwrap().to_days(), 4.0);
        let empty = RemovalRule { strength: None, age: None };
        assert_eq!(super::removal(empty, state), Err(StrengthError::EmptyRule));
    }
}
