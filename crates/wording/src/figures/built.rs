//! Figures of the cage and of the shaft as built.

use super::Figure;
use crate::show::Show;
use assess::Assessment;
use assess::reckon::{AsBuiltReckoning, CageReckoning};

pub(super) fn figures(assessment: &Assessment<'_>, show: &Show) -> Vec<Figure> {
    let mut all = assessment.reckoning.cage.as_ref().map_or_else(Vec::new, |cage| of_cage(cage, show));
    all.extend(as_built(&assessment.reckoning.as_built, show));
    all
}

fn of_cage(cage: &CageReckoning, show: &Show) -> Vec<Figure> {
    let mut all = Vec::new();
    if let Some((count, bar)) = &cage.bars {
        let how = "As found on the cage, else as planned.";
        all.push(Figure::new("cage.bars", "Longitudinal bars", format!("{count} × {}", bar.name), how));
    }
    let sizes = [
        (
            "cage.circle",
            "Circle of the longitudinal bars",
            cage.bar_circle,
            "Outside diameter less transverse bar and one longitudinal bar.",
        ),
        (
            "cage.clear_around",
            "Clear distance between longitudinal bars",
            cage.clear_around,
            "Chord along that circle less one bar.",
        ),
        (
            "cage.clear_along",
            "Clear distance between hoops",
            cage.clear_along,
            "Least spacing or pitch less one bar.",
        ),
        ("cage.cover", "Cover of a centered cage", cage.cover, "Half of nominal bore less cage."),
    ];
    all.extend(
        sizes
            .into_iter()
            .filter_map(|(id, label, size, how)| Some(Figure::new(id, label, show.small(size?), how))),
    );
    all
}

fn as_built(built: &AsBuiltReckoning, show: &Show) -> Vec<Figure> {
    let mut all = Vec::new();
    if let Some((offset, _)) = built.offset {
        let value = format!(
            "{} ({} east, {} north)",
            show.small(offset.distance()),
            show.small(offset.east),
            show.small(offset.north)
        );
        all.push(Figure::new(
            "asbuilt.offset",
            "Offset of the center",
            value,
            "As-built less planned position.",
        ));
    }
    if let Some((fitted, _)) = built.axis {
        let how = "Straight axis through the plumb readings.";
        let lean = show.style().quantity(fitted.axis.lean(), 2);
        all.push(Figure::new("asbuilt.lean", "Lean of the axis", lean, how));
        let bend = show.small(fitted.greatest_bend);
        all.push(Figure::new("asbuilt.bend", "Largest distance of a reading from it", bend, how));
    }
    if let Some(toe) = built.toe {
        let how = "Surveyed center carried down along the lean to the sounded bottom.";
        all.push(Figure::new("asbuilt.toe", "Offset at the toe", show.small(toe.distance()), how));
    }
    if let Some(cover) = built.cover {
        let value =
            format!("{} at {} below the planned top", show.small(cover.cover), show.depth(cover.depth));
        let how = "From hole, lean and offset of the cage together; the cage is taken to hang plumb.";
        all.push(Figure::new("asbuilt.cover", "Least cover along the cage", value, how));
    }
    all
}
