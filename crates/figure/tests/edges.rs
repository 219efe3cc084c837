//! What lies at the edge of a drawing: ratios off their axis, lines that end before the day does.

mod reading;
mod shafts;

use figure::*;
use reading::texts;
use shafts::{at, day, profiles};

/// Whether a text of a drawing begins so.
fn says(svg: &str, text: &str) -> bool {
    texts(svg).iter().any(|one| one.words.starts_with(text))
}

/// A misread sounding gives a ratio of eight, and an axis up to eight would hide the shaft.
#[test]
fn a_ratio_off_the_axis_is_told_by_an_arrow_and_its_figure() {
    let sheet = profiles::us_profile();
    let mut read = sheet.read.clone();
    read[2].ratio = 7.63;
    let svg = profile_svg(&ProfileSheet { read, ..sheet.clone() }, Size::points(540.0, 640.0));
    assert!(says(&svg, "7.63") && svg.contains("ratio-beyond"));
    let within = profile_svg(&sheet, Size::points(540.0, 640.0));
    assert!(!within.contains("ratio-beyond"));
}

#[test]
fn the_area_of_what_could_hide_is_explained() {
    let svg = profile_svg(&profiles::us_profile(), Size::points(540.0, 640.0));
    assert!(says(&svg, "smaller losses here would not have shown"));
}

/// Found by a newcomer: at the end of the day the sheet still named the depth of a tremie that was out.
#[test]
fn what_came_out_is_named_with_when_it_did() {
    let sheet = day::one_day();
    let wide = Size::points(720.0, 440.0);
    let out = TimeDepth { tremie_out: Some(at("14:10")), ..sheet.clone() };
    assert!(says(&time_depth_svg(&out, wide), "out 14:10"));
    let standing = TimeDepth { tremie_out: None, ..sheet };
    let svg = time_depth_svg(&standing, wide);
    assert!(says(&svg, "Tremie tip") && !says(&svg, "out 14:10"));
}
