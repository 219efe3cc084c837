//! The estimated shape: an even shaft, one that lost area, one that took too much, and a pour still going on.
//!
//! The shafts are invented: 42 in, 60 ft, loads of 4 yd³, 0.35634 yd³ a foot, so that a load lifts the surface 10.6 ft
//! where the hole takes 1.06 times its nominal volume. What the estimate is worth over thousands of made-up pours is
//! proved elsewhere; here it is seen to arrive.

mod story;

use assess::Earlier;
use assess::shape::{Asked, NoShape, Shape, Told, heights};
use quantity::{Fraction, Length};
use record::Log;
use story::{Story, near, others};

/// Depths after each load of 4 yd³, and the last of so much.
fn poured(depths: &[f64], last: f64) -> Story {
    let count = depths.len();
    let load = |(at, depth): (usize, &f64)| (if at + 1 == count { last } else { 4.0 }, *depth, 100.0 - depth);
    let loads: Vec<(f64, f64, f64)> = depths.iter().enumerate().map(load).collect();
    others::printed(100.0, 40.0, &loads)
}

fn even() -> Story {
    poured(&[49.4, 38.8, 28.2, 17.6, 7.0, 0.0], 2.65)
}

/// What the shape is at the end, or at a time.
fn shape(story: &Story, clock: Option<&str>) -> Result<Shape, NoShape> {
    let told = story.told();
    let assessment = clock.map_or_else(|| told.end(), |clock| told.at(clock));
    let log = Log::of(&told.record, Some(told.shaft), Some(assessment.at));
    Shape::of(Asked::of(&log, &assessment, &Earlier::none()), heights(true))
}

#[test]
fn an_even_shaft_is_told_as_a_whole_and_nothing_stands_out() {
    let shape = shape(&even(), None).expect("sounded");
    near(shape.whole.mean, 1.06, 0.01);
    assert!(shape.whole.ends[0] < 1.06 && 1.06 < shape.whole.ends[1], "{:?}", shape.whole);
    assert_eq!(shape.told, []);
    assert_eq!(shape.issues, []);
    assert_eq!(shape.next, None, "the pour is over");
}

#[test]
fn every_band_holds_the_narrower_one_and_the_cells_leave_no_gap() {
    let shape = shape(&even(), None).expect("sounded");
    for pair in shape.bands.windows(2) {
        assert_eq!(pair[0].cell.top, pair[1].cell.bottom);
    }
    for band in &shape.bands {
        for (narrow, wide) in band.ends.iter().zip(&band.ends[1..]) {
            assert!(wide[0] <= narrow[0] && narrow[0] <= narrow[1] && narrow[1] <= wide[1], "{band:?}");
        }
    }
}

/// 42 in at a ratio of 1.06: √1.06 · 42 = 43.2 in.
#[test]
fn the_widths_are_circles_of_the_estimated_area() {
    let shape = shape(&even(), None).expect("sounded");
    let widths = shape.widths();
    assert_eq!(widths.len(), shape.bands.len());
    for width in widths {
        near(width.estimate.to_inches(), 43.2, 1.0);
        assert!(width.ends[0] < width.estimate && width.estimate < width.ends[1], "{width:?}");
    }
}

/// The higher the loss, the smaller the part of the area that would have shown.
#[test]
fn what_could_hide_shrinks_with_the_height_of_the_loss() {
    let shape = shape(&even(), None).expect("sounded");
    let worst: Vec<f64> =
        shape.blind_spots.iter().map(|blind_spots| blind_spots.worst().expect("sounded").loss).collect();
    assert!(worst[0] > worst[1] && worst[1] > worst[2] && worst[2] > 0.0, "{worst:?}");
    assert_eq!(
        shape.blind_spots.iter().map(|blind_spots| blind_spots.height).collect::<Vec<_>>(),
        heights(true)
    );
}

/// The third load lifts the surface 13 ft instead of 10.6: 0.86 of the nominal volume.
#[test]
fn an_interval_that_took_too_little_may_hold_a_neck() {
    let shape = shape(&poured(&[49.4, 38.8, 25.8, 15.2, 4.6, 0.0], 1.74), None).expect("sounded");
    let [Told::NeckPossible { ends, ratio, whole, height, share, probability }] = shape.told[..] else {
        panic!("{:?}", shape.told)
    };
    near(ends[0].0.to_feet(), 100.0 - 25.8, 1e-6);
    near(ends[1].0.to_feet(), 100.0 - 38.8, 1e-6);
    assert!(ratio.mean < 0.95 * whole, "{ratio:?} of {whole}");
    assert!((0.2..=1.0).contains(&probability), "{probability}");
    assert_eq!((height, share), (Length::feet(3.0), Fraction::percent(15.0)));
}

/// The third load lifts the surface 7.5 ft: 1.50 of the nominal volume.
#[test]
fn an_interval_that_took_too_much_is_told_as_wide() {
    let shape = shape(&poured(&[49.4, 38.8, 31.3, 20.7, 10.1, 0.0], 3.81), None).expect("sounded");
    let [Told::Wide { ratio, whole, .. }] = shape.told[..] else { panic!("{:?}", shape.told) };
    assert!(ratio.ends[0] > 1.1 * whole, "{ratio:?} of {whole}");
    near(ratio.mean, 1.50, 0.15);
}

#[test]
fn while_the_pour_goes_on_one_more_sounding_is_weighed() {
    let shape = shape(&even(), Some("10:45")).expect("sounded");
    let next = shape.next.expect("the pour goes on");
    near(next.load.to_cubic_yards(), 4.0, 1e-9);
    assert_eq!(next.height, Length::feet(3.0));
    let loss = next.sounding.best.map(|best| best.loss);
    assert!(loss.is_none_or(|loss| loss < next.sounding.without), "{next:?}");
}

#[test]
fn without_a_sounding_there_is_no_shape() {
    assert_eq!(shape(&even(), Some("07:30")).err(), Some(NoShape::NothingSounded));
}
