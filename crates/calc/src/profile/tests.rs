//! Pours whose profile is known, doubtful readings, and what has no answer.

use quantity::{Elevation, Fraction, Length, Volume};

use super::{Ground, Issue, Prior, Profile, ProfileError, Scale, Stratum, profile};
use crate::curve::{LoadError, Pour, Station};
use crate::estimate::{Estimate, Level};
use crate::geometry::{Bore, Casing};

fn at(meters: f64) -> Elevation {
    Elevation(Length::meters(meters))
}

/// A hole of 1 m² from 20 m to 0 m.
fn hole() -> Bore {
    Bore::cylinder(Length::meters((4.0 / std::f64::consts::PI).sqrt()), at(20.0), at(0.0)).expect("a hole")
}

fn station<'a>(bore: &'a Bore, level: f64, load: f64) -> Station<'a> {
    Station {
        level: Estimate::new(at(level), Length::meters(0.03)),
        loads: vec![Volume::cubic_meters(load)],
        wasted: Volume::cubic_meters(0.0),
        held: Volume::cubic_meters(0.0),
        bore,
    }
}

fn pour<'a>(bore: &'a Bore, readings: &[(f64, f64)]) -> Pour<'a> {
    Pour {
        base: Estimate::new(at(0.0), Length::meters(0.03)),
        bore,
        stations: readings.iter().map(|(level, load)| station(bore, *level, *load)).collect(),
        load_error: LoadError { each: 0.015, shared: 0.01 },
        least_rise: Length::meters(0.9),
    }
}

fn estimated(readings: &[(f64, f64)]) -> (Profile, Vec<Issue>) {
    profile(&pour(&hole(), readings), &Ground::default(), &Prior::default()).expect("a profile")
}

/// A shaft at 1.08 all along, a load of 4.32 m³ every four metres.
const EVEN: [(f64, f64); 5] = [(4.0, 4.32), (8.0, 4.32), (12.0, 4.32), (16.0, 4.32), (20.0, 4.32)];

/// The same, but between 8 and 12 m a third of a cubic metre and more was kept out.
const NECKED: [(f64, f64); 5] = [(4.0, 4.32), (8.0, 4.32), (12.0, 3.46), (16.0, 4.32), (20.0, 4.32)];

/// Nothing rare, one possibility for the ground, no gentle shape: what remains can be worked out by hand.
fn by_hand() -> Prior {
    Prior {
        ratio: 1.0,
        shaft_spread: 0.06,
        stratum_spread: 0.08,
        gentle_spread: 0.0,
        scales: vec![Scale { factor: 1.0, weight: 1.0 }],
        shapes: vec![],
        misread: 0.0,
        wrong_ticket: 0.0,
        ..Prior::default()
    }
}

#[test]
fn one_interval_in_one_stratum_has_a_closed_form() {
    // Prior 1.00 ± 0.10 (0.06 and 0.08 together) over 10 m³, load 11 m³ ± 5 %, tape exact but for the tenth of a litre
    // that every volume is doubtful by: weight 1 / (1 + 0.55² / 1.0²).
    let bore = hole();
    let mut one = pour(&bore, &[(10.0, 11.0)]);
    one.base = Level::known(at(0.0));
    one.stations[0].level = Level::known(at(10.0));
    one.load_error = LoadError { each: 0.05, shared: 0.0 };
    let (profile, issues) = profile(&one, &Ground::default(), &by_hand()).expect("a profile");
    let ratio = profile.stretch(at(10.0), at(0.0)).expect("a stretch");
    // The diameter is a whole number of nanometres, so the area is not 1 m² to the last digit.
    let theory = bore.volume_between(at(0.0), at(10.0)).expect("inside").to_cubic_meters();
    let noise = (0.55 * 0.55 + 1e-8) / (0.01 * theory * theory);
    let expected = 1.0 + (11.0 / theory - 1.0) / (1.0 + noise);
    assert!((ratio.mean() - expected).abs() < 1e-12);
    assert!((ratio.sd() - (0.01 * noise / (1.0 + noise)).sqrt()).abs() < 1e-12);
    assert_eq!(issues, []);
}

#[test]
fn without_a_reading_the_prior_speaks() {
    let (profile, issues) = estimated(&[]);
    let ratio = profile.stretch(at(20.0), at(0.0)).expect("a stretch");
    // Per metre of shaft the prior holds 0.025 necks of −0.35, 0.007 cavities of 0.40 and 0.001 of 1.00, on average
    // 1.75 m high; a little of those at the ends lies outside.
    let rare = (0.025 * -0.35 + 0.007 * 0.40 + 0.001 * 1.00) * 1.75;
    assert!((ratio.mean() - 1.08 - rare).abs() < 0.001, "{}", ratio.mean());
    let left = profile.remaining(at(20.0)).expect("a level");
    assert!((left.mean() - 20.0 * ratio.mean()).abs() < 1e-6);
    assert!(left.band(0.9).expect("a band")[1] > 24.0);
    assert_eq!(issues, []);
}

#[test]
fn a_neck_is_not_smoothed_away() {
    let whole = [at(0.0), at(20.0)];
    let lost = |profile: &Profile, range| {
        profile.loss_probability(range, Length::meters(1.0), Fraction::percent(15.0)).expect("a range")
    };
    let (even, _) = estimated(&EVEN);
    let (necked, _) = estimated(&NECKED);
    assert!(lost(&even, whole) < 0.1, "{}", lost(&even, whole));
    assert!(lost(&necked, whole) > 0.8, "{}", lost(&necked, whole));
    assert!(lost(&necked, [at(8.0), at(12.0)]) > 0.7);
    let ratio = necked.stretch(at(12.0), at(8.0)).expect("a stretch");
    let [low, high] = ratio.band(0.9).expect("a band");
    assert!(low < 0.865 && 0.865 < high && high < 0.95, "{low} {high}");
}

#[test]
fn a_misread_level_is_named_and_does_not_make_a_cavity() {
    // The third level was read a metre and a half too low; the fourth is right again.
    let misread = [(4.0, 4.32), (8.0, 4.32), (10.5, 4.32), (16.0, 4.32), (20.0, 4.32)];
    let (profile, issues) = estimated(&misread);
    assert!(matches!(issues[..], [Issue::Misread { at: 2, probability }] if probability > 0.5), "{issues:?}");
    let ratio = profile.stretch(at(16.0), at(8.0)).expect("a stretch");
    assert!((ratio.mean() - 1.08).abs() < 0.03);
}

#[test]
fn doubtful_stations_are_named_and_never_fatal() {
    let absurd = [(4.0, 4.3), (4.0, 0.0), (3.0, 4.3), (25.0, 4.3), (12.0, -1.0), (19.0, 500.0)];
    let (profile, issues) = estimated(&absurd);
    assert!(issues.contains(&Issue::SurfaceFell { at: 2, by: Length::meters(1.0) }));
    assert!(issues.contains(&Issue::LeftOut { at: 3, level: at(25.0) }));
    assert!(issues.iter().any(|issue| matches!(issue, Issue::WrongTicket { at: 5, .. })), "{issues:?}");
    let bands = profile.bands().expect("bands");
    assert!(bands.iter().flat_map(|band| band.ends).flatten().all(f64::is_finite));
}

#[test]
fn a_total_that_falls_is_named() {
    let (_, issues) = estimated(&[(4.0, 4.3), (8.0, -1.0)]);
    let fell = |issue: &Issue| matches!(issue, Issue::TotalFell { at: 1, by } if (by.to_cubic_meters() - 1.0).abs() < 1e-12);
    assert!(issues.iter().any(fell), "{issues:?}");
}

#[test]
fn inside_a_standing_casing_the_ratio_is_one() {
    let casing = Casing {
        inside_diameter: Length::meters(1.0),
        outside_diameter: Length::meters(1.05),
        top: at(20.0),
        shoe: at(12.0),
    };
    let cased = hole().with_standing(&[casing]).expect("room");
    let (profile, _) =
        profile(&pour(&cased, &EVEN), &Ground::default(), &Prior::default()).expect("a profile");
    let ratio = profile.stretch(at(20.0), at(13.0)).expect("a stretch");
    assert!((ratio.mean() - 1.0).abs() < 1e-12 && ratio.sd() < 1e-12);
    let band = profile.bands().expect("bands").pop().expect("a cell");
    assert_eq!((band.mean, band.ends[3]), (1.0, [1.0, 1.0]));
}

#[test]
fn the_drop_after_a_lift_shows_the_hole_behind_the_casing() {
    // 8 m of casing in a hole of 1 m²; full to 18 m inside it; pulled whole, the surface drops.
    let casing = |inside, outside| Casing {
        inside_diameter: Length::meters(inside),
        outside_diameter: Length::meters(outside),
        top: at(20.0),
        shoe: at(12.0),
    };
    let (open, cased) = (hole(), hole().with_standing(&[casing(1.0, 1.05)]).expect("room"));
    let inside = std::f64::consts::PI / 4.0;
    let ratio_after = |drop_to: f64| {
        let stations = vec![
            station(&cased, 12.0, 12.96),
            station(&cased, 18.0, 6.0 * inside),
            station(&open, drop_to, 0.0),
        ];
        let pour = Pour { bore: &cased, stations, ..pour(&open, &[]) };
        let (profile, issues) = profile(&pour, &Ground::default(), &Prior::default()).expect("a profile");
        assert_eq!(issues, []);
        profile.stretch(at(drop_to), at(12.0)).expect("a stretch").mean()
    };
    // The concrete of six metres of casing, spread over the hole.
    let rise = |ratio: f64| 12.0 + 6.0 * inside / ratio;
    assert!((ratio_after(rise(1.05)) - 1.05).abs() < 0.02);
    assert!((ratio_after(rise(1.20)) - 1.20).abs() < 0.03);
}

#[test]
fn a_stratum_that_earlier_shafts_met_is_expected_as_they_showed_it() {
    let ground = Ground {
        strata: vec![
            Stratum { top: at(20.0), earlier: Some(Estimate::new(1.20, 0.05)) },
            Stratum { top: at(10.0), earlier: None },
        ],
        ..Ground::default()
    };
    let (profile, _) = profile(&pour(&hole(), &[]), &ground, &Prior::default()).expect("a profile");
    let mean = |top, bottom| profile.stretch(at(top), at(bottom)).expect("a stretch").mean();
    assert!((mean(20.0, 10.0) - mean(10.0, 0.0) - 0.12).abs() < 1e-12);
}

#[test]
fn what_is_left_to_fill_follows_this_shaft() {
    let (profile, _) = estimated(&[(4.0, 4.8), (8.0, 4.8), (12.0, 4.8)]);
    let left = profile.remaining(at(20.0)).expect("a level");
    // Three loads took 1.20; the rest is expected between that and the 1.08 of the prior.
    assert!(8.0 * 1.12 < left.mean() && left.mean() < 8.0 * 1.21, "{}", left.mean());
    let end = profile.remaining(at(12.0)).expect("a level");
    assert!(end.mean().abs() < 0.05 && end.sd() > 0.02, "{} {}", end.mean(), end.sd());
}

#[test]
fn closer_soundings_see_smaller_necks() {
    let worst = |readings: &[(f64, f64)]| {
        let spots = estimated(readings).0.blind_spots(Length::meters(1.0)).expect("a height");
        spots.iter().map(|spot| spot.loss).fold(0.0, f64::max)
    };
    let halves: Vec<(f64, f64)> = (1..=10).map(|half| (2.0 * f64::from(half), 2.16)).collect();
    assert!(worst(&halves) < worst(&EVEN));
}

#[test]
fn a_neck_at_the_stated_limit_is_half_a_step_beyond_the_alarm() {
    // Power 0.90 means that the expected alarm lies 1.2816 standard errors above the limit.
    let (even, _) = estimated(&EVEN);
    let height = Length::meters(1.0);
    let spots = even.blind_spots(height).expect("a height");
    let spot = spots.iter().find(|spot| at(9.5) < spot.bottom).expect("a spot");
    let kept_out = spot.loss * 1.08;
    let mut less = EVEN;
    less[2].1 -= kept_out;
    let alarm = |readings: &[(f64, f64)]| {
        estimated(readings).0.alarm(spot.top, spot.bottom).expect("a stretch").expect("an alarm")
    };
    let beyond = alarm(&less) - alarm(&EVEN) - even.alarm_limit();
    // The limit is reckoned as if the alarm grew evenly with the loss; a tenth of a standard error or so is what that costs.
    assert!((beyond - 1.2816).abs() < 0.15, "{beyond}");
}

#[test]
fn one_more_sounding_shrinks_the_blind_spots() {
    let bore = hole();
    let next = |part_load_error: f64, load: f64| {
        let prior = Prior { part_load_error, ..Prior::default() };
        let (profile, _) = profile(&pour(&bore, &EVEN[..3]), &Ground::default(), &prior).expect("a profile");
        profile.best_next_sounding(Volume::cubic_meters(load), Length::meters(1.0))
    };
    let exact = next(0.0, 4.32).expect("a load that fills more than a metre");
    let best = exact.best.expect("a part that helps");
    assert!(best.loss < 0.9 * exact.without);
    assert!((exact.end.0.to_meters() - 16.0).abs() < 0.1);
    assert!(at(12.5) < best.level && best.level < at(15.5));
    // Nobody can say within a third of a load how much has left the truck: then it does not help.
    let guessed = next(0.30, 4.32).expect("a load that fills more than a metre");
    assert_eq!((guessed.best, guessed.without), (None, exact.without));
    assert!(matches!(next(0.0, 0.2), Err(ProfileError::Stretch { .. })));
}

#[test]
fn what_has_no_answer_says_so() {
    let (profile, _) = estimated(&EVEN);
    assert!(matches!(profile.stretch(at(4.0), at(4.0)), Err(ProfileError::Stretch { .. })));
    assert!(matches!(profile.stretch(at(24.0), at(4.0)), Err(ProfileError::Stretch { .. })));
    assert!(matches!(profile.remaining(at(24.0)), Err(ProfileError::Stretch { .. })));
    assert_eq!(profile.blind_spots(Length::ZERO), Err(ProfileError::NotPositive));
    let refused = |prior: Prior| super::profile(&pour(&hole(), &EVEN), &Ground::default(), &prior).err();
    assert_eq!(refused(Prior { ratio: f64::NAN, ..Prior::default() }), Some(ProfileError::Prior));
    let bore = hole();
    let sunk = Pour { base: Level::known(at(-1.0)), ..pour(&bore, &EVEN) };
    let error = super::profile(&sunk, &Ground::default(), &Prior::default()).err();
    assert_eq!(error, Some(ProfileError::BaseOutside { level: at(-1.0) }));
    let huge = [(4.0, 1e200), (8.0, 1e200)];
    let error = super::profile(&pour(&bore, &huge), &Ground::default(), &Prior::default()).err();
    assert_eq!(error, Some(ProfileError::Unreckonable));
}

#[test]
fn errors_are_told_in_plain_words() {
    let stretch = ProfileError::Stretch { top: at(0.0), bottom: at(0.0) };
    let base = ProfileError::BaseOutside { level: at(0.0) };
    let all = [stretch, base, ProfileError::NotPositive, ProfileError::Prior, ProfileError::Unreckonable];
    let told: Vec<String> = all.iter().map(ToString::to_string).collect();
    expect_test::expect![[r#"
        the stretch is empty or reaches beyond the hole
        the bottom that was sounded lies outside the hole as drawn
        a height or volume is not greater than zero
        a value of the prior makes no sense
        the readings are too far out to be reckoned with"#]]
    .assert_eq(&told.join("\n"));
}
