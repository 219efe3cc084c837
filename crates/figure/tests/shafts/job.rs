//! An invented bridge with a sign beside it.

use figure::{JobPlan, Lead, Mark, PlacedShaft, Progress, Scale};

/// A shaft at a place in feet.
pub fn shaft(name: &str, stage: &str, progress: Progress, place_ft: Option<(f64, f64)>) -> PlacedShaft {
    let place_m = place_ft.map(|(east, north)| (east * 0.3048, north * 0.3048));
    PlacedShaft {
        name: name.into(),
        stage: stage.into(),
        progress,
        mark: Mark::NoLimit,
        place_m,
        lead: Lead::default(),
    }
}

/// A bridge of two rows of shafts and two signs beside it, one of them without coordinates.
pub fn bridge() -> JobPlan {
    let mut shafts = vec![
        shaft("A-1", "Done", Progress::Placed, Some((2000.0, 1000.0))),
        shaft("A-2", "After the pour", Progress::Placed, Some((2000.0, 1024.0))),
        shaft("B-1", "Pour", Progress::Concrete, Some((2090.0, 1004.0))),
        shaft("B-2", "Drilling", Progress::Hole, Some((2090.0, 1028.0))),
        shaft("C-1", "Before drilling", Progress::SetOut, Some((2180.0, 1008.0))),
        shaft("C-2", "Planned", Progress::Planned, Some((2180.0, 1032.0))),
        shaft("S-1", "Planned", Progress::Planned, None),
    ];
    shafts[0].mark = Mark::Meets;
    shafts[2].mark = Mark::Fails;
    JobPlan {
        title: "Mill Cross bridge".into(),
        subtitle: "12 May 2031, 14:10".into(),
        distance: Scale::feet(),
        shafts,
        ..JobPlan::default()
    }
}
