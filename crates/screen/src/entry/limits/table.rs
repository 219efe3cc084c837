//! Which field of which kind is judged by criteria on which fact.
//!
//! Facts that hang on many entries at once (a ratio of volumes, a duration of the whole pour) stand beside no field.

use How::{About, Itself};

/// How a field and a fact belong together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum How {
    /// The field holds what the criterion measures.
    Itself,
    /// What is measured is worked out from the field and others.
    About,
}

/// Facts of one stage: how their names end, the words of the field `stage` they belong to, and when that is.
pub(super) const STAGES: [(&str, &[&str], &str); 3] = [
    (".introduced", &["introduction"], "as it goes in"),
    (".drilling", &["drilling", "reuse", "cleaning"], "while drilling"),
    (".before_concrete", &["before_concrete"], "before concrete"),
];

/// Kind, path without row numbers, fact, how they belong together.
pub(super) const TABLE: &[(&str, &str, &str, How)] = &[
    ("utilities_cleared", "hand_dug", "utilities.hand_dug_depth", Itself),
    ("equipment_checked", "diameter", "equipment.tool_diameter_short", About),
    ("instrument_checked", "water_time", "instrument.funnel_in_water", Itself),
    ("instrument_checked", "water_density", "instrument.balance_in_water", Itself),
    ("casing_set", "above_ground", "casing.surface.above_ground", About),
    ("casing_set", "above_ground", "casing.permanent.above_water", About),
    ("casing_set", "shoe", "casing.surface.below_ground", About),
    ("casing_set", "plumb", "casing.plumbness", Itself),
    ("casing_lifted", "shoe", "casing.head_over_shoe", About),
    ("casing_lifted", "level_after", "casing.drop_beyond_expected", About),
    ("casing_lifted", "cage_rise", "cage.movement", Itself),
    ("casing_lifted", "steadily", "casing.pulled_steadily", Itself),
    ("fluid_level", "depth", "fluid.head", About),
    ("fluid_level", "sudden_loss", "fluid.sudden_loss", Itself),
    ("fluid_test", "density", "fluid.density.introduced", Itself),
    ("fluid_test", "density", "fluid.density.drilling", Itself),
    ("fluid_test", "density", "fluid.density.before_concrete", Itself),
    ("fluid_test", "viscosity", "fluid.viscosity.introduced", Itself),
    ("fluid_test", "viscosity", "fluid.viscosity.drilling", Itself),
    ("fluid_test", "viscosity", "fluid.viscosity.before_concrete", Itself),
    ("fluid_test", "ph", "fluid.ph.introduced", Itself),
    ("fluid_test", "ph", "fluid.ph.drilling", Itself),
    ("fluid_test", "ph", "fluid.ph.before_concrete", Itself),
    ("fluid_test", "sand", "fluid.sand.introduced", Itself),
    ("fluid_test", "sand", "fluid.sand.drilling", Itself),
    ("fluid_test", "sand", "fluid.sand.before_concrete", Itself),
    ("fluid_test", "temperature", "fluid.temperature", Itself),
    ("fluid_test", "gel", "fluid.gel_strength", Itself),
    ("fluid_test", "fluid_loss", "fluid.filter_loss.introduced", Itself),
    ("fluid_test", "fluid_loss", "fluid.filter_loss.drilling", Itself),
    ("fluid_test", "cake", "fluid.filter_cake.introduced", Itself),
    ("fluid_test", "cake", "fluid.filter_cake.drilling", Itself),
    ("fluid_test", "depth", "fluid.sample_above_bottom", About),
    ("plumb_measured", "points", "asbuilt.plumbness", About),
    ("bottom_sounded", "points", "bottom.points", About),
    ("bottom_sounded", "points.depth", "bottom.tip_above_plan", About),
    ("bottom_sounded", "points.depth", "bottom.levelness", About),
    ("sediment_measured", "points.thickness", "bottom.sediment.max", About),
    ("sediment_measured", "points.thickness", "bottom.sediment.mean", About),
    ("sediment_measured", "points.thickness", "bottom.sediment.half_area", About),
    ("cage_checked", "tied", "cage.ties", Itself),
    ("cage_checked", "bars_extended", "cage.bars_extended", Itself),
    ("cage_checked", "length", "cage.length_short", About),
    ("cage_checked", "lap", "cage.lap_short", About),
    ("cage_checked", "hoops.spacing", "cage.clear_spacing", About),
    ("cage_checked", "spacers_per_level", "cage.spacers.per_level", Itself),
    ("cage_checked", "spacer_levels_every", "cage.spacers.vertical_gap", Itself),
    ("cage_checked", "spacer_end", "cage.spacers.end_distance", Itself),
    ("cage_checked", "spacer_cover", "cage.cover", About),
    ("cage_checked", "tubes", "tubes.count", Itself),
    ("cage_checked", "tube_inside", "tubes.inner_diameter", Itself),
    ("cage_checked", "tube_spacing", "tubes.spacing", Itself),
    ("cage_checked", "tubes_straight", "tubes.straight", Itself),
    ("cage_checked", "tubes_watertight", "tubes.watertight", Itself),
    ("cage_set", "stand_off", "cage.stand_off", Itself),
    ("cage_set", "top", "cage.top_deviation.set", About),
    ("cage_elevation", "top", "cage.top_deviation.after_pour", About),
    ("cage_elevation", "top", "cage.top_deviation.after_casing", About),
    ("tubes_checked", "good", "tubes.inspected", Itself),
    ("tubes_filled", "capped", "tubes.capped_before_concrete", Itself),
    ("line_made_up", "inside", "line.inner_diameter", Itself),
    ("line_made_up", "outside", "line.outer_diameter", Itself),
    ("line_made_up", "off_bottom", "line.tip_above_bottom", Itself),
    ("line_made_up", "tip", "line.tip_above_bottom", About),
    ("line_made_up", "watertight", "line.watertight", Itself),
    ("line_made_up", "material", "line.material_allowed", About),
    ("line_made_up", "plug", "line.separated", About),
    ("line_made_up", "hopper", "placing.first_charge", About),
    ("tip_moved", "tip", "line.embedment.least", About),
    ("tip_moved", "tip", "line.embedment.most", About),
    ("tip_moved", "slowly", "line.moved_slowly", Itself),
    ("tip_moved", "took", "line.lift_speed", About),
    ("pieces_removed", "tip", "line.embedment.least", About),
    ("pieces_removed", "tip", "line.embedment.most", About),
    ("load_arrived", "batched", "concrete.batch_to_discharge", About),
    ("load_arrived", "revolutions", "concrete.revolutions", Itself),
    ("load_arrived", "water", "concrete.water_cement", About),
    ("load_arrived", "cementitious", "concrete.cement_content", About),
    ("concrete_test", "slump", "slump.placing", Itself),
    ("concrete_test", "flow", "slump.flow", Itself),
    ("concrete_test", "flow_table", "slump.flow_table", Itself),
    ("concrete_test", "stability", "concrete.stability_index", Itself),
    ("concrete_test", "air", "concrete.air", Itself),
    ("concrete_test", "temperature", "concrete.temperature", Itself),
    ("concrete_test", "started", "slump.test_started", About),
    ("concrete_test", "took", "slump.test_duration", Itself),
    ("water_added", "volume", "concrete.water_cement", About),
    ("water_added", "volume", "concrete.water_additions", About),
    ("water_added", "revolutions", "concrete.revolutions_after_water", Itself),
    ("discharge_ended", "revolutions", "concrete.revolutions", Itself),
    ("interruption", "until", "placing.interruption", About),
    ("over_poured", "good", "placing.good_concrete_at_top", Itself),
    ("over_poured", "height", "placing.overpour", Itself),
    ("cylinders_made", "storage_low", "cylinders.initial_cure_temperature", About),
    ("cylinders_made", "storage_high", "cylinders.initial_cure_temperature", About),
    ("cylinders_made", "stored_until", "cylinders.initial_cure_time", About),
    ("cylinder_broken", "strength", "cylinders.strength", About),
    ("temperature_read", "temperature", "concrete.peak_temperature", About),
    ("temperature_read", "temperature", "concrete.temperature_difference", About),
    ("anchors_set", "bolts.projection", "bolts.projection_deviation", About),
    ("anchors_set", "bolts.plumb", "bolts.plumbness", Itself),
    ("anchors_set", "bolts.east", "bolts.position_offset", About),
    ("conduit_set", "as_planned", "conduit.as_planned", Itself),
    ("as_built", "east", "asbuilt.position_offset", About),
    ("as_built", "north", "asbuilt.position_offset", About),
    ("as_built", "top", "asbuilt.top_deviation", About),
    ("as_built", "diameter", "asbuilt.diameter_short", About),
    ("as_built", "diameter", "asbuilt.diameter_over", About),
];

#[cfg(test)]
mod tests {
    use super::*;
    use record::field::{FieldSpec, Shape};
    use record::kinds::kind_of;

    fn named<'f>(fields: &'f [FieldSpec], name: &str) -> &'f FieldSpec {
        fields.iter().find(|field| field.name == name).unwrap_or_else(|| panic!("no field `{name}`"))
    }

    #[test]
    fn every_row_names_a_field_and_a_fact_that_exist() {
        for (kind, path, fact, _) in TABLE {
            let fields = kind_of(kind).unwrap_or_else(|| panic!("no kind `{kind}`")).fields;
            let (head, rest) = path.split_once('.').map_or((*path, None), |(head, rest)| (head, Some(rest)));
            let field = named(fields, head);
            if let (Some(rest), Shape::List(item)) = (rest, (field.shape)()) {
                let Shape::Group(inner) = item() else { panic!("`{kind}` {path}: a row of one value") };
                named(inner, rest);
            }
            assert!(criteria::facts::named(fact).is_some(), "`{fact}` beside `{kind}` {path}");
        }
    }

    #[test]
    fn the_words_of_the_stages_are_those_of_the_field() {
        let stage = named(kind_of("fluid_test").unwrap().fields, "stage");
        let Shape::Choice(words) = (stage.shape)() else { panic!("the stage is a choice") };
        let told: Vec<&str> = STAGES.iter().flat_map(|row| row.1.iter().copied()).collect();
        assert!(words.iter().all(|word| told.contains(&word.word)), "{told:?}");
        assert!(told.iter().all(|told| words.iter().any(|word| word.word == *told)), "{told:?}");
    }
}
