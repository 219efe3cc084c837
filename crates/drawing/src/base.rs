//! The plan of the base.

use crate::view::View;
use assess::Finding;
use figure::{BasePlan, BasePoint, Mark, Size, base_plan_svg};
use quantity::Length;
use record::choices::Place;

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    !view.assessment.picture.bottom.sediment.is_empty()
}

pub(crate) fn draw(view: &View<'_, '_>, size: Size) -> String {
    base_plan_svg(&plan(view), size)
}

fn plan(view: &View<'_, '_>) -> BasePlan {
    let scales = view.scales();
    let diameter = view.assessment.picture.plan.as_ref().and_then(|plan| plan.diameter);
    let last = view.assessment.picture.bottom.sediment.last();
    let points = last.map_or(&[][..], |(_, _, points)| points.as_slice());
    BasePlan {
        title: view.title("sediment on the base"),
        subtitle: last.map_or_else(String::new, |(at, ..)| view.moment(*at)),
        thickness: scales.small,
        diameter_m: diameter.map(Length::to_meters),
        width: scales.small,
        points: points
            .iter()
            .enumerate()
            .map(|(i, (place, t))| point(view, (i, points.len()), *place, *t))
            .collect(),
        north_degrees: Some(0.0),
        orientation: String::new(),
        statements: statements(view),
        blanks: Vec::new(),
        words: figure::Words::default(),
    }
}

/// Compass points stand at two thirds of the radius; points without a place are spread and say so.
fn point(view: &View<'_, '_>, number: (usize, usize), place: Option<Place>, thickness: Length) -> BasePoint {
    let diameter = view.assessment.picture.plan.as_ref().and_then(|plan| plan.diameter);
    let radius = diameter.map_or(0.5, Length::to_meters) / 2.0;
    let out = radius * 2.0 / 3.0;
    let (x_m, y_m, label) = match place {
        Some(Place::Center) => (0.0, 0.0, "C".to_owned()),
        Some(Place::North) => (0.0, out, "N".to_owned()),
        Some(Place::East) => (out, 0.0, "E".to_owned()),
        Some(Place::South) => (0.0, -out, "S".to_owned()),
        Some(Place::West) => (-out, 0.0, "W".to_owned()),
        _ => {
            let along = (number.0 as f64 + 0.5) / number.1.max(1) as f64 - 0.5;
            (along * radius, 0.0, format!("{} (place not written)", number.0 + 1))
        }
    };
    BasePoint { x_m, y_m, thickness_m: Some(thickness.to_meters()), label, mark: Mark::NoLimit }
}

fn statements(view: &View<'_, '_>) -> Vec<(Mark, String)> {
    let small = view.scales().small;
    let rows = [("bottom.sediment.max", "worst"), ("bottom.sediment.mean", "mean")];
    let said = rows.into_iter().filter_map(|(fact, word)| {
        let finding: &Finding = view.findings(fact).next()?;
        let value = finding.value?.number()?.to_f64();
        Some((view.mark(fact), format!("{word} {}", small.label(value))))
    });
    said.collect()
}
