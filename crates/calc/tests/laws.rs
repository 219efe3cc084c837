//! Laws of fluid, clocks, tickets, base and payment that hold whatever the readings are.

use calc::base::{Base, Weighing};
use calc::fluid_density::{Parts, density_with_sand, quartz, sand_implied};
use calc::fluid_pressure::{Balance, Column};
use calc::maturity::{Activation, WarmStretch, equivalent_age};
use calc::payment::{Drilled, LostTime, drilled_lengths, obstruction_time};
use calc::plane::BasePoint;
use calc::settling::{FluidStretch, SandSample, Settled, settled_thickness};
use calc::slump::{SlumpAtAge, SlumpTrial};
use calc::ticket::Batch;
use calc::waiting::{Gap, Work, gaps};
use proptest::prelude::*;
use quantity::{Density, Depth, Elevation, Fraction, Length, Mass, Moment, Span, Temperature, WaterCement};

fn at(minutes: i64) -> Moment {
    Moment::parse("2026-05-04T06:00:00-06:00").expect("a moment").plus_seconds(minutes * 60)
}

fn below(meters: f64) -> Depth {
    Depth(Length::meters(meters))
}

/// A trial that falls at every step: age and fall from point to point.
fn falling_trial() -> impl Strategy<Value = SlumpTrial> {
    proptest::collection::vec((5.0..60.0_f64, 2.0..60.0_f64), 1..8).prop_map(|steps| {
        let mut points = vec![SlumpAtAge { age: Span::minutes(0.0), slump: Length::meters(0.23) }];
        for (minutes, fall) in steps {
            let last = points[points.len() - 1];
            let age = Span::minutes(last.age.to_minutes() + minutes);
            points.push(SlumpAtAge { age, slump: last.slump - Length::meters(fall / 1000.0) });
        }
        SlumpTrial::new(&points).expect("two points in order").0
    })
}

/// Spots inside a circle of 0.6 m with a reading each.
fn base_points() -> impl Strategy<Value = Vec<BasePoint>> {
    let spot = (0.0..0.59_f64, 0.0..std::f64::consts::TAU, 0.0..0.1_f64);
    proptest::collection::vec(spot, 1..9).prop_map(|spots| {
        let point = |(radius, angle, value): (f64, f64, f64)| BasePoint {
            x: Length::meters(radius * libm::cos(angle)),
            y: Length::meters(radius * libm::sin(angle)),
            value: Length::meters(value),
        };
        spots.into_iter().map(point).collect()
    })
}

fn stretches() -> impl Strategy<Value = Vec<(i64, i64)>> {
    proptest::collection::vec((0..600_i64, 0..90_i64), 1..8)
        .prop_map(|all| all.into_iter().map(|(from, long)| (from, from + long)).collect())
}

proptest! {
    #[test]
    fn slump_and_age_turn_into_each_other(trial in falling_trial(), part in 0.0..1.0_f64) {
        let start = trial.slump_at(Span::minutes(0.0)).unwrap();
        let wanted = start - Length::meters(0.002 * part);
        let age = trial.age_at(wanted).unwrap();
        let back = trial.slump_at(age).unwrap();
        prop_assert!((back - wanted).abs() <= Length::nanometers(2), "{back:?} beside {wanted:?}");
    }

    #[test]
    fn the_shares_of_a_base_cover_it_once(points in base_points()) {
        let weighing = Weighing::NearestPart { radius: Length::meters(0.6) };
        let base = Base::new(&points, weighing).unwrap();
        let shares: Vec<f64> = base.shares().iter().map(|share| share.to_part()).collect();
        prop_assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
        prop_assert!(shares.iter().all(|share| 0.0 <= *share));
        let slack = Length::nanometers(1);
        prop_assert!(base.least().1 - slack <= base.mean() && base.mean() <= base.greatest().1 + slack);
    }

    #[test]
    fn a_reading_is_below_above_or_on_a_thickness(points in base_points(), pick in 0..8_usize) {
        let base = Base::new(&points, Weighing::EqualShares).unwrap();
        let thickness = points[pick % points.len()].value;
        let on = points.iter().filter(|point| point.value == thickness).count() as f64 / points.len() as f64;
        let total = base.share_below(thickness).to_part() + base.share_above(thickness).to_part() + on;
        prop_assert!((total - 1.0).abs() < 1e-9, "{total}");
    }

    #[test]
    fn sand_and_density_turn_into_each_other(clean in 990.0..1200.0_f64, sand in 0.0..0.5_f64) {
        let clean = Density::kilograms_per_cubic_meter(clean);
        let parts = Parts { clean, grains: quartz(Density::kilograms_per_cubic_meter(999.6)) };
        let density = density_with_sand(parts, Fraction::part(sand)).unwrap();
        let back = sand_implied(parts, density).unwrap().to_part();
        prop_assert!((back - sand).abs() < 1e-9);
    }

    #[test]
    fn nowhere_on_a_wall_is_the_excess_less_than_the_least(
        fluid in 1000.0..1200.0_f64, surface in -5.0..5.0_f64, water in -10.0..5.0_f64, level in -30.0..5.0_f64,
    ) {
        let level_at = |meters| Elevation(Length::meters(meters));
        let column = |density, meters| Column {
            density: Density::kilograms_per_cubic_meter(density),
            surface: level_at(meters),
        };
        let balance = Balance { inside: column(fluid, surface), outside: column(999.6, water) };
        let least = balance.least_excess(level_at(5.0), level_at(-30.0)).unwrap();
        prop_assert!(least.excess.to_pascals() <= balance.excess(level_at(level)).to_pascals() + 1e-6);
    }

    /// An even column gives the same whether it was sampled once or often, and often is known better.
    #[test]
    fn more_samples_of_the_same_sand_only_narrow_the_error(
        sand in 0.0..0.1_f64, depths in proptest::collection::vec(0.0..20.0_f64, 1..6),
    ) {
        let sample = |depth: &f64| SandSample { depth: below(*depth), sand: Fraction::part(sand) };
        let samples: Vec<SandSample> = depths.iter().map(sample).collect();
        let stretch = FluidStretch { top: below(0.0), bottom: below(20.0) };
        let settled = Settled { porosity: Fraction::part(0.4), sand_error: Fraction::part(0.005) };
        let many = settled_thickness(&samples, stretch, settled).unwrap();
        let one = settled_thickness(&samples[..1], stretch, settled).unwrap();
        prop_assert!((many.value - one.value).abs() <= Length::nanometers(2));
        prop_assert!(many.standard_error <= one.standard_error + Length::nanometers(1));
    }

    #[test]
    fn the_water_that_may_be_added_reaches_the_limit_and_no_more(
        cement in 200.0..5000.0_f64, water in 0.2..0.6_f64, limit in 0.3..0.7_f64,
    ) {
        let mut batch = Batch {
            cementitious: Mass::kilograms(cement),
            plant_water: Mass::kilograms(cement * water),
            aggregates: vec![],
            added_water: Mass::kilograms(0.0),
        };
        let room = batch.water_to_ratio(WaterCement::ratio(limit)).unwrap();
        prop_assert_eq!(room.to_kilograms() < 0.0, limit < batch.water_cement().unwrap().to_ratio());
        if 0.0 <= room.to_kilograms() {
            batch.added_water = room;
            prop_assert!((batch.water_cement().unwrap().to_ratio() - limit).abs() < 1e-12);
        }
    }

    /// What was worked and what was not add up to the day.
    #[test]
    fn work_and_gaps_fill_the_time(stretches in stretches()) {
        let work: Vec<Work> =
            stretches.iter().map(|&(from, until)| Work { from: at(from), until: at(until) }).collect();
        let lost: Vec<LostTime> =
            stretches.iter().map(|&(from, until)| LostTime { from: at(from), until: at(until) }).collect();
        let first = stretches.iter().map(|stretch| stretch.0).min().unwrap();
        let gaps = gaps(&work, at(1000)).unwrap();
        let idle: f64 = gaps.iter().map(|gap| gap.span().to_minutes()).sum();
        let busy = obstruction_time(&lost).unwrap().to_minutes();
        prop_assert!((idle + busy - (1000 - first) as f64).abs() < 1e-6);
        prop_assert!(gaps.windows(2).all(|pair: &[Gap]| pair[0].until <= pair[1].from), "gaps come in order");
    }

    #[test]
    fn a_length_drilled_in_two_runs_is_paid_as_one(top in 0..20_i64, first in 1..20_i64, second in 1..20_i64) {
        let drilled = |top: i64, bottom: i64| Drilled {
            top: Depth(Length::nanometers(top * 304_800_000)),
            bottom: Depth(Length::nanometers(bottom * 304_800_000)),
            diameter: Length::inches(36.0),
            material: "soil".to_owned(),
        };
        let (middle, bottom) = (top + first, top + first + second);
        let whole = drilled_lengths(&[drilled(top, bottom)]).unwrap();
        let split = drilled_lengths(&[drilled(middle, bottom), drilled(top, middle)]).unwrap();
        prop_assert_eq!(whole, split);
    }

    #[test]
    fn an_hour_at_the_reference_is_an_hour(hours in 0.0..200.0_f64, celsius in -5.0..60.0_f64, q in 3000.0..6000.0_f64) {
        let mean = Temperature::celsius(celsius);
        let stretch = WarmStretch { duration: Span::hours(hours), mean };
        let age = equivalent_age(&[stretch], Activation { q_kelvin: q, reference: mean }).unwrap();
        prop_assert!((age.to_hours() - hours).abs() < 1e-9);
    }
}
