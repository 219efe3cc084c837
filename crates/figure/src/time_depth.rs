//! The time–depth sheet: a whole day, or several, on one page. Time across, depth down.
//!
//! The ground stands full when the day begins; the hole is cut into it run by run, the cage goes down,
//! concrete rises from the bottom with the tremie in it. Whoever knows such a day reads it at a glance.
//!
//! Words: *run* = the tool in, down, out; *lane* = a strip above the plot for what has a time but no depth.
//! Units: metres below the reference point. Never: connect across what was not recorded without saying so.

mod areas;
mod lanes;
mod legend;
mod lines;
mod marks;
mod names;
mod plan;

use crate::mark::Mark;
use crate::scale::Scale;
use crate::section::Stratum;
use crate::sheet;
use crate::size::Size;
use crate::svg::Svg;
use crate::words::Words;
use plan::Plan;
use quantity::Moment;

/// Everything the sheet shows. `TimeDepth::default()` is an empty sheet in metres.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TimeDepth {
    /// Name of the shaft, `Shaft B-12: the day`.
    pub title: String,
    /// Dates and the verdict in a few words.
    pub subtitle: String,
    /// Unit of depths and elevations.
    pub depth: Scale,
    /// Where depths begin, `top of casing`.
    pub zero_label: String,
    /// Elevation of depth zero, metres above the datum.
    pub zero_elevation_m: Option<f64>,
    /// Depth of the ground surface, metres.
    pub ground_m: Option<f64>,
    /// The ground met, from the top down.
    pub strata: Vec<Stratum>,
    /// Tool runs in order of time.
    pub runs: Vec<ToolRun>,
    /// Soundings of the base, with what they found.
    pub base_soundings: Vec<TestMark>,
    /// Depths of the concrete surface, in order of time.
    pub concrete: Vec<AtDepth>,
    /// Depths of the tremie tip, in order of time; a change between two is drawn as a step.
    pub tremie: Vec<AtDepth>,
    /// When the tremie left the hole.
    pub tremie_out: Option<Moment>,
    /// Casing shoes over time.
    pub casings: Vec<CasingLine>,
    /// Fluid levels, in order of time.
    pub fluid_level: Vec<AtDepth>,
    /// Groundwater as observed.
    pub groundwater: Vec<AtDepth>,
    /// Fluid tests; those without a depth (tank) stand in a lane above.
    pub fluid_tests: Vec<TestMark>,
    /// Cages set.
    pub cages: Vec<CageSet>,
    /// Cleaning passes.
    pub cleaning: Vec<SpanMark>,
    /// Loads of concrete, in order of time.
    pub loads: Vec<LoadTick>,
    /// Interruptions of the work.
    pub interruptions: Vec<SpanMark>,
    /// Findings with a time, numbered as in the list of findings.
    pub flags: Vec<Flag>,
    /// Depth of the planned tip, metres.
    pub planned_tip_m: Option<f64>,
    /// What a reader would look for and was not recorded.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

/// A depth at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtDepth {
    /// When.
    pub at: Moment,
    /// Depth, metres.
    pub depth_m: f64,
}

/// One run of the tool.
#[derive(Debug, Clone, PartialEq)]
pub struct ToolRun {
    /// When it went in; `None` when not written down.
    pub started: Option<Moment>,
    /// When it came out.
    pub ended: Moment,
    /// Depth of the hole after the run, metres.
    pub to_m: f64,
    /// The tool, `48 in auger`; a change of tool is written on the sheet.
    pub tool: String,
}

/// A test or a sounding at a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct TestMark {
    /// When.
    pub at: Moment,
    /// Where, metres; `None` stands in a lane above the plot.
    pub depth_m: Option<f64>,
    /// What the assessment said.
    pub mark: Mark,
    /// A few letters beside the sign, `F2` or `62.3 ft`.
    pub label: String,
}

/// The shoe of a casing over time.
#[derive(Debug, Clone, PartialEq)]
pub struct CasingLine {
    /// How the casing is called.
    pub label: String,
    /// Depths of the shoe, in order of time.
    pub shoe: Vec<AtDepth>,
    /// When it left the ground; `None` while it stands, or when it stays.
    pub out: Option<Moment>,
}

/// A cage set into the hole.
#[derive(Debug, Clone, PartialEq)]
pub struct CageSet {
    /// When it stood at its depth.
    pub at: Moment,
    /// Depth of its top, metres; `None` when not recorded.
    pub top_m: Option<f64>,
    /// Depth of its lower end, metres; `None` when not recorded.
    pub bottom_m: Option<f64>,
    /// How it is called.
    pub label: String,
}

/// Something that lasted.
#[derive(Debug, Clone, PartialEq)]
pub struct SpanMark {
    /// When it began.
    pub from: Moment,
    /// When it ended; `None` when not recorded.
    pub to: Option<Moment>,
    /// What it was, in a few words.
    pub label: String,
}

/// A load of concrete.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadTick {
    /// When its discharge began.
    pub from: Moment,
    /// When its discharge ended; `None` when not recorded.
    pub to: Option<Moment>,
    /// Number of the ticket.
    pub ticket: String,
    /// What the assessment said about the load (a refused load fails).
    pub mark: Mark,
}

/// A finding that belongs to a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Flag {
    /// When.
    pub at: Moment,
    /// Where, metres, if it belongs to a depth.
    pub depth_m: Option<f64>,
    /// Its number in the list of findings.
    pub number: String,
    /// What the assessment said.
    pub mark: Mark,
}

/// Draws the sheet; one smaller than 320 × 340 points would hide its own lines and is made that large.
pub fn time_depth_svg(sheet_data: &TimeDepth, size: Size) -> String {
    let sheet_data = &sheet_data.usable();
    let size = size.usable().at_least(320.0, 340.0);
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&sheet_data.blanks, size);
    let room =
        sheet::title(&mut svg, size, &sheet_data.title, &sheet_data.subtitle).inset(0.0, 0.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &sheet_data.blanks, &sheet_data.words);
    let entries = legend::entries(sheet_data);
    let legend_height = sheet::legend_height(&entries, room.width);
    match Plan::lay_out(sheet_data, room.inset(0.0, 0.0, 0.0, legend_height + 4.0)) {
        Some(plan) => draw(&mut svg, sheet_data, &plan),
        None => sheet::nothing(&mut svg, room, &sheet_data.words),
    }
    let legend_room =
        crate::size::Rect::new(room.x, room.bottom() - legend_height, room.width, legend_height);
    sheet::legend(&mut svg, &entries, legend_room);
    svg.finish("time-depth", &sheet_data.title, &description(sheet_data))
}

fn draw(svg: &mut Svg, data: &TimeDepth, plan: &Plan) {
    areas::draw(svg, data, plan);
    plan.draw_scales(svg, data);
    lanes::draw(svg, data, plan);
    lines::draw(svg, data, plan);
    marks::draw(svg, data, plan);
    names::draw(svg, data, plan);
    sheet::frame(svg, plan.plot);
}

fn description(data: &TimeDepth) -> String {
    let loads = data.loads.iter().map(|l| format!("{} {} {}", data.words.loads, l.ticket, l.from.clock()));
    let concrete = data
        .concrete
        .iter()
        .map(|c| format!("{} {} {}", data.words.concrete, c.at.clock(), data.depth.label(c.depth_m)));
    [data.subtitle.clone()].into_iter().chain(loads).chain(concrete).collect::<Vec<_>>().join("; ")
}
