//! Position and plumbness.

use crate::view::View;
use figure::{PlumbPoint, Position, Size, position_svg};
use quantity::Length;
use record::kinds::{AsBuilt, PlumbMeasured};

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    let built = &view.assessment.reckoning.as_built;
    built.offset.is_some() || built.axis.is_some()
}

pub(crate) fn draw(view: &View<'_, '_>, size: Size) -> String {
    position_svg(&position(view), size)
}

fn position(view: &View<'_, '_>) -> Position {
    let scales = view.scales();
    let built = &view.assessment.reckoning.as_built;
    let survey = view.log.last::<AsBuilt>().map(|(_, built)| built);
    let plan = view.assessment.picture.plan.as_ref();
    let level = survey.and_then(|survey| survey.level.as_ref()).map(|level| level.shown());
    Position {
        title: view.title("position and plumbness"),
        subtitle: level.map_or_else(
            || "level of the survey not recorded".to_owned(),
            |level| format!("surveyed at {level}"),
        ),
        width: scales.small,
        offset: scales.small,
        depth: scales.depth,
        planned_diameter_m: plan.and_then(|plan| plan.diameter).map(Length::to_meters),
        built_diameter_m: survey
            .and_then(|survey| survey.diameter.as_ref())
            .map(|size| size.value().to_meters()),
        east_m: built.offset.map(|(offset, _)| offset.east.to_meters()),
        north_m: built.offset.map(|(offset, _)| offset.north.to_meters()),
        tolerance_m: view.limits(|fact| fact == "asbuilt.position_offset").1,
        mark: view.mark("asbuilt.position_offset"),
        plumb: plumb(view),
        plumb_limit: view.limits(|fact| fact == "asbuilt.plumbness").1,
        plumb_mark: view.mark("asbuilt.plumbness"),
        north_degrees: Some(0.0),
        statements: Vec::new(),
        blanks: Vec::new(),
        words: figure::Words::default(),
    }
}

/// The readings along the direction of the lean.
fn plumb(view: &View<'_, '_>) -> Vec<PlumbPoint> {
    let Some((_, plumb)) = view.log.last::<PlumbMeasured>() else { return Vec::new() };
    let Some((fitted, _)) = &view.assessment.reckoning.as_built.axis else { return Vec::new() };
    let lean = fitted.axis.lean().to_part();
    let (east, north) = match lean > 0.0 {
        true => (fitted.axis.lean_east.to_part() / lean, fitted.axis.lean_north.to_part() / lean),
        false => (1.0, 0.0),
    };
    let size =
        |size: &Option<record::choices::Small>| size.as_ref().map_or(0.0, |size| size.value().to_meters());
    let point = |point: &record::kinds::excavation::PlumbPoint| PlumbPoint {
        depth_m: point.depth.value().to_meters(),
        offset_m: size(&point.east) * east + size(&point.north) * north,
    };
    plumb.points.iter().map(point).collect()
}
