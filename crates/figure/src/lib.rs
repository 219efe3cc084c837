//! Drawings of a drilled shaft: plain data in, SVG text out.
//!
//! An inspector sees at a glance what a page of numbers hides: where the concrete stands, how deep the
//! tremie reaches into it, where the hole took more than it should. The same function draws for the
//! screen and for the report, and the same data give the same bytes.
//!
//! Words: *depth* = below the reference point of the shaft, positive downward; *mark* = what the
//! assessment said about a value.
//! Units: SI in the data (`_m`, `_m3`); points, 1/72 in, on the paper.
//! Never: judge, compute a result, read a clock or a file; invent what was not recorded.

mod around;
mod axis;
mod days;
mod fonts;
mod ground;
mod harmless;
mod hatch;
mod lead;
mod lettering;
mod mark;
mod scale;
mod sheet;
mod size;
mod spread;
mod style;
mod svg;
mod usable;
mod words;

mod bars;
mod base_plan;
mod cage_section;
mod fluid_tests;
mod groups;
mod job_plan;
mod position;
mod profile;
mod section;
mod section_and_curve;
mod slump;
mod time_depth;
mod trend;
mod volume_curve;

pub use bars::{Bar, BarFill, BarKind, BarRow, BarSheet, bars_svg};
pub use base_plan::{BasePlan, BasePoint, base_plan_svg};
pub use cage_section::{CageSection, cage_section_svg};
pub use fluid_tests::{FluidPanel, FluidPoint, FluidTests, fluid_tests_svg};
pub use fonts::{FAMILY, FONTS, LICENCE};
pub use ground::Ground;
pub use groups::{GroupPart, GroupRow, GroupSheet, groups_svg};
pub use harmless::is_drawing;
pub use job_plan::{JobPlan, PlacedShaft, Progress, job_plan_svg};
pub use lead::Lead;
pub use mark::Mark;
pub use position::{PlumbPoint, Position, position_svg};
pub use profile::{BlindPoint, BlindSpots, ProfileCell, ProfileSheet, ReadRatio, profile_svg};
pub use scale::Scale;
pub use section::{
    Bore, Cage, Casing, Level, LevelKind, ProfilePoint, Section, Sediment, Stratum, Tremie, section_svg,
};
pub use section_and_curve::section_and_curve_svg;
pub use size::Size;
pub use slump::{LoadLife, SlumpPoint, SlumpSheet, slump_svg};
pub use style::PALETTE;
pub use time_depth::{
    AtDepth, CageSet, CasingLine, Flag, LoadTick, SpanMark, TestMark, TimeDepth, ToolRun, time_depth_svg,
};
pub use trend::{Origin, TrendColumn, TrendLimit, TrendPanel, TrendPoint, TrendSheet, trend_svg};
pub use volume_curve::{CurvePoint, Interval, PlacedPoint, VolumeCurve, volume_curve_svg};
pub use words::{ShapeWords, Words};
