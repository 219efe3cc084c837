//! Draws the hatching of a kind of ground into a rectangle, stroke by stroke.
//!
//! Explicit strokes, not SVG patterns: they print the same from a browser and from the PDF, show no seams
//! between tiles, and a thin seam of sand still gets its dots.
//!
//! Units: points. Never: chance; the scatter of the dots follows from their place in the grid.

use crate::ground::Ground;
use crate::size::Rect;
use crate::style::{EARTH_INK, Pen};
use crate::svg::{Path, Svg};

const STROKE: Pen = Pen::line("hatch", EARTH_INK, 0.45);
const BED: Pen = Pen::line("hatch", EARTH_INK, 0.35);
const DOT: Pen = Pen::dotting("hatch", EARTH_INK, 1.0);

/// Fills the rectangle with the hatching.
pub(crate) fn hatch(svg: &mut Svg, ground: Ground, room: Rect) {
    match ground {
        Ground::Fill => {
            strokes(svg, room, scatter(room, 9.0, 8.0), |r| [(r * 5.0 - 2.5, 2.0), (2.5 - r * 5.0, -2.0)])
        }
        Ground::Organic => tufts(svg, room),
        Ground::Clay => dashes(svg, room, 7.0, (5.0, 2.6)),
        Ground::Silt => dash_dots(svg, room),
        Ground::Sand => dots(svg, scatter(room, 5.4, 4.8), room),
        Ground::ClayeySand => {
            dashes(svg, room, 9.0, (5.5, 3.5));
            dots(svg, scatter(room.inset(0.0, 3.0, 0.0, 0.0), 8.0, 9.0), room);
        }
        Ground::SiltySand => {
            dash_dots_apart(svg, room, 10.0);
            dots(svg, scatter(room.inset(0.0, 3.0, 0.0, 0.0), 6.0, 5.0), room);
        }
        Ground::Gravel => pebbles(svg, room, 8.0, 1.9),
        Ground::SandyGravel => {
            pebbles(svg, room, 11.0, 1.9);
            dots(svg, scatter(room.inset(2.0, 4.5, 0.0, 0.0), 7.0, 7.0), room);
        }
        Ground::Cobbles => pebbles(svg, room, 13.0, 4.0),
        Ground::Shale => {
            beds(svg, room, 9.0);
            dashes(svg, room.inset(0.0, 2.0, 0.0, 0.0), 9.0, (6.0, 3.0));
        }
        Ground::Sandstone => {
            beds(svg, room, 11.0);
            dots(svg, scatter(room, 6.0, 5.5), room);
        }
        Ground::Limestone => bricks(svg, room),
        Ground::Crystalline => crosses(svg, room),
        Ground::Rock => strokes(svg, room, scatter(room, 8.0, 7.0), |_| [(-3.0, 3.0), (2.0, -2.0)]),
        Ground::NotRecorded => question_marks(svg, room),
    }
}

/// A number from 0 to 1 that follows from a place in a grid.
fn scatter_of(column: i32, row: i32, salt: u32) -> f64 {
    let mut hash = (column as u32).wrapping_mul(0x9E37_79B1) ^ (row as u32).wrapping_mul(0x85EB_CA77) ^ salt;
    hash ^= hash >> 15;
    hash = hash.wrapping_mul(0x2C1B_3C6D);
    hash ^= hash >> 12;
    hash = hash.wrapping_mul(0x297A_2D39);
    f64::from(hash >> 8) / f64::from(1u32 << 24)
}

/// Points of a staggered grid, each moved a little: even but not ruled. With each a number from 0 to 1.
fn scatter(room: Rect, dx: f64, dy: f64) -> Vec<(f64, f64, f64)> {
    let mut points = Vec::new();
    for (row, y) in rows(room, dy).into_iter().enumerate() {
        for column in 0..count(room.width, dx) {
            let row = row as i32;
            let shift = if row % 2 == 0 { 0.25 } else { 0.75 };
            let x = room.x + (f64::from(column) + shift + (scatter_of(column, row, 1) - 0.5) * 0.4) * dx;
            points.push((x, y + (scatter_of(column, row, 2) - 0.5) * 0.5 * dy, scatter_of(column, row, 3)));
        }
    }
    points
}

/// Middle lines of the rows that fit; at least one.
fn rows(room: Rect, apart: f64) -> Vec<f64> {
    let rows = count(room.height, apart);
    let left = room.height - f64::from(rows - 1) * apart;
    (0..rows).map(|row| room.y + left / 2.0 + f64::from(row) * apart).collect()
}

fn count(room: f64, apart: f64) -> i32 {
    (libm::floor(room / apart) as i32).clamp(1, 2000)
}

fn dots(svg: &mut Svg, points: Vec<(f64, f64, f64)>, room: Rect) {
    let inner = room.inset(0.6, 0.6, 0.6, 0.6);
    let inside = points.into_iter().filter(|p| inner.contains(Rect::new(p.0, p.1, 0.0, 0.0)));
    svg.path(inside.fold(Path::new(), |path, p| path.dot((p.0, p.1))), &DOT);
}

/// One stroke of two ends around each point; strokes that would leave the room are left out.
fn strokes(svg: &mut Svg, room: Rect, points: Vec<(f64, f64, f64)>, shape: impl Fn(f64) -> [(f64, f64); 2]) {
    let path = points.into_iter().fold(Path::new(), |path, (x, y, r)| {
        let [a, b] = shape(r).map(|end| (x + end.0, y + end.1));
        if room.contains(Rect::between(a, b)) { path.stroke(a, b) } else { path }
    });
    svg.path(path, &STROKE);
}

/// Rows of dashes `(length, gap)`, every second row shifted by half a dash.
fn dashes(svg: &mut Svg, room: Rect, apart: f64, dash: (f64, f64)) {
    let mut path = Path::new();
    for (row, y) in rows(room, apart).into_iter().enumerate() {
        let shift = if row % 2 == 0 { 0.0 } else { (dash.0 + dash.1) / 2.0 };
        path = dashed_row(path, room, (y, shift), dash);
    }
    svg.path(path, &STROKE);
}

fn dashed_row(mut path: Path, room: Rect, row: (f64, f64), dash: (f64, f64)) -> Path {
    let (y, shift) = row;
    let mut x = room.x - shift + dash.1 / 2.0;
    while x < room.right() {
        let (from, to) = (x.max(room.x), (x + dash.0).min(room.right()));
        if to - from > 0.8 {
            path = path.stroke((from, y), (to, y));
        }
        x += dash.0 + dash.1;
    }
    path
}

fn dash_dots(svg: &mut Svg, room: Rect) {
    dash_dots_apart(svg, room, 6.0);
}

fn dash_dots_apart(svg: &mut Svg, room: Rect, apart: f64) {
    let (mut lines, mut points) = (Path::new(), Vec::new());
    for (row, y) in rows(room, apart).into_iter().enumerate() {
        let mut x = room.x + if row % 2 == 0 { 1.0 } else { 6.0 };
        while x + 5.0 < room.right() {
            lines = lines.stroke((x, y), (x + 5.0, y));
            points.push((x + 7.5, y, 0.0));
            x += 10.0;
        }
    }
    svg.path(lines, &STROKE);
    dots(svg, points, room);
}

fn pebbles(svg: &mut Svg, room: Rect, apart: f64, radius: f64) {
    let mut path = Path::new();
    for (x, y, r) in scatter(room, apart, apart * 0.85) {
        let radius = (radius * (0.7 + 0.5 * r)).min(room.height * 0.4);
        if room.contains(Rect::new(x - radius, y - radius, 2.0 * radius, 2.0 * radius)) {
            path = path.ring((x, y), radius);
        }
    }
    svg.path(path, &STROKE);
}

fn beds(svg: &mut Svg, room: Rect, apart: f64) {
    let path =
        rows(room, apart).into_iter().fold(Path::new(), |p, y| p.stroke((room.x, y), (room.right(), y)));
    svg.path(path, &BED);
}

fn bricks(svg: &mut Svg, room: Rect) {
    let (course, length) = (7.0, 13.0);
    let mut path = Path::new();
    let (mut y, mut row) = (room.y, 0);
    while y < room.bottom() {
        let foot = (y + course).min(room.bottom());
        path = path.stroke((room.x, y), (room.right(), y));
        let mut x = room.x + if row % 2 == 0 { length * 0.4 } else { length * 0.9 };
        while x < room.right() {
            path = path.stroke((x, y), (x, foot));
            x += length;
        }
        (y, row) = (y + course, row + 1);
    }
    svg.path(path, &BED);
}

fn crosses(svg: &mut Svg, room: Rect) {
    let points = scatter(room, 9.0, 8.0);
    strokes(svg, room, points.clone(), |_| [(-1.8, 0.0), (1.8, 0.0)]);
    strokes(svg, room, points, |_| [(0.0, -1.8), (0.0, 1.8)]);
}

fn tufts(svg: &mut Svg, room: Rect) {
    let points = scatter(room, 9.0, 7.0);
    strokes(svg, room, points.clone(), |_| [(0.0, 1.5), (0.0, -1.8)]);
    strokes(svg, room, points.clone(), |_| [(0.0, 1.5), (-1.6, -1.2)]);
    strokes(svg, room, points, |_| [(0.0, 1.5), (1.6, -1.2)]);
}

/// A small hook over a dot, drawn as strokes so that it counts as a hatching and not as a text.
fn question_marks(svg: &mut Svg, room: Rect) {
    let (mut hooks, mut points) = (Path::new(), Vec::new());
    for (x, y, _) in scatter(room, 22.0, 20.0) {
        if room.contains(Rect::new(x - 2.0, y - 3.0, 4.0, 6.0)) {
            let hook =
                [(-1.4, -1.6), (-0.7, -2.6), (0.7, -2.6), (1.4, -1.6), (1.2, -0.6), (0.0, 0.4), (0.0, 1.2)];
            hooks = hook.iter().fold(hooks.lift(), |path, p| path.to((x + p.0, y + p.1)));
            points.push((x, y + 2.5, 0.0));
        }
    }
    svg.path(hooks, &STROKE);
    dots(svg, points, room);
}
