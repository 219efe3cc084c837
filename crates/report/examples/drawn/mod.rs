//! The invented package with real drawings in the places of the simple ones.

use figure::Size;
use report::{Drawing, Paper, ReportInput, Room};

use crate::invented;
use crate::shafts::{day, holes, tests_of_the_day as tests};

pub(crate) fn package(paper: Paper) -> ReportInput {
    let size = |room| {
        let (width, height) = paper.points(room);
        Size::points(width, height)
    };
    let (width, half) = (size(Room::Width), size(Room::Half));
    let curve = figure::section_and_curve_svg(&holes::us_section(), &holes::us_curve(), size(Room::Page));
    ReportInput {
        sheet: drawing(
            "The day in time and depth",
            "Time across, depth down: what was drilled, tested, set and placed.",
            figure::time_depth_svg(&day::one_day(), size(Room::Sheet)),
            Room::Sheet,
        ),
        drawings: vec![
            drawing(
                "Section and volume curve",
                "Both on one depth axis; bars: one and two standard errors of each step.",
                curve,
                Room::Page,
            ),
            drawing(
                "Base",
                "The thickest place counts, not the mean.",
                figure::base_plan_svg(&tests::base(), half),
                Room::Half,
            ),
            drawing(
                "Cage",
                "As found at the hole.",
                figure::cage_section_svg(&tests::cage(), half),
                Room::Half,
            ),
            drawing(
                "Slump against time",
                "A load is alive until its line ends; the oldest concrete in the shaft governs.",
                figure::slump_svg(&tests::slump(), width),
                Room::Width,
            ),
            drawing(
                "Fluid tests against limits",
                "Inside the grey band is inside the limits.",
                figure::fluid_tests_svg(&tests::fluid(), width),
                Room::Width,
            ),
            drawing(
                "Position and plumb",
                "Offsets are enlarged; the circle is the tolerance.",
                figure::position_svg(&tests::position(), half),
                Room::Half,
            ),
        ],
        ..invented::package(paper)
    }
}

fn drawing(title: &str, caption: &str, svg: String, room: Room) -> Drawing {
    Drawing {
        title: String::new(),
        caption: caption.into(),
        alt: format!("{title}, drawn from an invented shaft."),
        svg,
        room,
    }
}
