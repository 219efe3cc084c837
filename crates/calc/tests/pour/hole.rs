//! Pieces, steel, casings; volume between levels and back.

use calc::geometry::{Bore, Casing, GeometryError, Part, Steel};
use proptest::prelude::*;
use quantity::{Area, Length, Volume};

use super::{at, cylinder, piece, yards};

#[track_caller]
fn refused(pieces: &[[f64; 4]], expected: &str) {
    let error = Bore::new(pieces.iter().copied().map(piece).collect()).expect_err("a refusal");
    assert_eq!(error.to_string(), expected);
}

#[test]
fn a_hole_that_makes_no_sense_is_refused() {
    refused(&[], "the hole has no pieces");
    refused(&[[48.0, 48.0, 10.0, 10.0]], "the lower end does not lie below the upper end");
    refused(&[[48.0, 0.0, 0.0, 10.0]], "the diameter is not greater than zero");
    refused(&[[48.0, 48.0, 0.0, 10.0], [42.0, 42.0, 10.1, 20.0]], "two pieces of the hole do not meet");
}

#[track_caller]
fn volume(bore: &Bore, upper_depth: f64, lower_depth: f64, expected: &str) {
    let got = match bore.volume_between(at(-lower_depth), at(-upper_depth)) {
        Ok(volume) => format!("{:.3} yd³", volume.to_cubic_yards()),
        Err(error) => error.to_string(),
    };
    assert_eq!(got, expected);
}

/// By hand: π/4 · 4² · 60 / 27 = 27.925; the same over 10 ft is 4.654.
#[test]
fn a_cylinder_between_two_levels() {
    let shaft = cylinder(48.0, 60.0);
    volume(&shaft, 0.0, 60.0, "27.925 yd³");
    volume(&shaft, 20.0, 30.0, "4.654 yd³");
    volume(&shaft, 10.0, 10.0, "0.000 yd³");
    volume(&shaft, 30.0, 20.0, "the lower end does not lie below the upper end");
    volume(&shaft, -0.1, 20.0, "the level lies outside the hole");
    volume(&shaft, 50.0, 60.1, "the level lies outside the hole");
}

/// By hand: 36 in to 40 ft is 10.472, the cone 153.153 ft³ is 5.672, the toe 63.617 ft³ is 2.356 yd³.
#[test]
fn a_bell_on_its_toe() {
    let shaft = [[36.0, 36.0, 0.0, 40.0], [36.0, 108.0, 40.0, 45.0], [108.0, 108.0, 45.0, 46.0]].map(piece);
    let bell = Bore::new(shaft.to_vec()).expect("a sound hole");
    volume(&bell, 0.0, 40.0, "10.472 yd³");
    volume(&bell, 40.0, 45.0, "5.672 yd³");
    volume(&bell, 45.0, 46.0, "2.356 yd³");
    assert_eq!(bell.diameter_at(at(-42.5)), Ok(Length::inches(72.0)));
    assert_eq!(bell.diameter_at(at(-45.0)), Ok(Length::inches(108.0)));
    let step = Bore::new([[48.0, 48.0, 0.0, 20.0], [42.0, 42.0, 20.0, 60.0]].map(piece).to_vec());
    assert_eq!(step.and_then(|step| step.diameter_at(at(-20.0))), Ok(Length::inches(42.0)), "the lower one");
    assert_eq!(
        bell.area_at(at(-46.0)).map(|area| format!("{:.3} ft²", area.to_square_feet())),
        Ok("63.617 ft²".into())
    );
}

/// By hand: 12 No. 11 bars of 1.56 in² over 15 of 60 ft: 18.72 · 15 / 3888 = 0.072 yd³.
#[test]
fn steel_takes_its_room_where_it_stands() {
    let bars = Steel { area: Area::square_inches(18.72), top: at(-45.0), bottom: at(-60.0) };
    let shaft = cylinder(48.0, 60.0).with_steel(vec![bars]).expect("room for concrete");
    volume(&shaft, 0.0, 60.0, "27.853 yd³");
    volume(&shaft, 0.0, 45.0, "20.944 yd³");
    volume(&shaft.gross(), 0.0, 60.0, "27.925 yd³");
    let steel = shaft.steel_between(at(-60.0), at(-50.0)).expect("levels of the hole");
    assert_eq!(format!("{:.4}", steel.to_cubic_yards()), "0.0481");
    let area = |feet| shaft.area_at(at(feet)).expect("a level of the hole").to_square_inches();
    assert!((area(-44.9) - area(-45.1) - 18.72).abs() < 1e-6, "{} {}", area(-44.9), area(-45.1));
}

#[test]
fn steel_without_room_for_concrete_is_refused() {
    let solid = Steel { area: Area::square_feet(13.0), top: at(-1.0), bottom: at(-2.0) };
    let error = cylinder(48.0, 60.0).with_steel(vec![solid]).expect_err("12.6 ft² do not hold 13");
    assert_eq!(error, GeometryError::SteelFillsHole { at: at(-1.0) });
}

/// By hand: No. 4 hoops of 0.20 in², 40 in across, every 6 in: 0.20 · π · 40 / 6 = 4.189 in².
#[test]
fn hoops_are_steel_spread_along_the_cage() {
    let hoops = Steel::hoops(Area::square_inches(0.20), Length::inches(40.0), Length::inches(6.0));
    assert_eq!(hoops.map(|area| format!("{:.3}", area.to_square_inches())), Ok("4.189".to_owned()));
    let none = Steel::hoops(Area::square_inches(0.20), Length::inches(40.0), Length::ZERO);
    assert_eq!(
        none.map_err(|error| error.to_string()),
        Err("the spacing is not greater than zero".to_owned())
    );
}

/// By hand: π/4 · (10.75² − 10.02²) = 11.91 in².
#[test]
fn a_tremie_takes_up_its_wall() {
    let wall = |outside, inside| Steel::wall(Length::inches(outside), Length::inches(inside));
    assert_eq!(
        wall(10.75, 10.02).map(|area| format!("{:.2}", area.to_square_inches())),
        Ok("11.91".to_owned())
    );
    assert!(wall(10.0, 10.1).is_err());
    assert!(wall(10.0, 0.0).is_err());
}

fn casing(inside: f64, outside: f64, top: f64, shoe: f64) -> Casing {
    Casing {
        inside_diameter: Length::inches(inside),
        outside_diameter: Length::inches(outside),
        top: at(-top),
        shoe: at(-shoe),
    }
}

/// By hand, π/4 d² h / 27: 47 in over 25 ft 11.156, 50 in over 25 ft 12.625, 42 in over 35 ft 12.472,
/// 47 in over the foot above ground 0.446.
#[test]
fn a_casing_counts_inside_while_it_stands_and_as_hole_once_it_is_out() {
    let hole =
        Bore::new([[50.0, 50.0, 0.0, 25.0], [42.0, 42.0, 25.0, 60.0]].map(piece).to_vec()).expect("a hole");
    let standing = hole.with_standing(&[casing(47.0, 48.0, -1.0, 25.0)]).expect("it stands");
    assert_eq!((standing.top(), standing.pieces()[0].part), (at(1.0), Part::Casing));
    volume(&standing, 0.0, 25.0, "11.156 yd³");
    volume(&standing, -1.0, 0.0, "0.446 yd³");
    volume(&standing, 25.0, 60.0, "12.472 yd³");
    volume(&hole, 0.0, 25.0, "12.625 yd³");
    let narrow = cylinder(42.0, 60.0).with_pulled(&[casing(49.0, 50.0, 0.0, 25.0)]).expect("it is out");
    volume(&narrow, 0.0, 25.0, "12.625 yd³");
    volume(&narrow, 25.0, 60.0, "12.472 yd³");
}

/// By hand: 54 in over 10 ft 5.890, 47 in over 15 ft 6.693.
#[test]
fn of_casings_inside_each_other_the_narrowest_counts() {
    let both = [casing(47.0, 48.0, 10.0, 40.0), casing(54.0, 55.0, 0.0, 25.0)];
    let bore = cylinder(60.0, 60.0).with_standing(&both).expect("they stand");
    volume(&bore, 0.0, 10.0, "5.890 yd³");
    volume(&bore, 10.0, 25.0, "6.693 yd³");
}

/// A cone from 36 to 60 in over 12 ft, once around a casing of 42 in: above the crossing at 3 ft the
/// cylinder, below it the cone. By hand: 3 ft of 42 in 28.863 ft³; cone 42 to 60 in over 9 ft,
/// π/12 · 9 · (3.5² + 3.5 · 5 + 5²) = 129.002 ft³; together 157.865 ft³ = 5.847 yd³.
#[test]
fn a_cone_is_widened_only_where_it_is_narrower_than_the_casing_was() {
    let cone = Bore::new(vec![piece([36.0, 60.0, 0.0, 12.0])]).expect("a cone");
    let wide = cone.with_pulled(&[casing(41.0, 42.0, 0.0, 12.0)]).expect("it is out");
    volume(&wide, 0.0, 12.0, "5.847 yd³");
}

#[test]
fn a_casing_that_makes_no_sense_is_refused() {
    let hole = cylinder(48.0, 60.0);
    let refused = |casing| hole.with_standing(&[casing]).expect_err("a refusal").to_string();
    assert_eq!(refused(casing(48.0, 47.0, 0.0, 10.0)), "the diameter is not greater than zero");
    assert_eq!(refused(casing(47.0, 48.0, 10.0, 10.0)), "the lower end does not lie below the upper end");
    assert_eq!(refused(casing(47.0, 48.0, -12.0, -2.0)), "the casing ends above the hole");
}

#[track_caller]
fn reaches(bore: &Bore, volume: Volume, expected: &str) {
    let got = match bore.level_holding(volume) {
        Ok(level) => format!("{:.2} ft", level.0.abs().to_feet()),
        Err(GeometryError::Overflows { over, .. }) => format!("{:.3} yd³ over", over.to_cubic_yards()),
        Err(error) => error.to_string(),
    };
    assert_eq!(got, expected);
}

/// By hand: 9 / 0.46542 = 19.34 ft over the bottom at 60 ft.
#[test]
fn a_volume_reaches_a_level() {
    let shaft = cylinder(48.0, 60.0);
    reaches(&shaft, yards(0.0), "60.00 ft");
    reaches(&shaft, yards(9.0), "40.66 ft");
    reaches(&shaft, shaft.volume(), "0.00 ft");
    reaches(&shaft, yards(28.0), "0.075 yd³ over");
    reaches(&shaft, yards(-1.0), "the volume is too small");
}

/// Up to six pieces, cones among them, and bars along some of the length.
fn holes() -> impl Strategy<Value = Bore> {
    let pieces = proptest::collection::vec((300_i64..3000, 300_i64..3000, 1_i64..20_000), 1..6);
    (pieces, 0_i64..40_000, 1_i64..40_000).prop_map(|(pieces, bars_from, bars_long)| {
        let millimeters = |count: i64| Length::nanometers(count * 1_000_000);
        let mut top = Length::ZERO;
        let mut list = Vec::new();
        for (upper, lower, height) in pieces {
            let bottom = top - millimeters(height);
            list.push(calc::geometry::Piece {
                part: Part::Shaft,
                top: quantity::Elevation(top),
                bottom: quantity::Elevation(bottom),
                upper_diameter: millimeters(upper),
                lower_diameter: millimeters(lower),
            });
            top = bottom;
        }
        let from = -millimeters(bars_from);
        let bars = Steel {
            area: Area::square_millimeters(12_000.0),
            top: quantity::Elevation(from),
            bottom: quantity::Elevation(from - millimeters(bars_long)),
        };
        Bore::new(list).and_then(|bore| bore.with_steel(vec![bars])).expect("a sound hole")
    })
}

/// The level a part of the way up.
fn part_way(bore: &Bore, part: f64) -> quantity::Elevation {
    let height = bore.top().above(bore.bottom()).to_meters();
    quantity::Elevation(bore.bottom().0 + Length::meters(height * part)).min(bore.top())
}

proptest! {
    #[test]
    fn volume_is_additive_over_splits(bore in holes(), one in 0.0..1.0_f64, other in 0.0..1.0_f64) {
        let (lower, upper) = (part_way(&bore, one.min(other)), part_way(&bore, one.max(other)));
        let volume = |from, to| bore.volume_between(from, to).unwrap().to_cubic_meters();
        let split = volume(bore.bottom(), lower) + volume(lower, upper) + volume(upper, bore.top());
        let whole = bore.volume().to_cubic_meters();
        // Diameters inside a cone are whole nanometres: 2e-9 of 0.3 m twice, over the whole volume.
        prop_assert!((split - whole).abs() <= 2e-8 * whole, "{split} {whole}");
    }

    #[test]
    fn the_level_of_a_volume_holds_that_volume(bore in holes(), part in 0.0..1.0_f64) {
        let level = part_way(&bore, part);
        let volume = bore.volume_below(level).unwrap();
        let found = bore.level_holding(volume).unwrap();
        prop_assert!(found.above(level).abs() <= Length::nanometers(200), "{found:?} {level:?}");
        let full = bore.level_holding(bore.volume()).unwrap();
        prop_assert!(bore.top().above(full) <= Length::nanometers(200), "{full:?}");
    }

    #[test]
    fn a_standing_casing_never_makes_room(bore in holes(), shoe in 0.01..1.0_f64) {
        let shoe = part_way(&bore, 1.0 - shoe);
        let casing = Casing {
            inside_diameter: Length::meters(0.28),
            outside_diameter: Length::meters(0.30),
            top: bore.top(),
            shoe: shoe.min(quantity::Elevation(bore.top().0 - Length::meters(0.001))),
        };
        let standing = bore.with_standing(&[casing]).unwrap();
        prop_assert!(standing.volume().to_cubic_meters() <= bore.volume().to_cubic_meters() * (1.0 + 1e-8));
        let pulled = bore.with_pulled(&[casing]).unwrap().volume().to_cubic_meters();
        let whole = bore.volume().to_cubic_meters();
        // Cutting a cone rounds its diameter to a nanometre.
        prop_assert!((pulled - whole).abs() <= 1e-8 * whole, "{pulled} {whole}");
    }
}
