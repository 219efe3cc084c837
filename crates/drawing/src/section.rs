//! The section, with the volume curve beside it.

use crate::curve;
use crate::ground::strata;
use crate::profile::shape;
use crate::view::View;
use assess::picture::Picture;
use assess::shape::Width;
use calc::geometry::Piece;
use calc::sounding::Surface;
use figure::{Bore, Cage, Casing, Level, LevelKind, ProfilePoint, Section, Sediment, Tremie};
use figure::{Mark, Size, section_and_curve_svg};
use quantity::{Elevation, Length, Moment};
use record::choices::CasingStay;
use record::kinds::CageSet;

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    view.assessment.picture.plan.is_some()
}

pub(crate) fn draw_with_curve(view: &View<'_, '_>, size: Size) -> String {
    section_and_curve_svg(&section_with_profile(view), &curve::curve(view), size)
}

/// The section with the band of the estimated shape.
pub(crate) fn section_with_profile(view: &View<'_, '_>) -> Section {
    Section { profile: profile(view), ..section(view) }
}

/// The estimated widths with their band: a point at either end of each piece.
fn profile(view: &View<'_, '_>) -> Vec<ProfilePoint> {
    let Some(shape) = shape(view) else { return Vec::new() };
    let point = |width: &Width, level: Elevation| {
        Some(ProfilePoint {
            depth_m: view.depth_m(level)?,
            low_m: width.ends[0].to_meters(),
            estimate_m: width.estimate.to_meters(),
            high_m: width.ends[1].to_meters(),
        })
    };
    let widths = shape.widths();
    widths
        .iter()
        .rev()
        .flat_map(|width| [width.top, width.bottom].map(|level| point(width, level)))
        .flatten()
        .collect()
}

/// The section at the time of the assessment.
pub(crate) fn section(view: &View<'_, '_>) -> Section {
    let scales = view.scales();
    let plan = view.assessment.picture.plan.as_ref();
    Section {
        title: view.title("section and volume curve"),
        subtitle: view.moment(view.assessment.at),
        depth: scales.depth,
        width: scales.small,
        zero_label: view.zero_label(),
        zero_elevation_m: view.zero().map(Elevation::to_meters),
        ground_m: plan.and_then(|plan| view.depth_m(plan.ground?)),
        strata: strata(view),
        planned: plan
            .and_then(|plan| plan.bore.as_ref().ok())
            .map_or_else(Vec::new, |b| bores(view, b.pieces())),
        drilled: drilled(view),
        profile: Vec::new(),
        casings: casings(view),
        cage: cage(view),
        tremie: tremie(view),
        sediment: sediment(view),
        levels: levels(view),
        blanks: blanks(view),
        words: figure::Words::default(),
    }
}

fn bores(view: &View<'_, '_>, pieces: &[Piece]) -> Vec<Bore> {
    let bore = |piece: &Piece| {
        Some(Bore {
            top_m: view.depth_m(piece.top)?,
            bottom_m: view.depth_m(piece.bottom)?,
            top_diameter_m: piece.upper_diameter.to_meters(),
            bottom_diameter_m: piece.lower_diameter.to_meters(),
        })
    };
    pieces.iter().filter_map(bore).collect()
}

/// The hole as far as the tool went, in nominal widths.
fn drilled(view: &View<'_, '_>) -> Vec<Bore> {
    let picture = &view.assessment.picture;
    let Some(hole) = &view.assessment.reckoning.hole else { return Vec::new() };
    let reached = picture.hole.iter().map(|step| step.reached).min();
    let deepest = picture.bottom.last_sounding().map(|sounding| sounding.surface.mean.value).or(reached);
    let Some(deepest) = deepest else { return Vec::new() };
    let top = picture.plan.as_ref().and_then(|plan| plan.ground).unwrap_or_else(|| hole.drilled.top());
    let cut = |piece: &Piece| {
        let (upper, lower) = (piece.top.min(top), piece.bottom.max(deepest));
        (lower < upper).then_some(Piece { top: upper, bottom: lower, ..*piece })
    };
    let pieces: Vec<Piece> = hole.drilled.pieces().iter().filter_map(cut).collect();
    bores(view, &pieces)
}

fn casings(view: &View<'_, '_>) -> Vec<Casing> {
    let now = view.assessment.at;
    let standing = view.assessment.picture.casings.iter().filter_map(|casing| {
        Some(Casing {
            top_m: view.depth_m(casing.top_at(now)?)?,
            shoe_m: view.depth_m(casing.shoe(now)?)?,
            diameter_m: casing.outside?.to_meters(),
            permanent: casing.stay == CasingStay::Permanent || casing.left.is_some(),
            label: casing.name.clone(),
        })
    });
    standing.collect()
}

fn cage(view: &View<'_, '_>) -> Option<Cage> {
    let (_, planned) = view.assessment.picture.plan.as_ref()?.cage?;
    let (_, set) = view.log.last::<CageSet>()?;
    let top = set.top.as_ref().or(planned.top.as_ref())?.value();
    let bottom = Elevation(top.0 - planned.length.as_ref()?.value());
    Some(Cage {
        top_m: view.depth_m(top)?,
        bottom_m: view.depth_m(bottom)?,
        diameter_m: planned.diameter.value().to_meters(),
        hoop_spacing_m: planned.hoops.first().map(|hoops| hoops.spacing.value().to_meters()),
        spacers_m: Vec::new(),
        tubes: planned.tubes.as_ref().map_or(0, |tubes| tubes.count),
        label: planned
            .bars
            .first()
            .map_or_else(String::new, |bars| format!("cage {} {}", bars.count, bars.size)),
    })
}

fn tremie(view: &View<'_, '_>) -> Option<Tremie> {
    let mut reckoned = view.assessment.reckoning.lines.iter().zip(&view.assessment.picture.lines);
    let (reckoned, line) = reckoned.rfind(|(reckoned, _)| reckoned.string.is_some())?;
    let string = reckoned.string.as_ref()?;
    let mut joint = string.tip();
    let mut joints = Vec::new();
    for pipe in &string.pipes {
        joint = Elevation(joint.0 + *pipe);
        joints.extend(view.depth_m(joint));
    }
    Some(Tremie {
        tip_m: view.depth_m(string.tip())?,
        top_m: view.depth_m(string.top)?,
        diameter_m: line.outside.or(line.inside).map(Length::to_meters),
        joints_m: joints,
        embedment_mark: view.mark("line.embedment.least"),
    })
}

/// The worst thickness found, while there is no concrete on it.
fn sediment(view: &View<'_, '_>) -> Option<Sediment> {
    let (_, _, points) = view.assessment.picture.bottom.sediment.last()?;
    let worst = points.iter().map(|(_, thickness)| *thickness).max()?;
    Some(Sediment { thickness_m: worst.to_meters(), mark: view.mark("bottom.sediment.max") })
}

fn levels(view: &View<'_, '_>) -> Vec<Level> {
    let picture = &view.assessment.picture;
    let mut levels = Vec::new();
    let mut put_noted = |kind, (level, note): (Option<Elevation>, &str), label: &str, mark| {
        if let Some(depth_m) = level.and_then(|level| view.depth_m(level)) {
            levels.push(Level { kind, depth_m, label: label.to_owned(), note: note.to_owned(), mark });
        }
    };
    let concrete = picture.concrete.last();
    let sounded = mean_of(concrete.map(|level| &level.surface));
    let dropped = after_casing(picture, concrete.map(|level| level.at));
    let level = dropped.map_or(sounded, |level| (Some(level), ""));
    put_noted(LevelKind::Concrete, level, "Concrete", Mark::NoLimit);
    let mut put = |kind, level, label: &str, mark| put_noted(kind, (level, ""), label, mark);
    let fluid = picture
        .fluid
        .last()
        .filter(|step| concrete.is_none_or(|level| step.surface > level.surface.mean.value));
    put(LevelKind::Fluid, fluid.map(|step| step.surface), "Fluid", view.mark("fluid.head"));
    let met = picture.water.last().map(|step| step.level);
    let expected = picture.plan.as_ref().and_then(|plan| plan.groundwater).filter(|_| met.is_none());
    put(LevelKind::Groundwater, met, "Groundwater", Mark::NoLimit);
    put(LevelKind::Groundwater, expected, "Water expected", Mark::NoLimit);
    if let Some(plan) = &picture.plan {
        put(LevelKind::Planned, Some(plan.tip), "Planned tip", Mark::NoLimit);
        put(LevelKind::Planned, Some(plan.cut_off), "Cut-off", Mark::NoLimit);
    }
    let bottom = picture.bottom.last_sounding();
    let tip = view.mark("bottom.tip_above_plan");
    put_noted(LevelKind::Measured, mean_of(bottom.map(|sounding| &sounding.surface)), "Bottom sounded", tip);
    levels
}

/// The level of a surface; beside a figure that tells the lowest of several points it says that it is their mean.
/// Where the concrete stood after the last lift of a casing, where that was read after the last sounding.
fn after_casing(picture: &Picture<'_>, sounded: Option<Moment>) -> Option<Elevation> {
    let steps = picture.casings.iter().flat_map(|casing| &casing.steps);
    let later = steps.filter(|step| sounded.is_none_or(|sounded| sounded < step.at));
    let read = later.filter_map(|step| Some((step.at, step.level_after?)));
    read.max_by_key(|(at, _)| *at).map(|(_, level)| level)
}

fn mean_of(surface: Option<&Surface>) -> (Option<Elevation>, &'static str) {
    let several = surface.is_some_and(|surface| surface.levels.len() > 1);
    (surface.map(|surface| surface.mean.value), if several { "mean" } else { "" })
}

fn blanks(view: &View<'_, '_>) -> Vec<String> {
    let picture = &view.assessment.picture;
    let wanted = [
        ("reference elevation", picture.references.is_set()),
        ("ground met", !strata(view).is_empty()),
        (
            "groundwater met",
            !picture.water.is_empty() || picture.fluid.iter().any(|step| step.groundwater.is_some()),
        ),
        ("bottom sounding", picture.bottom.last_sounding().is_some()),
    ];
    wanted.into_iter().filter(|(_, there)| !there).map(|(what, _)| what.to_owned()).collect()
}
