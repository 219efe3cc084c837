//! Entries that settle the facts of tickets, fresh concrete and cylinders.

use super::{Row, want};

pub(super) const ROWS: &[Row] = &[
    ("ticket.mix_checked", &[want("load_arrived", &["mix", "ticket_checked"])]),
    ("ticket.water_cement_checked", &[want("load_arrived", &["ticket_checked"])]),
    ("ticket.revolutions_checked", &[want("load_arrived", &["revolutions"])]),
    ("ticket.batch_time_checked", &[want("load_arrived", &["batched"])]),
    (
        "concrete.batch_to_discharge",
        &[want("load_arrived", &["batched"]), want("discharge_ended", &["ticket"])],
    ),
    ("concrete.revolutions", &[want("discharge_ended", &["revolutions"])]),
    ("concrete.revolutions_after_water", &[want("water_added", &["revolutions"])]),
    ("concrete.water_cement", &[want("load_arrived", &["water", "moisture", "cementitious"])]),
    ("concrete.water_additions", &[want("water_added", &["volume"])]),
    ("concrete.cement_content", &[want("load_arrived", &["cementitious", "volume"])]),
    ("concrete.fines_content", &[want("mix_approved", &["fines"])]),
    ("concrete.aggregate_size", &[want("mix_approved", &["aggregate"])]),
    ("concrete.temperature", &[want("concrete_test", &["temperature"])]),
    ("concrete.air", &[want("concrete_test", &["air"])]),
    (
        "concrete.yield_error",
        &[want("load_arrived", &["batch_mass"]), want("concrete_test", &["unit_weight"])],
    ),
    ("concrete.stability_index", &[want("concrete_test", &["stability"])]),
    ("slump.placing", &[want("concrete_test", &["slump"])]),
    ("slump.flow", &[want("concrete_test", &["flow"])]),
    ("slump.flow_table", &[want("concrete_test", &["flow_table"])]),
    ("slump.until_finished", &[want("mix_approved", &["trial"]), want("load_arrived", &["batched"])]),
    ("slump.life_left", &[want("mix_approved", &["trial", "slump_end"]), want("load_arrived", &["batched"])]),
    ("slump.test_started", &[want("concrete_test", &["sampled", "started"])]),
    ("slump.test_duration", &[want("concrete_test", &["started", "took"])]),
    ("cylinders.sets", &[want("cylinders_made", &["set", "count"])]),
    ("cylinders.volume_per_set", &[want("cylinders_made", &["set", "count"])]),
    ("cylinders.initial_cure_temperature", &[want("cylinders_made", &["storage_low", "storage_high"])]),
    ("cylinders.initial_cure_time", &[want("cylinders_made", &["stored_until"])]),
    ("cylinders.strength", &[want("cylinder_broken", &["set", "age", "strength"])]),
    ("concrete.peak_temperature", &[want("temperature_read", &["sensor", "temperature"])]),
    ("concrete.temperature_difference", &[want("temperature_read", &["sensor", "temperature"])]),
];
