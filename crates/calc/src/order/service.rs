//! How much to order so that it is enough as often as was asked for.
//!
//! The last truck is a bet: too little stops the pour an hour before the end, too much is washed out on the
//! road. With the distribution of what the hole will take still, the bet has a price: how probable it is to run
//! short, and how much will probably be left over.
//!
//! Words: *service level* = the probability that the order is enough; *short* = more is needed than comes;
//! *left over* = what comes and is not needed.
//! Units: cubic metres inside.
//! Never: round down to a truck; call an order safe without its probability.

use super::{OrderError, Trucks};
use crate::chance::normal_density;
use crate::estimate::Estimate;
use crate::mixture::{Mixture, Part, standard_normal_cdf};
use quantity::{Fraction, Volume};

/// What is needed from now on, in concrete as the tickets tell it.
#[derive(Debug, Clone, PartialEq)]
pub struct Need<'a> {
    /// What the hole takes up to its final level, in cubic metres.
    pub hole: &'a Mixture,
    /// What is let run over until good concrete shows.
    pub over_pour: Estimate<Volume>,
    /// What stays in the lines and trucks at the end, or is wasted, less what stands in the line by now and
    /// will still go in.
    pub lines: Estimate<Volume>,
    /// What is on its way or ordered by now, and not in the hole.
    pub on_the_way: Volume,
    /// Standard error of what comes over what the tickets say, the same for every load of the day.
    pub yield_error: Fraction,
}

/// What becomes of an order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// Probability that it is not enough.
    pub short: f64,
    /// What is missing on average, over all days, short or not.
    pub missing: Volume,
    /// What is left over on average, over all days.
    pub left_over: Volume,
}

/// An order in trucks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Order {
    /// How much.
    pub volume: Volume,
    /// In how many full trucks.
    pub full_loads: u32,
    /// And one more with so much, if it is not zero.
    pub part_load: Volume,
    /// What becomes of it.
    pub outcome: Outcome,
}

/// An order that is longer than this many steps is no last order.
const MOST_STEPS: u32 = 10_000;

impl Need<'_> {
    /// What becomes of an order of so much.
    ///
    /// `P(short) = Σ w Φ(a)`, `left over = Σ w σ (φ(a) − a Φ(−a))`, `missing = Σ w σ (φ(a) + a Φ(a))`,
    /// `a = (μ − q) / σ`, `q = order + on the way`, `σ² = s² + so² + sl² + (q e)²`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `w`, `μ`, `s` | `hole` | each part of the mixture, its mean with over-pour and lines added |
    /// | `so`, `sl` | `over_pour`, `lines` | their standard errors |
    /// | `e` | `yield_error` | of what comes |
    ///
    /// **Valid for** a hole, an over-pour, lines and a plant that err independently of each other.
    ///
    /// **Errors** when an error or the order is below zero.
    ///
    /// **Source**: loss function of the normal distribution, computed; checked against `scipy`.
    pub fn with(&self, order: Volume) -> Result<Outcome, OrderError> {
        let (added, variance) = self.beside_the_hole()?;
        let comes = order.to_cubic_meters() + self.on_the_way.to_cubic_meters();
        if order.to_cubic_meters() < 0.0 || self.on_the_way.to_cubic_meters() < 0.0 {
            return Err(OrderError::Negative);
        }
        let of_yield = comes * self.yield_error.to_part();
        let mut sums = [0.0; 3];
        for part in self.hole.parts() {
            let spread = (part.sd * part.sd + variance + of_yield * of_yield).sqrt();
            let each = losses(part.mean + added - comes, spread);
            sums.iter_mut().zip(each).for_each(|(sum, one)| *sum += part.weight * one);
        }
        let [short, missing, left_over] = sums;
        let [missing, left_over] = [missing, left_over].map(|volume| Volume::cubic_meters(volume.max(0.0)));
        Ok(Outcome { short, missing, left_over })
    }

    /// The least order that is enough at a service level.
    ///
    /// `q = min { k · step : P(short) ≤ 1 − level }`
    ///
    /// **Valid for** levels between 0 and 1, both excluded; nothing is ordered when what is on its way does.
    ///
    /// **Errors** when the level is no probability, a truck or step is not greater than zero, an error is below
    /// zero, or no order is enough because what comes is too uncertain.
    ///
    /// **Source**: search from nothing up, step by step.
    ///
    /// ```
    /// # use calc::{estimate::Estimate, mixture::Mixture, order::{Need, Trucks}};
    /// # use quantity::{Fraction, Volume};
    /// let yards = Volume::cubic_yards;
    /// let known = |volume| Estimate::new(yards(volume), yards(0.0));
    /// let hole = Mixture::normal(yards(11.0).to_cubic_meters(), yards(0.8).to_cubic_meters())?;
    /// let need = Need {
    ///     hole: &hole,
    ///     over_pour: known(0.6),
    ///     lines: known(0.4),
    ///     on_the_way: yards(9.0),
    ///     yield_error: Fraction::percent(0.0),
    /// };
    /// let trucks = Trucks { full: yards(9.0), step: yards(0.5) };
    /// // 12.0 + 1.645 · 0.8 = 13.32 yd³ are needed at 95 %; 9 are on their way, 4.32 more in half yards are 4.5.
    /// let order = need.order(&trucks, 0.95)?;
    /// assert_eq!(format!("{:.1} yd³", order.volume.to_cubic_yards()), "4.5 yd³");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn order(&self, trucks: &Trucks, level: f64) -> Result<Order, OrderError> {
        if !(level > 0.0 && level < 1.0) {
            return Err(OrderError::Level);
        }
        trucks.check()?;
        let step = trucks.step.to_cubic_meters();
        for steps in 0..=MOST_STEPS {
            let volume = Volume::cubic_meters(step * f64::from(steps));
            let outcome = self.with(volume)?;
            if outcome.short <= 1.0 - level {
                let (full_loads, part_load) = trucks.loads(steps);
                return Ok(Order { volume, full_loads, part_load, outcome });
            }
        }
        Err(OrderError::NeverEnough)
    }

    /// Volume and variance of what goes elsewhere than into the hole.
    fn beside_the_hole(&self) -> Result<(f64, f64), OrderError> {
        let errors = [self.over_pour.standard_error, self.lines.standard_error].map(Volume::to_cubic_meters);
        if errors.iter().any(|error| *error < 0.0) || self.yield_error.to_part() < 0.0 {
            return Err(OrderError::Negative);
        }
        let added = self.over_pour.value.to_cubic_meters() + self.lines.value.to_cubic_meters();
        Ok((added, errors.iter().map(|error| error * error).sum()))
    }
}

/// Probability that a normal figure is above zero, its mean above zero and its mean below zero.
fn losses(mean: f64, spread: f64) -> [f64; 3] {
    if spread == 0.0 {
        return [f64::from(u8::from(mean > 0.0)), mean.max(0.0), (-mean).max(0.0)];
    }
    let a = mean / spread;
    let (above, below, density) = (standard_normal_cdf(a), standard_normal_cdf(-a), normal_density(a));
    [above, spread * (density + a * above), spread * (density - a * below)]
}

impl super::ToOrder {
    /// This shaft's own ratio as a distribution, for [`Need::hole`]; cubic metres.
    ///
    /// **Errors** when the estimate is not finite.
    ///
    /// **Source**: the estimate taken as normal.
    pub fn distribution(&self) -> Result<Mixture, OrderError> {
        let (mean, sd) = (self.volume.value.to_cubic_meters(), self.volume.standard_error.to_cubic_meters());
        Mixture::new(vec![Part { weight: 1.0, mean, sd }]).map_err(OrderError::Mixture)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn yards(value: f64) -> Volume {
        Volume::cubic_yards(value)
    }

    fn known(value: f64) -> Estimate<Volume> {
        Estimate::new(yards(value), yards(0.0))
    }

    fn hole(parts: &[(f64, f64, f64)]) -> Mixture {
        let cubic = |value: f64| yards(value).to_cubic_meters();
        let part = |&(weight, mean, sd): &(f64, f64, f64)| Part { weight, mean: cubic(mean), sd: cubic(sd) };
        Mixture::new(parts.iter().map(part).collect()).expect("a mixture")
    }

    fn need(hole: &Mixture) -> Need<'_> {
        let nothing = known(0.0);
        Need {
            hole,
            over_pour: nothing,
            lines: nothing,
            on_the_way: yards(0.0),
            yield_error: Fraction::part(0.0),
        }
    }

    const TRUCKS: fn() -> Trucks = || Trucks { full: yards(9.0), step: yards(0.5) };

    fn told(order: &Order) -> String {
        format!(
            "{} full + {:.1}, short {:.2} %, left over {:.2}, missing {:.3} yd³",
            order.full_loads,
            order.part_load.to_cubic_yards(),
            order.outcome.short * 100.0,
            order.outcome.left_over.to_cubic_yards(),
            order.outcome.missing.to_cubic_yards()
        )
    }

    #[track_caller]
    fn check(need: &Need<'_>, level: f64, expected: &str) {
        assert_eq!(
            need.order(&TRUCKS(), level).map_or_else(|error| error.to_string(), |order| told(&order)),
            expected
        );
    }

    /// By hand for 95 %: 20 + 1.645 = 21.645, so 22.0: a = −2, Φ(−2) = 2.275 %, left over
    /// φ(2) + 2 Φ(2) = 0.05399 + 1.95450 = 2.0085, missing 0.0085.
    #[test]
    fn three_levels_of_one_hole() {
        let hole = hole(&[(1.0, 20.0, 1.0)]);
        check(&need(&hole), 0.90, "2 full + 3.5, short 6.68 %, left over 1.53, missing 0.029 yd³");
        check(&need(&hole), 0.95, "2 full + 4.0, short 2.28 %, left over 2.01, missing 0.008 yd³");
        check(&need(&hole), 0.99, "2 full + 4.5, short 0.62 %, left over 2.50, missing 0.002 yd³");
    }

    /// A hole that is known: exactly enough is enough, and a hair less is not.
    #[test]
    fn nothing_is_left_over_where_everything_is_known() {
        let sure = hole(&[(1.0, 18.0, 0.0)]);
        check(&need(&sure), 0.99, "2 full + 0.0, short 0.00 %, left over 0.00, missing 0.000 yd³");
        let more = hole(&[(1.0, 18.01, 0.0)]);
        check(&need(&more), 0.90, "2 full + 0.5, short 0.00 %, left over 0.49, missing 0.000 yd³");
        let covered = Need { on_the_way: yards(20.0), ..need(&sure) };
        check(&covered, 0.99, "0 full + 0.0, short 0.00 %, left over 2.00, missing 0.000 yd³");
    }

    /// One hole in ten has a cavity of 4 yd³ more; 90 % do without it, 95 % do not.
    #[test]
    fn a_cavity_is_paid_for_at_the_higher_level() {
        let maybe = hole(&[(0.9, 20.0, 0.3), (0.1, 24.0, 0.3)]);
        let volume = |level| need(&maybe).order(&TRUCKS(), level).expect("an order").volume.to_cubic_yards();
        assert_eq!([0.85, 0.95].map(|level| format!("{:.1}", volume(level))), ["20.5", "24.0"]);
    }

    /// 3-4-5: 1.2 of the hole, 0.9 of lines and over-pour together, and of 40 yd³ that come 5 % is 2.0:
    /// √(1.44 + 0.81 + 4) = 2.5.
    #[test]
    fn every_error_counts() {
        let hole = hole(&[(1.0, 35.0, 1.2)]);
        let need = Need {
            over_pour: Estimate::new(yards(1.5), yards(0.9)),
            lines: known(1.0),
            on_the_way: yards(30.0),
            yield_error: Fraction::percent(5.0),
            ..need(&hole)
        };
        let outcome = need.with(yards(10.0)).expect("an outcome");
        // a = (37.5 − 40) / 2.5 = −1.
        assert_eq!(format!("{:.4}", outcome.short), "0.1587");
        assert_eq!(format!("{:.4}", outcome.left_over.to_cubic_yards() / 2.5), "1.0833");
    }

    #[test]
    fn what_cannot_be_ordered_is_said() {
        let hole = hole(&[(1.0, 20.0, 1.0)]);
        check(&need(&hole), 1.0, "a service level lies between 0 and 1");
        let wild = Need { yield_error: Fraction::percent(200.0), ..need(&hole) };
        check(&wild, 0.99, "what comes is too uncertain for any order to be enough");
        let odd = Need { lines: Estimate::new(yards(1.0), yards(-0.1)), ..need(&hole) };
        check(&odd, 0.9, "an ordered volume or an error is below zero");
        let flat = Trucks { full: yards(9.0), step: yards(0.0) };
        let refused = need(&hole).order(&flat, 0.9).expect_err("no step");
        assert_eq!(refused.to_string(), "a truck and the step of a part load are greater than zero");
    }
}
