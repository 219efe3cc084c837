//! Which fields are usually written, kind by kind, and which entries are made to hold a reading.
//!
//! The record may hold far more than a person writes in the rain. What stands here is asked for at once;
//! all else waits behind "more". Common practice, no source.
//!
//! Never: make a field needed that the record lets be blank.

use super::When;
use record::FieldSpec;

/// When a field of a kind is asked for.
pub(super) fn when(kind: &str, field: &FieldSpec) -> When {
    match field.may_be_blank {
        false => When::Needed,
        true if is_usual(kind, field.name) => When::Usual,
        true => When::More,
    }
}

/// A field that is usually written.
pub(super) fn is_usual(kind: &str, field: &str) -> bool {
    place(kind, field).is_some()
}

/// Its place among the fields that are usually written: the order a hand fills them in.
pub(super) fn place(kind: &str, field: &str) -> Option<usize> {
    let row = USUAL.iter().find(|row| row.0 == kind)?;
    row.1.iter().position(|name| *name == field)
}

/// The readings an entry of a kind is made for; `None` where a time alone says something.
pub(super) fn readings(kind: &str) -> Option<&'static [&'static str]> {
    READINGS.iter().find(|row| row.0 == kind).map(|row| row.1)
}

/// Kinds that are not here need all they usually hold, or usually hold nothing more.
const USUAL: &[(&str, &[&str])] = &[
    ("job_opened", &["number", "owner", "contractor", "engineer", "location", "datum"]),
    ("person_named", &["organization"]),
    ("device_named", &["holder"]),
    ("limit_changed", &["limit", "limit_high", "by"]),
    (
        "mix_approved",
        &["producer", "strength", "strength_age", "slump_low", "slump_high", "slump_end", "w_cm", "trial"],
    ),
    ("fluid_approved", &["density_low", "density_high", "viscosity_low", "viscosity_high", "sand_high"]),
    ("document_listed", &["revision", "file"]),
    (
        "shaft_planned",
        &["structure_name", "station", "ground", "cut_off", "groundwater", "bore", "mix", "fluid"],
    ),
    ("strata_expected", &["layers", "boring"]),
    ("casing_planned", &["casings"]),
    ("cage_planned", &["length", "bars", "hoops", "cover", "top", "stand_off"]),
    ("anchors_planned", &["diameter", "circle", "projection"]),
    ("pour_planned", &["headway", "duration", "after", "truck", "haul"]),
    ("installation_plan", &["submitted", "by"]),
    ("equipment_checked", &["diameter", "as_approved"]),
    ("instrument_checked", &["serial", "water_time", "water_density", "temperature", "fit"]),
    ("stake_out", &["northing", "easting", "checked_by"]),
    ("utilities_cleared", &["ticket", "hand_dug", "overhead_clear"]),
    ("reference_set", &["how"]),
    ("meeting_held", &["safety"]),
    ("casing_set", &["outside", "length", "top", "shoe", "plumb"]),
    ("casing_advanced", &["plumb"]),
    ("casing_lifted", &["level_before", "level_after", "added", "cage_rise"]),
    ("casing_out", &["level_before", "level_after", "added", "cage_rise"]),
    ("casing_left", &["top", "bottom", "reason", "approved_by"]),
    ("drilling_started", &["rig", "operator"]),
    ("tool_run", &["from", "tool", "ground", "out"]),
    ("stratum_met", &["to", "description", "as_expected"]),
    ("obstruction", &["to", "method", "lost"]),
    ("groundwater", &["at_rest"]),
    ("inflow_measured", &["standing", "rise", "over", "rate"]),
    ("caving", &["from", "to", "action"]),
    ("fluid_introduced", &["volume", "hole_depth"]),
    ("fluid_level", &["groundwater"]),
    ("fluid_test", &["depth", "temperature", "density", "viscosity", "ph", "sand"]),
    ("fluid_treated", &["volume"]),
    ("work_stopped", &["covered", "how"]),
    ("work_resumed", &["note"]),
    ("bottom_reached", &["ground", "note"]),
    ("over_excavated", &["from"]),
    ("rock_socket", &["to", "diameter"]),
    ("bell_cut", &["diameter", "tool"]),
    ("plumb_measured", &["method", "points"]),
    ("bore_measured", &["method", "points"]),
    ("sample_taken", &["depth", "description"]),
    ("cleaning", &["until"]),
    ("bottom_sounded", &["points", "reference"]),
    ("sediment_measured", &["points", "method"]),
    ("cage_checked", &["bars", "hoops", "diameter", "length", "spacers_per_level", "spacer_cover", "tubes"]),
    ("cage_set", &["top", "stand_off", "held"]),
    ("sensors_placed", &["count", "serials"]),
    ("tubes_checked", &["tubes", "good"]),
    ("tubes_filled", &["clean_water", "capped"]),
    ("tube_water", &["below_top", "topped_up"]),
    ("line_made_up", &["inside", "pieces", "tip", "off_bottom", "watertight", "plug"]),
    ("tip_moved", &["slowly"]),
    ("pieces_removed", &["tip"]),
    ("load_arrived", &["mix", "plant", "truck", "batched", "water_allowed", "ticket_checked"]),
    ("concrete_test", &["slump", "air", "temperature", "cylinders"]),
    ("water_added", &["by"]),
    ("discharge_started", &["line"]),
    ("discharge_ended", &["returned"]),
    ("concrete_wasted", &["ticket"]),
    ("concrete_sounded", &["points", "after"]),
    ("interruption", &["until", "level"]),
    ("over_poured", &["height", "volume"]),
    ("vibrated", &["over"]),
    ("concrete_ordered", &["due"]),
    ("top_formed", &["shape", "width", "height", "top"]),
    ("conduit_set", &["as_planned"]),
    ("anchors_set", &["template", "circle", "bolts"]),
    ("curing", &["until"]),
    ("cylinders_made", &["ticket", "size"]),
    ("cylinder_broken", &["age"]),
    ("form_removed", &["note"]),
    ("integrity_test", &["by", "result", "pairs"]),
    ("repair_made", &["from", "to", "by"]),
    ("trimmed", &["concrete"]),
    ("as_built", &["northing", "easting", "east", "north", "top", "diameter", "by"]),
    ("weather", &["temperature", "text"]),
    ("photo", &["depth"]),
    ("correction", &["observed", "body"]),
    ("dispute_closed", &["by"]),
    ("finding_disposed", &["by"]),
    ("notice_given", &["how"]),
    ("signed", &["statement"]),
];

const READINGS: &[(&str, &[&str])] = &[
    ("strata_expected", &["layers"]),
    ("casing_planned", &["casings"]),
    ("stake_out", &["northing", "easting", "offsets", "checked_by"]),
    ("inflow_measured", &["standing", "rise", "rate"]),
    ("fluid_test", &["density", "viscosity", "ph", "sand", "temperature", "fluid_loss", "cake", "gel"]),
    ("plumb_measured", &["points"]),
    ("bore_measured", &["points", "file"]),
    ("bottom_sounded", &["points", "feel"]),
    ("sediment_measured", &["points"]),
    (
        "concrete_test",
        &["slump", "flow", "flow_table", "stability", "air", "temperature", "unit_weight", "cylinders"],
    ),
    ("concrete_sounded", &["points", "elevation"]),
    ("as_built", &["northing", "easting", "east", "north", "level", "top", "diameter", "cage_top"]),
    ("weather", &["temperature", "text"]),
    ("tube_water", &["below_top", "topped_up"]),
];

#[cfg(test)]
mod tests {
    use super::*;
    use record::kinds::kind_of;
    use std::collections::BTreeSet;

    #[test]
    fn every_row_names_blank_fields_of_a_kind_once() {
        for (table, blank_only) in [(USUAL, true), (READINGS, false)] {
            let words: BTreeSet<&str> = table.iter().map(|row| row.0).collect();
            assert_eq!(words.len(), table.len(), "no kind has two rows");
            for (word, fields) in table {
                let kind = kind_of(word).unwrap_or_else(|| panic!("{word} is no kind"));
                for name in *fields {
                    let field = kind.fields.iter().find(|field| field.name == *name);
                    let field = field.unwrap_or_else(|| panic!("{word} has no {name}"));
                    assert!(field.may_be_blank || !blank_only, "{word}.{name} is needed anyway");
                }
            }
        }
    }
}
