//! What the plan of the cage says: bars, hoops, cover, tubes, where its top should be.

use super::{Plans, plan, several};
use record::kinds::CagePlanned;
use wording::label;

pub(super) fn beside(plans: &Plans<'_, '_>, kind: &str, path: &str) -> Option<String> {
    let (_, cage) = plans.log.last::<CagePlanned>()?;
    match kind {
        "cage_checked" => checked(cage, path),
        "cage_set" | "cage_elevation" | "as_built" => set(cage, path),
        "tubes_checked" if path == "tubes.length" => cage.tubes.as_ref()?.length.as_ref().map(plan),
        _ => None,
    }
}

fn set(cage: &CagePlanned, path: &str) -> Option<String> {
    match path {
        "top" | "cage_top" => cage.top.as_ref().map(plan),
        "stand_off" => cage.stand_off.as_deref().map(plan),
        _ => None,
    }
}

fn checked(cage: &CagePlanned, path: &str) -> Option<String> {
    let tubes = cage.tubes.as_ref();
    match path {
        "diameter" => Some(plan(&cage.diameter)),
        "length" => cage.length.as_ref().map(plan),
        "lap" => cage.lap.as_ref().map(plan),
        "spacer_cover" => cage.cover.as_deref().map(plan),
        "spacers_per_level" => cage.spacers_per_level.map(|count| format!("plan {count}")),
        "spacer_levels_every" => cage.spacer_levels_every.as_ref().map(plan),
        "bars" => several(cage.bars.iter().map(|bars| format!("{} × {}", bars.count, bars.size))),
        "bars.count" => several(cage.bars.iter().map(|bars| bars.count.to_string())),
        "bars.size" => several(cage.bars.iter().map(|bars| bars.size.clone())),
        "bars.length" => several(cage.bars.iter().filter_map(|bars| Some(bars.length.as_ref()?.shown()))),
        "bars.grade" => several(cage.bars.iter().filter_map(|bars| bars.grade.clone())),
        "hoops" => {
            several(cage.hoops.iter().map(|hoops| format!("{} every {}", hoops.size, hoops.spacing.shown())))
        }
        "hoops.sort" => several(cage.hoops.iter().map(|hoops| label::choice(hoops.sort.word()))),
        "hoops.size" => several(cage.hoops.iter().map(|hoops| hoops.size.clone())),
        "hoops.spacing" => several(cage.hoops.iter().map(|hoops| hoops.spacing.shown())),
        "hoops.over" => several(cage.hoops.iter().filter_map(|hoops| Some(hoops.over.as_ref()?.shown()))),
        "tubes" => tubes.map(|tubes| format!("plan {}", tubes.count)),
        "tube_inside" => tubes?.inside.as_deref().map(plan),
        "tube_length" => tubes?.length.as_ref().map(plan),
        "tube_material" => tubes?.material.map(|material| format!("plan {}", label::choice(material.word()))),
        _ => None,
    }
}
