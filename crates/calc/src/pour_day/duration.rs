//! How long something takes, as a foreman says it, and what today's own loads have to say about it.
//!
//! "Half an hour, one time in ten longer than forty minutes": two figures that anybody who drives the round
//! can give. They fix a lognormal distribution. It is never below zero, its long side is the longer one, as
//! with trucks, the product of two of them is one again, and a day that is slower than planned is one factor on
//! all its rounds, which today's loads show.
//!
//! Words: *usual* = half of the times it takes less; *slow* = one time in ten it takes longer;
//! *shift* = logarithm of today's factor on the usual time.
//! Units: seconds inside.
//! Never: throw the plan away for one load; the plan counts as some loads of today.

use super::DayError;
use crate::chance::{Draws, normal_quantile};
use crate::mixture::standard_normal_cdf;
use quantity::Span;

/// A duration in two figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HowLong {
    /// Half of the times it takes less.
    pub usual: Span,
    /// One time in ten it takes longer.
    pub slow: Span,
}

/// What is known of a duration today.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Learned {
    /// Seconds, as planned.
    usual_s: f64,
    /// Today's mean logarithm less the planned one, and its standard error.
    shift: f64,
    shift_error: f64,
    /// Standard deviation of the logarithm from one time to the next.
    spread: f64,
}

/// A duration on one made-up day: the shift of the day is drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Today {
    usual_s: f64,
    shift: f64,
    spread: f64,
}

/// How many standard deviations lie between the half and the upper tenth of a normal distribution. [AS-241]
const UPPER_TENTH: f64 = 1.281_551_565_544_600_8;

impl HowLong {
    /// It takes no time: the work does not occur on this site.
    pub fn none() -> Self {
        HowLong::always(Span::seconds(0.0))
    }

    /// It always takes as long.
    pub fn always(span: Span) -> Self {
        HowLong { usual: span, slow: span }
    }

    /// Mean and standard deviation.
    ///
    /// `m = u exp(s² / 2)`, `d = m √(exp(s²) − 1)`, `s = ln(slow / u) / 1.28155`
    ///
    /// **Errors** as [`HowLong::learned`].
    ///
    /// **Source**: moments of the lognormal distribution, computed; checked against `numpy`.
    pub fn mean_and_deviation(&self) -> Result<(Span, Span), DayError> {
        let (usual_s, spread) = self.plan()?;
        let mean = usual_s * libm::exp(spread * spread / 2.0);
        let deviation = mean * libm::expm1(spread * spread).sqrt();
        Ok((Span::seconds(mean), Span::seconds(deviation)))
    }

    /// The plan, corrected by what today's own loads took.
    ///
    /// `m = Σ x / (w + n)`, `s² = (w s0² + Σ (x − x̄)² + w n x̄² / (w + n)) / (w + n)`, `sm = s / √(w + n)`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `x`, `n`, `x̄` | `seen` | logarithms of seen over usual time, their number and mean |
    /// | `w` | `plan_worth` | as how many of today's loads the plan counts; infinite: nothing is learned |
    /// | `s0`, `s` | – | spread of one time from the next, as planned and as told |
    /// | `m`, `sm` | – | shift of the day and its standard error |
    ///
    /// **Valid for** times that are over. A time of zero (start and end in the same minute) teaches nothing.
    /// The spread stands at its pooled value; that it is not known exactly is left out.
    ///
    /// **Errors** when a planned time is below zero, the slow one is shorter than the usual one, no time is
    /// usual but the slow one takes some, or the plan counts for nothing.
    ///
    /// **Source**: normal model with conjugate prior [BAYES-NORMAL]; worked by hand.
    ///
    /// ```
    /// # use calc::pour_day::HowLong;
    /// # use quantity::Span;
    /// let haul = HowLong { usual: Span::minutes(30.0), slow: Span::minutes(40.0) };
    /// // Two loads took 45 min; with the plan worth as much as two, today is half way between, by its factor.
    /// let today = haul.learned(&[Span::minutes(45.0); 2], 2.0)?;
    /// assert_eq!(format!("{:.2}", today.usual().to_minutes()), "36.74"); // 30 √1.5
    /// # Ok::<(), calc::pour_day::DayError>(())
    /// ```
    pub fn learned(&self, seen: &[Span], plan_worth: f64) -> Result<Learned, DayError> {
        let (usual_s, planned) = self.plan()?;
        if plan_worth.is_nan() || plan_worth <= 0.0 {
            return Err(DayError::PlanWorthNothing);
        }
        let logs: Vec<f64> = match usual_s > 0.0 {
            true => seen.iter().map(|span| span.to_seconds()).filter(|seconds| *seconds > 0.0).collect(),
            false => Vec::new(),
        };
        let logs: Vec<f64> = logs.iter().map(|seconds| libm::log(seconds / usual_s)).collect();
        if logs.is_empty() || plan_worth.is_infinite() {
            let shift_error = planned / plan_worth.sqrt();
            return Ok(Learned { usual_s, shift: 0.0, shift_error, spread: planned });
        }
        let count = logs.len() as f64;
        let mean = logs.iter().sum::<f64>() / count;
        let about_mean = logs.iter().map(|log| (log - mean) * (log - mean)).sum::<f64>();
        let all = plan_worth + count;
        let from_plan = plan_worth * planned * planned + plan_worth * count / all * mean * mean;
        let spread = ((from_plan + about_mean) / all).sqrt();
        Ok(Learned { usual_s, shift: count * mean / all, shift_error: spread / all.sqrt(), spread })
    }

    /// Usual time in seconds and planned spread of the logarithm.
    fn plan(&self) -> Result<(f64, f64), DayError> {
        let (usual, slow) = (self.usual.to_seconds(), self.slow.to_seconds());
        match usual < 0.0 || slow < usual || (usual == 0.0 && slow > 0.0) {
            true => Err(DayError::Duration { given: *self }),
            false if slow == usual => Ok((usual, 0.0)),
            false => Ok((usual, libm::log(slow / usual) / UPPER_TENTH)),
        }
    }
}

impl Learned {
    /// What is usual today.
    pub fn usual(&self) -> Span {
        Span::seconds(self.usual_s * libm::exp(self.shift))
    }

    /// What one of the next times stays below with this probability, the doubt about the day included.
    ///
    /// **Valid for** `0 < probability < 1`.
    ///
    /// **Source**: quantile of the lognormal distribution [BAYES-NORMAL].
    pub fn below(&self, probability: f64) -> Span {
        let deviation = (self.spread * self.spread + self.shift_error * self.shift_error).sqrt();
        let log = self.shift + deviation * normal_quantile(probability);
        Span::seconds(self.usual_s * libm::exp(log))
    }

    /// One made-up day.
    pub(super) fn on_a_day(&self, draws: &mut Draws) -> Today {
        let shift = self.shift + self.shift_error * draws.normal();
        Today { usual_s: self.usual_s, shift, spread: self.spread }
    }
}

impl Today {
    /// One time, seconds.
    pub(super) fn draw(&self, draws: &mut Draws) -> f64 {
        // Nothing planned stays nothing, but takes its draw, so that the draws stay in step.
        let normal = draws.normal();
        self.usual_s * libm::exp(self.shift + self.spread * normal)
    }

    /// One time that has gone on for `elapsed` seconds and is not over.
    ///
    /// Drawn from what is left of the distribution; a time that cannot vary is over at once when it is overdue.
    pub(super) fn draw_beyond(&self, elapsed: f64, draws: &mut Draws) -> f64 {
        let part = draws.part();
        if elapsed <= 0.0 || self.usual_s <= 0.0 || self.spread <= 0.0 {
            let drawn = self.usual_s * libm::exp(self.shift + self.spread * normal_quantile(part));
            return drawn.max(elapsed);
        }
        let so_far = (libm::log(elapsed / self.usual_s) - self.shift) / self.spread;
        let above = part * standard_normal_cdf(-so_far);
        match above > 0.0 {
            true => {
                let log = self.shift - self.spread * normal_quantile(above);
                (self.usual_s * libm::exp(log)).max(elapsed)
            }
            false => elapsed,
        }
    }
}
