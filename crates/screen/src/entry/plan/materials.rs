//! What was approved: limits of the mix and of the fluid, the size of a truck.

use super::{Plans, between, plan};
use record::kinds::{FluidApproved, FluidIntroduced, MixApproved, PourPlanned, ShaftPlanned};

pub(super) fn beside(plans: &Plans<'_, '_>, kind: &str, path: &str) -> Option<String> {
    match kind {
        "concrete_test" => test(plans.mix()?, path),
        "load_arrived" | "discharge_ended" => load(plans, path),
        "fluid_test" => Some(format!("{}, approved fluid", fluid(approved_fluid(plans)?, path)?)),
        "cylinder_broken" => strength(plans.mix()?, path),
        "fluid_level" if path == "depth" => {
            let head = approved_fluid(plans)?.head.as_ref()?;
            Some(format!("at least {} above groundwater", head.shown()))
        }
        _ => None,
    }
}

fn test(mix: &MixApproved, path: &str) -> Option<String> {
    match path {
        "slump" => of_mix(between(mix.slump_low.as_deref(), mix.slump_high.as_deref())),
        "flow" => of_mix(between(mix.flow_low.as_deref(), mix.flow_high.as_deref())),
        "air" => of_mix(between(mix.air_low.as_ref(), mix.air_high.as_ref())),
        "temperature" => of_mix(between(mix.temperature_low.as_ref(), mix.temperature_high.as_ref())),
        "unit_weight" => mix.unit_weight.as_ref().map(plan),
        _ => None,
    }
}

/// The limit the job approved its mix with: it stands beside those of the criteria, so it says whose it is.
fn of_mix(limit: Option<String>) -> Option<String> {
    limit.map(|limit| format!("{limit}, approved mix"))
}

fn load(plans: &Plans<'_, '_>, path: &str) -> Option<String> {
    match path {
        "volume" => plans.log.last::<PourPlanned>()?.1.truck.as_ref().map(plan),
        "discharge_within" => of_mix(between(None, plans.mix()?.discharge_within.as_ref())),
        "revolutions" => of_mix(plans.mix()?.revolutions.map(|most| format!("limit at most {most}"))),
        _ => None,
    }
}

fn strength(mix: &MixApproved, path: &str) -> Option<String> {
    match path {
        "strength" => {
            let age =
                mix.strength_age.as_ref().map_or_else(String::new, |age| format!(" at {}", age.shown()));
            mix.strength.as_ref().map(|strength| format!("required {}{age}", strength.shown()))
        }
        _ => None,
    }
}

/// The fluid that is in the hole, or the one the plan names.
fn approved_fluid<'r>(plans: &Plans<'_, 'r>) -> Option<&'r FluidApproved> {
    let used = plans.log.last::<FluidIntroduced>().map(|(_, fluid)| fluid.product.as_str());
    let planned = || plans.log.last::<ShaftPlanned>().and_then(|(_, shaft)| shaft.fluid.as_deref());
    let mut approved = plans.log.each::<FluidApproved>().map(|(_, fluid)| fluid);
    match used.or_else(planned) {
        Some(name) => approved.find(|fluid| fluid.product == name),
        None => approved.next_back(),
    }
}

fn fluid(limits: &FluidApproved, path: &str) -> Option<String> {
    match path {
        "density" => between(limits.density_low.as_ref(), limits.density_high.as_ref()),
        "viscosity" => between(limits.viscosity_low.as_ref(), limits.viscosity_high.as_ref()),
        "ph" => between(limits.ph_low.as_ref(), limits.ph_high.as_ref()),
        "sand" => between(None, limits.sand_high.as_ref()),
        "fluid_loss" => between(None, limits.fluid_loss_high.as_deref()),
        "cake" => between(None, limits.cake_high.as_deref()),
        "gel" => between(limits.gel_low.as_deref(), limits.gel_high.as_deref()),
        _ => None,
    }
}
