//! What a delivery ticket says once it is added up: water over cement, water still allowed, yield.
//!
//! Water that comes in wet sand or from the truck's tank counts like water from the scale. Each addition on
//! the site moves the ratio, and the ratio is what the strength follows.
//!
//! Words: *cementitious* = cement and what counts as cement; *moisture* = all water in an aggregate over its
//! dry mass; *absorption* = the part of it the grains keep; *yield* = volume that a batch really is.
//! Units: masses of the whole load; SI inside.
//! Never: know the limit of a mix.

use quantity::{Density, Fraction, Mass, Volume, WaterCement};

/// Mass of a volume of mixing water, kg/m³, that is 8.345 lb/gal. [COMMON-PRACTICE].
const WATER_KG_PER_CUBIC_METER: f64 = 1000.0;

/// One aggregate as it was weighed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aggregate {
    /// On the scale, wet.
    pub batched: Mass,
    /// All its water over its dry mass.
    pub moisture: Fraction,
    /// The water its grains keep, over its dry mass.
    pub absorption: Fraction,
}

/// The water and the cement of one load.
#[derive(Debug, Clone, PartialEq)]
pub struct Batch {
    /// Cement, fly ash, slag and what else counts.
    pub cementitious: Mass,
    /// Water weighed or metered at the plant, with ice and the water in admixtures.
    pub plant_water: Mass,
    /// The aggregates; empty when the plant water already holds their share.
    pub aggregates: Vec<Aggregate>,
    /// Water added since, on the way or on the site.
    pub added_water: Mass,
}

/// The yield of a batch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Yield {
    /// What the batch is.
    pub volume: Volume,
    /// Its standard error from the scatter of the unit weights; `None` for a single one.
    pub standard_error: Option<Volume>,
    /// Mean of the unit weights.
    pub unit_weight: Density,
}

/// Why a ticket cannot be added up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TicketError {
    /// The cementitious mass is not greater than zero.
    Cementitious {
        /// As given.
        given: Mass,
    },
    /// A mass below zero.
    NegativeMass {
        /// As given.
        given: Mass,
    },
    /// A moisture or an absorption below zero.
    NegativeShare {
        /// As given.
        given: Fraction,
    },
    /// No unit weight was measured.
    NoUnitWeight,
    /// A unit weight, a mass or a volume that is not greater than zero.
    NotPositive,
}

impl std::fmt::Display for TicketError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            TicketError::Cementitious { .. } => write!(f, "the cementitious mass is not greater than zero"),
            TicketError::NegativeMass { .. } => write!(f, "a mass is below zero"),
            TicketError::NegativeShare { .. } => write!(f, "a moisture or an absorption is below zero"),
            TicketError::NoUnitWeight => write!(f, "no unit weight was measured"),
            TicketError::NotPositive => write!(f, "a unit weight, mass or volume is not greater than zero"),
        }
    }
}

impl std::error::Error for TicketError {}

/// Mass of a volume of water that was added.
///
/// **Source**: [COMMON-PRACTICE]: 8.345 lb/gal.
///
/// ```
/// # use calc::ticket::mass_of_water;
/// # use quantity::Volume;
/// assert_eq!(format!("{:.1} lb", mass_of_water(Volume::gallons(5.0)).to_pounds()), "41.7 lb");
/// ```
pub fn mass_of_water(volume: Volume) -> Mass {
    Mass::kilograms(volume.to_cubic_meters() * WATER_KG_PER_CUBIC_METER)
}

/// Volume of a mass of water that may be added.
///
/// **Source**: as [`mass_of_water`].
pub fn volume_of_water(mass: Mass) -> Volume {
    Volume::cubic_meters(mass.to_kilograms() / WATER_KG_PER_CUBIC_METER)
}

/// Water an aggregate gives to the mix; negative when its grains are dry enough to take some.
///
/// `w = m (M − A) / (1 + M)`
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `m` | `batched` | mass on the scale, wet |
/// | `M` | `moisture` | all water over dry mass |
/// | `A` | `absorption` | water kept by the grains over dry mass |
///
/// **Errors** with a mass or a share below zero.
///
/// **Source**: [ACI-211], free moisture of aggregates.
///
/// ```
/// # use calc::ticket::{Aggregate, free_water};
/// # use quantity::{Fraction, Mass};
/// let sand = Aggregate {
///     batched: Mass::pounds(1300.0),
///     moisture: Fraction::percent(5.0),
///     absorption: Fraction::percent(1.0),
/// };
/// assert_eq!(format!("{:.1} lb", free_water(sand)?.to_pounds()), "49.5 lb");
/// # Ok::<(), calc::ticket::TicketError>(())
/// ```
pub fn free_water(aggregate: Aggregate) -> Result<Mass, TicketError> {
    let batched = not_negative(aggregate.batched)?;
    let (moisture, absorption) = (share(aggregate.moisture)?, share(aggregate.absorption)?);
    Ok(Mass::kilograms(batched * (moisture - absorption) / (1.0 + moisture)))
}

impl Batch {
    /// All water that counts: plant, free water of the aggregates, added.
    ///
    /// **Errors** with a mass or a share below zero.
    ///
    /// **Source**: sum of masses.
    pub fn water(&self) -> Result<Mass, TicketError> {
        let mut total = not_negative(self.plant_water)? + not_negative(self.added_water)?;
        for aggregate in &self.aggregates {
            total += free_water(*aggregate)?.to_kilograms();
        }
        Ok(Mass::kilograms(total))
    }

    /// Water over cementitious material, by mass.
    ///
    /// `w/cm = (plant + free + added) / cementitious`
    ///
    /// **Valid for** masses of one and the same load.
    ///
    /// **Errors** when the cementitious mass is not greater than zero or a mass is below zero.
    ///
    /// **Source**: definition, [ACI-211]; 290 lb over 675 lb worked by hand.
    ///
    /// ```
    /// use calc::ticket::Batch;
    /// use quantity::Mass;
    /// let batch = Batch {
    ///     cementitious: Mass::pounds(675.0),
    ///     plant_water: Mass::pounds(290.0),
    ///     aggregates: vec![],
    ///     added_water: Mass::pounds(0.0),
    /// };
    /// assert_eq!(format!("{:.4}", batch.water_cement().unwrap().to_ratio()), "0.4296");
    /// ```
    pub fn water_cement(&self) -> Result<WaterCement, TicketError> {
        Ok(WaterCement::ratio(self.water()?.to_kilograms() / self.cement()?))
    }

    /// Water that may still be added before a ratio is reached; negative when it is already passed.
    ///
    /// `Δ = limit · cementitious − water`
    ///
    /// **Errors** as [`Batch::water_cement`].
    ///
    /// **Source**: [`Batch::water_cement`] turned round.
    ///
    /// ```
    /// # use calc::ticket::Batch;
    /// # use quantity::{Mass, WaterCement};
    /// # let batch = Batch {
    /// #     cementitious: Mass::pounds(6075.0),
    /// #     plant_water: Mass::pounds(2610.0),
    /// #     aggregates: vec![],
    /// #     added_water: Mass::pounds(0.0),
    /// # };
    /// // 9 yd³ with 675 lb of cement and 290 lb of water in each.
    /// let room = batch.water_to_ratio(WaterCement::ratio(0.44))?;
    /// assert_eq!(format!("{:.0} lb", room.to_pounds()), "63 lb");
    /// # Ok::<(), calc::ticket::TicketError>(())
    /// ```
    pub fn water_to_ratio(&self, limit: WaterCement) -> Result<Mass, TicketError> {
        Ok(Mass::kilograms(limit.to_ratio() * self.cement()? - self.water()?.to_kilograms()))
    }

    /// Water that was held back at the plant against the design; negative when more went in.
    ///
    /// `Δ = design · volume − water`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `design` | `design` | mass of water in a volume of the mix as designed |
    /// | `volume` | `volume` | what the ticket says was batched |
    ///
    /// **Errors** when the volume is not greater than zero, and as [`Batch::water`].
    ///
    /// **Source**: difference of masses.
    ///
    /// ```
    /// # use calc::ticket::Batch;
    /// # use quantity::{Density, Mass, Volume};
    /// # let batch = Batch {
    /// #     cementitious: Mass::pounds(6075.0),
    /// #     plant_water: Mass::pounds(2610.0),
    /// #     aggregates: vec![],
    /// #     added_water: Mass::pounds(0.0),
    /// # };
    /// // 300 lb/yd³ designed, 290 batched.
    /// let design = Density::pounds_per_cubic_foot(300.0 / 27.0);
    /// let held_back = batch.water_to_design(design, Volume::cubic_yards(9.0))?;
    /// assert_eq!(format!("{:.0} lb", held_back.to_pounds()), "90 lb");
    /// # Ok::<(), calc::ticket::TicketError>(())
    /// ```
    pub fn water_to_design(&self, design: Density, volume: Volume) -> Result<Mass, TicketError> {
        if volume.to_cubic_meters() <= 0.0 {
            return Err(TicketError::NotPositive);
        }
        let designed = design.to_kilograms_per_cubic_meter() * volume.to_cubic_meters();
        Ok(Mass::kilograms(designed - self.water()?.to_kilograms()))
    }

    fn cement(&self) -> Result<f64, TicketError> {
        let value = self.cementitious.to_kilograms();
        if value > 0.0 { Ok(value) } else { Err(TicketError::Cementitious { given: self.cementitious }) }
    }
}

/// The volume a batch really is.
///
/// `V = m / mean(γ)`; `σV = V · s / (γ √n)`, `s` the sample standard deviation of the unit weights
///
/// | symbol | argument | meaning |
/// |---|---|---|
/// | `m` | `batch` | mass of everything in the load |
/// | `γ` | `unit_weights` | fresh unit weights, best of three loads |
///
/// **Valid for** unit weights of fresh concrete from the same mix.
///
/// **Errors** without a unit weight or when one, or the mass, is not greater than zero.
///
/// **Source**: [NRMCA-CIP-8]; 39 150 lb at 145.0, 144.6 and 145.4 pcf worked by hand.
///
/// ```
/// # use calc::ticket::batch_yield;
/// # use quantity::{Density, Mass};
/// let unit_weights = [146.8, 147.2, 147.0].map(Density::pounds_per_cubic_foot);
/// let real = batch_yield(Mass::pounds(39_150.0), &unit_weights)?;
/// assert_eq!(format!("{:.3} yd³", real.volume.to_cubic_yards()), "9.864 yd³");
/// # Ok::<(), calc::ticket::TicketError>(())
/// ```
pub fn batch_yield(batch: Mass, unit_weights: &[Density]) -> Result<Yield, TicketError> {
    let mass = batch.to_kilograms();
    let weights: Vec<f64> = unit_weights.iter().map(|weight| weight.to_kilograms_per_cubic_meter()).collect();
    if weights.is_empty() {
        return Err(TicketError::NoUnitWeight);
    }
    if mass <= 0.0 || weights.iter().any(|weight| *weight <= 0.0) {
        return Err(TicketError::NotPositive);
    }
    let count = weights.len() as f64;
    let mean = weights.iter().sum::<f64>() / count;
    let squares: f64 = weights.iter().map(|weight| (weight - mean) * (weight - mean)).sum();
    let volume = mass / mean;
    let error_of_mean = || (squares / (count - 1.0) / count).sqrt();
    let standard_error = (weights.len() > 1).then(|| Volume::cubic_meters(volume * error_of_mean() / mean));
    let unit_weight = Density::kilograms_per_cubic_meter(mean);
    Ok(Yield { volume: Volume::cubic_meters(volume), standard_error, unit_weight })
}

/// Yield over the volume on the ticket: 1 when the load is what it says.
///
/// **Errors** when the volume on the ticket is not greater than zero.
///
/// **Source**: definition, [NRMCA-CIP-8].
pub fn relative_yield(real: Yield, ticket: Volume) -> Result<Fraction, TicketError> {
    let ordered = ticket.to_cubic_meters();
    if ordered <= 0.0 {
        return Err(TicketError::NotPositive);
    }
    Ok(Fraction::part(real.volume.to_cubic_meters() / ordered))
}

fn not_negative(given: Mass) -> Result<f64, TicketError> {
    let value = given.to_kilograms();
    if value < 0.0 { Err(TicketError::NegativeMass { given }) } else { Ok(value) }
}

fn share(given: Fraction) -> Result<f64, TicketError> {
    let value = given.to_part();
    if value < 0.0 { Err(TicketError::NegativeShare { given }) } else { Ok(value) }
}

#[cfg(test)]
mod tests;
