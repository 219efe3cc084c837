//! Bases worked by hand: shares from plane geometry, means and slopes from the readings.

use super::*;
use expect_test::expect;

fn point(x_in: f64, y_in: f64, value_in: f64) -> BasePoint {
    BasePoint { x: Length::inches(x_in), y: Length::inches(y_in), value: Length::inches(value_in) }
}

/// Centre and four quadrants at 16 in of a 24-in radius.
fn five(values_in: [f64; 5]) -> Vec<BasePoint> {
    let places = [(0.0, 0.0), (16.0, 0.0), (0.0, 16.0), (-16.0, 0.0), (0.0, -16.0)];
    places.iter().zip(values_in).map(|(&(x, y), value)| point(x, y, value)).collect()
}

fn nearest(values_in: [f64; 5]) -> Base {
    Base::new(&five(values_in), Weighing::NearestPart { radius: Length::inches(24.0) }).unwrap()
}

/// The cell of the centre is a square of 16 in: 256 / (π · 24²) = 0.141471; the others share the rest:
/// 0.214632 each.
#[test]
fn centre_and_four_quadrants_by_nearest_part() {
    let base = nearest([0.0; 5]);
    let told: Vec<_> = base.shares().iter().map(|share| format!("{:.4}", share.to_part())).collect();
    assert_eq!(told, ["0.1415", "0.2146", "0.2146", "0.2146", "0.2146"]);
    let total: f64 = base.shares().iter().map(|share| share.to_part()).sum();
    assert!((total - 1.0).abs() < 1e-12, "the shares sum to one, got {total}");
}

/// Two points mirror each other: half the circle each, wherever they lie.
#[test]
fn two_points_share_the_circle() {
    let points = [point(3.0, 5.0, 1.0), point(-3.0, -5.0, 2.0)];
    let base = Base::new(&points, Weighing::NearestPart { radius: Length::inches(24.0) }).unwrap();
    assert_eq!(format!("{:.6}", base.mean().to_inches()), "1.500000");
}

#[track_caller]
fn check(base: &Base, expected: expect_test::Expect) {
    let told = format!(
        "worst {:.2} in at {}, least {:.2} in, mean {:.3} in, below ½ in {:.1} %, above 1½ in {:.1} %",
        base.greatest().1.to_inches(),
        base.greatest().0,
        base.least().1.to_inches(),
        base.mean().to_inches(),
        base.share_below(Length::inches(0.5)).to_percent(),
        base.share_above(Length::inches(1.5)).to_percent(),
    );
    expected.assert_eq(&told);
}

/// Equal: (0.25 · 2 + 0.5 + 1.75 + 1) / 5 = 0.75. Nearest: 0.141471 · 0.25 + 0.214632 · 3.5 = 0.787.
/// ½ in on the spot does not count as below ½ in.
#[test]
fn half_an_inch_exactly_is_not_below_half_an_inch() {
    let values = [0.25, 0.25, 0.5, 1.75, 1.0];
    let equal = Base::new(&five(values), Weighing::EqualShares).unwrap();
    check(
        &equal,
        expect!["worst 1.75 in at 3, least 0.25 in, mean 0.750 in, below ½ in 40.0 %, above 1½ in 20.0 %"],
    );
    check(
        &nearest(values),
        expect!["worst 1.75 in at 3, least 0.25 in, mean 0.787 in, below ½ in 35.6 %, above 1½ in 21.5 %"],
    );
}

#[test]
fn points_that_cannot_be_weighed() {
    let by_part = |points: &[BasePoint], radius| {
        let weighing = Weighing::NearestPart { radius: Length::inches(radius) };
        Base::new(points, weighing).unwrap_err().to_string()
    };
    assert_eq!(by_part(&[], 24.0), "nothing was sounded");
    assert_eq!(by_part(&five([0.0; 5]), 12.0), "sounding 2 lies outside the base");
    assert_eq!(by_part(&five([0.0; 5]), 0.0), "the radius is not greater than zero");
    let twice = [point(1.0, 1.0, 0.0), point(1.0, 1.0, 0.5)];
    assert_eq!(by_part(&twice, 24.0), "soundings 1 and 2 lie on one spot");
}

/// Depths 480 in and 483 in, 32 in apart: 3/32 = 9.375 %; centre to edge 2/16 = 12.5 % is steeper.
#[test]
fn the_steepest_pair() {
    let base = nearest([481.0, 480.0, 481.0, 483.0, 481.0]);
    let steepest = base.steepest_pair().unwrap();
    assert_eq!((steepest.one, steepest.other, steepest.slope.to_percent()), (0, 3, 12.5));
    let one = Base::new(&[point(0.0, 0.0, 1.0)], Weighing::EqualShares).unwrap();
    assert_eq!(one.steepest_pair(), Err(BaseError::OnlyOne));
}

/// Losses 0, 3, −1 in: greatest 3, mean 2/3; σ 1 in gives 1.414 at a spot, 0.816 of the mean.
#[test]
fn change_since_the_base_was_accepted() {
    let spot =
        |accepted, again| SoundedTwice { accepted: Length::inches(accepted), again: Length::inches(again) };
    let spots = [spot(480.0, 480.0), spot(481.0, 478.0), spot(480.0, 481.0)];
    let change = super::change(&spots, Length::inches(1.0)).unwrap();
    assert_eq!((change.greatest_loss.value, change.at), (Length::inches(3.0), 1));
    let told = [change.mean_loss.value, change.greatest_loss.standard_error, change.mean_loss.standard_error];
    assert_eq!(told.map(|length| format!("{:.3}", length.to_inches())), ["0.667", "1.414", "0.816"]);
    assert_eq!(super::change(&[], Length::inches(1.0)), Err(BaseError::NoPoint));
}
