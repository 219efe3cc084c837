//! Worked lives of concrete; every expected number is a hand calculation on straight lines.

use super::*;

fn point(minutes: f64, inches: f64) -> SlumpAtAge {
    SlumpAtAge { age: Span::minutes(minutes), slump: Length::inches(inches) }
}

/// 8.5 in at batching, 7 in at two hours, 4 in at four: 0.75 in/h, then 1.5 in/h.
fn trial() -> SlumpTrial {
    SlumpTrial::new(&[point(0.0, 8.5), point(120.0, 7.0), point(240.0, 4.0)]).unwrap().0
}

const ERRORS: (f64, f64) = (0.25, 0.5);

fn errors() -> SlumpErrors {
    SlumpErrors { test: Length::inches(ERRORS.0), between_loads: Length::inches(ERRORS.1) }
}

#[track_caller]
fn check_age(limit_in: f64, expected: &str) {
    let got = match trial().age_at(Length::inches(limit_in)) {
        Ok(age) => format!("{:.1} min", age.to_minutes()),
        Err(error) => error.to_string(),
    };
    assert_eq!(got, expected);
}

#[test]
fn the_trial_comes_down_to_the_limit() {
    check_age(8.5, "0.0 min");
    check_age(7.75, "60.0 min");
    check_age(7.0, "120.0 min");
    check_age(5.0, "200.0 min");
    check_age(4.0, "240.0 min");
}

#[test]
fn beyond_the_trial_there_is_no_answer() {
    check_age(3.9, "the trial ends at 240 min above the limit");
    check_age(9.0, "the slump is below the limit from the start");
}

#[test]
fn the_slump_at_an_age() {
    let at = |minutes| trial().slump_at(Span::minutes(minutes)).map(|slump| slump.to_inches());
    assert_eq!(at(0.0).map(|inches| format!("{inches:.2}")), Ok("8.50".to_owned()));
    assert_eq!(at(180.0).map(|inches| format!("{inches:.2}")), Ok("5.50".to_owned()));
    assert_eq!(at(241.0), Err(SlumpError::OutsideTrial { age: Span::minutes(241.0) }));
}

#[test]
fn a_trial_needs_two_points_in_order() {
    assert_eq!(SlumpTrial::new(&[point(0.0, 8.0)]), Err(SlumpError::TooFewPoints));
    let backwards = [point(0.0, 8.0), point(60.0, 7.0), point(60.0, 6.0)];
    assert_eq!(SlumpTrial::new(&backwards), Err(SlumpError::AgesOutOfOrder { at: 2 }));
}

#[test]
fn a_slump_that_rises_is_named_and_the_first_way_down_counts() {
    let points = [point(0.0, 7.0), point(60.0, 5.0), point(120.0, 6.0), point(180.0, 4.0)];
    let (trial, issues) = SlumpTrial::new(&points).unwrap();
    assert_eq!(issues, [SlumpIssue::TrialRises { at: 2 }]);
    let age = trial.age_at(Length::inches(5.5)).unwrap();
    assert_eq!(format!("{:.1}", age.to_minutes()), "45.0");
}

#[track_caller]
fn check_life(tests: &[Vec<SlumpAtAge>], adjustment: Adjustment, load: usize, expected: &str) {
    let trial = trial();
    let (curve, issues) = DayCurve::fit(&trial, tests, adjustment, errors()).unwrap();
    assert_eq!(issues, []);
    let got = match curve.life(load, Length::inches(5.0)) {
        Ok(life) => format!("{:.1} ± {:.1} min", life.value.to_minutes(), life.standard_error.to_minutes()),
        Err(error) => error.to_string(),
    };
    assert_eq!(got, expected);
}

/// One test at 60 min of 7.25 in, half an inch under the trial's 7.75: the limit of 5 in lies at 5.5 in of
/// the trial, 180 min. The trial slumps move the crossing by 0, ½, ½ and the shift by ½, ½, 0, together −½,
/// 0, ½; so σ² = 0.25² · (½ + 1), over 1.5 in/h: 12.2 min.
#[test]
fn a_stiffer_load_lives_shorter_by_offset() {
    check_life(&[vec![point(60.0, 7.25)]], Adjustment::Offset, 0, "180.0 ± 12.2 min");
}

/// The same test as a factor: k = 7.25 / 7.75, limit 5 / k = 5.344828 in of the trial: 186.2 min, made of
/// 0, 0.448276, 0.551724 of the trial slumps. One inch more of each moves the line of the day there by
/// −0.322581, 0.096774, 0.516129 in, the test by 5.344828 / 7.75: σ² = 0.25² · (0.379812 + 0.475625), over
/// 1.5 k = 1.403226 in/h: 9.9 min.
#[test]
fn the_same_load_by_scale() {
    check_life(&[vec![point(60.0, 7.25)]], Adjustment::Scale, 0, "186.2 ± 9.9 min");
}

/// Without a test the trial stands: 200 min, weight 2/3, σ² = 0.5² + 0.25² · 5/9, over 1.5 in/h: 21.3 min.
#[test]
fn an_untested_day_follows_the_trial_with_a_wide_error() {
    check_life(&[vec![]], Adjustment::Offset, 0, "200.0 ± 21.3 min");
}

/// Two tested loads, shifts −0.5 and 0 in, mean −0.25: 5.25 in of the trial at 190 min.
/// Trial slumps: −¼, 5/12 − ¾, 7/12. σ² = 0.5² · 1.5 + 0.25² · (½ + 0.513889), over 1.5 in/h: 26.5 min.
#[test]
fn an_untested_load_takes_the_mean_of_the_tested_ones() {
    let tests = [vec![point(60.0, 7.25)], vec![point(120.0, 7.0)], vec![]];
    check_life(&tests, Adjustment::Offset, 2, "190.0 ± 26.5 min");
    check_life(&tests, Adjustment::Offset, 3, "the curve has no such load");
}

#[test]
fn a_test_older_than_the_trial_is_left_out_and_named() {
    let trial = trial();
    let tests = [vec![point(300.0, 3.0), point(60.0, 7.75)]];
    let (curve, issues) = DayCurve::fit(&trial, &tests, Adjustment::Offset, errors()).unwrap();
    assert_eq!(issues, [SlumpIssue::TestOutsideTrial { load: 0, test: 0 }]);
    let life = curve.life(0, Length::inches(5.0)).unwrap();
    assert_eq!(format!("{:.1}", life.value.to_minutes()), "200.0");
}

#[test]
fn a_wetter_load_may_outlast_the_trial_and_then_there_is_only_a_bound() {
    check_life(&[vec![point(60.0, 9.0)]], Adjustment::Offset, 0, "the trial ends at 240 min above the limit");
}

fn load(batched: &str, life_minutes: f64) -> AgingLoad {
    let life = Estimate::new(Span::minutes(life_minutes), Span::minutes(10.0));
    AgingLoad { batched: Moment::parse(batched).unwrap(), life }
}

#[test]
fn the_oldest_load_is_not_always_the_first_to_stiffen() {
    let loads = [load("2026-05-04T09:00:00-06:00", 200.0), load("2026-05-04T09:30:00-06:00", 150.0)];
    assert_eq!(oldest(&loads), Some(0));
    assert_eq!(first_to_stiffen(&loads), Some(1));
    let now = Moment::parse("2026-05-04T11:30:00-06:00").unwrap();
    assert_eq!(loads[0].remaining(now).to_minutes(), 50.0);
    assert_eq!(loads[1].remaining(now).to_minutes(), 30.0);
    assert_eq!(loads[1].reaches_limit().to_string(), "2026-05-04T12:00:00-06:00");
    assert_eq!(first_to_stiffen(&[]), None);
}

/// The load of 7.25 in at 60 min. There the trial drops out of the difference and the error is that of the
/// test; at 180 min it is √(0.25² · (½ + 1)) = 0.31 in. By the factor 7.25 / 7.75 it is 5.5 · 0.935 = 5.15 in.
#[test]
fn the_slump_of_a_load_at_an_age() {
    let trial = trial();
    let told = |adjustment, minutes| {
        let tests = [vec![point(60.0, 7.25)]];
        let (day, _) = DayCurve::fit(&trial, &tests, adjustment, errors()).unwrap();
        let slump = day.slump_at(0, Span::minutes(minutes))?;
        let [value, error] = [slump.value, slump.standard_error].map(Length::to_inches);
        Ok::<String, SlumpError>(format!("{value:.2} ± {error:.2} in"))
    };
    assert_eq!(told(Adjustment::Offset, 60.0).as_deref(), Ok("7.25 ± 0.25 in"));
    assert_eq!(told(Adjustment::Offset, 180.0).as_deref(), Ok("5.00 ± 0.31 in"));
    assert_eq!(told(Adjustment::Scale, 60.0).as_deref(), Ok("7.25 ± 0.25 in"));
    assert_eq!(told(Adjustment::Scale, 180.0).map(|told| told[..4].to_owned()).as_deref(), Ok("5.15"));
    assert!(told(Adjustment::Offset, 241.0).is_err());
}
