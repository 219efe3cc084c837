//! What stands in the hole: casing, cage with hoops, spacers and tubes, tremie, sediment.

use super::layout::Layout;
use super::{Cage, Casing, LevelKind, Section, Tremie};
use crate::ground::Ground;
use crate::hatch::hatch;
use crate::mark::Mark;
use crate::size::Rect;
use crate::style::{CASING, DOUBT, INK, PAPER, Pen, STEEL, TREMIE};
use crate::svg::{Path, Svg};

const CASING_WALL: Pen = Pen::line("casing", CASING, 0.7);
const BAR: Pen = Pen::line("cage", STEEL, 1.0);
const INNER_BAR: Pen = Pen::line("cage", STEEL, 0.35);
const HOOP: Pen = Pen::line("cage-hoop", STEEL, 0.35);
const SPACER: Pen = Pen::line("spacer", STEEL, 0.8).filled(PAPER);
const TUBE: Pen = Pen::line("tube", STEEL, 0.5).dashed("3 1.2");
const DIMENSION: Pen = Pen::line("dimension", INK, 0.7);
const SEDIMENT: Pen = Pen::area("sediment", DOUBT);

pub(super) fn draw(svg: &mut Svg, section: &Section, layout: &Layout) {
    for casing in &section.casings {
        draw_casing(svg, layout, casing);
    }
    draw_sediment(svg, section, layout);
    if let Some(cage) = section.cage.as_ref().filter(|cage| cage.bottom_m > cage.top_m) {
        draw_cage(svg, layout, cage);
    }
    if let Some(tremie) = section.tremie.as_ref() {
        draw_tremie(svg, layout, tremie);
        embedment(svg, section, layout, tremie);
    }
}

/// Both walls of a casing: hollow while it will be pulled, solid when it stays.
fn draw_casing(svg: &mut Svg, layout: &Layout, casing: &Casing) {
    let (left, right) = layout.sides(casing.diameter_m);
    let (top, shoe) = (layout.depth.clamped(casing.top_m), layout.depth.clamped(casing.shoe_m));
    let pen = CASING_WALL.filled(if casing.permanent { CASING } else { PAPER });
    for (x, outward) in [(left, -1.0), (right, 1.0)] {
        let outer = x + outward * 2.6;
        let wall = [(x, top), (outer, top), (outer, shoe), (x, shoe + 4.0)];
        svg.polygon(&wall, &pen);
    }
}

fn draw_cage(svg: &mut Svg, layout: &Layout, cage: &Cage) {
    let (left, right) = layout.sides(cage.diameter_m);
    let (top, bottom) = (layout.depth.clamped(cage.top_m), layout.depth.clamped(cage.bottom_m));
    svg.open("cage");
    hoops(svg, layout, cage, (left, right));
    let bar = |path: Path, part: f64| {
        let x = left + (right - left) * part;
        path.stroke((x, top), (x, bottom))
    };
    svg.path([0.14, 0.34, 0.66, 0.86].into_iter().fold(Path::new(), bar), &INNER_BAR);
    svg.path([0.0, 1.0].into_iter().fold(Path::new(), bar), &BAR);
    tubes(svg, cage, (left, right), (top, bottom));
    spacers(svg, layout, cage, (left, right));
    svg.close();
}

/// Every hoop, or every second, fourth … when they would run into each other.
fn hoops(svg: &mut Svg, layout: &Layout, cage: &Cage, sides: (f64, f64)) {
    let Some(spacing) = cage.hoop_spacing_m.filter(|s| *s > 0.01) else { return };
    let mut step = spacing;
    while step * layout.depth.points_per_unit() < 8.0 && step < 100.0 {
        step *= 2.0;
    }
    let count = ((cage.bottom_m - cage.top_m) / step) as i32;
    let path = (0..=count.min(500)).fold(Path::new(), |path, k| {
        let y = layout.depth.clamped(cage.top_m + f64::from(k) * step);
        path.stroke((sides.0, y), (sides.1, y))
    });
    svg.path(path, &HOOP);
}

/// Access tubes inside the cage: as many as lie beside each other in this view, at most three.
fn tubes(svg: &mut Svg, cage: &Cage, sides: (f64, f64), ends: (f64, f64)) {
    let parts: &[f64] = match cage.tubes {
        0 => &[],
        1 => &[0.24],
        2 => &[0.24, 0.76],
        _ => &[0.24, 0.42, 0.76],
    };
    for part in parts {
        let x = sides.0 + (sides.1 - sides.0) * part;
        svg.line((x - 0.8, ends.0 - 5.0), (x - 0.8, ends.1 - 2.0), &TUBE);
        svg.line((x + 0.8, ends.0 - 5.0), (x + 0.8, ends.1 - 2.0), &TUBE);
    }
}

fn spacers(svg: &mut Svg, layout: &Layout, cage: &Cage, sides: (f64, f64)) {
    for depth in cage.spacers_m.iter().filter(|m| cage.top_m <= **m && **m <= cage.bottom_m) {
        let y = layout.depth.clamped(*depth);
        for (x, outward) in [(sides.0, -1.0), (sides.1, 1.0)] {
            let path = Path::new()
                .to((x, y - 3.0))
                .to((x + outward * 2.6, y - 1.2))
                .to((x + outward * 2.6, y + 1.2));
            svg.path(path.to((x, y + 3.0)), &SPACER);
        }
    }
}

fn draw_tremie(svg: &mut Svg, layout: &Layout, tremie: &Tremie) {
    let tip = layout.depth.clamped(tremie.tip_m);
    let top = layout.depth.clamped(tremie.top_m).max(layout.depth.start);
    let (left, right) =
        tremie.diameter_m.map_or((layout.center - 2.0, layout.center + 2.0), |d| layout.sides(d));
    let half = ((right - left) / 2.0).clamp(1.8, 9.0);
    let (left, right) = (layout.center - half, layout.center + half);
    let unknown = if tremie.diameter_m.is_none() { "3 1.5" } else { "" };
    svg.open("tremie");
    let pen = TREMIE.filled(PAPER).dashed(unknown);
    svg.polygon(&[(left, top), (left, tip), (right, tip), (right, top)], &pen);
    let hopper = [(left - 7.0, top - 9.0), (right + 7.0, top - 9.0), (right, top), (left, top)];
    svg.polygon(&hopper, &TREMIE.filled(PAPER));
    for joint in tremie.joints_m.iter().filter(|m| tremie.top_m < **m && **m < tremie.tip_m) {
        let y = layout.depth.clamped(*joint);
        svg.rect(Rect::new(left - 1.2, y - 1.2, right - left + 2.4, 2.4), &TREMIE.filled(INK));
    }
    svg.close();
}

/// A dimension line from the surface of the concrete to the tip; its words stand among the labels.
fn embedment(svg: &mut Svg, section: &Section, layout: &Layout, tremie: &Tremie) {
    let Some(concrete) = section.level(LevelKind::Concrete).filter(|level| *level < tremie.tip_m) else {
        return;
    };
    let x = embedment_place(section, layout);
    let (top, tip) = (layout.depth.clamped(concrete), layout.depth.clamped(tremie.tip_m));
    let ink = if tremie.embedment_mark == Mark::NoLimit { INK } else { tremie.embedment_mark.ink() };
    let pen = Pen { stroke: ink, ..DIMENSION };
    svg.line((layout.center, tip), (x + 3.0, tip), &pen);
    svg.line((x, top), (x, tip), &pen);
    for (y, inward) in [(top, 1.0), (tip, -1.0)] {
        let arrow = [(x, y), (x - 1.8, y + inward * 4.5), (x + 1.8, y + inward * 4.5)];
        svg.polygon(&arrow, &Pen::area("dimension", ink));
    }
}

/// Where the dimension line of the embedment runs.
pub(super) fn embedment_place(section: &Section, layout: &Layout) -> f64 {
    let half = (layout.sides(super::layout::widest(section).unwrap_or(0.0)).1 - layout.center) * 0.68;
    layout.center + half.clamp(6.0, 15.0)
}

/// Sediment drawn to scale, but never thinner than can be seen.
fn draw_sediment(svg: &mut Svg, section: &Section, layout: &Layout) {
    let (Some(sediment), Some(bottom)) = (&section.sediment, section.bottom()) else { return };
    let width = section.drilled.iter().find(|b| b.bottom_m == bottom).map_or(0.0, |b| b.bottom_diameter_m);
    let (left, right) = layout.sides(width);
    let foot = layout.depth.clamped(bottom);
    let top = layout.depth.clamped(bottom - sediment.thickness_m).min(foot - 1.8);
    if sediment.thickness_m > 0.0 && right > left {
        let room = Rect::between((left, top), (right, foot));
        svg.rect(room, &SEDIMENT);
        hatch(svg, Ground::Sand, room);
    }
}
