//! What a block has said so far. Depths are below a reference point at elevation zero.

use calc::axis::AxisReading;
use calc::fluid_density::Parts;
use calc::fluid_pressure::Column;
use calc::geometry::{Bore, Casing, Piece, Steel};
use calc::plane::BasePoint;
use calc::profile::Prior;
use calc::slump::SlumpAtAge;
use calc::ticket::Batch;
use quantity::{Density, Depth, Elevation, Entered, Length, Quantity, Reading, Volume};

/// What is on the site of one block.
#[derive(Default)]
pub(crate) struct Site {
    pub(crate) pieces: Vec<Piece>,
    pub(crate) steel: Vec<Steel>,
    pub(crate) casing: Option<Casing>,
    pub(crate) tape_error: Length,
    pub(crate) load_error: f64,
    pub(crate) shared_error: f64,
    /// Load, depth sounded after it, held in the lines.
    pub(crate) loads: Vec<(Volume, Elevation, Volume)>,
    pub(crate) pipe: Option<(Length, Elevation)>,
    pub(crate) fluid: Option<(Density, Elevation)>,
    pub(crate) concrete: Option<Density>,
    pub(crate) surface: Option<Elevation>,
    pub(crate) parts: Option<Parts>,
    pub(crate) groundwater: Option<Column>,
    pub(crate) trial: Vec<SlumpAtAge>,
    /// The slump tests of each load.
    pub(crate) tests: Vec<Vec<SlumpAtAge>>,
    pub(crate) slump_error: Length,
    pub(crate) load_spread: Length,
    pub(crate) batch: Option<Batch>,
    pub(crate) base_diameter: Length,
    pub(crate) base: Vec<BasePoint>,
    /// Outside diameter of the cage and diameter of its ties.
    pub(crate) cage: Option<(Length, Length)>,
    pub(crate) axis: Vec<AxisReading>,
    /// What a shaft is taken to be like; the usual prior when none is told.
    pub(crate) prior: Option<Prior>,
    pub(crate) boundaries: Vec<Elevation>,
    /// What was said of an order and of the day.
    pub(crate) asked: super::order::Asked,
}

impl Site {
    /// The hole as drilled, with its steel.
    pub(crate) fn drilled(&self) -> Result<Bore, String> {
        let bore = Bore::new(self.pieces.clone()).and_then(|bore| bore.with_steel(self.steel.clone()));
        bore.map_err(|error| error.to_string())
    }

    /// The hole with its casing, if one stands.
    pub(crate) fn bore(&self) -> Result<Bore, String> {
        let casings: Vec<Casing> = self.casing.into_iter().collect();
        self.drilled()?.with_standing(&casings).map_err(|error| error.to_string())
    }
}

/// A quantity from its two words.
pub(crate) fn quantity<Q: Quantity>(number: &str, unit: &str) -> Result<Q, String> {
    let text = format!("{number} {unit}");
    let entered = Entered::<Q>::parse(&text, Reading::default());
    entered.map(|entered| entered.value()).map_err(|_| format!("not read: {text}"))
}

/// A level from the two words of its depth.
pub(crate) fn level(number: &str, unit: &str) -> Result<Elevation, String> {
    Ok(Elevation::of_depth(Elevation(Length::ZERO), quantity::<Depth>(number, unit)?))
}
