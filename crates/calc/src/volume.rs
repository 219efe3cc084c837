//! How much concrete fits between two levels, and how high a volume reaches.
//!
//! The theoretical volume is what every load is held against: a hole that takes more has caved in or
//! was drilled wide, one that takes less is narrower than drawn. This module only computes.
//!
//! Words: *theoretical* = from the nominal geometry, less the steel where the job counts it.
//! Units: SI inside.
//! Never: let a volume spill over the top in silence.

use quantity::{Elevation, Length, Volume};

use crate::geometry::{Bore, GeometryError, Piece, frustum_m3};

/// One cubic millimetre: below this, two volumes that took different roads through `f64` are equal.
const SAME_VOLUME_M3: f64 = 1e-9;

impl Bore {
    /// Volume of concrete between two levels of the hole.
    ///
    /// `V = Σ π h (D² + D d + d²) / 12 − Σ A h` over the pieces between the levels
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | – | `lower`, `upper` | the two levels |
    /// | `D`, `d`, `h` | of the bore | diameters and height of each piece that lies between |
    /// | `A` | of the bore | steel standing along `h` |
    ///
    /// **Valid for** levels of the hole; equal levels hold nothing.
    ///
    /// **Errors** when a level lies outside the hole or `upper` lies below `lower`.
    ///
    /// **Source**: solid geometry [GEOMETRY]; checked against [FHWA-INSPECTOR] and `cases/`.
    ///
    /// ```
    /// # use calc::geometry::Bore;
    /// # use quantity::{Elevation, Length};
    /// let at = |feet| Elevation(Length::feet(feet));
    /// let shaft = Bore::cylinder(Length::feet(4.0), at(0.0), at(-60.0))?;
    /// let needed = shaft.volume_between(at(-60.0), at(0.0))?;
    /// assert_eq!(format!("{:.1} yd³", needed.to_cubic_yards()), "27.9 yd³");
    /// # Ok::<(), calc::geometry::GeometryError>(())
    /// ```
    pub fn volume_between(&self, lower: Elevation, upper: Elevation) -> Result<Volume, GeometryError> {
        self.check_level(lower)?;
        self.check_level(upper)?;
        if upper < lower {
            return Err(GeometryError::Interval { top: upper, bottom: lower });
        }
        let parts = self.slabs().into_iter().filter_map(|slab| clipped(slab, lower, upper));
        Ok(Volume::cubic_meters(parts.map(|part| self.slab_m3(&part)).sum()))
    }

    /// Volume of concrete from the bottom up to a level.
    ///
    /// **Errors** when the level lies outside the hole.
    pub fn volume_below(&self, level: Elevation) -> Result<Volume, GeometryError> {
        self.volume_between(self.bottom(), level)
    }

    /// Volume of the whole hole.
    pub fn volume(&self) -> Volume {
        Volume::cubic_meters(self.slabs().iter().map(|slab| self.slab_m3(slab)).sum())
    }

    /// Volume of the steel between two levels.
    ///
    /// **Errors** as [`Bore::volume_between`].
    pub fn steel_between(&self, lower: Elevation, upper: Elevation) -> Result<Volume, GeometryError> {
        let gross = self.gross().volume_between(lower, upper)?.to_cubic_meters();
        Ok(Volume::cubic_meters(gross - self.volume_between(lower, upper)?.to_cubic_meters()))
    }

    /// The level that a volume reaches when it fills the hole from the bottom.
    ///
    /// The inverse of [`Bore::volume_below`]: exact in a cylinder, by bisection to the nanometre in a
    /// cone.
    ///
    /// **Valid for** a level surface and a hole as drawn.
    ///
    /// **Errors** when the volume is negative or does not fit under the top.
    ///
    /// **Source**: inverse of solid geometry [GEOMETRY].
    ///
    /// ```
    /// # use calc::geometry::Bore;
    /// # use quantity::{Elevation, Length, Volume};
    /// let at = |feet| Elevation(Length::feet(feet));
    /// let shaft = Bore::cylinder(Length::feet(4.0), at(0.0), at(-60.0))?;
    /// let level = shaft.level_holding(Volume::cubic_yards(9.0))?;
    /// assert_eq!(format!("{:.2} ft", level.0.to_feet()), "-40.66 ft");
    /// # Ok::<(), calc::geometry::GeometryError>(())
    /// ```
    pub fn level_holding(&self, volume: Volume) -> Result<Elevation, GeometryError> {
        let mut rest = volume.to_cubic_meters();
        if rest < 0.0 {
            return Err(GeometryError::Volume { given: volume });
        }
        for slab in self.slabs().iter().rev() {
            let room = self.slab_m3(slab);
            if rest <= room {
                return Ok(self.level_in_slab(slab, rest));
            }
            rest -= room;
        }
        match rest <= SAME_VOLUME_M3 {
            true => Ok(self.top()),
            false => Err(GeometryError::Overflows { over: Volume::cubic_meters(rest), top: self.top() }),
        }
    }

    fn slab_m3(&self, slab: &Piece) -> f64 {
        let (upper, lower) = (slab.upper_diameter.to_meters(), slab.lower_diameter.to_meters());
        let height = slab.height().to_meters();
        frustum_m3(upper, lower, height) - self.steel_area_m2(slab.top, slab.bottom) * height
    }

    /// The level, to the nanometre, under which the slab holds `rest`.
    fn level_in_slab(&self, slab: &Piece, rest: f64) -> Elevation {
        if slab.upper_diameter == slab.lower_diameter {
            let share = rest / self.slab_m3(slab);
            return Elevation(slab.bottom.0 + Length::meters(slab.height().to_meters() * share));
        }
        self.level_in_cone(slab, rest)
    }

    fn level_in_cone(&self, cone: &Piece, rest: f64) -> Elevation {
        let level = |nanometers| Elevation(Length::nanometers(nanometers));
        let below = |upper| clipped(*cone, cone.bottom, level(upper)).map_or(0.0, |part| self.slab_m3(&part));
        let (mut low, mut high) = (cone.bottom.0.to_nanometers(), cone.top.0.to_nanometers());
        while low < high {
            let middle = low + (high - low) / 2;
            if below(middle) < rest { low = middle + 1 } else { high = middle }
        }
        level(low)
    }
}

/// The part of a slab between two levels, if there is any.
fn clipped(slab: Piece, lower: Elevation, upper: Elevation) -> Option<Piece> {
    let (top, bottom) = (slab.top.min(upper), slab.bottom.max(lower));
    if top <= bottom {
        return None;
    }
    let diameter = |level| Length::meters(slab.diameter_m(level));
    Some(Piece { top, bottom, upper_diameter: diameter(top), lower_diameter: diameter(bottom), ..slab })
}
