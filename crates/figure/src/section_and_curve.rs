//! The section of the shaft and its volume curve on one depth axis.
//!
//! Where the curve leaves its course, the section beside it shows what is there: a sand seam, the casing
//! shoe, the water table.

use crate::section::{self, Section};
use crate::sheet;
use crate::size::{Rect, Size};
use crate::svg::Svg;
use crate::volume_curve::{self, VolumeCurve};

/// Draws both side by side; the title is that of the section.
pub fn section_and_curve_svg(section: &Section, curve: &VolumeCurve, size: Size) -> String {
    let (section, curve) = (&section.usable(), &curve.usable());
    let size = size.usable();
    let mut svg = Svg::new(size);
    let blanks = together(&section.blanks, &curve.blanks);
    let subtitle = [section.subtitle.as_str(), curve.subtitle.as_str()];
    let subtitle = subtitle.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ");
    let foot = sheet::blanks_height(&blanks, size);
    let room = sheet::title(&mut svg, size, &section.title, &subtitle).inset(0.0, 0.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &blanks, &section.words);
    match shared_range(section, curve) {
        Some(range) => draw(&mut svg, section, curve, (room, range)),
        None => sheet::nothing(&mut svg, room, &section.words),
    }
    let description = format!("{}; {}", section::description(section), volume_curve::description(curve));
    svg.finish("section-and-curve", &section.title, &description)
}

fn draw(svg: &mut Svg, section: &Section, curve: &VolumeCurve, place: (Rect, (f64, f64))) {
    let (room, range) = place;
    let gap = 16.0;
    let left = (room.width * 0.56 - gap / 2.0).floor();
    let right = Rect::new(room.x + left + gap, room.y, room.width - left - gap, room.height);
    let mine = section::legend(section);
    let below = (volume_curve::foot_height(curve, right.width) - 14.0).max(sheet::legend_height(&mine, left));
    let upper = Rect::new(room.x, room.y, left, room.height - below);
    section::draw(svg, section, upper, range);
    sheet::legend(svg, &mine, Rect::new(room.x, upper.bottom() + 1.0, left, below));
    let shorter = below + 14.0 - volume_curve::foot_height(curve, right.width);
    volume_curve::draw(svg, curve, right.inset(0.0, 0.0, 0.0, shorter), range);
}

fn together(a: &[String], b: &[String]) -> Vec<String> {
    let mut all = a.to_vec();
    all.extend(b.iter().filter(|blank| !a.contains(blank)).cloned());
    all
}

fn shared_range(section: &Section, curve: &VolumeCurve) -> Option<(f64, f64)> {
    match (section::depth_range(section), volume_curve::depth_range(curve)) {
        (Some(a), Some(b)) => Some((a.0.min(b.0), a.1.max(b.1))),
        (one, None) | (None, one) => one,
    }
}
