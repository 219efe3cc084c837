//! Entries that settle the facts of the preparation and the excavation.

use super::{REMARK, Row, want};

pub(super) const ROWS: &[Row] = &[
    ("plan.installation_approved", &[want("installation_plan", &["approved"])]),
    ("plan.submitted_ahead", &[want("installation_plan", &["approved"]), want("drilling_started", &[])]),
    ("geometry.diameter", &[want("shaft_planned", &["bore"])]),
    ("geometry.slenderness", &[want("shaft_planned", &["tip", "bore"])]),
    ("geometry.rake", &[want("shaft_planned", &["rake"])]),
    ("equipment.tool_diameter_short", &[want("equipment_checked", &["diameter"])]),
    ("reference.elevation_known", &[want("reference_set", &["elevation"])]),
    ("stakeout.checked", &[want("stake_out", &["checked_by"])]),
    ("utilities.cleared", &[want("utilities_cleared", &["ticket", "found"])]),
    ("utilities.hand_dug_depth", &[want("utilities_cleared", &["hand_dug"])]),
    ("casing.surface.above_ground", &[want("casing_set", &["above_ground"])]),
    ("casing.surface.below_ground", &[want("casing_set", &["length", "above_ground"])]),
    ("casing.permanent.above_water", &[want("casing_set", &["top"])]),
    ("casing.plumbness", &[want("casing_set", &["plumb"])]),
    ("instrument.funnel_in_water", &[want("instrument_checked", &["water_time"])]),
    ("instrument.balance_in_water", &[want("instrument_checked", &["water_density"])]),
    ("excavation.method_allowed", &[want("shaft_planned", &["dry_allowed"])]),
    ("excavation.depth_from_reference", &[want("reference_set", &["elevation"])]),
    ("excavation.unattended_secured", &[want("work_stopped", &["covered"])]),
    ("excavation.overnight_cased", &[want("casing_set", &["shoe"])]),
    ("excavation.strata_recorded", &[want("tool_run", &["ground"])]),
    ("dry.water_depth", &[want("inflow_measured", &["standing"])]),
    ("dry.inflow", &[want("inflow_measured", &["rise", "over"])]),
    ("time.open_hole", &[want("tool_run", &["to"]), want("discharge_started", &["ticket"])]),
    ("time.wall_exposure", &[want("fluid_introduced", &["product"]), want("discharge_started", &["ticket"])]),
    (
        "time.bottom_to_concrete",
        &[want("bottom_reached", &["depth"]), want("discharge_started", &["ticket"])],
    ),
    ("time.cleaning_to_concrete", &[want("cleaning", &["until"]), want("discharge_started", &["ticket"])]),
    (
        "time.accepted_to_concrete",
        &[want("bottom_accepted", &["by"]), want("discharge_started", &["ticket"])],
    ),
    ("neighbor.clear_distance", &[REMARK]),
];
