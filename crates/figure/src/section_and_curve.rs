//! The section of the shaft and its volume curve on one depth axis.
//!
//! Where the curve leaves its course, the section beside it shows what is there: a sand seam, the casing
//! shoe, the water table.

use crate::section::{self, Section};
use crate::sheet;
use crate::size::{Rect, Size};
use crate::svg::Svg;
use crate::volume_curve::{self, VolumeCurve};

/// Draws both side by side; title, subtitle and blanks are those of the section.
pub fn section_and_curve_svg(section: &Section, curve: &VolumeCurve, size: Size) -> String {
    let size = size.usable();
    let mut svg = Svg::new(size);
    let blanks = together(&section.blanks, &curve.blanks);
    let foot = sheet::blanks_height(&blanks, size);
    let room = sheet::title(&mut svg, size, &section.title, &section.subtitle).inset(0.0, 0.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &blanks, &section.words);
    let gap = 16.0;
    let left = (room.width * 0.5 - gap / 2.0).floor();
    let right = Rect::new(room.x + left + gap, room.y, room.width - left - gap, room.height);
    let range = shared_range(section, curve);
    let legend = volume_curve::foot_height(curve, right.width) - 14.0;
    section::draw(&mut svg, section, Rect::new(room.x, room.y, left, room.height - legend), range);
    volume_curve::draw(&mut svg, curve, right, range);
    let description = format!("{}; {}", section::description(section), volume_curve::description(curve));
    svg.finish("section-and-curve", &section.title, &description)
}

fn together(a: &[String], b: &[String]) -> Vec<String> {
    let mut all = a.to_vec();
    all.extend(b.iter().filter(|blank| !a.contains(blank)).cloned());
    all
}

fn shared_range(section: &Section, curve: &VolumeCurve) -> (f64, f64) {
    match (section::depth_range(section), volume_curve::depth_range(curve)) {
        (Some(a), Some(b)) => (a.0.min(b.0), a.1.max(b.1)),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => (0.0, 1.0),
    }
}
