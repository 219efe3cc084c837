//! The lanes above the plot: findings, what lasted, loads with their tickets.

use super::plan::Plan;
use super::{Flag, LoadTick, TimeDepth};
use crate::days::duration;
use crate::lettering::{fit, width};
use crate::mark::{self, Mark};
use crate::size::Rect;
use crate::spread::spread;
use crate::style::{Anchor, BAND, CONCRETE, INK, LABEL, NOTE, PAPER, Pen, SOFT, STRONG, TICK};
use crate::svg::{Path, Svg};
use quantity::Moment;

const SPAN: Pen = Pen::line("span", SOFT, 0.6).filled(BAND);
const INTERRUPTION: Pen = Pen::line("interruption", INK, 0.35);
const LOAD: Pen = Pen::line("load", INK, 0.7).filled(CONCRETE);
const DROP: Pen = Pen::line("load-line", SOFT, 0.4).dashed("1 2");
const STAFF: Pen = Pen::line("flag", INK, 0.5).dashed("2 1.5");

pub(super) fn draw(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    svg.open("lanes");
    interruptions(svg, data, plan);
    for cage in &data.cages {
        span(svg, plan, (cage.at, None), &cage.label);
    }
    for cleaning in &data.cleaning {
        span(svg, plan, (cleaning.from, cleaning.to), &cleaning.label);
    }
    loads(svg, data, plan);
    flags(svg, data, plan);
    svg.close();
}

/// A block in the lane of what lasted; one without a recorded end stays open.
fn span(svg: &mut Svg, plan: &Plan, times: (Moment, Option<Moment>), label: &str) {
    let lane = plan.spans;
    let (from, to) = (plan.days.at(times.0), times.1.map(|to| plan.days.at(to)));
    let end = to.unwrap_or(from).max(from + 3.0);
    svg.rect(Rect::new(from, lane.y + 2.0, end - from, lane.height - 4.0), &SPAN);
    let y = lane.y + lane.height / 2.0 + 2.6;
    let places =
        [((end + 3.0, y), Anchor::Start), ((from - 3.0, y), Anchor::End), ((from + 2.0, y), Anchor::Start)];
    svg.text_where_free(&LABEL, &places, label, lane);
}

/// A hatched curtain over the plot, named in the lane.
fn interruptions(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    for stop in &data.interruptions {
        let from = plan.days.at(stop.from);
        let to = stop.to.map_or(from + 4.0, |to| plan.days.at(to)).max(from + 2.0).min(plan.plot.right());
        let room = Rect::new(from, plan.plot.y, to - from, plan.plot.height);
        svg.path(slanted(room), &INTERRUPTION);
        let length = stop.to.map(|to| duration(to.seconds() - stop.from.seconds()));
        let label = format!("{} {}", stop.label, length.unwrap_or_default());
        span(svg, plan, (stop.from, stop.to), label.trim());
    }
}

fn slanted(room: Rect) -> Path {
    let mut path = Path::new();
    let mut start = -room.width;
    while start < room.height {
        let from = (room.x + (-start).max(0.0), room.y + start.max(0.0));
        let reach = (room.right() - from.0).min(room.bottom() - from.1);
        path = path.stroke(from, (from.0 + reach, from.1 + reach));
        start += 7.0;
    }
    path
}

/// Every load is a block over its discharge; the ticket stands above it, spread where they crowd.
fn loads(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let lane = plan.loads;
    let mut loads: Vec<&LoadTick> = data.loads.iter().collect();
    loads.sort_by_key(|load| load.from);
    let room = |load: &LoadTick| width(&load.ticket, STRONG.weight, STRONG.size) + 5.0;
    let widest = loads.iter().map(|load| room(load)).fold(8.0, f64::max);
    let most = ((lane.width / widest) as usize).max(1);
    let every = loads.len().div_ceil(most).max(1);
    let named: Vec<&LoadTick> = loads.iter().copied().step_by(every).collect();
    let wanted: Vec<f64> = named.iter().map(|load| middle(plan, load)).collect();
    let ends = (lane.x + widest / 2.0, lane.right() - widest / 2.0);
    for ((load, x), own) in named.iter().zip(spread(&wanted, widest, ends)).zip(&wanted) {
        svg.text(&STRONG.middle(), (x, lane.y + 7.5), &load.ticket);
        svg.line((x, lane.y + 10.0), (*own, lane.bottom() - 8.0), &Pen::line("leader", SOFT, 0.4));
    }
    for load in &loads {
        block(svg, plan, load);
    }
    if every > 1 {
        let text = format!("{} {}", loads.len() - named.len(), data.words.not_shown);
        let text = fit(&text, NOTE.weight, NOTE.size, plan.names.width);
        svg.text(&NOTE, (plan.names.x, lane.y + 7.5), &text);
    }
    if !loads.is_empty() {
        let head = fit(&data.words.loads, TICK.weight, TICK.size, plan.strata.width);
        svg.text(&TICK.end(), (lane.x - 4.0, lane.bottom() - 4.0), &head);
    }
}

fn middle(plan: &Plan, load: &LoadTick) -> f64 {
    (plan.days.at(load.from) + plan.days.at(load.to.unwrap_or(load.from))) / 2.0
}

fn block(svg: &mut Svg, plan: &Plan, load: &LoadTick) {
    let lane = plan.loads;
    let from = plan.days.at(load.from);
    let to = load.to.map_or(from + 1.5, |to| plan.days.at(to)).max(from + 1.5);
    svg.rect(Rect::new(from, lane.bottom() - 8.0, to - from, 6.0), &LOAD);
    svg.line((from, lane.bottom() - 2.0), (from, plan.plot.bottom()), &DROP);
    if matches!(load.mark, Mark::Fails | Mark::Doubtful) {
        mark::draw(svg, load.mark, ((from + to) / 2.0, lane.bottom() - 5.0), 3.2);
    }
}

/// Numbered pennants; a staff leads down to the depth of the finding.
fn flags(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let lane = plan.flags;
    let mut flags: Vec<&Flag> = data.flags.iter().collect();
    flags.sort_by_key(|flag| flag.at);
    let widest =
        flags.iter().map(|f| width(&f.number, STRONG.weight, STRONG.size) + 8.0).fold(12.0, f64::max);
    let most = ((lane.width / widest) as usize).max(1);
    let left_out = flags.len().saturating_sub(most);
    flags.truncate(most);
    let wanted: Vec<f64> = flags.iter().map(|flag| plan.days.at(flag.at)).collect();
    let places = spread(&wanted, widest, (lane.x + widest / 2.0, lane.right() - widest / 2.0));
    for ((flag, x), own) in flags.iter().zip(places).zip(wanted) {
        pennant(svg, plan, flag, (x, own), widest - 3.0);
    }
    if left_out > 0 {
        let text =
            fit(&format!("{left_out} {}", data.words.not_shown), NOTE.weight, NOTE.size, plan.names.width);
        svg.text(&NOTE, (plan.names.x, lane.y + 8.0), &text);
    }
}

fn pennant(svg: &mut Svg, plan: &Plan, flag: &Flag, places: (f64, f64), wide: f64) {
    let (x, own) = places;
    let lane = plan.flags;
    let ink = if flag.mark == Mark::NoLimit { INK } else { flag.mark.ink() };
    let foot = flag.depth_m.filter(|m| m.is_finite()).map_or(plan.plot.y, |m| plan.depth.at(m));
    svg.polyline(
        &[(x, lane.bottom() - 1.0), (own, plan.spans.y + 1.0), (own, foot)],
        &Pen { stroke: ink, ..STAFF },
    );
    let fill = if flag.mark == Mark::Fails { ink } else { PAPER };
    let text = if flag.mark == Mark::Fails { PAPER } else { ink };
    let room = Rect::new(x - wide / 2.0, lane.y + 0.5, wide, lane.height - 2.0);
    svg.rect(room, &Pen::line("flag", ink, 0.9).filled(fill));
    svg.text(&STRONG.middle().ink(text), (x, lane.y + lane.height / 2.0 + 2.2), &flag.number);
}
