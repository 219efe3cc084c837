//! Which keys lie under the thumb at each stage, and the short words on them.
//!
//! Common practice, no source: what an inspector writes most at that stage.

use crate::entry::stage::Stage;

/// The kinds written most at a stage, the usual order of the work.
pub(super) fn of_stage(stage: Stage) -> &'static [&'static str] {
    match stage {
        Stage::Planned => PLANNED,
        Stage::BeforeDrilling => BEFORE_DRILLING,
        Stage::Drilling => DRILLING,
        Stage::Bottom => BOTTOM,
        Stage::Cage => CAGE,
        Stage::Pour => POUR,
        Stage::After => AFTER,
        Stage::Done => DONE,
    }
}

const PLANNED: &[&str] = &[
    "stake_out",
    "utilities_cleared",
    "reference_set",
    "casing_set",
    "instrument_checked",
    "equipment_checked",
    "meeting_held",
    "photo",
    "remark",
];

const BEFORE_DRILLING: &[&str] = &[
    "reference_set",
    "drilling_started",
    "casing_set",
    "utilities_cleared",
    "stake_out",
    "instrument_checked",
    "equipment_checked",
    "photo",
    "remark",
];

const DRILLING: &[&str] = &[
    "tool_run",
    "stratum_met",
    "fluid_level",
    "fluid_test",
    "fluid_introduced",
    "groundwater",
    "obstruction",
    "caving",
    "casing_advanced",
    "work_stopped",
    "bottom_reached",
    "photo",
    "remark",
];

const BOTTOM: &[&str] = &[
    "cleaning",
    "bottom_sounded",
    "sediment_measured",
    "fluid_test",
    "bottom_accepted",
    "tool_run",
    "plumb_measured",
    "inflow_measured",
    "work_stopped",
    "photo",
    "remark",
];

const CAGE: &[&str] = &[
    "cage_set",
    "cage_checked",
    "bottom_sounded",
    "sediment_measured",
    "fluid_test",
    "line_made_up",
    "concrete_ordered",
    "tubes_checked",
    "cleaning",
    "load_arrived",
    "photo",
    "remark",
];

const POUR: &[&str] = &[
    "load_arrived",
    "concrete_test",
    "discharge_started",
    "discharge_ended",
    "concrete_sounded",
    "tip_moved",
    "pieces_removed",
    "casing_lifted",
    "casing_out",
    "water_added",
    "concrete_ordered",
    "interruption",
    "cage_elevation",
    "over_poured",
    "line_out",
    "load_refused",
    "photo",
    "remark",
];

const AFTER: &[&str] = &[
    "cage_elevation",
    "anchors_set",
    "conduit_set",
    "top_formed",
    "curing",
    "cylinders_made",
    "tubes_filled",
    "form_removed",
    "cylinder_broken",
    "integrity_test",
    "trimmed",
    "as_built",
    "photo",
    "remark",
];

const DONE: &[&str] = &[
    "cylinder_broken",
    "integrity_test",
    "as_built",
    "finding_disposed",
    "tube_water",
    "repair_made",
    "signed",
    "photo",
    "remark",
];

/// The short word on a key, where the name of the kind is too long for a thumb; none of two kinds.
pub(super) fn short(word: &str) -> Option<&'static str> {
    SHORT.iter().find(|row| row.0 == word).map(|row| row.1)
}

pub(super) const SHORT: &[(&str, &str)] = &[
    ("load_arrived", "Truck in"),
    ("concrete_test", "Fresh test"),
    ("discharge_started", "Discharge start"),
    ("discharge_ended", "Truck empty"),
    ("concrete_sounded", "Tape on concrete"),
    ("tip_moved", "Tremie up"),
    ("pieces_removed", "Section off"),
    ("line_made_up", "Tremie in"),
    ("line_out", "Tremie out"),
    ("casing_lifted", "Casing lift"),
    ("casing_out", "Casing out"),
    ("casing_left", "Casing stays"),
    ("casing_advanced", "Casing deeper"),
    ("water_added", "Water added"),
    ("load_refused", "Truck refused"),
    ("concrete_ordered", "Order more"),
    ("concrete_wasted", "Waste"),
    ("interruption", "Pour stopped"),
    ("over_poured", "Good at top"),
    ("tool_run", "Tool run"),
    ("stratum_met", "New layer"),
    ("fluid_introduced", "Fluid in"),
    ("bottom_reached", "At the bottom"),
    ("bottom_sounded", "Tape on bottom"),
    ("sediment_measured", "Sediment"),
    ("bottom_accepted", "Bottom OK"),
    ("plumb_measured", "Plumb"),
    ("bore_measured", "Caliper"),
    ("inflow_measured", "Water coming in"),
    ("cage_checked", "Cage on ground"),
    ("cage_set", "Cage in"),
    ("cage_elevation", "Cage level"),
    ("tubes_checked", "Tubes checked"),
    ("reference_set", "Reference"),
    ("utilities_cleared", "Utilities"),
    ("instrument_checked", "Instrument"),
    ("equipment_checked", "Equipment"),
    ("drilling_started", "Start drilling"),
    ("work_stopped", "Stop"),
    ("work_resumed", "Go on"),
    ("over_excavated", "Dug deeper"),
    ("cylinders_made", "Cylinders"),
    ("cylinder_broken", "Break"),
    ("temperature_read", "Concrete temp"),
    ("integrity_test", "Integrity"),
    ("as_built", "As-built"),
    ("finding_disposed", "Decision"),
    ("question_asked", "Ask"),
    ("question_answered", "Answer"),
    ("dispute_closed", "Settle dispute"),
    ("notice_given", "Somebody told"),
    ("hold_placed", "Hold"),
    ("hold_released", "Release hold"),
    ("not_applicable", "Does not apply"),
    ("signed", "Sign"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use record::kinds::kind_of;
    use std::collections::BTreeSet;

    #[test]
    fn every_word_of_the_tables_is_a_kind_and_stands_once() {
        for stage in Stage::ALL {
            let words = of_stage(stage);
            assert!(words.iter().all(|word| kind_of(word).is_some()), "{}", stage.label());
            assert_eq!(words.iter().collect::<BTreeSet<_>>().len(), words.len(), "{}", stage.label());
            assert!(words.contains(&"remark") && words.contains(&"photo"), "{}", stage.label());
        }
        assert!(SHORT.iter().all(|row| kind_of(row.0).is_some()));
        assert_eq!(SHORT.iter().map(|row| row.0).collect::<BTreeSet<_>>().len(), SHORT.len());
    }
}
