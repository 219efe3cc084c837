//! The slump life as an interval.
//!
//! One figure and its error are a line through a bend: where the trial runs flat, a small doubt about the slump
//! is a long doubt about the age. So the interval is read off the band of the slump itself, and it says when it
//! runs off the trial.
//!
//! Words: *band* = slump of the day with as many standard errors on either side as the probability asks for.
//! Never: go beyond the trial; an end nobody tried is no end.

use super::{DayCurve, SlumpError};
use crate::chance::normal_quantile;
use quantity::{Length, Moment, Span};

/// The ages between which a load comes down to its limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LifeInterval {
    /// Not earlier; `None`: it may be below the limit at the first point of the trial already.
    pub earliest: Option<Span>,
    /// Not later; `None`: it may be above the limit at the end of the trial still.
    pub furthest: Option<Span>,
}

/// Looks per stretch between two trial points; the band bends there, but not often.
const LOOKS: u32 = 16;

impl DayCurve<'_> {
    /// The ages between which a load comes down to a slump with a probability, as much left out on either side.
    ///
    /// `earliest: s(t) − z σ(t) = limit`, `furthest: s(t) + z σ(t) = limit`, the first such age each,
    /// `z = Φ⁻¹((1 + probability) / 2)`
    ///
    /// | symbol | argument | meaning |
    /// |---|---|---|
    /// | `s(t)`, `σ(t)` | – | [`DayCurve::slump_at`] and its standard error |
    ///
    /// **Valid for** what [`DayCurve::life`] is; errors of slumps taken as normal.
    ///
    /// **Errors** when the probability is none, or for a load the curve does not have.
    ///
    /// **Source**: inverse of a band, computed; checked against root finding with `scipy`.
    ///
    /// ```
    /// # use calc::slump::{Adjustment, DayCurve, SlumpAtAge, SlumpErrors, SlumpTrial};
    /// # use quantity::{Length, Span};
    /// # let point = |minutes, inches| SlumpAtAge { age: Span::minutes(minutes), slump: Length::inches(inches) };
    /// let (trial, _) = SlumpTrial::new(&[point(0.0, 8.5), point(120.0, 7.0), point(240.0, 4.0)])?;
    /// let errors = SlumpErrors { test: Length::inches(0.25), between_loads: Length::inches(0.5) };
    /// let tests = [vec![point(60.0, 7.25)]];
    /// let (day, _) = DayCurve::fit(&trial, &tests, Adjustment::Offset, errors)?;
    /// let life = day.life_interval(0, Length::inches(5.0), 0.90)?;
    /// let [from, until] = [life.earliest, life.furthest].map(|age| age.expect("in the trial").to_minutes());
    /// assert_eq!(format!("{from:.0} to {until:.0} min"), "161 to 202 min"); // 180 ± 12 · 1.645, and a bend
    /// # Ok::<(), calc::slump::SlumpError>(())
    /// ```
    pub fn life_interval(
        &self,
        load: usize,
        limit: Length,
        probability: f64,
    ) -> Result<LifeInterval, SlumpError> {
        if !(probability > 0.0 && probability < 1.0) {
            return Err(SlumpError::Probability);
        }
        let z = normal_quantile((1.0 + probability) / 2.0);
        let over = |errors: f64| {
            move |age_s: f64| {
                let (slump, error) = self.slump_m(load, Span::seconds(age_s))?;
                Ok(slump + errors * error - limit.to_meters())
            }
        };
        let ages = self.ages_s();
        let [earliest, furthest] = [first_fall(&ages, over(-z))?, first_fall(&ages, over(z))?];
        let begins = over(-z)(ages[0])? > 0.0;
        let span = |age_s: Option<f64>| age_s.map(Span::seconds);
        Ok(LifeInterval { earliest: span(earliest.filter(|_| begins)), furthest: span(furthest) })
    }
}

impl LifeInterval {
    /// The moments between which a load that was batched at one comes down to its limit, cut to the whole second
    /// before.
    ///
    /// **Source**: batch time plus age.
    pub fn moments(&self, batched: Moment) -> [Option<Moment>; 2] {
        let after = |age: Span| batched.plus_seconds(libm::floor(age.to_seconds()) as i64);
        [self.earliest.map(after), self.furthest.map(after)]
    }
}

/// The first age at which a function is zero or below; `None` when it never is.
fn first_fall(
    ages: &[f64],
    over: impl Fn(f64) -> Result<f64, SlumpError>,
) -> Result<Option<f64>, SlumpError> {
    let mut before = ages[0];
    if over(before)? <= 0.0 {
        return Ok(Some(before));
    }
    for pair in ages.windows(2) {
        for look in 1..=LOOKS {
            let part = f64::from(look) / f64::from(LOOKS);
            let age = if look == LOOKS { pair[1] } else { pair[0] + part * (pair[1] - pair[0]) };
            if over(age)? <= 0.0 {
                return halved([before, age], over).map(Some);
            }
            before = age;
        }
    }
    Ok(None)
}

/// Halves a stretch whose begin is above zero and whose end is not, until it cannot be halved.
fn halved(
    [mut above, mut below]: [f64; 2],
    over: impl Fn(f64) -> Result<f64, SlumpError>,
) -> Result<f64, SlumpError> {
    for _ in 0..100 {
        let middle = above + (below - above) / 2.0;
        if middle <= above || below <= middle {
            break;
        }
        match over(middle)? > 0.0 {
            true => above = middle,
            false => below = middle,
        }
    }
    Ok(below)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::slump::{Adjustment, SlumpAtAge, SlumpErrors, SlumpTrial};

    fn inches(value: f64) -> Length {
        Length::inches(value)
    }

    fn point(minutes: f64, slump: f64) -> SlumpAtAge {
        SlumpAtAge { age: Span::minutes(minutes), slump: inches(slump) }
    }

    /// Untested loads of a trial that falls 1 in an hour; test ± 0.3 in, loads ± 0.4 in.
    fn told(limit: f64, probability: f64) -> String {
        let (trial, _) = SlumpTrial::new(&[point(0.0, 9.0), point(300.0, 4.0)]).expect("a trial");
        let errors = SlumpErrors { test: inches(0.3), between_loads: inches(0.4) };
        let (day, _) = DayCurve::fit(&trial, &[vec![]], Adjustment::Offset, errors).expect("a day");
        let interval = match day.life_interval(0, inches(limit), probability) {
            Ok(interval) => interval,
            Err(error) => return error.to_string(),
        };
        let shown =
            |age: Option<Span>| age.map_or("–".to_owned(), |age| format!("{:.1}", age.to_minutes()));
        format!("{} to {}", shown(interval.earliest), shown(interval.furthest))
    }

    /// By hand half way, at 6.5 in: σ = √(0.3² / 2 + 0.4²) = 0.453 in, 1.645 of them 0.745 in or 44.7 min: 105.3 to 194.7
    /// if σ stayed; it grows to either end, so a little more. At 8.9 in it may be below from the start, at 4.2 in the
    /// trial may end first.
    #[test]
    fn the_interval_follows_the_band_and_ends_with_the_trial() {
        let shown =
            [told(6.5, 0.9), told(6.5, 0.5), told(4.2, 0.9), told(8.9, 0.9), told(10.0, 0.9), told(6.5, 1.0)];
        expect_test::expect![[r#"
            104.9 to 195.1
            131.6 to 168.4
            241.5 to –
            – to 52.7
            – to 0.0
            a probability lies between 0 and 1"#]]
        .assert_eq(&shown.join("\n"));
    }

    #[test]
    fn the_moments_count_from_the_batch() {
        let at = |clock: &str| Moment::parse(&format!("2026-05-04T{clock}-06:00")).expect("a moment");
        let interval = LifeInterval { earliest: Some(Span::seconds(5400.9)), furthest: None };
        assert_eq!(interval.moments(at("09:00:00")), [Some(at("10:30:00")), None]);
    }

    /// A wider probability holds the narrower one, and the life itself lies in both.
    #[test]
    fn intervals_nest() {
        let (trial, _) =
            SlumpTrial::new(&[point(0.0, 9.0), point(120.0, 8.0), point(300.0, 3.0)]).expect("a trial");
        let errors = SlumpErrors { test: inches(0.3), between_loads: inches(0.4) };
        for adjustment in [Adjustment::Offset, Adjustment::Scale] {
            let tests = [vec![point(60.0, 8.0)], vec![]];
            let (day, _) = DayCurve::fit(&trial, &tests, adjustment, errors).expect("a day");
            for load in 0..2 {
                let life = day.life(load, inches(6.0)).expect("a life").value.to_seconds();
                let mut inner = [life, life];
                for probability in [0.2, 0.5, 0.8, 0.9] {
                    let interval = day.life_interval(load, inches(6.0), probability).expect("an interval");
                    let ends = [interval.earliest, interval.furthest]
                        .map(|age| age.expect("in the trial").to_seconds());
                    assert!(ends[0] < inner[0] && inner[1] < ends[1], "{adjustment:?} {load} {probability}");
                    inner = ends;
                }
            }
        }
    }
}
