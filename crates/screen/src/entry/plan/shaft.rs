//! What the plan of the shaft says: diameters, elevations, casings, layers, place.

use super::{Plans, plan, several};
use record::choices::Ground;
use record::kinds::plan::{CasingPiece, Stratum};
use record::kinds::{AnchorsPlanned, CasingPlanned, CasingSet, ShaftPlanned, StrataExpected};
use wording::label;

pub(super) fn beside(plans: &Plans<'_, '_>, kind: &str, path: &str) -> Option<String> {
    if let Some(text) = casing(plans, kind, path).or_else(|| anchors(plans, kind, path)) {
        return Some(text);
    }
    let (_, shaft) = plans.log.last::<ShaftPlanned>()?;
    let cut_off = shaft.cut_off.as_ref().unwrap_or(&shaft.top);
    match (kind, path) {
        ("tool_run" | "equipment_checked" | "over_excavated", "diameter")
        | ("bore_measured", "points.diameter") => diameters(shaft),
        ("rock_socket", "diameter") => rock(shaft).map(|piece| plan(&piece.diameter)),
        ("rock_socket", "from") => plans.level("rock", rock(shaft)?.from.as_ref()?),
        ("tool_run" | "over_excavated" | "rock_socket", "to") | ("bottom_reached", "depth") => {
            plans.level("tip", &shaft.tip)
        }
        ("bell_cut", "to") => plans.level("tip", &shaft.tip),
        ("bottom_sounded", "points.depth") => plans.level("tip", &shaft.tip),
        ("bell_cut", "diameter") => shaft.bell.as_ref().map(|bell| plan(&bell.diameter)),
        ("bell_cut", "toe") => shaft.bell.as_ref()?.toe.as_ref().map(plan),
        ("stratum_met", "from" | "ground") => strata(plans),
        ("groundwater", "depth") | ("fluid_level", "groundwater") => {
            plans.level("groundwater", shaft.groundwater.as_ref()?)
        }
        ("reference_set", "elevation") => {
            shaft.ground.as_ref().map(|ground| format!("plan ground {}", ground.shown()))
        }
        ("stake_out" | "as_built", "northing") => shaft.northing.as_deref().map(plan),
        ("stake_out" | "as_built", "easting") => shaft.easting.as_deref().map(plan),
        ("as_built" | "top_formed", "top") => Some(plan(&shaft.top)),
        ("as_built", "diameter") => diameters(shaft),
        ("trimmed", "top") => Some(plan(cut_off)),
        ("concrete_sounded", "points.depth") => plans.level("cut-off", cut_off),
        ("over_poured", "height") => shaft.over_pour.as_ref().map(plan),
        ("load_arrived", "mix") => shaft.mix.as_ref().map(|mix| format!("plan {mix}")),
        ("fluid_introduced", "product") => shaft.fluid.as_ref().map(|fluid| format!("plan {fluid}")),
        ("concrete_ordered", "volume") => shaft.volume.as_ref().map(|all| format!("{} in all", plan(all))),
        ("casing_set", "plumb") | ("plumb_measured", "points") => {
            Some(shaft.rake.as_ref().map_or_else(|| "plan vertical".to_owned(), plan))
        }
        _ => None,
    }
}

fn diameters(shaft: &ShaftPlanned) -> Option<String> {
    several(shaft.bore.iter().map(|piece| piece.diameter.shown()))
}

/// The piece of the bore in rock.
fn rock(shaft: &ShaftPlanned) -> Option<&record::kinds::plan::BorePiece> {
    shaft.bore.iter().find(|piece| piece.ground == Some(Ground::Rock))
}

/// The layers the borings promise, from the top down: `expected fill to +90.0 ft, clay to +60.0 ft`.
fn strata(plans: &Plans<'_, '_>) -> Option<String> {
    let (_, expected) = plans.log.last::<StrataExpected>()?;
    let layer = |layer: &Stratum| {
        let to = layer.to.value();
        let depth = plans.depth(to).map(|depth| plans.show.depth(depth));
        let to = depth.unwrap_or_else(|| plans.show.elevation(to));
        format!("{} to {to}", label::choice(layer.ground.word()))
    };
    let layers: Vec<String> = expected.layers.iter().map(layer).collect();
    (!layers.is_empty()).then(|| format!("expected {}", layers.join(", ")))
}

fn casing(plans: &Plans<'_, '_>, kind: &str, path: &str) -> Option<String> {
    let (_, planned) = plans.log.last::<CasingPlanned>()?;
    let named = |piece: &CasingPiece| plans.log.each::<CasingSet>().any(|(_, set)| set.name == piece.name);
    // A casing that is set now is the first one that does not stand yet; later ones speak of the last set.
    let next = planned.casings.iter().find(|piece| !named(piece));
    let last = planned.casings.iter().rfind(|piece| named(piece)).or(planned.casings.first());
    match (kind, path) {
        ("casing_set", "name") => several(planned.casings.iter().map(|piece| piece.name.clone())),
        ("casing_set", "stay") => next.map(|piece| format!("plan {}", label::choice(piece.stay.word()))),
        ("casing_set", "outside") => next?.outside.as_deref().map(plan),
        ("casing_set", "wall") => next?.wall.as_deref().map(plan),
        ("casing_set", "top") => next?.top.as_ref().map(plan),
        ("casing_set", "shoe") => plans.level("shoe", next?.bottom.as_ref()?),
        ("casing_advanced", "shoe") => plans.level("shoe", last?.bottom.as_ref()?),
        ("casing_left", "top") => last?.top.as_ref().map(plan),
        ("casing_left", "bottom") => last?.bottom.as_ref().map(plan),
        _ => None,
    }
}

fn anchors(plans: &Plans<'_, '_>, kind: &str, path: &str) -> Option<String> {
    let (_, planned) = plans.log.last::<AnchorsPlanned>()?;
    match (kind, path) {
        ("anchors_set", "count") => Some(format!("plan {}", planned.count)),
        ("anchors_set", "circle") => planned.circle.as_deref().map(plan),
        ("anchors_set", "bolts.projection") => planned.projection.as_deref().map(plan),
        ("conduit_set", "what") => planned.conduits.as_ref().map(|conduits| format!("plan {conduits}")),
        _ => None,
    }
}
