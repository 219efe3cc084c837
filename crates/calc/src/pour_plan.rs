//! Whether the trucks, the pour and the casing fit into the life of the concrete.
//!
//! One late truck can eat the spare minutes of a whole pour. The plan adds up what the first batch has to
//! live through, and how many trucks keep the concrete coming.
//!
//! Words: *interval* = from the start of one discharge to the start of the next; *haul* = from batching to
//! the start of discharge.
//! Never: judge the plan.

use quantity::Span;

/// A planned pour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PourPlan {
    /// How many loads.
    pub loads: u32,
    /// From the start of one discharge to the start of the next.
    pub interval: Span,
    /// How long one load takes to discharge.
    pub discharge: Span,
    /// From batching to the start of discharge of the first load.
    pub haul: Span,
    /// From the last concrete to the casing out and the inserts in.
    pub finish: Span,
}

/// The round of one truck.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TruckRound {
    /// Loading at the plant.
    pub load: Span,
    /// Plant to site.
    pub haul: Span,
    /// Getting to the hopper.
    pub position: Span,
    /// Discharging.
    pub discharge: Span,
    /// Washing down.
    pub wash: Span,
    /// Site to plant.
    pub back: Span,
}

/// Why a plan has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlanError {
    /// A pour needs a load.
    NoLoad,
    /// A time below zero.
    NegativeTime,
    /// A truck that takes no time at the hopper.
    NoTimeAtHopper,
}

impl std::fmt::Display for PlanError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            PlanError::NoLoad => write!(f, "a pour needs at least one load"),
            PlanError::NegativeTime => write!(f, "a planned time is below zero"),
            PlanError::NoTimeAtHopper => write!(f, "a truck takes no time at the hopper"),
        }
    }
}

impl std::error::Error for PlanError {}

impl PourPlan {
    /// Age of the first batch when the casing is out and the inserts are in.
    ///
    /// `age = haul + (n − 1) · interval + discharge + finish`
    ///
    /// **Valid for** loads that keep their interval and concrete that may stay in the shaft to the end.
    ///
    /// **Errors** without a load or with a time below zero.
    ///
    /// **Source**: sum of times; 8 loads worked by hand.
    ///
    /// ```
    /// use calc::pour_plan::PourPlan;
    /// use quantity::Span;
    /// let plan = PourPlan {
    ///     loads: 8,
    ///     interval: Span::minutes(20.0),
    ///     discharge: Span::minutes(15.0),
    ///     haul: Span::minutes(45.0),
    ///     finish: Span::minutes(30.0),
    /// };
    /// assert_eq!(plan.oldest_age_at_end().unwrap().to_minutes(), 230.0);
    /// ```
    pub fn oldest_age_at_end(&self) -> Result<Span, PlanError> {
        let later = self.loads.checked_sub(1).ok_or(PlanError::NoLoad)?;
        let times = [self.interval, self.discharge, self.haul, self.finish];
        let [interval, discharge, haul, finish] = seconds(times)?;
        Ok(Span::seconds(haul + f64::from(later) * interval + discharge + finish))
    }
}

impl TruckRound {
    /// How long one round takes.
    ///
    /// **Errors** with a time below zero.
    ///
    /// **Source**: sum of times.
    pub fn cycle(&self) -> Result<Span, PlanError> {
        let times = [self.load, self.haul, self.position, self.discharge, self.wash, self.back];
        Ok(Span::seconds(seconds(times)?.iter().sum()))
    }

    /// How many trucks keep the hopper busy.
    ///
    /// `N = ⌈cycle / (position + discharge)⌉`
    ///
    /// **Valid for** one hopper and trucks that keep their times.
    ///
    /// **Errors** when a truck takes no time at the hopper.
    ///
    /// **Source**: flow of a closed loop; 89 min over 19 min worked by hand.
    ///
    /// ```
    /// # use calc::pour_plan::TruckRound;
    /// # use quantity::Span;
    /// # let [load, haul, position] = [10.0, 30.0, 3.0].map(Span::minutes);
    /// # let [discharge, wash, back] = [16.0, 5.0, 25.0].map(Span::minutes);
    /// let round = TruckRound { load, haul, position, discharge, wash, back };
    /// assert_eq!((round.cycle()?.to_minutes(), round.trucks_needed()?), (89.0, 5));
    /// # Ok::<(), calc::pour_plan::PlanError>(())
    /// ```
    pub fn trucks_needed(&self) -> Result<u32, PlanError> {
        let cycle = self.cycle()?.to_seconds();
        let at_hopper = self.position.to_seconds() + self.discharge.to_seconds();
        if at_hopper <= 0.0 {
            return Err(PlanError::NoTimeAtHopper);
        }
        Ok(libm::ceil(cycle / at_hopper) as u32)
    }
}

fn seconds<const N: usize>(times: [Span; N]) -> Result<[f64; N], PlanError> {
    if times.iter().any(|time| time.to_seconds() < 0.0) {
        return Err(PlanError::NegativeTime);
    }
    Ok(times.map(Span::to_seconds))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_age(loads: u32, interval: f64, expected: &str) {
        let [discharge, haul, finish] = [15.0, 45.0, 30.0].map(Span::minutes);
        let plan = PourPlan { loads, interval: Span::minutes(interval), discharge, haul, finish };
        let got = match plan.oldest_age_at_end() {
            Ok(age) => format!("{:.0} min", age.to_minutes()),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    #[test]
    fn age_of_the_first_batch_at_the_end() {
        // 45 + 7 × 20 + 15 + 30.
        check_age(8, 20.0, "230 min");
        check_age(1, 20.0, "90 min");
        check_age(0, 20.0, "a pour needs at least one load");
        check_age(8, -1.0, "a planned time is below zero");
    }

    #[test]
    fn trucks_that_keep_the_hopper_busy() {
        let [load, haul, position, discharge, wash, back] =
            [10.0, 30.0, 3.0, 16.0, 5.0, 25.0].map(Span::minutes);
        let round = TruckRound { load, haul, position, discharge, wash, back };
        // 10 + 30 + 3 + 16 + 5 + 25 = 89 min; 89 / 19 = 4.68.
        assert_eq!(round.cycle().unwrap().to_minutes(), 89.0);
        assert_eq!(round.trucks_needed(), Ok(5));
        let [position, discharge] = [Span::minutes(0.0); 2];
        let no_time = TruckRound { position, discharge, ..round };
        assert_eq!(no_time.trucks_needed(), Err(PlanError::NoTimeAtHopper));
    }
}
