//! The tremie or pump line: where its tip is, how deep it is buried, how far it may come up.
//!
//! Once the tip leaves the concrete, concrete falls through fluid and the shaft holds a layer of mud
//! for ever. Nobody sees it happen; the arithmetic before each lift is the only warning there is.
//!
//! Words: *string* = the pipes in the hole, joined; *tip* = its open lower end; *embedment* = how far
//! the tip lies below the concrete surface; *breach* = an embedment of zero or less once concrete flows.
//! Units: elevations above the datum; an embedment is negative when the tip hangs free.
//! Never: clamp an embedment at zero; say how much embedment is enough.

mod first_charge;
mod history;

pub use first_charge::{FirstCharge, Start, TremieError, balance_height, balance_level, first_charge};
pub use history::{Buried, Happened, Step, embedment_history, first_breach};

use quantity::{Elevation, Length, Volume};

use crate::estimate::{Estimate, Level};
use crate::geometry::{Bore, GeometryError};

/// The pipes in the hole.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeString {
    /// Lengths of the pipes as they add to the string, from the tip up.
    pub pipes: Vec<Length>,
    /// Elevation of the upper end of the top pipe.
    pub top: Elevation,
}

/// What can be taken off the top of the string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Removal {
    /// How many pipes.
    pub pipes: usize,
    /// Their length together, by which the tip rises.
    pub lift: Length,
    /// Embedment once they are off and the string hangs from the same point.
    pub embedment: Estimate<Length>,
}

impl PipeString {
    /// Length of the whole string.
    pub fn length(&self) -> Length {
        self.pipes.iter().copied().sum()
    }

    /// Elevation of the tip: the top less the lengths of all pipes.
    pub fn tip(&self) -> Elevation {
        Elevation(self.top.0 - self.length())
    }

    /// How far the tip hangs above the base; negative when the tally says it lies below.
    pub fn off_bottom(&self, base: Elevation) -> Length {
        self.tip().above(base)
    }

    /// The string without its top pipes, hung from the same elevation; `None` if there are not as many.
    pub fn without(&self, pipes: usize) -> Option<PipeString> {
        let kept = self.pipes.len().checked_sub(pipes)?;
        Some(PipeString { pipes: self.pipes[..kept].to_vec(), top: self.top })
    }
}

/// How deep a tip is buried.
///
/// `e = surface − tip`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | – | `tip` | elevation of the tip, taken as known from the tally |
/// | – | `concrete` | the lowest level of the concrete surface |
///
/// **Valid for** a counted string; a hung joint or a wrong tally does not show here.
///
/// **Errors** none: zero or less is a breach once concrete flows, and is returned as it is.
///
/// **Source**: definition.
///
/// ```
/// # use calc::estimate::Estimate;
/// # use calc::tremie::embedment;
/// # use quantity::{Elevation, Length};
/// let at = |feet| Elevation(Length::feet(feet));
/// let buried = embedment(at(-53.0), Estimate::new(at(-30.0), Length::feet(0.1)));
/// assert_eq!(buried, Estimate::new(Length::feet(23.0), Length::feet(0.1)));
/// ```
pub fn embedment(tip: Elevation, concrete: Level) -> Estimate<Length> {
    Estimate::new(concrete.value.above(tip), concrete.standard_error)
}

/// How far the tip may rise before the embedment falls to what is required.
///
/// `lift = e − r`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `e` | `embedment` | embedment at this moment |
/// | `r` | `required` | embedment that has to remain |
///
/// **Valid for** a surface that stays; pulling a casing lowers it, see `casing`.
///
/// **Errors** none: negative when the tip is already too high, by that much.
///
/// **Source**: definition.
///
/// ```
/// # use calc::estimate::Estimate;
/// # use calc::tremie::highest_safe_lift;
/// # use quantity::Length;
/// let buried = Estimate::new(Length::feet(23.0), Length::feet(0.1));
/// assert_eq!(highest_safe_lift(buried, Length::feet(10.0)).value, Length::feet(13.0));
/// ```
pub fn highest_safe_lift(embedment: Estimate<Length>, required: Length) -> Estimate<Length> {
    Estimate::new(embedment.value - required, embedment.standard_error)
}

/// Embedment after some pipes are taken off the top and the string hangs from the same point.
///
/// **Errors**: `None` when the string has not as many pipes.
pub fn embedment_without(string: &PipeString, pipes: usize, concrete: Level) -> Option<Estimate<Length>> {
    Some(embedment(string.without(pipes)?.tip(), concrete))
}

/// The most pipes that can come off with the required embedment kept; at least one pipe stays.
///
/// `e(n) = surface − (tip + Σ lengths of the top n pipes) ≥ r`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `n` | – | number of pipes, counted from the top |
/// | `r` | `required` | embedment that has to remain |
///
/// **Valid for** a string that hangs from the same point afterwards.
///
/// **Errors** none: no pipe may come off is an answer, with the embedment as it is.
///
/// **Source**: definition.
///
/// ```
/// # use calc::estimate::Level;
/// # use calc::tremie::{PipeString, removable};
/// # use quantity::{Elevation, Length};
/// let at = |feet| Elevation(Length::feet(feet));
/// let string = PipeString { pipes: [10.0, 10.0, 10.0, 10.0, 10.0, 5.0].map(Length::feet).to_vec(), top: at(2.0) };
/// let removal = removable(&string, Level::known(at(-30.0)), Length::feet(10.0));
/// assert_eq!((removal.pipes, removal.embedment.value), (1, Length::feet(18.0)));
/// ```
pub fn removable(string: &PipeString, concrete: Level, required: Length) -> Removal {
    let keeps = |pipes: &usize| {
        embedment_without(string, *pipes, concrete).is_some_and(|left| left.value >= required)
    };
    let pipes = (1..string.pipes.len()).take_while(keeps).last().unwrap_or(0);
    let lift = string.pipes[string.pipes.len() - pipes..].iter().copied().sum();
    Removal { pipes, lift, embedment: embedment(Elevation(string.tip().0 + lift), concrete) }
}

/// The surface after another load.
///
/// `V(level after) = V(level) + load / R`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `V` | `bore` | volume below a level |
/// | – | `concrete` | the surface before |
/// | – | `load` | what will be placed |
/// | `R` | `ratio` | what this shaft takes per theoretical volume, 1 when it is not known |
///
/// **Valid for** a hole above like the hole below. The error holds those of the surface and the ratio.
///
/// **Errors** when the surface lies outside the hole, the load is negative, the ratio is not greater
/// than zero, or the load does not fit.
///
/// **Source**: solid geometry [GEOMETRY], error propagation [GUM].
///
/// ```
/// # use calc::estimate::{Estimate, Level};
/// # use calc::geometry::Bore;
/// # use calc::tremie::surface_after_load;
/// # use quantity::{Elevation, Length, Volume};
/// let at = |feet| Elevation(Length::feet(feet));
/// let shaft = Bore::cylinder(Length::feet(4.0), at(0.0), at(-60.0))?;
/// let load = Volume::cubic_yards(9.0);
/// let after = surface_after_load(&shaft, Level::known(at(-42.6)), load, Estimate::new(1.10, 0.05))?;
/// assert_eq!(format!("{:.1} ± {:.1} ft", after.value.0.to_feet(), after.standard_error.to_feet()), "-25.0 ± 0.8 ft");
/// # Ok::<(), calc::geometry::GeometryError>(())
/// ```
pub fn surface_after_load(
    bore: &Bore,
    concrete: Level,
    load: Volume,
    ratio: Estimate<f64>,
) -> Result<Level, GeometryError> {
    if load.to_cubic_meters() < 0.0 {
        return Err(GeometryError::Volume { given: load });
    }
    if ratio.value <= 0.0 {
        return Err(GeometryError::Ratio { given: ratio.value });
    }
    let room = load.to_cubic_meters() / ratio.value;
    let before = bore.volume_below(concrete.value)?.to_cubic_meters();
    let after = bore.level_holding(Volume::cubic_meters(before + room))?;
    let area_before = bore.area_at(concrete.value)?.to_square_meters();
    let area_after = bore.area_at(after)?.to_square_meters();
    let parts = [
        concrete.standard_error.to_meters() * area_before / area_after,
        room * ratio.standard_error / ratio.value / area_after,
    ];
    Ok(Estimate::new(after, Length::meters(crate::estimate::in_quadrature(&parts))))
}
