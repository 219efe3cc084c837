//! Density of a fluid against the sand and the fines it carries.
//!
//! Density and sand content of one sample are two readings of one thing: if the fresh fluid is known, the
//! sand calls for a density. A pair that does not fit is a bad test or a load of fines that the sand screen
//! lets through, and fines do not settle out before the pour.
//!
//! Words: *clean* = the fluid without sand; *grains* = the solid mineral of sand and fines;
//! *implied* = what the other reading calls for.
//! Units: sand and fines as parts of the volume; SI inside.
//! Never: decide whether a fluid is fit for use.

use crate::estimate::Estimate;
use quantity::{Density, Fraction};

/// Density of quartz grains over that of water. [COMMON-PRACTICE].
const QUARTZ_RELATIVE_DENSITY: f64 = 2.65;

/// The densities of what a sample is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// The fluid without sand.
    pub clean: Density,
    /// The grains.
    pub grains: Density,
}

/// The two readings of one sample.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// From the mud balance.
    pub density: Density,
    /// From the sand tube, part of the volume.
    pub sand: Fraction,
}

/// Standard errors of the two readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairErrors {
    /// Of the balance.
    pub density: Density,
    /// Of the sand tube.
    pub sand: Fraction,
}

/// How well two readings of one sample fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairFit {
    /// The density the sand reading calls for.
    pub expected: Density,
    /// Measured minus expected; positive when the fluid is heavier than its sand explains.
    pub difference: Estimate<Density>,
    /// The sand the density calls for; negative when the fluid is lighter than the clean one.
    pub sand_implied: Fraction,
    /// The volume of fines beside the measured sand that would explain the density; negative when too light.
    pub fines: Fraction,
}

impl PairFit {
    /// How many standard errors lie between the readings, without sign; `None` when no error was given.
    ///
    /// **Source**: ratio.
    pub fn errors_apart(&self) -> Option<f64> {
        let error = self.difference.standard_error.to_kilograms_per_cubic_meter();
        (error > 0.0).then(|| self.difference.value.to_kilograms_per_cubic_meter().abs() / error)
    }
}

/// Why a density cannot be reckoned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DensityError {
    /// A share outside zero to one.
    Share {
        /// As given.
        given: Fraction,
    },
    /// A density that is not greater than zero.
    Density {
        /// As given.
        given: Density,
    },
    /// Grains no heavier than the fluid: sand would not change the density.
    Grains {
        /// As given.
        given: Parts,
    },
}

impl std::fmt::Display for DensityError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            DensityError::Share { given } => {
                write!(f, "a share of {} % does not lie between 0 and 100 %", given.to_percent())
            }
            DensityError::Density { .. } => write!(f, "the density is not greater than zero"),
            DensityError::Grains { .. } => write!(f, "the grains are not heavier than the clean fluid"),
        }
    }
}

impl std::error::Error for DensityError {}

/// Density of quartz grains for a given water.
///
/// `ρg = 2.65 ρw`
///
/// **Source**: [COMMON-PRACTICE]: relative density of quartz sand 2.65.
pub fn quartz(water: Density) -> Density {
    Density::kilograms_per_cubic_meter(QUARTZ_RELATIVE_DENSITY * water.to_kilograms_per_cubic_meter())
}

/// Density of a fluid that carries sand.
///
/// `ρ = ρ0 (1 − s) + ρg s`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `ρ0`, `ρg` | `parts` | clean fluid and grains |
/// | `s` | `sand` | part of the volume that is grains |
///
/// **Valid for** sand by volume of the whole sample, as the sand tube reads it.
///
/// **Errors** when `sand` lies outside 0 to 1 or the densities are out of order.
///
/// **Source**: [MIXTURES]; worked by hand for 64.3 pcf and 2.65 × 62.4 pcf: 4 % gives 68.34 pcf.
///
/// ```
/// use calc::fluid_density::{Parts, density_with_sand, quartz};
/// use quantity::{Density, Fraction};
/// let grains = quartz(Density::pounds_per_cubic_foot(62.4));
/// let parts = Parts { clean: Density::pounds_per_cubic_foot(64.3), grains };
/// let heavy = density_with_sand(parts, Fraction::percent(4.0)).unwrap();
/// assert_eq!(format!("{:.2} pcf", heavy.to_pounds_per_cubic_foot()), "68.34 pcf");
/// ```
pub fn density_with_sand(parts: Parts, sand: Fraction) -> Result<Density, DensityError> {
    let (clean, grains) = parts.checked()?;
    let share = checked_share(sand)?;
    Ok(Density::kilograms_per_cubic_meter(clean * (1.0 - share) + grains * share))
}

/// The sand that a density calls for: [`density_with_sand`] turned round.
///
/// `s = (ρ − ρ0) / (ρg − ρ0)`
///
/// **Valid for** a fluid whose clean density is known. A fluid lighter than that gives a negative share,
/// which says that one of the densities is wrong.
///
/// **Errors** when the densities are out of order.
///
/// **Source**: as [`density_with_sand`].
///
/// ```
/// # use calc::fluid_density::{Parts, quartz, sand_implied};
/// # use quantity::Density;
/// let pcf = Density::pounds_per_cubic_foot;
/// let parts = Parts { clean: pcf(64.3), grains: quartz(pcf(62.4)) };
/// assert_eq!(format!("{:.1} %", sand_implied(parts, pcf(74.0))?.to_percent()), "9.6 %");
/// # Ok::<(), calc::fluid_density::DensityError>(())
/// ```
pub fn sand_implied(parts: Parts, measured: Density) -> Result<Fraction, DensityError> {
    let (clean, grains) = parts.checked()?;
    let measured = positive(measured)?;
    Ok(Fraction::part((measured - clean) / (grains - clean)))
}

/// Compares the density of a sample with what its sand calls for.
///
/// `Δ = ρ − ρ(s)`, `σΔ² = σρ² + (ρg − ρ0)² σs²`, `fines = Δ / (ρg − ρ0)`
///
/// **Valid for** both readings from one sample and fines of the same mineral as the sand. The clean density
/// is taken as given: state it from the fresh fluid of the day.
///
/// **Errors** as [`density_with_sand`].
///
/// **Source**: [GUM], 5.1.2; 74 pcf with 1 % sand worked by hand.
///
/// ```
/// # use calc::fluid_density::{Pair, PairErrors, Parts, compare, quartz};
/// # use quantity::{Density, Fraction};
/// let pcf = Density::pounds_per_cubic_foot;
/// let parts = Parts { clean: pcf(64.3), grains: quartz(pcf(62.4)) };
/// let pair = Pair { density: pcf(74.0), sand: Fraction::percent(1.0) };
/// let errors = PairErrors { density: pcf(0.62), sand: Fraction::percent(0.5) };
/// let fit = compare(parts, pair, errors)?;
/// assert_eq!(format!("{:.2} pcf", fit.difference.value.to_pounds_per_cubic_foot()), "8.69 pcf");
/// assert!(fit.errors_apart().is_some_and(|errors| errors > 10.0), "both cannot be true");
/// # Ok::<(), calc::fluid_density::DensityError>(())
/// ```
pub fn compare(parts: Parts, pair: Pair, errors: PairErrors) -> Result<PairFit, DensityError> {
    let expected = density_with_sand(parts, pair.sand)?;
    let (clean, grains) = parts.checked()?;
    let difference = positive(pair.density)? - expected.to_kilograms_per_cubic_meter();
    let from_sand = (grains - clean) * errors.sand.to_part();
    let error = libm::hypot(errors.density.to_kilograms_per_cubic_meter(), from_sand);
    Ok(PairFit {
        expected,
        difference: Estimate::new(
            Density::kilograms_per_cubic_meter(difference),
            Density::kilograms_per_cubic_meter(error),
        ),
        sand_implied: sand_implied(parts, pair.density)?,
        fines: Fraction::part(difference / (grains - clean)),
    })
}

/// Density of water with bentonite stirred in.
///
/// `ρ = 1 / (m / ρg + (1 − m) / ρw)`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `m` | `bentonite` | mass of dry bentonite over mass of the whole |
/// | `ρw`, `ρg` | `parts` | `clean` is the water, `grains` the dry bentonite |
///
/// **Valid for** a hydrated mix without air.
///
/// **Errors** as [`density_with_sand`].
///
/// **Source**: [MIXTURES]; worked by hand for 4, 5 and 6 % in 62.4 pcf water.
///
/// ```
/// # use calc::fluid_density::{Parts, density_with_bentonite, quartz};
/// # use quantity::{Density, Fraction};
/// let water = Density::pounds_per_cubic_foot(62.4);
/// let parts = Parts { clean: water, grains: quartz(water) };
/// let mixed = density_with_bentonite(parts, Fraction::percent(5.0))?;
/// assert_eq!(format!("{:.2} pcf", mixed.to_pounds_per_cubic_foot()), "64.41 pcf");
/// # Ok::<(), calc::fluid_density::DensityError>(())
/// ```
pub fn density_with_bentonite(parts: Parts, bentonite: Fraction) -> Result<Density, DensityError> {
    let (water, grains) = parts.checked()?;
    let share = checked_share(bentonite)?;
    Ok(Density::kilograms_per_cubic_meter(1.0 / (share / grains + (1.0 - share) / water)))
}

impl Parts {
    /// Clean fluid and grains in kg/m³, once they are in order.
    fn checked(self) -> Result<(f64, f64), DensityError> {
        let (clean, grains) = (positive(self.clean)?, positive(self.grains)?);
        if grains <= clean {
            return Err(DensityError::Grains { given: self });
        }
        Ok((clean, grains))
    }
}

fn positive(given: Density) -> Result<f64, DensityError> {
    let value = given.to_kilograms_per_cubic_meter();
    if value > 0.0 { Ok(value) } else { Err(DensityError::Density { given }) }
}

fn checked_share(given: Fraction) -> Result<f64, DensityError> {
    let share = given.to_part();
    if (0.0..=1.0).contains(&share) { Ok(share) } else { Err(DensityError::Share { given }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pcf(value: f64) -> Density {
        Density::pounds_per_cubic_foot(value)
    }

    fn over(clean_pcf: f64) -> Parts {
        Parts { clean: pcf(clean_pcf), grains: quartz(pcf(62.4)) }
    }

    /// Expected pcf worked by hand as ρ0 (1 − s) + 165.36 s.
    #[track_caller]
    fn check_sand(clean_pcf: f64, sand_percent: f64, expected: &str) {
        let got = match density_with_sand(over(clean_pcf), Fraction::percent(sand_percent)) {
            Ok(density) => format!("{:.2}", density.to_pounds_per_cubic_foot()),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    #[test]
    fn sand_makes_a_fluid_heavier() {
        check_sand(64.3, 0.0, "64.30");
        check_sand(64.3, 1.0, "65.31");
        check_sand(64.3, 2.0, "66.32");
        check_sand(64.3, 4.0, "68.34");
        check_sand(64.3, 6.0, "70.36");
        check_sand(62.4, 0.5, "62.91");
        check_sand(62.4, 1.0, "63.43");
        check_sand(62.4, 2.0, "64.46");
    }

    #[test]
    fn a_share_beyond_the_whole_has_no_density() {
        check_sand(64.3, 101.0, "a share of 101 % does not lie between 0 and 100 %");
        check_sand(200.0, 1.0, "the grains are not heavier than the clean fluid");
        check_sand(0.0, 1.0, "the density is not greater than zero");
    }

    #[test]
    fn bentonite_by_mass() {
        let mixed = |percent| {
            let density = density_with_bentonite(over(62.4), Fraction::percent(percent)).unwrap();
            format!("{:.2}", density.to_pounds_per_cubic_foot())
        };
        // By hand: 62.4 / (0.04 / 2.65 + 0.96) and so on.
        assert_eq!([mixed(4.0), mixed(5.0), mixed(6.0)], ["63.99", "64.41", "64.82"]);
    }

    /// 74 pcf over 64.3 pcf calls for 9.7 / 101.06 = 9.60 % sand; 1 % explains 65.31 pcf, so 8.69 pcf or
    /// 8.60 % by volume are fines or a bad test. σ: 0.62 pcf and 101.06 × 0.5 % = 0.505 pcf give 0.80 pcf.
    #[test]
    fn a_heavy_fluid_with_little_sand_cannot_be_both() {
        let pair = Pair { density: pcf(74.0), sand: Fraction::percent(1.0) };
        let errors = PairErrors { density: pcf(0.62), sand: Fraction::percent(0.5) };
        let fit = compare(over(64.3), pair, errors).unwrap();
        assert_eq!(format!("{:.2}", fit.sand_implied.to_percent()), "9.60");
        assert_eq!(format!("{:.2}", fit.difference.value.to_pounds_per_cubic_foot()), "8.69");
        assert_eq!(format!("{:.2}", fit.fines.to_percent()), "8.60");
        assert_eq!(format!("{:.2}", fit.difference.standard_error.to_pounds_per_cubic_foot()), "0.80");
        assert_eq!(format!("{:.1}", fit.errors_apart().unwrap()), "10.9");
    }

    #[test]
    fn a_fluid_lighter_than_clean_calls_for_negative_sand() {
        let implied = sand_implied(over(64.3), pcf(63.0)).unwrap();
        // (63.0 − 64.3) / 101.06 = −1.286 %.
        assert_eq!(format!("{:.3}", implied.to_percent()), "-1.286");
    }

    #[test]
    fn without_errors_nothing_is_said_about_how_far_apart() {
        let pair = Pair { density: pcf(74.0), sand: Fraction::percent(1.0) };
        let errors = PairErrors { density: pcf(0.0), sand: Fraction::percent(0.0) };
        assert_eq!(compare(over(64.3), pair, errors).unwrap().errors_apart(), None);
    }
}
