//! The truth of a made-up shaft, and the readings taken from it.

use calc::curve::volume_curve;
use calc::geometry::GeometryError;
use expect_test::expect;
use proptest::prelude::*;
use quantity::{Elevation, Length};
use rehearse::hole::{Hole, Recipe};
use rehearse::readings::{Crew, Marks, Plant, Readings, Tape};
use rehearse::wall::{CELL_M, Feature, FeatureSort, Wall};

const NECK: Feature =
    Feature { sort: FeatureSort::Neck, middle_m: 5.0, height_m: 2.0, flat: 0.0, change: -0.4 };

/// Ten metres as drawn, with features.
fn straight(features: &[Feature]) -> Wall {
    Wall::of(10.0, vec![1.0; 200], features)
}

/// Sounded and weighed without any error, one truck after the other.
fn exact() -> Crew {
    Crew {
        tape: Tape { each_m: 0.0, shared_m: 0.0, marks: Marks::FiveCentimeters, points: 1 },
        plant: Plant { bias: 0.0, shared: 0.0, each: 0.0 },
        left_error_m3: 0.0,
        held_error_m3: 0.0,
        ..Crew::default()
    }
}

fn cased() -> Recipe {
    Recipe { cased: 1.0, ..Recipe::default() }
}

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found}, not {expected}");
}

/// A raised cosine holds half of what its full strength over its whole height would: 0.4 · 2 m / 2.
/// Tolerance: a cosine in 40 cells, each of constant ratio.
#[test]
fn a_neck_takes_the_area_its_shape_says() {
    let wall = straight(&[NECK]);
    near(wall.loss([4.0, 6.0]).expect("a stretch"), 0.2, 1e-3);
    near(wall.mean_ratio([0.0, 10.0]).expect("a stretch"), 1.0 - 0.4 / 10.0, 1e-4);
    near(wall.mean_ratio([0.0, 4.0]).expect("above the neck"), 1.0, 1e-9);
    let (loss, top_m) = wall.greatest_loss(1.0).expect("it fits");
    // Over the middle metre: 0.4 (1/2 + 1/π).
    near(loss, 0.4 * (0.5 + 1.0 / std::f64::consts::PI), 2e-3);
    near(top_m, 4.5, CELL_M);
    assert_eq!(wall.greatest_loss(11.0), None);
    assert_eq!(wall.mean_ratio([6.0, 6.0]), None);
}

#[test]
fn a_feature_with_a_flat_middle_is_at_full_strength_there() {
    let flat = Feature { flat: 0.5, ..NECK };
    let strengths = [5.0, 4.5, 5.5, 4.25, 4.0, 3.0].map(|depth| format!("{:.2}", flat.strength(depth)));
    assert_eq!(strengths, ["1.00", "1.00", "1.00", "0.50", "0.00", "0.00"]);
}

/// Read without error, the curve gives the truth back: the ratio of each interval is that of the wall.
/// Tolerance: the tape still has its marks, 5 cm at both ends of the interval.
#[test]
fn without_errors_the_curve_is_the_truth() -> Result<(), GeometryError> {
    for seed in 0..20 {
        let hole = Hole::of_seed(seed, &Recipe::default());
        let readings = Readings::of_seed(seed, hole, exact())?;
        let (curve, _) = volume_curve(&readings.pour());
        let true_depths = readings.soundings.iter().map(|sounding| sounding.true_m);
        let mut below_m = readings.hole.length_m();
        for (interval, above_m) in curve.intervals.iter().zip(true_depths) {
            let truth = readings.hole.mean_ratio([above_m, below_m]);
            let (Some(truth), Some(ratio)) = (truth, interval.ratio) else { continue };
            near(ratio.value / truth, 1.0, 0.06 / (below_m - above_m));
            below_m = above_m;
        }
    }
    Ok(())
}

/// A pour told in figures, so that a changed generator is seen.
#[test]
fn a_seed_names_its_shaft_for_ever() -> Result<(), GeometryError> {
    let hole = Hole::of_seed(11, &cased());
    let readings = Readings::of_seed(11, hole, Crew::default())?;
    let mut told = vec![format!("{:.3} m × {:.3} m", readings.hole.length_m(), readings.hole.diameter_m)];
    told.extend(readings.hole.layers.iter().map(|layer| {
        format!(
            "{:5.2}–{:5.2} m {:?} {:.3} ± {:.3}",
            layer.top_m, layer.bottom_m, layer.soil, layer.mean, layer.wander
        )
    }));
    told.extend(readings.hole.features.iter().map(|feature| {
        format!(
            "{:?} {:+.2} at {:.2} m over {:.2} m",
            feature.sort, feature.change, feature.middle_m, feature.height_m
        )
    }));
    told.extend(readings.soundings.iter().map(|sounding| {
        format!(
            "read {:.3} true {:.3} ticket {:?} shoe {:.2}",
            sounding.read_m, sounding.true_m, sounding.tickets_m3, sounding.shoe_m
        )
    }));
    expect![[r#"
        18.110 m × 2.046 m
         0.00– 1.71 m SoftClay 1.058 ± 0.022
         1.71– 5.01 m Sand 1.055 ± 0.021
         5.01– 6.68 m Gravel 1.223 ± 0.063
         6.68– 9.75 m Rock 1.024 ± 0.011
         9.75–11.31 m SoftClay 1.021 ± 0.034
        11.31–18.11 m StiffClay 0.994 ± 0.005
        read 15.941 true 15.947 ticket [7.0] shoe 5.99
        read 13.792 true 13.801 ticket [7.0] shoe 5.99
        read 11.643 true 11.652 ticket [7.0] shoe 5.99
        read 9.738 true 9.762 ticket [7.0] shoe 5.99
        read 7.635 true 7.684 ticket [7.0] shoe 5.99
        read 5.715 true 5.735 ticket [7.0] shoe 5.99
        read 3.719 true 3.726 ticket [7.0] shoe 5.99
        read 1.707 true 1.748 ticket [7.0] shoe 5.99
        read 1.935 true 1.962 ticket [] shoe 4.49
        read -0.030 true 0.000 ticket [6.9899901656233085] shoe 4.49
        read 0.061 true 0.086 ticket [] shoe 2.99
        read 0.000 true 0.000 ticket [0.20757060939370708] shoe 2.99
        read 0.122 true 0.126 ticket [] shoe 1.49
        read -0.030 true 0.000 ticket [0.5672099121204615] shoe 1.49
        read 0.076 true 0.088 ticket [] shoe 0.00
        read -0.046 true 0.000 ticket [0.26730984026417126] shoe 0.00"#]]
    .assert_eq(&told.join("\n"));
    Ok(())
}

/// Over many shafts the errors are as large as the crew says. Tolerances: four standard errors.
#[test]
fn the_errors_are_as_large_as_the_crew_says() -> Result<(), GeometryError> {
    let crew = Crew { plant: Plant { bias: -0.005, ..Crew::default().plant }, ..Crew::default() };
    let (mut tape, mut shared, mut yields) = (Vec::new(), Vec::new(), Vec::new());
    for seed in 0..1_000 {
        let readings = Readings::of_seed(seed, Hole::of_seed(seed, &Recipe::default()), crew)?;
        let own =
            |sounding: &rehearse::readings::Sounding| sounding.read_m - sounding.true_m - readings.shared_m;
        tape.extend(readings.soundings.iter().map(own));
        shared.push(readings.shared_m);
        yields.push(readings.shared_yield);
    }
    let spread = |errors: &[f64]| {
        let mean = errors.iter().sum::<f64>() / errors.len() as f64;
        let square = errors.iter().map(|error| (error - mean) * (error - mean)).sum::<f64>();
        [mean, (square / errors.len() as f64).sqrt()]
    };
    let check = |errors: &[f64], [mean, deviation]: [f64; 2]| {
        let found = spread(errors);
        let one = deviation / (errors.len() as f64).sqrt();
        near(found[0], mean, 4.0 * one);
        near(found[1], deviation, 4.0 * one);
    };
    check(&tape, [0.0, crew.tape.standard_error_m()]);
    check(&shared, [0.0, crew.tape.shared_m]);
    check(&yields, [-0.005, crew.plant.shared]);
    Ok(())
}

proptest! {
    /// What left the trucks fills the hole, with what stands in the line; nothing appears or vanishes.
    #[test]
    fn nothing_is_lost_on_the_way(seed in 0u64..5_000, parts in 1usize..3, is_cased in any::<bool>()) {
        let recipe = if is_cased { cased() } else { Recipe::default() };
        let crew = Crew { soundings_per_load: parts, ..Crew::default() };
        let readings = Readings::of_seed(seed, Hole::of_seed(seed, &recipe), crew).expect("a hole");
        let hole = &readings.hole;
        let mut out_m3 = 0.0;
        for sounding in &readings.soundings {
            out_m3 += sounding.true_m3 - sounding.spilled_m3;
            let inside = hole.volume_m3([sounding.true_m, hole.length_m()], sounding.shoe_m);
            prop_assert!((out_m3 - sounding.true_held_m3 - inside).abs() < 1e-6);
        }
        let last = readings.soundings.last().expect("a pour has soundings");
        prop_assert_eq!((last.true_m, last.shoe_m), (0.0, 0.0));
    }

    /// A volume and the depth it reaches belong together, before and after a pull; where the hole is wider
    /// than the casing was inside, the concrete sinks.
    #[test]
    fn depth_and_volume_are_each_other_s_inverse(seed in 0u64..5_000, share in 0.05f64..0.95) {
        let hole = Hole::of_seed(seed, &cased());
        let shoe_m = hole.sleeve.expect("cased").shoe_m;
        let length_m = hole.length_m();
        let volume = share * hole.volume_m3([0.0, length_m], shoe_m);
        let depth = hole.depth_holding(volume, shoe_m);
        prop_assert!((hole.volume_m3([depth, length_m], shoe_m) - volume).abs() < 1e-6);
        let pulled = hole.depth_holding(volume, shoe_m / 2.0);
        let gained = hole.volume_m3([depth, length_m], shoe_m / 2.0) - volume;
        prop_assert!((pulled >= depth - 1e-6) == (gained >= -1e-6) || gained.abs() < 1e-5);
    }

    /// The drawing and the truth are one hole: where the ratio is one, both hold the same.
    #[test]
    fn the_drawing_holds_what_a_hole_as_drawn_holds(seed in 0u64..5_000, shoe in 0.0f64..1.0) {
        let mut hole = Hole::of_seed(seed, &cased());
        let length_m = hole.length_m();
        hole.wall = Wall::of(length_m, vec![1.0; hole.wall.cells().len()], &[]);
        let shoe_m = shoe * hole.sleeve.expect("cased").shoe_m;
        let bore = hole.bore(shoe_m).expect("a hole");
        let level = Elevation(Length::meters(-length_m / 5.0));
        let drawn = bore.volume_below(level).expect("inside").to_cubic_meters();
        prop_assert!((drawn - hole.volume_m3([length_m / 5.0, length_m], shoe_m)).abs() < 1e-6);
    }
}
