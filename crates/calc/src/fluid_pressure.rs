//! Pressure of the fluid in the hole against the water outside it.
//!
//! An uncased wall stands because the fluid pushes harder outward than the groundwater pushes inward. A
//! level that sinks by a foot while nobody looks can undo that at one depth only; this file says where.
//!
//! Words: *column* = a liquid of one density with a free surface; *excess* = inside minus outside.
//! Units: SI inside; a unit weight is read as a density under standard gravity.
//! Never: know which excess a contract asks for.

use quantity::{Density, Elevation, InOrder, Length, Pressure};

/// Standard gravity, m/s², exact. [NIST-SP-811], App. B.8, "acceleration of free fall, standard".
const STANDARD_GRAVITY: f64 = 9.806_65;

/// A liquid of one density below a free surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Its density.
    pub density: Density,
    /// Where its surface stands.
    pub surface: Elevation,
}

/// Standard errors of the two readings behind a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ColumnErrors {
    /// Of the density: the accuracy of the balance.
    pub density: Density,
    /// Of the level: the tape.
    pub surface: Length,
}

/// The fluid in the hole and the water in the ground, side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// The fluid in the hole.
    pub inside: Column,
    /// The groundwater.
    pub outside: Column,
}

/// The weakest place of a stretch of wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeastExcess {
    /// Inside minus outside; negative where the water pushes in.
    pub excess: Pressure,
    /// Where.
    pub at: Elevation,
}

/// Why a pressure cannot be reckoned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PressureError {
    /// The lower end of the stretch lies above its upper end.
    Stretch {
        /// Upper end as given.
        top: Elevation,
        /// Lower end as given.
        bottom: Elevation,
    },
}

impl std::fmt::Display for PressureError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            PressureError::Stretch { .. } => {
                write!(f, "the lower end of the stretch lies above its upper end")
            }
        }
    }
}

impl std::error::Error for PressureError {}

impl Column {
    /// Pressure of the column at a level; zero at and above its surface, where there is none of it.
    ///
    /// `p = ρ g (surface − level)`
    ///
    /// **Valid for** a liquid at rest and of one density from surface to level.
    ///
    /// **Source**: [HYDROSTATICS].
    ///
    /// ```
    /// # use calc::fluid_pressure::Column;
    /// # use quantity::{Density, Elevation, Length};
    /// let surface = Elevation(Length::ZERO);
    /// let water = Column { density: Density::pounds_per_cubic_foot(62.4), surface };
    /// assert_eq!(format!("{:.0} psf", water.pressure(Elevation(Length::feet(-10.0))).to_psf()), "624 psf");
    /// ```
    pub fn pressure(self, level: Elevation) -> Pressure {
        let height = self.surface.above(level).to_meters().max(0.0);
        Pressure::pascals(self.density.to_kilograms_per_cubic_meter() * STANDARD_GRAVITY * height)
    }
}

impl Balance {
    /// How far the fluid stands above the groundwater; negative when it stands below.
    ///
    /// **Source**: difference of two levels.
    pub fn head(self) -> Length {
        self.inside.surface.above(self.outside.surface)
    }

    /// Pressure of the fluid minus pressure of the groundwater at a level.
    ///
    /// `Δp = ρi g (zi − z) − ρo g (zo − z)`, each term zero above its own surface
    ///
    /// **Valid for** liquids at rest, with no seepage and no filter cake.
    ///
    /// **Source**: [HYDROSTATICS]; unit weights 66 and 62.4 pcf, water 5 ft below the fluid, worked by hand.
    ///
    /// ```
    /// use calc::fluid_pressure::{Balance, Column};
    /// use quantity::{Density, Elevation, Length};
    /// let column = |pcf, surface_ft| Column {
    ///     density: Density::pounds_per_cubic_foot(pcf),
    ///     surface: Elevation(Length::feet(surface_ft)),
    /// };
    /// let balance = Balance { inside: column(66.0, 0.0), outside: column(62.4, -5.0) };
    /// let at = Elevation(Length::feet(-20.0));
    /// assert_eq!(format!("{:.0} psf", balance.excess(at).to_psf()), "384 psf");
    /// ```
    pub fn excess(self, level: Elevation) -> Pressure {
        Pressure::pascals(
            self.inside.pressure(level).to_pascals() - self.outside.pressure(level).to_pascals(),
        )
    }

    /// Standard error of [`Balance::excess`] from the readings of the fluid; the groundwater is taken as given.
    ///
    /// `σ² = g² (h² σρ² + ρ² σz²)`, `h` the height of fluid above the level
    ///
    /// **Valid for** independent errors of density and level. At and above the surface it is the error of
    /// the level alone.
    ///
    /// **Source**: [GUM], 5.1.2.
    ///
    /// ```
    /// # use calc::fluid_pressure::{Balance, Column, ColumnErrors};
    /// # use quantity::{Density, Elevation, Length};
    /// # let at = |feet| Elevation(Length::feet(feet));
    /// # let column = |pcf, feet| Column { density: Density::pounds_per_cubic_foot(pcf), surface: at(feet) };
    /// let balance = Balance { inside: column(66.0, 0.0), outside: column(62.4, -5.0) };
    /// let errors = ColumnErrors { density: Density::pounds_per_cubic_foot(0.62), surface: Length::feet(0.1) };
    /// assert_eq!(format!("{:.0} psf", balance.excess_error(errors, at(-80.0)).to_psf()), "50 psf");
    /// ```
    pub fn excess_error(self, errors: ColumnErrors, level: Elevation) -> Pressure {
        let height = self.inside.surface.above(level).to_meters().max(0.0);
        let from_density = height * errors.density.to_kilograms_per_cubic_meter();
        let from_level = self.inside.density.to_kilograms_per_cubic_meter() * errors.surface.to_meters();
        Pressure::pascals(STANDARD_GRAVITY * libm::hypot(from_density, from_level))
    }

    /// The least excess anywhere on a stretch of wall, and where; the highest such place if there are several.
    ///
    /// The excess is straight between the two ends and the two surfaces, so one of those four holds it.
    ///
    /// **Errors** when `bottom` lies above `top`.
    ///
    /// **Source**: [HYDROSTATICS].
    ///
    /// ```
    /// # use calc::fluid_pressure::{Balance, Column};
    /// # use quantity::{Density, Elevation, Length};
    /// # let at = |feet| Elevation(Length::feet(feet));
    /// # let column = |pcf, feet| Column { density: Density::pounds_per_cubic_foot(pcf), surface: at(feet) };
    /// let balance = Balance { inside: column(66.0, 0.0), outside: column(62.4, 3.0) };
    /// let least = balance.least_excess(at(5.0), at(-40.0))?;
    /// assert_eq!(format!("{:.0} psf at {} ft", least.excess.to_psf(), least.at.0.to_feet()), "-187 psf at 0 ft");
    /// # Ok::<(), calc::fluid_pressure::PressureError>(())
    /// ```
    pub fn least_excess(self, top: Elevation, bottom: Elevation) -> Result<LeastExcess, PressureError> {
        if top < bottom {
            return Err(PressureError::Stretch { top, bottom });
        }
        let mut corners = [top, self.inside.surface, self.outside.surface, bottom];
        corners.put_in_order_by(|a, b| b.cmp(a));
        let first = LeastExcess { excess: self.excess(top), at: top };
        let on_the_wall = corners.into_iter().filter(|at| bottom <= *at && *at <= top);
        Ok(on_the_wall.fold(first, |least, at| {
            let excess = self.excess(at);
            if excess.to_pascals() < least.excess.to_pascals() { LeastExcess { excess, at } } else { least }
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn level(feet: f64) -> Elevation {
        Elevation(Length::feet(feet))
    }

    fn balance(fluid_pcf: f64, water_ft: f64) -> Balance {
        let column =
            |pcf, feet| Column { density: Density::pounds_per_cubic_foot(pcf), surface: level(feet) };
        Balance { inside: column(fluid_pcf, 0.0), outside: column(62.4, water_ft) }
    }

    /// Fluid surface at 0 ft, depths downward; expected psf worked by hand as γs z − 62.4 (z − zw).
    #[track_caller]
    fn check(fluid_pcf: f64, water_depth_ft: f64, depth_ft: f64, expected: &str) {
        let excess = balance(fluid_pcf, -water_depth_ft).excess(level(-depth_ft));
        assert_eq!(format!("{:.0}", excess.to_psf()), expected);
    }

    #[test]
    fn mineral_fluid_gains_with_depth() {
        check(66.0, 5.0, 5.0, "330");
        check(66.0, 5.0, 20.0, "384");
        check(66.0, 5.0, 80.0, "600");
    }

    /// 62.6 × 5 = 313.0; 62.6 × 80 − 62.4 × 75 = 328; with water at 10 ft 626 and 640.
    #[test]
    fn polymer_hardly_gains_and_needs_more_head() {
        check(62.6, 5.0, 5.0, "313");
        check(62.6, 5.0, 80.0, "328");
        check(62.6, 10.0, 10.0, "626");
        check(62.6, 10.0, 80.0, "640");
    }

    #[test]
    fn above_both_surfaces_nothing_presses() {
        check(66.0, 5.0, -3.0, "0");
    }

    #[test]
    fn head_has_a_sign() {
        assert_eq!(balance(66.0, -5.0).head(), Length::feet(5.0));
        assert_eq!(balance(66.0, 2.0).head(), Length::feet(-2.0));
    }

    #[test]
    fn water_above_the_fluid_pushes_in_hardest_where_light_fluid_ends() {
        // Water 3 ft above a 66-pcf fluid: −187.2 psf at its surface, and 3.6 psf per foot less below.
        let least = balance(66.0, 3.0).least_excess(level(5.0), level(-40.0)).unwrap();
        assert_eq!(least.at, level(0.0));
        assert_eq!(format!("{:.1}", least.excess.to_psf()), "-187.2");
    }

    #[test]
    fn an_inverted_stretch_has_no_answer() {
        let error = balance(66.0, 3.0).least_excess(level(-40.0), level(5.0)).unwrap_err();
        assert_eq!(error.to_string(), "the lower end of the stretch lies above its upper end");
    }

    /// By hand: 80 ft × 0.62 pcf = 49.6 psf and 66 pcf × 0.1 ft = 6.6 psf, in quadrature 50.04 psf.
    #[test]
    fn the_balance_decides_how_well_the_pressure_is_known() {
        let errors =
            ColumnErrors { density: Density::pounds_per_cubic_foot(0.62), surface: Length::feet(0.1) };
        let error = balance(66.0, -5.0).excess_error(errors, level(-80.0));
        assert_eq!(format!("{:.2}", error.to_psf()), "50.04");
    }
}
