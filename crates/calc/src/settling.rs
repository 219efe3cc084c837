//! Sand that still floats in the column, as sediment on the base.
//!
//! A cleaned base is clean until the sand above it has come down. A few percent over a deep column make
//! feet of loose sediment, and every hour of waiting brings more of it: this is the most it can be.
//!
//! Words: *column* = the fluid from its surface to the base; *porosity* = voids over the whole volume of
//! settled sediment.
//! Never: say how fast it settles.

use crate::estimate::Estimate;
use quantity::{Depth, Fraction, Length};

/// A sand test at a depth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SandSample {
    /// Where it was taken.
    pub depth: Depth,
    /// Part of the volume that is sand.
    pub sand: Fraction,
}

/// The stretch of fluid the samples stand for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FluidStretch {
    /// Its surface.
    pub top: Depth,
    /// The base.
    pub bottom: Depth,
}

/// What settled sediment is like, and how well the sand was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settled {
    /// Voids over the whole volume of the sediment; 0.4 is usual for loose sand [COMMON-PRACTICE].
    pub porosity: Fraction,
    /// Standard error of one sand test, part of the volume.
    pub sand_error: Fraction,
}

/// Why no settled thickness can be reckoned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SettlingError {
    /// No sample at all.
    NoSample,
    /// A sample outside the stretch of fluid.
    Outside {
        /// Its depth.
        depth: Depth,
    },
    /// A sand content outside 0 to 1.
    Sand {
        /// As given.
        given: Fraction,
    },
    /// A porosity outside 0 to below 1.
    Porosity {
        /// As given.
        given: Fraction,
    },
    /// The base lies above the surface.
    Stretch {
        /// As given.
        given: FluidStretch,
    },
}

impl std::fmt::Display for SettlingError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            SettlingError::NoSample => write!(f, "there is no sand test"),
            SettlingError::Outside { .. } => write!(f, "a sample lies outside the column of fluid"),
            SettlingError::Sand { .. } => write!(f, "a sand content does not lie between 0 and 100 %"),
            SettlingError::Porosity { .. } => {
                write!(f, "the porosity does not lie between 0 and below 100 %")
            }
            SettlingError::Stretch { .. } => write!(f, "the base lies above the surface of the fluid"),
        }
    }
}

impl std::error::Error for SettlingError {}

/// Thickness of sediment if all the sand in the column came down.
///
/// `t = ∫ s dz / (1 − n) = Σ wi si / (1 − n)`; `σt = σs √(Σ wi²) / (1 − n)`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `s` | `samples` | sand content: straight between samples by depth, level beyond the outer ones |
/// | `z` | `stretch` | from the surface of the fluid to the base |
/// | `n`, `σs` | `settled` | voids of the sediment, standard error of one sand test |
/// | `w` | | length of column that a sample stands for |
///
/// **Valid for** a hole of one diameter; what falls onto ledges of a telescoped hole is counted at the base.
/// Samples at one depth share what that depth stands for. The porosity is taken as given.
///
/// **Errors** without samples, with one outside the stretch, or with shares out of range.
///
/// **Source**: [MIXTURES], [GUM] 5.1.2; 4 % over 80 ft worked by hand, others against `scipy.integrate`.
///
/// ```
/// use calc::settling::{FluidStretch, SandSample, Settled, settled_thickness};
/// use quantity::{Depth, Fraction, Length};
/// let feet = |value| Depth(Length::feet(value));
/// let stretch = FluidStretch { top: feet(0.0), bottom: feet(80.0) };
/// let sample = SandSample { depth: feet(78.0), sand: Fraction::percent(4.0) };
/// let settled = Settled { porosity: Fraction::part(0.4), sand_error: Fraction::percent(0.5) };
/// let thickness = settled_thickness(&[sample], stretch, settled)?;
/// assert_eq!(format!("{:.2} ft", thickness.value.to_feet()), "5.33 ft");
/// assert_eq!(format!("{:.2} ft", thickness.standard_error.to_feet()), "0.67 ft");
/// # Ok::<(), calc::settling::SettlingError>(())
/// ```
pub fn settled_thickness(
    samples: &[SandSample],
    stretch: FluidStretch,
    settled: Settled,
) -> Result<Estimate<Length>, SettlingError> {
    let solid = solid_share(settled.porosity)?;
    let depths = by_depth(samples, stretch)?;
    let stand_for = stand_for(&depths, stretch)?;
    let (mut solids, mut squares) = (0.0, 0.0);
    for ((_, contents), length) in depths.iter().zip(stand_for) {
        let each = length / contents.len() as f64;
        solids += contents.iter().sum::<f64>() * each;
        squares += each * each * contents.len() as f64;
    }
    let error = settled.sand_error.to_part() * squares.sqrt() / solid;
    Ok(Estimate::new(Length::meters(solids / solid), Length::meters(error)))
}

/// The even sand content that would lay a given sediment: [`settled_thickness`] turned round.
///
/// `s = t (1 − n) / H`
///
/// **Valid for** an even content over a column of height `H` greater than zero.
///
/// **Errors** when the stretch has no height or the porosity is out of range.
///
/// **Source**: as [`settled_thickness`].
///
/// ```
/// # use calc::settling::{FluidStretch, sand_for_thickness};
/// # use quantity::{Depth, Fraction, Length};
/// let stretch = FluidStretch { top: Depth(Length::ZERO), bottom: Depth(Length::feet(80.0)) };
/// let sand = sand_for_thickness(Length::inches(0.5), stretch, Fraction::part(0.4))?;
/// assert_eq!(format!("{:.3} %", sand.to_percent()), "0.031 %");
/// # Ok::<(), calc::settling::SettlingError>(())
/// ```
pub fn sand_for_thickness(
    thickness: Length,
    stretch: FluidStretch,
    porosity: Fraction,
) -> Result<Fraction, SettlingError> {
    let height = stretch.bottom.below(stretch.top);
    if height <= Length::ZERO {
        return Err(SettlingError::Stretch { given: stretch });
    }
    Ok(Fraction::part(thickness.to_meters() * solid_share(porosity)? / height.to_meters()))
}

fn solid_share(porosity: Fraction) -> Result<f64, SettlingError> {
    let voids = porosity.to_part();
    if (0.0..1.0).contains(&voids) {
        Ok(1.0 - voids)
    } else {
        Err(SettlingError::Porosity { given: porosity })
    }
}

/// The length of column in metres that each depth stands for.
fn stand_for(depths: &[(f64, Vec<f64>)], stretch: FluidStretch) -> Result<Vec<f64>, SettlingError> {
    let last = depths.len().checked_sub(1).ok_or(SettlingError::NoSample)?;
    let upper = |at: usize| match at {
        0 => stretch.top.to_meters(),
        at => (depths[at - 1].0 + depths[at].0) / 2.0,
    };
    let lower = |at: usize| if at == last { stretch.bottom.to_meters() } else { upper(at + 1) };
    Ok((0..=last).map(|at| lower(at) - upper(at)).collect())
}

/// The sand contents by depth in metres, from the top down.
fn by_depth(samples: &[SandSample], stretch: FluidStretch) -> Result<Vec<(f64, Vec<f64>)>, SettlingError> {
    if stretch.bottom < stretch.top {
        return Err(SettlingError::Stretch { given: stretch });
    }
    let mut depths: std::collections::BTreeMap<Depth, Vec<f64>> = std::collections::BTreeMap::new();
    for sample in samples {
        if sample.depth < stretch.top || stretch.bottom < sample.depth {
            return Err(SettlingError::Outside { depth: sample.depth });
        }
        if !(0.0..=1.0).contains(&sample.sand.to_part()) {
            return Err(SettlingError::Sand { given: sample.sand });
        }
        depths.entry(sample.depth).or_default().push(sample.sand.to_part());
    }
    Ok(depths.into_iter().map(|(depth, contents)| (depth.to_meters(), contents)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn feet(value: f64) -> Depth {
        Depth(Length::feet(value))
    }

    /// Samples as (depth ft, sand %), a column from 0 to 80 ft, porosity 0.4.
    #[track_caller]
    fn check(samples: &[(f64, f64)], expected: &str) {
        let samples: Vec<_> = samples
            .iter()
            .map(|&(depth, sand)| SandSample { depth: feet(depth), sand: Fraction::percent(sand) })
            .collect();
        let stretch = FluidStretch { top: feet(0.0), bottom: feet(80.0) };
        let settled = Settled { porosity: Fraction::part(0.4), sand_error: Fraction::percent(0.5) };
        let got = match settled_thickness(&samples, stretch, settled) {
            Ok(thickness) => {
                format!("{:.2} ± {:.2} ft", thickness.value.to_feet(), thickness.standard_error.to_feet())
            }
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    /// By hand: s × 80 / 0.6, error 0.5 % × 80 / 0.6. Two samples at 10 and 78 ft stand for 44 and 36 ft:
    /// 0.5 % × √(44² + 36²) / 0.6 = 0.47 ft.
    #[test]
    fn an_even_column() {
        check(&[(40.0, 4.0)], "5.33 ± 0.67 ft");
        check(&[(40.0, 1.0)], "1.33 ± 0.67 ft");
        check(&[(10.0, 0.5), (78.0, 0.5)], "0.67 ± 0.47 ft");
    }

    /// 0 % down to 40 ft, then rising to 4 % at 80 ft: 80 %·ft. Two tests at 40 ft with 0 and 1 % count as
    /// 0.5 % there: 0.5 × 40 + 2.25 × 40 = 110 %·ft. Each over 0.6. The sample at 40 ft stands for 60 ft, the one at
    /// 80 ft for 20 ft: 0.5 % × √(60² + 20²) / 0.6 = 0.53 ft; two at 40 ft stand for 30 ft each: 0.39 ft.
    #[test]
    fn sand_low_in_the_column_counts_where_it_is() {
        check(&[(40.0, 0.0), (80.0, 4.0)], "1.33 ± 0.53 ft");
        check(&[(80.0, 4.0), (40.0, 1.0), (40.0, 0.0)], "1.83 ± 0.39 ft");
    }

    #[test]
    fn no_answer_without_good_samples() {
        check(&[], "there is no sand test");
        check(&[(90.0, 4.0)], "a sample lies outside the column of fluid");
        check(&[(40.0, -1.0)], "a sand content does not lie between 0 and 100 %");
    }

    /// Half an inch over 80 ft: (1/24) × 0.6 / 80 = 0.03125 %.
    #[test]
    fn half_an_inch_of_sediment_needs_hardly_any_sand() {
        let stretch = FluidStretch { top: feet(0.0), bottom: feet(80.0) };
        let sand = sand_for_thickness(Length::inches(0.5), stretch, Fraction::part(0.4)).unwrap();
        assert_eq!(format!("{:.5}", sand.to_percent()), "0.03125");
    }
}
