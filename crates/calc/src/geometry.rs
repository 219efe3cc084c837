//! The shape of the hole: what stands between the ground and the tip.
//!
//! A shaft is seldom one cylinder. A surface casing is wider, a rock socket narrower, a bell wider
//! again, and where a casing stands the concrete sees its inside and not the hole. All of it is one
//! list of pieces from the top down, and one list of steel that takes up room in it.
//!
//! Words: *piece* = a stretch of hole with straight walls; *bore* = all pieces of one shaft, meeting
//! without a gap; *shoe* = the lower end of a casing; *gross* = without regard to the steel.
//! Units: elevations above the datum of the job, so that a moved reference point changes nothing.
//! Never: guess a missing diameter; close a gap between pieces.

mod bore;
mod error;
mod zone;

pub use bore::Bore;
pub use error::GeometryError;
pub use zone::Casing;

use std::f64::consts::PI;

use quantity::{Area, Depth, Elevation, Length, Volume};

/// What a piece of the hole is called on the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// The drilled shaft itself.
    Shaft,
    /// The length drilled into rock.
    Socket,
    /// The cone of an enlarged base.
    Bell,
    /// The cylinder below the cone of an enlarged base.
    Toe,
    /// The inside of a standing casing.
    Casing,
}

/// A stretch of hole with straight walls: a cylinder, or a cone when its two diameters differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    /// What it is called.
    pub part: Part,
    /// Its upper end.
    pub top: Elevation,
    /// Its lower end, below `top`.
    pub bottom: Elevation,
    /// Diameter at `top`, greater than zero.
    pub upper_diameter: Length,
    /// Diameter at `bottom`, greater than zero.
    pub lower_diameter: Length,
}

impl Piece {
    /// A piece of one diameter.
    pub fn cylinder(part: Part, diameter: Length, top: Elevation, bottom: Elevation) -> Self {
        Piece { part, top, bottom, upper_diameter: diameter, lower_diameter: diameter }
    }

    /// A piece of one diameter, its ends given as depths below `reference`.
    pub fn cylinder_by_depth(part: Part, diameter: Length, reference: Elevation, ends: [Depth; 2]) -> Self {
        let [top, bottom] = ends.map(|depth| Elevation::of_depth(reference, depth));
        Piece::cylinder(part, diameter, top, bottom)
    }

    /// The length of the piece along the shaft.
    pub fn height(&self) -> Length {
        self.top.above(self.bottom)
    }

    /// The diameter in metres at a level of this piece.
    pub(crate) fn diameter_m(&self, level: Elevation) -> f64 {
        let (upper, lower) = (self.upper_diameter.to_meters(), self.lower_diameter.to_meters());
        lower + (upper - lower) * level.above(self.bottom).to_meters() / self.height().to_meters()
    }
}

/// Steel standing in the concrete: bars, hoops or tubes spread evenly along a length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steel {
    /// Cross-section that the concrete cannot fill, all bars together.
    pub area: Area,
    /// Its upper end.
    pub top: Elevation,
    /// Its lower end.
    pub bottom: Elevation,
}

impl Steel {
    /// The wall of an open pipe: what a tremie takes up where it stands in the concrete.
    ///
    /// `A = π (D² − d²) / 4`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `D` | `outside` | outside diameter |
    /// | `d` | `inside` | inside diameter; what stands inside is concrete of the shaft |
    ///
    /// **Valid for** a pipe without its joints. A capped tube takes up the whole circle: [`circle_area`].
    ///
    /// **Errors** when a diameter is not positive or the inside is wider than the outside.
    ///
    /// **Source**: plane geometry [GEOMETRY].
    ///
    /// ```
    /// # use calc::geometry::Steel;
    /// # use quantity::Length;
    /// let wall = Steel::wall(Length::inches(10.75), Length::inches(10.02))?;
    /// assert_eq!(format!("{:.2} in²", wall.to_square_inches()), "11.91 in²");
    /// # Ok::<(), calc::geometry::GeometryError>(())
    /// ```
    pub fn wall(outside: Length, inside: Length) -> Result<Area, GeometryError> {
        if inside <= Length::ZERO || outside < inside {
            return Err(GeometryError::Diameter { given: inside });
        }
        let [outer, inner] = [outside, inside].map(|diameter| circle_area(diameter).to_square_meters());
        Ok(Area::square_meters(outer - inner))
    }

    /// Hoops or a spiral as steel spread evenly along the cage.
    ///
    /// `A = a · π d / s`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `a` | `bar` | cross-section of the hoop bar |
    /// | `d` | `across` | diameter of the hoop, middle to middle of its bar |
    /// | `s` | `spacing` | distance between hoops, or pitch of the spiral |
    ///
    /// **Valid for** a pitch that is small beside the diameter; the slope of a spiral is left out.
    ///
    /// **Errors** when the spacing is not greater than zero.
    ///
    /// **Source**: solid geometry [GEOMETRY].
    ///
    /// ```
    /// # use calc::geometry::Steel;
    /// # use quantity::{Area, Length};
    /// let hoops = Steel::hoops(Area::square_inches(0.20), Length::inches(40.0), Length::inches(6.0))?;
    /// assert_eq!(format!("{:.3} in²", hoops.to_square_inches()), "4.189 in²");
    /// # Ok::<(), calc::geometry::GeometryError>(())
    /// ```
    pub fn hoops(bar: Area, across: Length, spacing: Length) -> Result<Area, GeometryError> {
        if spacing <= Length::ZERO {
            return Err(GeometryError::Spacing { given: spacing });
        }
        let length_per_length = PI * across.to_meters() / spacing.to_meters();
        Ok(Area::square_meters(bar.to_square_meters() * length_per_length))
    }
}

/// Area of a circle.
///
/// `A = π d² / 4`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `d` | `diameter` | diameter of the circle |
///
/// **Valid for** a diameter of either sign; a caller that draws a hole checks it first.
///
/// **Errors** none.
///
/// **Source**: plane geometry [GEOMETRY]; a table of volume per foot in `cases/volume-per-foot.toml`.
///
/// ```
/// # use calc::geometry::circle_area;
/// # use quantity::Length;
/// let per_foot = circle_area(Length::inches(36.0)).to_square_feet() / 27.0;
/// assert_eq!(format!("{per_foot:.5} yd³ per ft"), "0.26180 yd³ per ft");
/// ```
pub fn circle_area(diameter: Length) -> Area {
    let d = diameter.to_meters();
    Area::square_meters(PI * d * d / 4.0)
}

/// Volume of a truncated cone, a cylinder when both diameters are equal.
///
/// `V = π h (D² + D d + d²) / 12`, the same as `π h (R² + R r + r²) / 3`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `D`, `d` | `diameters` | the two end diameters, in any order |
/// | `h` | `height` | distance between the ends |
///
/// **Valid for** a straight cone.
///
/// **Errors** when a diameter is not positive or the height is negative.
///
/// **Source**: solid geometry [GEOMETRY]; checked against the bell of [FHWA-INSPECTOR].
///
/// ```
/// # use calc::geometry::frustum_volume;
/// # use quantity::Length;
/// let bell = frustum_volume([Length::feet(3.0), Length::feet(9.0)], Length::feet(5.0))?;
/// assert_eq!(format!("{:.2} ft³", bell.to_cubic_feet()), "153.15 ft³");
/// # Ok::<(), calc::geometry::GeometryError>(())
/// ```
pub fn frustum_volume(diameters: [Length; 2], height: Length) -> Result<Volume, GeometryError> {
    if let Some(&given) = diameters.iter().find(|diameter| **diameter <= Length::ZERO) {
        return Err(GeometryError::Diameter { given });
    }
    if height < Length::ZERO {
        return Err(GeometryError::Height { given: height });
    }
    let [one, other] = diameters.map(Length::to_meters);
    Ok(Volume::cubic_meters(frustum_m3(one, other, height.to_meters())))
}

/// As [`frustum_volume`], in bare metres and without checks.
pub(crate) fn frustum_m3(one_m: f64, other_m: f64, height_m: f64) -> f64 {
    PI * height_m * (one_m * one_m + one_m * other_m + other_m * other_m) / 12.0
}

/// Diameter of the cylinder that holds a volume in a length: what the concrete says about the hole.
///
/// `D = √(4 V / (π L))`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `V` | `volume` | gross volume: add what bars and tubes displace |
/// | `L` | `length` | length along the shaft |
///
/// **Valid for** any length; a short one carries a large error, see `curve`.
///
/// **Errors** when volume or length is not greater than zero.
///
/// **Source**: solid geometry [GEOMETRY]. The federal form prints `√(4950 V/L)` in inches, yards and feet
/// and `√(1.273 V/L)` in metres [FHWA-CONVOL]; the constants here are not rounded (4950.355, 1.27324).
///
/// ```
/// # use calc::geometry::equivalent_diameter;
/// # use quantity::{Length, Volume};
/// let socket = equivalent_diameter(Volume::cubic_yards(9.1660), Length::feet(15.0))?;
/// assert_eq!(format!("{:.2} in", socket.to_inches()), "55.00 in");
/// # Ok::<(), calc::geometry::GeometryError>(())
/// ```
pub fn equivalent_diameter(volume: Volume, length: Length) -> Result<Length, GeometryError> {
    let cubic_meters = volume.to_cubic_meters();
    if cubic_meters <= 0.0 {
        return Err(GeometryError::Volume { given: volume });
    }
    if length <= Length::ZERO {
        return Err(GeometryError::Height { given: length });
    }
    Ok(Length::meters((4.0 * cubic_meters / (PI * length.to_meters())).sqrt()))
}

/// Volume that steel of a total cross-section takes up over a length.
///
/// `V = A L`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `A` | `area` | cross-section of all bars and tubes together |
/// | `L` | `length` | length along the shaft |
///
/// **Valid for** steel that runs along the whole length.
///
/// **Errors** none.
///
/// **Source**: [FHWA-CONVOL] prints `A L / 3888` in yd³ for in² and ft; 3888 = 144 · 27 is exact.
///
/// ```
/// # use calc::geometry::steel_volume;
/// # use quantity::{Area, Length};
/// let bars = steel_volume(Area::square_inches(18.72), Length::feet(15.0));
/// assert_eq!(format!("{:.4} yd³", bars.to_cubic_yards()), "0.0722 yd³");
/// ```
pub fn steel_volume(area: Area, length: Length) -> Volume {
    Volume::cubic_meters(area.to_square_meters() * length.to_meters())
}
