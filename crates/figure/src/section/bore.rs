//! The hole itself: what fills it, how wide it is, and how wide it was planned.
//!
//! Words: *outline* = half of the hole's contour as depths and diameters.

use super::layout::Layout;
use super::{Bore, LevelKind, ProfilePoint, Section};
use crate::size::Rect;
use crate::style::{self, CONCRETE, CONCRETE_INK, FLUID, INK, PAPER, PLANNED, Pen, SOFT, WATER};
use crate::svg::{Path, Svg};
use quantity::InOrder;

const WALL: Pen = Pen::line("hole-wall", INK, 1.1);
const UNCERTAIN: Pen = Pen::line("profile-band", SOFT, 0.3).filled(style::UNCERTAIN);
const ESTIMATE: Pen = Pen::line("profile-estimate", INK, 1.0);
const FLUID_MARKS: Pen = Pen::line("fluid-marks", WATER, 0.4);
const STONES: Pen = Pen::line("concrete-marks", CONCRETE_INK, 0.45);
const GRAINS: Pen = Pen::dotting("concrete-marks", CONCRETE_INK, 0.8);

/// Depth and diameter along the hole.
type Outline = Vec<(f64, f64)>;

pub(super) fn sample_planned(svg: &mut Svg, at: (f64, f64)) {
    crate::sheet::sample_line(svg, at, &PLANNED);
}

pub(super) fn sample_profile(svg: &mut Svg, at: (f64, f64)) {
    svg.rect(Rect::new(at.0 - 8.0, at.1 - 1.8, 16.0, 3.6), &UNCERTAIN);
    crate::sheet::sample_line(svg, at, &ESTIMATE);
}

/// A contour on the paper.
struct Shape<'a> {
    layout: &'a Layout,
    outline: Outline,
}

pub(super) fn draw(svg: &mut Svg, section: &Section, layout: &Layout) {
    let hole = outline(&section.drilled);
    if !hole.is_empty() {
        fill(svg, section, &Shape { layout, outline: shown(section, &hole) }, &hole);
        wall(svg, layout, &hole, section.profile.is_empty());
    }
    band(svg, section, layout);
    planned(svg, section, layout);
}

/// Diameter of the hole, or of the planned one, at a depth; `None` above, below, or when neither is given.
pub(super) fn diameter(section: &Section, depth: f64) -> Option<f64> {
    [&section.drilled, &section.planned].into_iter().find_map(|bores| {
        let shape = outline(bores);
        let (top, bottom) = (shape.first()?.0, shape.last()?.0);
        (top <= depth && depth <= bottom).then(|| diameter_at(&shape, depth, true))
    })
}

/// The contour that is filled: the estimated profile where there is one, the drilled widths elsewhere.
fn shown(section: &Section, hole: &Outline) -> Outline {
    let profile = sorted(&section.profile);
    let (Some(first), Some(last)) = (profile.first(), profile.last()) else { return hole.clone() };
    let above = hole.iter().filter(|p| p.0 < first.depth_m);
    let below = hole.iter().filter(|p| p.0 > last.depth_m);
    above.copied().chain(profile.iter().map(|p| (p.depth_m, p.estimate_m))).chain(below.copied()).collect()
}

/// Paper, fluid and concrete from the top of the hole down.
fn fill(svg: &mut Svg, section: &Section, shape: &Shape<'_>, hole: &Outline) {
    let (top, bottom) = (hole[0].0, hole[hole.len() - 1].0);
    shape.area(svg, (top, bottom), &Pen::area("hole", PAPER));
    let concrete = section.level(LevelKind::Concrete).map_or(bottom, |level| level.clamp(top, bottom));
    if let Some(fluid) = section.level(LevelKind::Fluid).map(|level| level.clamp(top, bottom)) {
        shape.area(svg, (fluid, concrete.max(fluid)), &Pen::area("fluid", FLUID));
        shape.ripples(svg, (fluid, concrete));
    }
    shape.area(svg, (concrete, bottom), &Pen::area("concrete", CONCRETE));
    shape.stones(svg, (concrete, bottom));
}

impl Shape<'_> {
    /// The part of the contour between two depths, as one closed area.
    fn area(&self, svg: &mut Svg, ends: (f64, f64), pen: &Pen) {
        let (top, bottom) = ends;
        if bottom <= top {
            return;
        }
        let between = self.outline.iter().filter(|p| top < p.0 && p.0 < bottom).copied();
        let first = (top, diameter_at(&self.outline, top, false));
        let last = (bottom, diameter_at(&self.outline, bottom, true));
        let part: Outline = [first].into_iter().chain(between).chain([last]).collect();
        svg.polygon(&around(self.layout, &part), pen);
    }

    /// Left and right wall at a place of the paper.
    fn walls_at(&self, y: f64) -> (f64, f64) {
        let axis = &self.layout.depth;
        let depth = axis.from + (y - axis.start) / axis.points_per_unit();
        self.layout.sides(diameter_at(&self.outline, depth, false))
    }

    /// Short broken lines, closer near the surface of the fluid.
    fn ripples(&self, svg: &mut Svg, ends: (f64, f64)) {
        let (top, bottom) = (self.layout.depth.at(ends.0), self.layout.depth.at(ends.1));
        let mut path = Path::new();
        let (mut y, mut gap, mut row) = (top + 3.0, 3.0, 0);
        while y < bottom - 1.0 && row < 200 {
            let (left, right) = self.walls_at(y);
            let inset = if row % 2 == 0 { 0.18 } else { 0.34 } * (right - left);
            path = path.stroke((left + inset, y), (right - inset, y));
            gap = (gap * 1.35_f64).min(26.0);
            (y, row) = (y + gap, row + 1);
        }
        svg.path(path, &FLUID_MARKS);
    }

    /// The usual sign for concrete: small stones among grains.
    fn stones(&self, svg: &mut Svg, ends: (f64, f64)) {
        let (top, bottom) = (self.layout.depth.at(ends.0), self.layout.depth.at(ends.1));
        let (mut stones, mut grains) = (Path::new(), Path::new());
        let (mut y, mut row) = (top + 5.0, 0);
        while y < bottom - 3.0 {
            let (left, right) = self.walls_at(y);
            let (mut x, mut column) = (left + 3.0 + f64::from((row * 7) % 11), row);
            while x < right - 3.0 {
                if column % 3 == 0 {
                    stones = stone(stones, (x, y), 1.2 + f64::from((row + column) % 3) * 0.5);
                } else {
                    grains = grains.dot((x, y + f64::from((row * 5 + column * 3) % 4) - 2.0));
                }
                (x, column) = (x + 5.5, column + 1);
            }
            (y, row) = (y + 5.5, row + 1);
        }
        svg.path(stones, &STONES);
        svg.path(grains, &GRAINS);
    }
}

fn stone(path: Path, at: (f64, f64), size: f64) -> Path {
    let (x, y) = at;
    path.lift().to((x - size, y + size)).to((x + size, y + 0.6 * size)).to((x, y - size)).close()
}

/// Down the left side of a contour and up the right one.
fn around(layout: &Layout, outline: &Outline) -> Vec<(f64, f64)> {
    let side = |left: bool| {
        outline.iter().map(move |&(depth, d)| {
            let sides = layout.sides(d);
            (if left { sides.0 } else { sides.1 }, layout.depth.clamped(depth))
        })
    };
    side(true).chain(side(false).rev()).collect()
}

/// Diameter at a depth; at a step the one `above` or below it.
fn diameter_at(shape: &Outline, depth: f64, above: bool) -> f64 {
    let pairs = || shape.windows(2).filter(|pair| pair[0].0 <= depth && depth <= pair[1].0);
    let pair = if above { pairs().next() } else { pairs().next_back() };
    match pair {
        Some([a, b]) if b.0 > a.0 => a.1 + (b.1 - a.1) * (depth - a.0) / (b.0 - a.0),
        Some([a, _]) if above => a.1,
        Some([_, b]) => b.1,
        _ => shape.last().map_or(0.0, |p| p.1),
    }
}

/// The drilled hole as depths and diameters, bores sorted by depth, steps as two points at one depth.
fn outline(bores: &[Bore]) -> Outline {
    let fine = |b: &&Bore| b.bottom_m > b.top_m && b.top_diameter_m > 0.0 && b.bottom_diameter_m > 0.0;
    let mut bores: Vec<&Bore> = bores.iter().filter(fine).collect();
    bores.put_in_order_by(|a, b| a.top_m.total_cmp(&b.top_m));
    let ends = |b: &Bore| [(b.top_m, b.top_diameter_m), (b.bottom_m, b.bottom_diameter_m)];
    bores.into_iter().flat_map(ends).collect()
}

fn sorted(profile: &[ProfilePoint]) -> Vec<ProfilePoint> {
    let mut points = profile.to_vec();
    points.put_in_order_by(|a, b| a.depth_m.total_cmp(&b.depth_m));
    points
}

/// Both walls and the bottom of the hole; thin where an estimated profile tells more.
fn wall(svg: &mut Svg, layout: &Layout, hole: &Outline, alone: bool) {
    let pen = if alone { WALL } else { Pen { width: 0.3, ..WALL } };
    let left: Vec<_> = hole.iter().map(|p| (layout.sides(p.1).0, layout.depth.clamped(p.0))).collect();
    let right: Vec<_> = hole.iter().map(|p| (layout.sides(p.1).1, layout.depth.clamped(p.0))).collect();
    let bottom = (left.last().copied(), right.last().copied());
    svg.polyline(&left, &pen);
    svg.polyline(&right, &pen);
    if let (Some(a), Some(b)) = bottom {
        svg.line(a, b, &WALL);
    }
}

/// The estimated profile: its line within a band.
fn band(svg: &mut Svg, section: &Section, layout: &Layout) {
    let points = sorted(&section.profile);
    for left in [true, false] {
        let place = |p: &ProfilePoint, d: f64| {
            let sides = layout.sides(d);
            (if left { sides.0 } else { sides.1 }, layout.depth.clamped(p.depth_m))
        };
        let low = points.iter().map(|p| place(p, p.low_m));
        let high = points.iter().rev().map(|p| place(p, p.high_m));
        svg.polygon(&low.chain(high).collect::<Vec<_>>(), &UNCERTAIN);
        let line: Vec<_> = points.iter().map(|p| place(p, p.estimate_m)).collect();
        svg.polyline(&line, &ESTIMATE);
    }
}

/// The planned outline as one line down, across the tip and up again.
fn planned(svg: &mut Svg, section: &Section, layout: &Layout) {
    svg.polyline(&around(layout, &outline(&section.planned)), &PLANNED);
}
