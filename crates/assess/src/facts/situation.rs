//! The situation of a shaft: the conditions and dimensions its criteria hang on.
//!
//! What nobody wrote is left unknown; the criteria that need it then cannot be judged yet.

use super::Sources;
use crate::reckon::SlumpReckoning;
use crate::reckon::line::charge_needed;
use criteria::{Conditions, Dimension, Dimensions, Situation, Topic};
use record::choices::{CasingStay, FluidType, LineType, Method, Structure, WaterType};
use record::kinds::{
    AnchorsPlanned, FluidApproved, FluidIntroduced, FluidTest, OverExcavated, ShaftPlanned, TopFormed,
};

/// What is known of a shaft.
pub fn situation(sources: &Sources<'_, '_>) -> Situation {
    Situation { conditions: conditions(sources), dimensions: dimensions(sources) }
}

fn conditions(sources: &Sources<'_, '_>) -> Conditions {
    let mut known = Conditions::new();
    for (topic, word) in words(sources) {
        if let Some(word) = word {
            known = known.with(topic, word);
        }
    }
    if let Some(diameter) = sources.picture.plan.as_ref().and_then(|plan| plan.diameter) {
        known = known.with_diameter(diameter);
    }
    if let Some(size) = aggregate(sources) {
        known = known.with_number(Topic::Aggregate, size);
    }
    known
}

fn words(sources: &Sources<'_, '_>) -> Vec<(Topic, Option<&'static str>)> {
    let Sources { log, picture, .. } = sources;
    let plan = picture.plan.as_ref().map(|plan| plan.shaft);
    let yes_no = |yes: bool| Some(if yes { "yes" } else { "no" });
    vec![
        (Topic::Fluid, fluid(sources)),
        (Topic::Water, water(sources)),
        (Topic::Hole, hole(sources)),
        (Topic::Placing, picture.lines.last().map(|line| placing(line.line))),
        (Topic::Structure, plan.map(|plan| structure(plan.structure))),
        (Topic::Base, plan.and_then(|plan| plan.end_bearing).map(base)),
        (Topic::Casing, casing(sources)),
        (
            Topic::Tubes,
            picture.plan.as_ref().and_then(|plan| plan.cage).map(|(_, cage)| planned(cage.tubes.is_some())),
        ),
        (Topic::Bolts, plan.map(|_| planned(log.last::<AnchorsPlanned>().is_some()))),
        (
            Topic::Form,
            picture
                .concrete_finished()
                .map(|_| if log.last::<TopFormed>().is_some() { "used" } else { "none" }),
        ),
        (Topic::Axis, plan.map(|plan| if raked(plan) { "raked" } else { "vertical" })),
        (Topic::Site, plan.map(|plan| if plan.open_water.is_some() { "open_water" } else { "land" })),
        (Topic::Overdepth, plan.and_then(|_| yes_no(log.last::<OverExcavated>().is_some()))),
        (Topic::Recirculation, recirculated(sources).and_then(yes_no)),
    ]
}

fn fluid(sources: &Sources<'_, '_>) -> Option<&'static str> {
    let Sources { log, picture, .. } = sources;
    let word = |fluid: FluidType| match fluid {
        FluidType::Mineral => "mineral",
        FluidType::Polymer => "polymer",
        FluidType::Water => "water",
    };
    let introduced = log.last::<FluidIntroduced>().map(|(_, fluid)| word(fluid.fluid));
    let planned = picture.plan.as_ref().and_then(|plan| plan.shaft.fluid.as_deref());
    let approved = log.each::<FluidApproved>().find(|(_, fluid)| Some(fluid.product.as_str()) == planned);
    let dry = hole(sources) == Some("dry") && log.last::<FluidTest>().is_none();
    introduced.or(approved.map(|(_, fluid)| word(fluid.fluid))).or(dry.then_some("none"))
}

fn raked(plan: &ShaftPlanned) -> bool {
    plan.rake.as_ref().is_some_and(|rake| rake.value().to_part() != 0.0)
}

fn recirculated(sources: &Sources<'_, '_>) -> Option<bool> {
    sources.log.each::<FluidIntroduced>().filter_map(|(_, fluid)| fluid.recirculated).next_back()
}

fn water(sources: &Sources<'_, '_>) -> Option<&'static str> {
    let (_, approved) = sources.log.each::<FluidApproved>().rfind(|(_, fluid)| fluid.water.is_some())?;
    match approved.water? {
        WaterType::Fresh => Some("fresh"),
        WaterType::Salt => Some("salt"),
    }
}

/// Wet where a fluid went in or its level was read; else as planned.
fn hole(sources: &Sources<'_, '_>) -> Option<&'static str> {
    let Sources { log, picture, .. } = sources;
    if log.last::<FluidIntroduced>().is_some() || !picture.fluid.is_empty() {
        return Some("wet");
    }
    match picture.plan.as_ref()?.shaft.method {
        Method::Dry => Some("dry"),
        Method::Wet => Some("wet"),
        Method::TemporaryCasing | Method::PermanentCasing => picture.concrete_started().map(|_| "dry"),
    }
}

fn placing(line: LineType) -> &'static str {
    match line {
        LineType::Tremie => "tremie",
        LineType::Pump => "pump",
        LineType::FreeFall => "free_fall",
    }
}

fn structure(structure: Structure) -> &'static str {
    match structure {
        Structure::Sign | Structure::MastArm | Structure::Pole => "pole",
        Structure::Bridge => "single_column",
        Structure::Wall => "wall",
        Structure::Building => "footing",
        Structure::Trial | Structure::Other => "other",
    }
}

fn base(end_bearing: bool) -> &'static str {
    if end_bearing { "end_bearing" } else { "side_friction" }
}

fn planned(planned: bool) -> &'static str {
    if planned { "planned" } else { "none" }
}

fn casing(sources: &Sources<'_, '_>) -> Option<&'static str> {
    let casings = &sources.picture.casings;
    if casings.iter().any(|casing| casing.stay == CasingStay::Temporary) {
        return Some("temporary");
    }
    if casings.iter().any(|casing| casing.stay == CasingStay::Permanent) {
        return Some("permanent");
    }
    match sources.picture.plan.as_ref()?.shaft.method {
        Method::TemporaryCasing => Some("temporary"),
        Method::PermanentCasing => Some("permanent"),
        Method::Dry | Method::Wet => sources.picture.hole.last().map(|_| "none"),
    }
}

fn aggregate(sources: &Sources<'_, '_>) -> Option<quantity::Length> {
    let mix = sources.picture.mix(sources.log, None)?;
    mix.aggregate.as_ref().map(|size| size.value())
}

fn dimensions(sources: &Sources<'_, '_>) -> Dimensions {
    let Sources { log, picture, .. } = sources;
    let mut known = Dimensions::new();
    let mut put = |dimension, value: Option<quantity::Length>| {
        if let Some(value) = value {
            known = std::mem::take(&mut known).with(dimension, value);
        }
    };
    let plan = picture.plan.as_ref();
    put(Dimension::Diameter, plan.and_then(|plan| plan.diameter));
    put(Dimension::Depth, plan.map(super::super::picture::Plan::depth));
    put(Dimension::CutoffDepth, plan.and_then(|plan| Some(plan.ground?.above(plan.cut_off))));
    put(Dimension::CasingLength, casing_length(sources));
    let cage = sources.reckoning.cage.as_ref();
    put(Dimension::CageInnerWidth, cage.and_then(|cage| cage.inner_width));
    put(Dimension::BarDiameter, cage.and_then(|cage| Some(cage.bars?.1.diameter)));
    put(Dimension::TremieInnerDiameter, picture.lines.last().and_then(|line| line.inside));
    put(Dimension::AggregateSize, aggregate(sources));
    let mix = picture.mix(log, None);
    if let Some(strength) = mix.and_then(|mix| mix.strength.as_ref()) {
        known = known.with(Dimension::SpecifiedStrength, strength.value());
    }
    if let Some(ratio) = mix.and_then(|mix| mix.w_cm.as_ref()) {
        known = known.with(Dimension::MixWaterCement, ratio.value());
    }
    if let Some(life) = sources.reckoning.slump.as_ref().and_then(SlumpReckoning::trial_life) {
        known = known.with(Dimension::SlumpLife, life);
    }
    known
}

/// From its top to the deepest place of its shoe, the longest of the temporary casings.
fn casing_length(sources: &Sources<'_, '_>) -> Option<quantity::Length> {
    let temporary = sources.picture.casings.iter().filter(|casing| casing.stay == CasingStay::Temporary);
    temporary.filter_map(|casing| Some(casing.top?.above(casing.deepest()?))).max()
}

/// What the first charge has to be for the embedment a set asks for, the most of any line.
pub(crate) fn first_charge_needed(
    sources: &Sources<'_, '_>,
    embedment: quantity::Length,
) -> Option<quantity::Volume> {
    let lines = sources.picture.lines.iter().filter(|line| line.line != LineType::FreeFall);
    let needed = lines.filter_map(|line| Some(charge_needed(sources, line, embedment)?.total()));
    needed.max_by(|a, b| a.to_cubic_meters().total_cmp(&b.to_cubic_meters()))
}
