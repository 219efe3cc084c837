//! The steel of a cage: ratio, clear gaps, laps, volume and mass per metre, movement.
//!
//! Concrete has to pass between the bars to make the cover. What counts is the clear gap, along the circle
//! and between the hoops, against the largest stone; and whether the cage stayed where it was set.
//!
//! Words: *clear* = between surfaces; *pitch* = from one hoop or turn to the next, centre to centre;
//! *circle* = through the centres of the bars.
//! Units: SI inside.
//! Never: know a rule of gaps or laps.

use crate::bars::Bar;
use quantity::{Area, Elevation, Fraction, Length, Volume};

/// Bars spread evenly on a circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarCircle {
    /// How many places: bars, or bundles of bars.
    pub places: u32,
    /// How many bars side by side along the circle at each place; 1 for single bars.
    pub bars_abreast: u32,
    /// The bar.
    pub bar: Bar,
    /// Diameter of the circle through the centres of the bars.
    pub circle: Length,
}

/// Hoops at a pitch, or a spiral.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ties {
    /// The bar.
    pub bar: Bar,
    /// Centre to centre along the shaft.
    pub pitch: Length,
    /// Diameter of the circle through their centres.
    pub circle: Length,
    /// Turns run on from one to the next.
    pub spiral: bool,
}

/// A cage with equal steel along its length.
#[derive(Debug, Clone, PartialEq)]
pub struct Steel {
    /// Bars along the shaft, one row per circle or layer.
    pub bars: Vec<BarCircle>,
    /// Ties around it, one row per family.
    pub ties: Vec<Ties>,
}

/// Outside of a cage and the bars that make it up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CageOutline {
    /// Outside diameter, over the ties.
    pub outside: Length,
    /// Diameter of the tie bar.
    pub tie: Length,
    /// Diameter of the bar along the shaft.
    pub bar: Length,
}

/// Top of a cage at its stages.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CageTop {
    /// As planned.
    pub planned: Elevation,
    /// When it was set.
    pub set: Option<Elevation>,
    /// After the pour.
    pub after_pour: Option<Elevation>,
    /// After the casing came out.
    pub after_casing: Option<Elevation>,
}

/// How a cage stands and how it moved; upward is positive; `None` where a reading is missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CageMovement {
    /// Set minus planned.
    pub set_off_plan: Option<Length>,
    /// After the pour minus set.
    pub during_pour: Option<Length>,
    /// After the casing minus after the pour.
    pub during_casing: Option<Length>,
    /// The last reading minus planned.
    pub final_off_plan: Option<Length>,
}

/// Why a cage has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CageError {
    /// Too few bars on a circle for a gap.
    TooFewBars {
        /// How many places there are.
        given: u32,
    },
    /// A diameter, pitch or size that is not greater than zero.
    NotPositive {
        /// As given.
        given: Length,
    },
    /// The bars or ties overlap.
    Overlap {
        /// By how much.
        by: Length,
    },
}

impl std::fmt::Display for CageError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            CageError::TooFewBars { given } => write!(f, "{given} bars on a circle leave no gap to reckon"),
            CageError::NotPositive { .. } => write!(f, "a size of the cage is not greater than zero"),
            CageError::Overlap { .. } => write!(f, "the bars would overlap"),
        }
    }
}

impl std::error::Error for CageError {}

impl CageOutline {
    /// Diameter of the circle through the bar centres, with the bars inside the ties.
    ///
    /// `c = outside − 2 · tie − bar`
    ///
    /// **Errors** when nothing is left.
    ///
    /// **Source**: [GEOMETRY].
    ///
    /// ```
    /// # use calc::cage::CageOutline;
    /// # use quantity::Length;
    /// let [outside, tie, bar] = [42.0, 0.625, 1.41].map(Length::inches);
    /// assert_eq!(CageOutline { outside, tie, bar }.bar_circle(), Ok(Length::inches(39.34)));
    /// ```
    pub fn bar_circle(&self) -> Result<Length, CageError> {
        let circle = self.outside - self.tie - self.tie - self.bar;
        positive(circle).map(|_| circle)
    }
}

impl BarCircle {
    /// Clear gap between neighbouring bars, along the straight line between them.
    ///
    /// `gap = c · sin(π / n) − k d`
    ///
    /// | symbol | meaning |
    /// |---|---|
    /// | `c`, `n` | circle and places |
    /// | `k d` | bars abreast times bar diameter |
    ///
    /// **Valid for** places spread evenly; a bundle is taken as wide as its bars side by side.
    ///
    /// **Errors** with fewer than two places, and when the bars would overlap.
    ///
    /// **Source**: [GEOMETRY], chord of a circle; 12 #11 worked by hand.
    ///
    /// ```
    /// use calc::{bars, cage::BarCircle};
    /// use quantity::Length;
    /// let bar = bars::find("#11").unwrap();
    /// let circle = BarCircle { places: 12, bars_abreast: 1, bar, circle: Length::inches(40.0) };
    /// assert_eq!(format!("{:.2} in", circle.clear_gap().unwrap().to_inches()), "8.94 in");
    /// ```
    pub fn clear_gap(&self) -> Result<Length, CageError> {
        if self.places < 2 || self.bars_abreast == 0 {
            return Err(CageError::TooFewBars { given: self.places });
        }
        let chord = positive(self.circle)? * libm::sin(std::f64::consts::PI / f64::from(self.places));
        let gap = Length::meters(chord - f64::from(self.bars_abreast) * positive(self.bar.diameter)?);
        if gap < Length::ZERO { Err(CageError::Overlap { by: -gap }) } else { Ok(gap) }
    }

    /// Area of all bars of the circle, square metres.
    fn area(&self) -> f64 {
        self.count() * self.bar.area.to_square_meters()
    }

    fn count(&self) -> f64 {
        f64::from(self.places) * f64::from(self.bars_abreast)
    }
}

impl Ties {
    /// Clear gap between one hoop or turn and the next.
    ///
    /// `gap = pitch − d`
    ///
    /// **Errors** when the pitch is not greater than zero or the turns would overlap.
    ///
    /// **Source**: [GEOMETRY].
    pub fn clear_gap(&self) -> Result<Length, CageError> {
        positive(self.pitch)?;
        let gap = self.pitch - self.bar.diameter;
        if gap < Length::ZERO { Err(CageError::Overlap { by: -gap }) } else { Ok(gap) }
    }

    /// Length of bar per metre of shaft, a plain number.
    ///
    /// Hoops `π c / p`, spiral `√((π c)² + p²) / p`; laps and hooks are left out.
    fn length_per_meter(&self) -> Result<f64, CageError> {
        let (pitch, around) = (positive(self.pitch)?, std::f64::consts::PI * positive(self.circle)?);
        Ok(if self.spiral { libm::hypot(around, pitch) / pitch } else { around / pitch })
    }
}

impl Steel {
    /// Area of the bars along the shaft over the area of the shaft.
    ///
    /// `ρ = Σ n A / (π D² / 4)`
    ///
    /// **Valid for** the gross section of the given diameter.
    ///
    /// **Errors** when the diameter is not greater than zero.
    ///
    /// **Source**: definition; 12 #11 in 48 in worked by hand.
    ///
    /// ```
    /// # use calc::{bars::find, cage::{BarCircle, Steel}};
    /// # use quantity::Length;
    /// # let bar = find("#11").expect("a size of the table");
    /// # let bars = BarCircle { places: 12, bars_abreast: 1, bar, circle: Length::inches(40.0) };
    /// let steel = Steel { bars: vec![bars], ties: vec![] };
    /// // Twelve #11 bars.
    /// assert_eq!(format!("{:.2} %", steel.ratio(Length::inches(48.0))?.to_percent()), "1.03 %");
    /// # Ok::<(), calc::cage::CageError>(())
    /// ```
    pub fn ratio(&self, shaft_diameter: Length) -> Result<Fraction, CageError> {
        let diameter = positive(shaft_diameter)?;
        let bars: f64 = self.bars.iter().map(BarCircle::area).sum();
        Ok(Fraction::part(bars / (std::f64::consts::PI * diameter * diameter / 4.0)))
    }

    /// Cross-section of steel, the ties spread evenly along the cage: what the concrete cannot fill.
    ///
    /// `A = Σ n a + Σ at · π c / p`, a spiral with `√((π c)² + p²) / p`
    ///
    /// | symbol | meaning |
    /// |---|---|
    /// | `n a` | bars times area of one |
    /// | `at`, `c`, `p` | area of a tie, diameter of its circle, pitch |
    ///
    /// **Valid for** equal steel over the length; laps, hooks and stiffeners are left out.
    ///
    /// **Errors** when a size is not greater than zero.
    ///
    /// **Source**: [GEOMETRY]; ties worked by hand.
    ///
    /// ```
    /// # use calc::{bars::find, cage::{BarCircle, Steel}};
    /// # use quantity::Length;
    /// # let bar = find("#11").expect("a size of the table");
    /// # let bars = BarCircle { places: 12, bars_abreast: 1, bar, circle: Length::inches(40.0) };
    /// let steel = Steel { bars: vec![bars], ties: vec![] };
    /// // Twelve #11 bars.
    /// assert_eq!(format!("{:.2} in²", steel.section()?.to_square_inches()), "18.72 in²");
    /// # Ok::<(), calc::cage::CageError>(())
    /// ```
    pub fn section(&self) -> Result<Area, CageError> {
        let mut area: f64 = self.bars.iter().map(BarCircle::area).sum();
        for ties in &self.ties {
            area += ties.length_per_meter()? * ties.bar.area.to_square_meters();
        }
        Ok(Area::square_meters(area))
    }

    /// Volume of steel over a length of cage.
    ///
    /// `V = A L`, `A` as [`Steel::section`]
    ///
    /// **Valid for**, **Errors** as [`Steel::section`].
    ///
    /// **Source**: [FHWA-CONVOL], area in in² times feet over 3888; 12 #11 over 15 ft give 0.0722 yd³.
    ///
    /// ```
    /// use calc::bars::find;
    /// use calc::cage::{BarCircle, Steel};
    /// use quantity::Length;
    /// let bar = find("#11").expect("a size of the table");
    /// let bars = BarCircle { places: 12, bars_abreast: 1, bar, circle: Length::inches(40.0) };
    /// let steel = Steel { bars: vec![bars], ties: vec![] };
    /// assert_eq!(format!("{:.4} yd³", steel.volume(Length::feet(15.0))?.to_cubic_yards()), "0.0722 yd³");
    /// # Ok::<(), calc::cage::CageError>(())
    /// ```
    pub fn volume(&self, length: Length) -> Result<Volume, CageError> {
        Ok(Volume::cubic_meters(self.section()?.to_square_meters() * length.to_meters()))
    }

    /// Mass of steel of one metre of cage, kilograms.
    ///
    /// **Valid for**, **Errors** as [`Steel::section`].
    ///
    /// **Source**: masses of the bar table times lengths.
    ///
    /// ```
    /// # use calc::{bars::find, cage::{BarCircle, Steel}};
    /// # use quantity::Length;
    /// # let bar = find("#11").expect("a size of the table");
    /// # let bars = BarCircle { places: 12, bars_abreast: 1, bar, circle: Length::inches(40.0) };
    /// let steel = Steel { bars: vec![bars], ties: vec![] };
    /// // Twelve #11 bars of 5.313 lb/ft: 63.76 lb/ft.
    /// assert_eq!(format!("{:.2} kg/m", steel.kilograms_per_meter()?), "94.88 kg/m");
    /// # Ok::<(), calc::cage::CageError>(())
    /// ```
    pub fn kilograms_per_meter(&self) -> Result<f64, CageError> {
        let mut mass: f64 = self.bars.iter().map(|bars| bars.count() * bars.bar.kilograms_per_meter).sum();
        for ties in &self.ties {
            mass += ties.length_per_meter()? * ties.bar.kilograms_per_meter;
        }
        Ok(mass)
    }
}

/// How many times the largest stone fits into a clear gap.
///
/// **Errors** when the stone is not greater than zero.
///
/// **Source**: ratio; 1⅞ in over ⅜ in is 5.
///
/// ```
/// # use calc::cage::stones_in_gap;
/// # use quantity::Length;
/// assert_eq!(stones_in_gap(Length::inches(1.875), Length::inches(0.375)), Ok(5.0));
/// ```
pub fn stones_in_gap(gap: Length, largest_stone: Length) -> Result<f64, CageError> {
    positive(largest_stone)?;
    Ok(gap.to_nanometers() as f64 / largest_stone.to_nanometers() as f64)
}

/// The gap that a number of stones needs.
///
/// **Source**: product.
pub fn gap_of_stones(stones: f64, largest_stone: Length) -> Length {
    Length::meters(stones * largest_stone.to_meters())
}

/// A lap in diameters of its bar.
///
/// **Errors** when the bar is not greater than zero.
///
/// **Source**: ratio.
///
/// ```
/// # use calc::{bars::find, cage::lap_in_diameters};
/// # use quantity::Length;
/// let bar = find("#8").expect("a size of the table");
/// assert_eq!(lap_in_diameters(Length::inches(36.0), bar), Ok(36.0));
/// ```
pub fn lap_in_diameters(lap: Length, bar: Bar) -> Result<f64, CageError> {
    positive(bar.diameter)?;
    Ok(lap.to_nanometers() as f64 / bar.diameter.to_nanometers() as f64)
}

/// The length of a lap of so many diameters.
///
/// **Source**: product.
pub fn lap_of_diameters(diameters: f64, bar: Bar) -> Length {
    Length::meters(diameters * bar.diameter.to_meters())
}

impl CageTop {
    /// How the cage stands and how it moved.
    ///
    /// **Source**: differences of elevations.
    ///
    /// ```
    /// # use calc::cage::CageTop;
    /// # use quantity::{Elevation, Length};
    /// let at = |feet| Elevation(Length::feet(feet));
    /// let top =
    ///     CageTop { planned: at(100.0), set: Some(at(100.1)), after_pour: None, after_casing: Some(at(100.5)) };
    /// assert_eq!(top.movement().final_off_plan, Some(Length::feet(0.5)));
    /// assert_eq!(top.movement().during_casing, None, "nobody read it after the pour");
    /// ```
    pub fn movement(&self) -> CageMovement {
        let between = |later: Option<Elevation>, earlier: Option<Elevation>| Some(later?.above(earlier?));
        let last = self.after_casing.or(self.after_pour).or(self.set);
        CageMovement {
            set_off_plan: between(self.set, Some(self.planned)),
            during_pour: between(self.after_pour, self.set),
            during_casing: between(self.after_casing, self.after_pour),
            final_off_plan: between(last, Some(self.planned)),
        }
    }
}

fn positive(given: Length) -> Result<f64, CageError> {
    if Length::ZERO < given { Ok(given.to_meters()) } else { Err(CageError::NotPositive { given }) }
}

#[cfg(test)]
mod tests;
