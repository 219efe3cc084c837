//! Tickets worked by hand.

use super::*;

/// A load of 9 yd³ with 675 lb of cement and 290 lb of water in each.
fn load(added_gallons: f64) -> Batch {
    Batch {
        cementitious: Mass::pounds(9.0 * 675.0),
        plant_water: Mass::pounds(9.0 * 290.0),
        aggregates: vec![],
        added_water: mass_of_water(Volume::gallons(added_gallons)),
    }
}

#[track_caller]
fn check_ratio(batch: &Batch, expected: &str) {
    let got = match batch.water_cement() {
        Ok(ratio) => format!("{:.4}", ratio.to_ratio()),
        Err(error) => error.to_string(),
    };
    assert_eq!(got, expected);
}

/// 290 / 675 = 0.4296; 5 gal are 41.73 lb, 4.636 lb/yd³, so 294.636 / 675 = 0.4365.
#[test]
fn water_added_on_the_site_moves_the_ratio() {
    check_ratio(&load(0.0), "0.4296");
    check_ratio(&load(5.0), "0.4365");
}

/// 1300 lb of sand at 5 % with 1 % absorbed: 1300 × 0.04 / 1.05 = 49.52 lb. 1800 lb of stone at 0.5 %
/// with 1 % absorbed takes 1800 × 0.005 / 1.005 = 8.96 lb. (250 + 49.52 − 8.96) / 675 = 0.4305.
#[test]
fn wet_sand_brings_water_and_dry_stone_takes_some() {
    let aggregate = |pounds, moisture, absorption| Aggregate {
        batched: Mass::pounds(pounds),
        moisture: Fraction::percent(moisture),
        absorption: Fraction::percent(absorption),
    };
    let batch = Batch {
        cementitious: Mass::pounds(675.0),
        plant_water: Mass::pounds(250.0),
        aggregates: vec![aggregate(1300.0, 5.0, 1.0), aggregate(1800.0, 0.5, 1.0)],
        added_water: Mass::pounds(0.0),
    };
    check_ratio(&batch, "0.4305");
}

#[test]
fn no_ratio_without_cement_or_with_negative_water() {
    let no_cement = Batch { cementitious: Mass::pounds(0.0), ..load(0.0) };
    check_ratio(&no_cement, "the cementitious mass is not greater than zero");
    let odd = Batch { plant_water: Mass::pounds(-1.0), ..load(0.0) };
    check_ratio(&odd, "a mass is below zero");
}

/// 0.44 × 6075 − 2610 = 63.0 lb, 7.55 gal; after 10 gal (83.45 lb) the ratio is passed by 20.45 lb.
#[test]
fn water_that_may_still_be_added() {
    let room = |added| load(added).water_to_ratio(WaterCement::ratio(0.44)).unwrap();
    assert_eq!(format!("{:.1}", room(0.0).to_pounds()), "63.0");
    assert_eq!(format!("{:.2}", volume_of_water(room(0.0)).to_gallons()), "7.55");
    assert_eq!(format!("{:.1}", room(10.0).to_pounds()), "-20.5");
}

/// Designed with 300 lb/yd³, batched with 290: 90 lb of a 9-yd³ load were held back.
#[test]
fn water_held_back_at_the_plant() {
    let design = Density::pounds_per_cubic_foot(300.0 / 27.0);
    let held = load(0.0).water_to_design(design, Volume::cubic_yards(9.0)).unwrap();
    assert_eq!(format!("{:.2}", held.to_pounds()), "90.00");
    let nothing = load(0.0).water_to_design(design, Volume::cubic_yards(0.0));
    assert_eq!(nothing, Err(TicketError::NotPositive));
}

#[track_caller]
fn check_yield(weights_pcf: &[f64], expected: &str) {
    let weights: Vec<_> = weights_pcf.iter().map(|pcf| Density::pounds_per_cubic_foot(*pcf)).collect();
    let got = match batch_yield(Mass::pounds(39_150.0), &weights) {
        Ok(found) => {
            let relative = relative_yield(found, Volume::cubic_yards(10.0)).unwrap();
            let off = (relative.to_part() - 1.0) * 100.0;
            format!("{:.3} yd³ {off:+.2} %", found.volume.to_cubic_yards())
        }
        Err(error) => error.to_string(),
    };
    assert_eq!(got, expected);
}

/// 39 150 / (27 × 145) = 10; 39 150 / (27 × 147) = 9.864.
#[test]
fn yield_from_three_trucks() {
    check_yield(&[145.0, 144.6, 145.4], "10.000 yd³ +0.00 %");
    check_yield(&[146.8, 147.2, 147.0], "9.864 yd³ -1.36 %");
    check_yield(&[], "no unit weight was measured");
    check_yield(&[145.0, 0.0], "a unit weight, mass or volume is not greater than zero");
}

/// Deviations 0, −0.4, +0.4: s = 0.4, of the mean 0.2309 pcf, 10 × 0.2309 / 145 = 0.0159 yd³.
#[test]
fn three_unit_weights_have_a_scatter_and_one_has_none() {
    let pcf = Density::pounds_per_cubic_foot;
    let three = batch_yield(Mass::pounds(39_150.0), &[pcf(145.0), pcf(144.6), pcf(145.4)]).unwrap();
    assert_eq!(format!("{:.4}", three.standard_error.unwrap().to_cubic_yards()), "0.0159");
    assert_eq!(batch_yield(Mass::pounds(39_150.0), &[pcf(145.0)]).unwrap().standard_error, None);
}
