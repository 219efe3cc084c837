//! The lanes above the plot: findings, what lasted, loads with their tickets.

use super::plan::Plan;
use super::{Flag, LoadTick, SpanMark, TimeDepth};
use crate::days::{Days, duration};
use crate::lettering::{fit, width};
use crate::mark::{self, Mark};
use crate::size::Rect;
use crate::spread::{spread, spread_wide};
use crate::style::{BAND, CONCRETE, INK, LABEL, LEADER, NOTE, PAPER, Pen, SOFT, STRONG, TICK, Type};
use crate::svg::{Path, Svg};
use quantity::{InOrder, Moment};

/// A label stands at most this far from its place.
const FARTHEST: f64 = 42.0;
/// Height of the lane of loads with level tickets.
const LOAD_LANE: f64 = 25.0;
/// Longest ticket that is written upright.
const UPRIGHT_MOST: f64 = 44.0;
const SPAN: Pen = Pen::line("span", SOFT, 0.6).filled(BAND);
const INTERRUPTION: Pen = Pen::line("interruption", INK, 0.35);
const LOAD: Pen = Pen::line("load", INK, 0.7).filled(CONCRETE);
const DROP: Pen = Pen::line("load-line", SOFT, 0.4).dashed("1 2");
const STAFF: Pen = Pen::line("flag", INK, 0.5).dashed("2 1.5");

pub(super) fn draw(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    svg.open("lanes");
    for stop in &data.interruptions {
        interruption(svg, plan, stop);
    }
    spans(svg, data, plan);
    loads(svg, data, plan);
    flags(svg, data, plan);
    svg.close();
}

/// What lasted, in order of time, with its words.
fn lasting(data: &TimeDepth) -> Vec<(Moment, Option<Moment>, String)> {
    let stops = data.interruptions.iter().map(|stop| {
        let length = stop.to.map(|to| duration(to.seconds() - stop.from.seconds())).unwrap_or_default();
        (stop.from, stop.to, format!("{} {length}", stop.label).trim().to_owned())
    });
    let cages = data.cages.iter().map(|cage| (cage.at, None, cage.label.clone()));
    let cleaning = data.cleaning.iter().map(|span| (span.from, span.to, span.label.clone()));
    let mut all: Vec<_> = stops.chain(cages).chain(cleaning).collect();
    all.put_in_order_by_key(|span| span.0);
    all
}

/// Blocks over their time with the words above them, spread where they crowd.
fn spans(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let (lane, all) = (plan.spans, lasting(data));
    let ends = |span: &(Moment, Option<Moment>, String)| {
        let from = plan.days.at(span.0);
        (from, span.1.map_or(from + 2.0, |to| plan.days.at(to)).max(from + 2.0))
    };
    for span in &all {
        let (from, to) = ends(span);
        svg.rect(Rect::new(from, lane.bottom() - 6.0, to - from, 4.0), &SPAN);
    }
    let labels: Vec<Sideways> = all
        .iter()
        .map(|span| Sideways { wanted: (ends(span).0 + ends(span).1) / 2.0, text: span.2.clone() })
        .collect();
    write_row(svg, &labels, (lane, &LABEL), plan);
}

/// A hatched curtain over the plot, named in the lane.
fn interruption(svg: &mut Svg, plan: &Plan, stop: &SpanMark) {
    let from = plan.days.at(stop.from);
    let to = stop.to.map_or(from + 4.0, |to| plan.days.at(to)).max(from + 2.0).min(plan.plot.right());
    svg.path(slanted(Rect::new(from, plan.plot.y, to - from, plan.plot.height)), &INTERRUPTION);
}

fn slanted(room: Rect) -> Path {
    let mut path = Path::new();
    let mut start = -room.width;
    while start < room.height {
        let from = (room.x + (-start).max(0.0), room.y + start.max(0.0));
        let reach = (room.right() - from.0).min(room.bottom() - from.1);
        path = path.stroke(from, (from.0 + reach, from.1 + reach));
        start += 9.0;
    }
    path
}

/// Every load is a block over its discharge; the ticket stands above it, upright where they crowd.
fn loads(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    let labels = tickets(data, &plan.days);
    if plan.loads.height > LOAD_LANE {
        upright_row(svg, &labels, plan);
    } else {
        write_row(svg, &labels, (plan.loads, &STRONG), plan);
    }
    for load in &data.loads {
        block(svg, plan, load);
    }
    if !data.loads.is_empty() {
        let head = fit(&data.words.loads, TICK.weight, TICK.size, plan.strata.width);
        svg.text(&TICK.end(), (plan.loads.x - 4.0, plan.loads.bottom() - 3.0), &head);
    }
}

fn tickets(data: &TimeDepth, days: &Days) -> Vec<Sideways> {
    let mut loads: Vec<&LoadTick> = data.loads.iter().collect();
    loads.put_in_order_by_key(|load| load.from);
    let middle = |load: &LoadTick| (days.at(load.from) + days.at(load.to.unwrap_or(load.from))) / 2.0;
    loads.into_iter().map(|load| Sideways { wanted: middle(load), text: load.ticket.clone() }).collect()
}

/// Height of the lane of loads: taller where the tickets have to stand upright.
pub(super) fn load_lane(data: &TimeDepth, days: &Days, ends: (f64, f64)) -> f64 {
    let labels = tickets(data, days);
    if labels.is_empty() {
        return 0.0;
    }
    if thinned(&labels, &STRONG, (ends.0 - 30.0, ends.1 + 4.0)).len() == labels.len() {
        return LOAD_LANE;
    }
    let longest = labels.iter().map(|l| width(&l.text, STRONG.weight, STRONG.size)).fold(0.0, f64::max);
    longest.min(UPRIGHT_MOST) + 18.0
}

/// Tickets reading upward, side by side above their blocks.
fn upright_row(svg: &mut Svg, labels: &[Sideways], plan: &Plan) {
    let lane = plan.loads;
    let apart = 9.0;
    let most = ((lane.width / apart) as usize).max(1);
    let shown: Vec<&Sideways> = labels.iter().step_by(labels.len().div_ceil(most)).collect();
    let wanted: Vec<f64> = shown.iter().map(|label| label.wanted).collect();
    for (label, x) in shown.iter().zip(spread(&wanted, apart, (lane.x + 4.0, lane.right() - 4.0))) {
        let text = fit(&label.text, STRONG.weight, STRONG.size, UPRIGHT_MOST);
        svg.text_upward(&STRONG, (x + 2.6, lane.bottom() - 15.0), &text);
        svg.line((x, lane.bottom() - 13.5), (label.wanted, lane.bottom() - 9.0), &LEADER);
    }
    not_named(svg, labels.len() - shown.len(), lane, plan);
}

fn not_named(svg: &mut Svg, count: usize, lane: Rect, plan: &Plan) {
    if count > 0 {
        let text = format!("{count} {}", plan.not_shown);
        svg.text(&NOTE, (plan.names.x, lane.y + 8.0), &fit(&text, NOTE.weight, NOTE.size, plan.names.width));
    }
}

/// A text above a place of the time axis.
struct Sideways {
    wanted: f64,
    text: String,
}

/// Writes the texts side by side with leaders down to their places; every second, third … when there are
/// too many, and then says how many were left out.
fn write_row(svg: &mut Svg, labels: &[Sideways], row: (Rect, &Type), plan: &Plan) {
    let (lane, style) = row;
    let places = thinned(labels, style, (lane.x - 30.0, lane.right() + 4.0));
    for (label, x) in &places {
        svg.text(&style.middle(), (*x, lane.y + 8.0), &label.text);
        svg.line((*x, lane.y + 10.0), (label.wanted, lane.bottom() - 7.0), &LEADER);
    }
    not_named(svg, labels.len() - places.len(), lane, plan);
}

/// As many of the labels, evenly taken, as can stand side by side near their places.
fn thinned<'a>(labels: &'a [Sideways], style: &Type, ends: (f64, f64)) -> Vec<(&'a Sideways, f64)> {
    let room = |label: &Sideways| width(&label.text, style.weight, style.size) + 6.0;
    let laid = |every: usize| {
        let shown: Vec<&Sideways> = labels.iter().step_by(every).collect();
        let wanted: Vec<_> = shown.iter().map(|label| (label.wanted, room(label))).collect();
        let places = spread_wide(&wanted, ends);
        let near = wanted.iter().zip(&places).all(|(label, x)| (label.0 - x).abs() < FARTHEST);
        let inside = wanted.iter().map(|label| label.1).sum::<f64>() <= ends.1 - ends.0;
        (near && inside).then(|| shown.into_iter().zip(places).collect())
    };
    (1..=labels.len()).find_map(laid).unwrap_or_default()
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
    flags.put_in_order_by_key(|flag| flag.at);
    let widest =
        flags.iter().map(|f| width(&f.number, STRONG.weight, STRONG.size) + 8.0).fold(12.0, f64::max);
    let most = ((lane.width / widest) as usize).max(1);
    let left_out = flags.len().saturating_sub(most);
    flags.truncate(most);
    let wanted: Vec<f64> = flags.iter().map(|flag| plan.days.at(flag.at)).collect();
    let places = spread(&wanted, widest, (lane.x + widest / 2.0, lane.right() - widest / 2.0));
    for ((flag, x), own) in flags.iter().zip(places).zip(wanted) {
        pennant(svg, plan, flag, (x, own, widest - 3.0));
    }
    not_named(svg, left_out, lane, plan);
}

fn pennant(svg: &mut Svg, plan: &Plan, flag: &Flag, place: (f64, f64, f64)) {
    let (x, own, wide) = place;
    let lane = plan.flags;
    let ink = if flag.mark == Mark::NoLimit { INK } else { flag.mark.ink() };
    let foot = flag.depth_m.map_or(plan.plot.y, |m| plan.depth.at(m));
    svg.polyline(
        &[(x, lane.bottom() - 1.5), (own, lane.bottom() + 3.0), (own, foot)],
        &Pen { stroke: ink, ..STAFF },
    );
    let fill = if flag.mark == Mark::Fails { ink } else { PAPER };
    let text = if flag.mark == Mark::Fails { PAPER } else { ink };
    let room = Rect::new(x - wide / 2.0, lane.y + 0.5, wide, lane.height - 2.0);
    svg.rect(room, &Pen::line("flag", ink, 0.9).filled(fill));
    svg.text(&STRONG.middle().ink(text), (x, lane.y + lane.height / 2.0 + 2.2), &flag.number);
}
