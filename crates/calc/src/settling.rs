//! Sand that still floats in the column, as sediment on the base.
//!
//! A cleaned base is clean until the sand above it has come down. A few percent over a deep column make
//! feet of loose sediment, and every hour of waiting brings more of it: this is the most it can be.
//!
//! Words: *column* = the fluid from its surface to the base; *porosity* = voids over the whole volume of
//! settled sediment.
//! Never: say how fast it settles.

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
/// `t = ∫ s dz / (1 − n)`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `s` | `samples` | sand content: straight between samples by depth, level beyond the outer ones |
/// | `z` | `stretch` | from the surface of the fluid to the base |
/// | `n` | `porosity` | voids of the settled sediment; 0.4 is usual for loose sand |
///
/// **Valid for** a hole of one diameter; what falls onto ledges of a telescoped hole is counted at the base.
/// Samples at one depth count with their mean there.
///
/// **Errors** without samples, with one outside the stretch, or with shares out of range.
///
/// **Source**: [MIXTURES]; 4 % over 80 ft worked by hand. Porosity 0.4: [COMMON-PRACTICE].
///
/// ```
/// use calc::settling::{FluidStretch, SandSample, settled_thickness};
/// use quantity::{Depth, Fraction, Length};
/// let feet = |value| Depth(Length::feet(value));
/// let stretch = FluidStretch { top: feet(0.0), bottom: feet(80.0) };
/// let sample = SandSample { depth: feet(78.0), sand: Fraction::percent(4.0) };
/// let thickness = settled_thickness(&[sample], stretch, Fraction::part(0.4)).unwrap();
/// assert_eq!(format!("{:.2} ft", thickness.to_feet()), "5.33 ft");
/// ```
pub fn settled_thickness(
    samples: &[SandSample],
    stretch: FluidStretch,
    porosity: Fraction,
) -> Result<Length, SettlingError> {
    let solid = solid_share(porosity)?;
    let profile = profile(samples, stretch)?;
    let solids: f64 =
        profile.windows(2).map(|pair| (pair[1].0 - pair[0].0) * (pair[0].1 + pair[1].1) / 2.0).sum();
    Ok(Length::meters(solids / solid))
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

/// Depth in metres and sand content, from the surface to the base.
fn profile(samples: &[SandSample], stretch: FluidStretch) -> Result<Vec<(f64, f64)>, SettlingError> {
    if stretch.bottom < stretch.top {
        return Err(SettlingError::Stretch { given: stretch });
    }
    let mut points = by_depth(samples, stretch)?;
    let (first, last) = points.first().zip(points.last()).ok_or(SettlingError::NoSample)?;
    let (above, below) = ((stretch.top.to_meters(), first.1), (stretch.bottom.to_meters(), last.1));
    points.insert(0, above);
    points.push(below);
    Ok(points)
}

/// The samples in order of depth, one point per depth.
fn by_depth(samples: &[SandSample], stretch: FluidStretch) -> Result<Vec<(f64, f64)>, SettlingError> {
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
    let mean = |values: Vec<f64>| values.iter().sum::<f64>() / values.len() as f64;
    Ok(depths.into_iter().map(|(depth, values)| (depth.to_meters(), mean(values))).collect())
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
        let got = match settled_thickness(&samples, stretch, Fraction::part(0.4)) {
            Ok(thickness) => format!("{:.2} ft", thickness.to_feet()),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    /// By hand: s × 80 / 0.6.
    #[test]
    fn an_even_column() {
        check(&[(40.0, 4.0)], "5.33 ft");
        check(&[(40.0, 1.0)], "1.33 ft");
        check(&[(10.0, 0.5), (78.0, 0.5)], "0.67 ft");
    }

    /// 0 % down to 40 ft, then rising to 4 % at 80 ft: 80 %·ft. Two tests at 40 ft with 0 and 1 % count as
    /// 0.5 % there: 0.5 × 40 + 2.25 × 40 = 110 %·ft. Each over 0.6.
    #[test]
    fn sand_low_in_the_column_counts_where_it_is() {
        check(&[(40.0, 0.0), (80.0, 4.0)], "1.33 ft");
        check(&[(80.0, 4.0), (40.0, 1.0), (40.0, 0.0)], "1.83 ft");
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
