//! Lifts of a casing: order, limits, what is behind it.

use calc::casing::{
    CasingError, HeadRule, Outside, ShoeHeads, Withdrawal, concrete_to_keep_head, drop_per_length,
    highest_lift, least_head, lift, lifts, shoe_margin, unexplained_volume,
};
use calc::estimate::{Estimate, Level};
use calc::geometry::{Bore, Casing};
use proptest::prelude::*;
use quantity::{Density, Length};

use super::{at, cylinder, yards};

fn casing() -> Casing {
    Casing {
        inside_diameter: Length::inches(47.0),
        outside_diameter: Length::inches(48.0),
        top: at(0.0),
        shoe: at(-25.0),
    }
}

fn standing(hole: &Bore, concrete_depth: f64) -> Withdrawal<'_> {
    let concrete = Estimate::new(at(-concrete_depth), Length::feet(0.1));
    Withdrawal { hole, others: &[], casing: casing(), concrete }
}

/// The same values as cases/casing-withdrawal.toml, lift by lift in one go.
#[test]
fn a_row_of_lifts() {
    let hole = cylinder(50.0, 40.0);
    let shoes = [at(-20.0), at(-15.0), at(-10.0), at(-5.0)];
    let row = lifts(&standing(&hole, 1.0), &shoes).expect("all in the hole");
    let shown: Vec<_> = row
        .iter()
        .map(|after| format!("{:.2} {:.1}", -after.level.value.0.to_feet(), after.head.value.to_feet()))
        .collect();
    assert_eq!(shown, ["1.66 18.3", "2.32 12.7", "2.98 7.0", "3.63 1.4"]);
    assert_eq!(row[0].level.standard_error, Length::feet(0.1), "the same area above and below");
}

/// A casing of 40 in inside stays within the one of 47 in that is pulled: no concrete is behind it, so
/// nothing drops.
#[test]
fn a_casing_that_stays_inside_keeps_the_surface() {
    let hole = cylinder(50.0, 40.0);
    let stays = [Casing {
        inside_diameter: Length::inches(40.0),
        outside_diameter: Length::inches(41.0),
        ..casing()
    }];
    let inner = Withdrawal { others: &stays, ..standing(&hole, 1.0) };
    let after = lift(&inner, Length::feet(10.0), yards(0.0)).expect("in the hole");
    assert_eq!((after.level.value, after.head.value), (at(-1.0), Length::feet(14.0)));
}

/// A casing driven into a narrower drilled hole leaves its own width behind: 47 in inside, 48 in outside
/// in a hole of 42 in drop the surface like one in a hole of 48 in, 1.99 ft (cases/casing-withdrawal.toml);
/// and 0.1 ft of tape inside is 0.1 · 47²/48² = 0.096 ft in the wider hole.
#[test]
fn a_casing_leaves_at_least_its_own_width() {
    let hole = cylinder(42.0, 25.0);
    let after = lift(&standing(&hole, 1.0), Length::feet(25.0), yards(0.0)).expect("in the hole");
    let shown = |feet: f64| format!("{feet:.3}");
    assert_eq!(shown(-after.level.value.0.to_feet()), "1.990");
    assert_eq!(shown(after.level.standard_error.to_feet()), "0.096");
}

#[test]
fn a_lift_downward_is_refused() {
    let hole = cylinder(50.0, 40.0);
    let down = lift(&standing(&hole, 1.0), Length::feet(-1.0), yards(0.0));
    assert_eq!(down, Err(CasingError::Lift { given: Length::feet(-1.0) }));
}

#[test]
fn concrete_that_overflows_is_refused() {
    let hole = cylinder(50.0, 40.0);
    let over = lift(&standing(&hole, 1.0), Length::ZERO, yards(2.0)).expect_err("0.4 yd³ of room");
    assert_eq!(over.to_string(), "the volume does not fit into the hole");
}

/// By hand: at a shoe of 5 ft the level is 3.635 and 5 ft of head need 0.00: 3.635 ft inside at 12.048 ft²
/// are 1.622 yd³.
#[test]
fn concrete_is_added_until_the_head_is_right() {
    let hole = cylinder(50.0, 40.0);
    let rule = HeadRule { required: Length::feet(5.0) };
    let added = concrete_to_keep_head(&standing(&hole, 1.0), Length::feet(20.0), rule).expect("it fits");
    assert_eq!(format!("{:.3}", added.value.to_cubic_yards()), "1.622");
    // 0.1 ft at 12.048 ft² is 0.0446 yd³.
    assert_eq!(format!("{:.4}", added.standard_error.to_cubic_yards()), "0.0446");
}

#[test]
fn a_head_that_is_already_short_has_no_lift() {
    let hole = cylinder(50.0, 40.0);
    let rule = HeadRule { required: Length::feet(5.0) };
    let short = highest_lift(&standing(&hole, 21.0), rule);
    assert_eq!(short, Err(CasingError::AlreadyShort { head: Length::feet(4.0) }));
    assert_eq!(
        highest_lift(&standing(&hole, 20.0), rule),
        Ok(Length::ZERO),
        "just enough, and nothing to spare"
    );
}

/// By hand: half a foot lower than expected, in 47 in, is 0.5 · 12.048 / 27 = 0.223 yd³.
#[test]
fn a_surface_beside_the_expected_one_tells_of_the_ground() {
    let hole = cylinder(50.0, 40.0);
    let standing = standing(&hole, 1.0);
    let after = standing.bore_after(Length::feet(5.0)).expect("a hole");
    let expected = lift(&standing, Length::feet(5.0), yards(0.0)).expect("in the hole").level;
    let found = |feet: f64| {
        let measured =
            Level { value: quantity::Elevation(expected.value.0 + Length::feet(feet)), ..expected };
        let found = unexplained_volume(&after, expected, measured).expect("in the hole");
        format!("{:.3} ± {:.3}", found.value.to_cubic_yards(), found.standard_error.to_cubic_yards())
    };
    assert_eq!(found(-0.5), "0.223 ± 0.063");
    assert_eq!(found(0.5), "-0.223 ± 0.063");
}

#[test]
fn pressure_of_nothing_is_refused() {
    let water = Density::pounds_per_cubic_foot(62.4);
    let concrete = Density::pounds_per_cubic_foot(145.0);
    assert!(least_head(concrete, Length::feet(19.0), water).is_err());
    assert!(drop_per_length(Length::inches(50.0), Length::ZERO).is_err());
    let inside = ShoeHeads {
        concrete: Length::feet(-1.0),
        fluid: Length::ZERO,
        concrete_density: concrete,
        fluid_density: water,
    };
    let outside =
        Outside { water: Length::ZERO, water_density: water, fluid: Length::ZERO, fluid_density: water };
    assert_eq!(
        shoe_margin(&inside, &outside).map_err(|error| error.to_string()),
        Err("a length is too small".into())
    );
}

proptest! {
    /// Two short lifts end where one long lift does, and the farthest lift is one that keeps the head.
    #[test]
    fn lifts_may_be_split(one in 0.0..10.0_f64, other in 0.0..10.0_f64, depth in 0.5..3.0_f64) {
        let hole = cylinder(50.0, 40.0);
        let whole = standing(&hole, depth);
        let straight = lift(&whole, Length::feet(one) + Length::feet(other), yards(0.0)).unwrap();
        let half = lift(&whole, Length::feet(one), yards(0.0)).unwrap();
        // After a first lift the wide hole below the shoe is part of the drilled hole.
        let rest = Withdrawal { hole: &hole, others: &[], casing: whole.casing.lifted(Length::feet(one)), concrete: half.level };
        let split = lift(&rest, Length::feet(other), yards(0.0)).unwrap();
        prop_assert!(split.level.value.above(straight.level.value).abs() <= Length::nanometers(10));
    }

    #[test]
    fn the_farthest_lift_just_keeps_the_head(depth in 0.5..10.0_f64, required in 1.0..10.0_f64) {
        let hole = cylinder(50.0, 40.0);
        let standing = standing(&hole, depth);
        let rule = HeadRule { required: Length::feet(required) };
        let far = highest_lift(&standing, rule).unwrap();
        let head = |feet: Length| lift(&standing, feet, yards(0.0)).unwrap().head.value;
        prop_assert!(head(far) >= rule.required);
        prop_assert!(head(far + Length::nanometers(1)) < rule.required);
    }
}
