//! The true wall beside what the trainee's tickets and soundings say: area over nominal area, along the depth.

use super::paint::{Anchor, Paint};
use record::field::UnitSystem;
use rehearse::practice::{Debrief, Practice};
use rehearse::wall::CELL_M;

/// Metres in a foot.
const FOOT: f64 = 0.3048;
const SIZE: (f64, f64) = (340.0, 460.0);
/// Left, right, top and bottom of the plot.
const PLOT: [f64; 4] = [56.0, 324.0, 44.0, 404.0];
/// Ratios at its left and right edge.
const RATIOS: [f64; 2] = [0.5, 2.0];

/// The chart.
pub(super) fn chart(practice: &Practice, told: &Debrief) -> String {
    let mut paint = Paint::new(SIZE.0, SIZE.1);
    let length_m = practice.day().readings.hole.length_m();
    axes(&mut paint, length_m, practice.day().system);
    let cells = practice.day().readings.hole.wall.cells();
    let wall: Vec<(f64, f64)> = cells
        .iter()
        .enumerate()
        .map(|(cell, ratio)| place(*ratio, (cell as f64 + 0.5) * CELL_M, length_m))
        .collect();
    paint.way(&wall, ("ink", 2.0, ""));
    for stretch in &told.stretches {
        let Some(ratio) = stretch.written else { continue };
        let [top, bottom] = stretch.stretch_m.map(|depth_m| place(ratio, depth_m, length_m));
        paint.way(&[top, bottom], ("steel", 3.5, "9 4"));
    }
    legend(&mut paint);
    paint.svg("The true wall beside the ratios by your tickets and soundings, along the depth")
}

fn place(ratio: f64, depth_m: f64, length_m: f64) -> (f64, f64) {
    let [left, right, top, bottom] = PLOT;
    let across = (ratio.clamp(RATIOS[0], RATIOS[1]) - RATIOS[0]) / (RATIOS[1] - RATIOS[0]);
    (left + across * (right - left), top + (depth_m / length_m).clamp(0.0, 1.0) * (bottom - top))
}

fn axes(paint: &mut Paint, length_m: f64, system: UnitSystem) {
    let [left, right, top, bottom] = PLOT;
    for tenths in [5, 10, 15, 20] {
        let ratio = f64::from(tenths) / 10.0;
        let (x, _) = place(ratio, 0.0, length_m);
        paint.line((x, top), (x, bottom), if tenths == 10 { ("ink", 1.2) } else { ("faint", 1.0) });
        paint.text((x, top - 8.0), (12.0, false), Anchor::Middle, &format!("{ratio:.1}"));
    }
    let (one_m, step, unit) = if system == UnitSystem::Us { (FOOT, 10, "ft") } else { (1.0, 2, "m") };
    for depth in (0..=(length_m / one_m) as i64).step_by(step) {
        let (_, y) = place(1.0, depth as f64 * one_m, length_m);
        paint.line((left, y), (right, y), ("faint", 1.0));
        paint.text((left - 6.0, y + 4.0), (12.0, false), Anchor::End, &depth.to_string());
    }
    paint.frame((left, top), (right - left, bottom - top));
    paint.text((left - 6.0, 18.0), (12.0, true), Anchor::End, unit);
    paint.text((right, 18.0), (12.0, true), Anchor::End, "area over nominal area");
}

fn legend(paint: &mut Paint) {
    let [left, ..] = PLOT;
    paint.way(&[(left, 424.0), (left + 34.0, 424.0)], ("ink", 2.0, ""));
    paint.text((left + 42.0, 428.0), (13.0, false), Anchor::Start, "the truth");
    paint.way(&[(left, 446.0), (left + 34.0, 446.0)], ("steel", 3.5, "9 4"));
    paint.text((left + 42.0, 450.0), (13.0, false), Anchor::Start, "by your tickets and soundings");
}
