//! The plumb profile: how far the axis of the hole has left the vertical, by depth.

use super::Position;
use crate::axis::{Axis, known, range};
use crate::mark::{self, Mark};
use crate::sheet::{self, SideScale};
use crate::size::Rect;
use crate::style::{Anchor, BAD, HEAD, INK, LIMIT, MEASURED, NOTE, PAPER, Pen, SOFT, TICK};
use crate::svg::Svg;
use quantity::InOrder;

const VERTICAL: Pen = Pen::line("vertical", SOFT, 0.6).dashed("8 2 2 2");
const POINT: Pen = Pen::line("plumb-point", INK, 1.0).filled(PAPER);

pub(super) fn draw(svg: &mut Svg, data: &Position, room: Rect) {
    svg.text(&HEAD, (room.x, room.y + 8.0), &data.words.plumb);
    if data.plumb_mark != Mark::NoLimit {
        let x = room.x + crate::lettering::width(&data.words.plumb, HEAD.weight, HEAD.size) + 8.0;
        mark::draw(svg, data.plumb_mark, (x, room.y + 5.4), 3.4);
    }
    let plot = room.inset(30.0, 34.0, 2.0, 24.0);
    let points: Vec<_> = data.plumb.iter().collect();
    let Some((top, bottom)) = range(points.iter().map(|p| p.depth_m)) else {
        let text = format!("{}: {}", data.words.plumb, data.words.not_recorded);
        return svg.text(&NOTE, (room.x, room.y + 24.0), &text);
    };
    let depth = Axis::new((top.min(0.0), bottom), (plot.y, plot.bottom()));
    let limit = known(data.plumb_limit).map(|slope| slope.abs() * (bottom - top.min(0.0)));
    let reach = points.iter().map(|p| p.offset_m.abs()).chain(limit).fold(0.01, f64::max) * 1.2;
    let offset = Axis::new((-reach, reach), (plot.x, plot.right()));
    sheet::depth_grid(svg, &depth, &data.depth, (plot.x, plot.right()));
    sheet::foot_scale(svg, &offset.ticks(&data.offset, 24.0), plot);
    let side = SideScale { axis: &depth, scale: &data.depth, x: plot.x, word: &data.words.depth };
    sheet::depth_scale(svg, &side);
    svg.line((offset.at(0.0), plot.y), (offset.at(0.0), plot.bottom()), &VERTICAL);
    if let Some(limit) = limit {
        for side in [-limit, limit] {
            svg.line((offset.at(0.0), plot.y), (offset.at(side), plot.bottom()), &LIMIT);
        }
        let (x, y) = (offset.at(-limit * 0.5), plot.y + plot.height * 0.5);
        let places = [((x - 6.0, y), Anchor::End), ((x - 6.0, y - 16.0), Anchor::End)];
        svg.text_where_free(&TICK.ink(BAD), &places, &data.words.limit, plot);
    }
    profile(svg, data, plot, (&depth, &offset));
    sheet::frame(svg, plot);
    let caption = format!("{}, {}", data.words.offset, data.offset.symbol());
    svg.text(&TICK.middle(), (plot.x + plot.width / 2.0, plot.bottom() + 19.0), &caption);
}

fn profile(svg: &mut Svg, data: &Position, plot: Rect, axes: (&Axis, &Axis)) {
    let (depth, offset) = axes;
    let mut points: Vec<_> = data.plumb.iter().collect();
    points.put_in_order_by(|a, b| a.depth_m.total_cmp(&b.depth_m));
    let line: Vec<_> = points.iter().map(|p| (offset.at(p.offset_m), depth.at(p.depth_m))).collect();
    svg.polyline(&line, &MEASURED);
    for at in &line {
        svg.circle(*at, 2.0, &POINT);
    }
    if let (Some(last), Some(at)) = (points.last(), line.last()) {
        let places = [
            ((at.0 + 5.0, at.1 - 4.0), Anchor::Start),
            ((at.0 - 5.0, at.1 - 4.0), Anchor::End),
            ((at.0 + 5.0, at.1 + 8.0), Anchor::Start),
        ];
        svg.text_where_free(&TICK.ink(INK), &places, &data.offset.signed(last.offset_m), plot);
    }
}
