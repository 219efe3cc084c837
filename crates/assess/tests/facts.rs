//! Every fact a criterion may ask for is measured by some story, or stands in the list of those this version
//! cannot measure, with the reason.

mod story;

use assess::facts::NOT_MEASURED_YET;
use std::collections::BTreeSet;
use story::{Story, Told, others, roadside};

fn names(told: &Told) -> BTreeSet<&'static str> {
    let end = told.end();
    end.findings.iter().filter(|finding| finding.value.is_some()).map(|finding| finding.fact.name).collect()
}

/// A day on which everything that can be written is written.
fn everything() -> Story {
    roadside::story()
        .with("trial = [ { age = 0", "fines = \"420 kg/m3\"\ntrial = [ { age = 0")
        .with("water = \"fresh\"", "water = \"fresh\"\ntrial_hole = true\nsand_high = 1")
        .with("fluid = \"Clearhold\"\n\n[shaft.cage]", "fluid = \"Clearhold\"\nopen_water = 95\nrake = \"1:20\"\nrake_toward = \"east\"\n\n[shaft.cage]")
        .with("tube_material = \"steel\" }", "tube_material = \"steel\", tube_spacing = 24, tube_foot = 2, tube_length = 25, tubes_straight = true, spacer_end = 12, bars_extended = \"50 %\" }")
        .with("concrete_test\", ticket = 1, slump = 8.25", "concrete_test\", ticket = 1, slump = 8.25, flow = 20, flow_table = 22, stability = 1, air = 4, temperature = 75, unit_weight = \"145 pcf\", sampled = \"10:10\", started = \"10:12\", took = \"2 min\"")
        .with("water = 1300, cementitious = 3300, ticket_checked", "batch_mass = \"19575 lb\", water = 1300, cementitious = 3300, ticket_checked")
        .with("density = \"63.0 pcf\", viscosity = \"40 s/qt\", ph = 9, sand = 0 }", "density = \"63.0 pcf\", viscosity = \"40 s/qt\", ph = 9, sand = 0, temperature = \"60 F\", gel = \"0.1 psf\", fluid_loss = \"20 mL\", cake = \"2 mm\" }")
        .with("tip = 24.75, watertight = true", "tip = 24.75, outside = 12, material = \"steel\", clean = true, watertight = true")
        .with("tip = 20.0, slowly = true", "tip = 20.0, slowly = true, took = \"2 min\"")
        .with("level_after = 0.7, cage_rise = 0", "level_after = 0.7, cage_rise = 0, steadily = true")
        .with("method = \"wet burlap\"", "method = \"wet burlap\", until = \"+3 11:20\"")
}

/// More of the same day: instruments, a plan for the installation, water in the hole, tests of the finished shaft.
fn more() -> Story {
    [
        r#"{ at = "-20 08:00", entry = "installation_plan", document = "plan", approved = true }"#,
        r#"{ at = "06:00", entry = "equipment_checked", item = "auger", diameter = 42 }"#,
        r#"{ at = "06:05", entry = "instrument_checked", instrument = "funnel", water_time = "26 s/qt" }"#,
        r#"{ at = "06:06", entry = "instrument_checked", instrument = "balance", water_density = "62.4 pcf" }"#,
        r#"{ at = "07:21", entry = "casing_set", name = "outer", stay = "permanent", outside = 50, top = 101, shoe = 5, plumb = "1:100" }"#,
        r#"{ at = "08:00", entry = "fluid_test", place = "hole", stage = "drilling", density = "63.4 pcf", viscosity = "41 s/qt", ph = 9, sand = 1, fluid_loss = "25 mL", cake = "3 mm" }"#,
        r#"{ at = "08:10", entry = "work_stopped", reason = "lunch", covered = true }"#,
        r#"{ at = "10:50", entry = "water_added", ticket = 2, volume = "5 gal", revolutions = 40 }"#,
        r#"{ at = "10:56", entry = "vibrated", over = 5 }"#,
        r#"{ at = "10:58", entry = "cage_elevation", moment = "after_pour", top = 99.75 }"#,
        r#"{ at = "11:06", entry = "cage_elevation", moment = "after_casing", top = 99.75 }"#,
        r#"{ at = "11:07", entry = "tube_water", topped_up = true }"#,
        r#"{ at = "12:00", entry = "temperature_read", sensor = "core", temperature = "100 F" }"#,
        r#"{ at = "12:05", entry = "temperature_read", sensor = "edge", temperature = "80 F", at_edge = true }"#,
        r#"{ at = "12:10", entry = "cylinders_made", set = "C2", count = 2, storage_low = "62 F", storage_high = "78 F", stored_until = "+1 12:10" }"#,
        r#"{ at = "+28 11:25", entry = "cylinder_broken", set = "C1", age = "28 d", strength = 4400 }"#,
        r#"{ at = "+5 08:00", entry = "integrity_test", method = "crosshole", pairs = { tubes = "1-2", delay = "5 %", energy = "3" } }"#,
        r#"{ at = "+5 09:00", entry = "integrity_test", method = "low_strain" }"#,
        r#"{ at = "+5 10:00", entry = "integrity_test", method = "thermal" }"#,
        r#"{ at = "+5 11:00", entry = "integrity_test", method = "gamma", pairs = { tubes = "1", deviations = "2.5" } }"#,
    ]
    .into_iter()
    .fold(everything(), |story, line| story.and(line))
    .with("bolt = \"A\", east", "bolt = \"A\", plumb = \"1:100\", east")
}

/// A dry hole poured by free fall, with a socket of rock, both sides of its cage sounded.
fn dry() -> Story {
    roadside::story()
        .with("method = \"wet\"", "method = \"dry\"\ndry_allowed = true")
        .with("bore = \"42 in\"", "bore = [ { diameter = \"42 in\", to = 80 }, { diameter = \"42 in\", ground = \"rock\" } ]")
        .without("fluid_introduced")
        .without("fluid_test")
        .without("fluid_level")
        .without("tip_moved")
        .with("line = \"tremie\", inside = 10, pieces = [ { length = 10, count = 2 }, { length = 5, count = 2 } ], tip = 24.75,", "line = \"free_fall\", pieces = [ { length = 3 } ], tip = 4, centered = true,")
        .with("after = 1, depth = 12.0", "after = 1, points = { inside = 12.0, outside = 12.2 }")
        .and(r#"{ at = "08:52", entry = "rock_socket", from = 21, to = 25 }"#)
        .and(r#"{ at = "10:08", entry = "inflow_measured", standing = 1, rise = 1, over = "10 min" }"#)
}

/// A mineral fluid that was mixed the day before and left overnight.
fn mineral() -> Story {
    roadside::story()
        .with("fluid = \"polymer\" }", "fluid = \"mineral\", mixed = \"06:30\" }")
        .with("at = \"06:45\", entry = \"drilling", "at = \"-1 06:45\", entry = \"drilling")
        .with("at = \"07:30\", entry = \"fluid_introduced", "at = \"-1 20:30\", entry = \"fluid_introduced")
        .with("mixed = \"06:30\"", "mixed = \"-1 06:30\"")
}

/// The day in the entry counts, not the day somebody wrote it down.
#[test]
fn a_plan_was_handed_in_when_the_entry_says_so() {
    let ahead = |submitted: &str| {
        let line = format!(
            r#"{{ at = "06:30", entry = "installation_plan", document = "plan", approved = true{submitted} }}"#
        );
        let told = roadside::story().and(&line).told();
        let end = told.end();
        story::one(&end, "plan.submitted_ahead").value
    };
    assert_eq!(ahead(""), Some(quantity::Span::minutes(15.0).into()), "drilling began at 06:45");
    assert_eq!(ahead(r#", submitted = "-20 06:45""#), Some(quantity::Span::minutes(20.0 * 1440.0).into()));
}

#[test]
fn every_fact_is_measured_or_its_absence_explained() {
    let stories = [more(), dry(), mineral(), others::casing()];
    let measured: BTreeSet<&str> = stories.iter().flat_map(|story| names(&story.told())).collect();
    let listed: BTreeSet<&str> = NOT_MEASURED_YET.iter().map(|(fact, _)| *fact).collect();
    let known: BTreeSet<&str> = criteria::facts::all().map(|fact| fact.name).collect();
    assert!(listed.is_subset(&known), "a listed fact is none: {:?}", listed.difference(&known));
    let both: Vec<_> = measured.intersection(&listed).collect();
    assert!(both.is_empty(), "measured after all: {both:?}");
    let neither: Vec<_> =
        known.iter().filter(|fact| !measured.contains(*fact) && !listed.contains(*fact)).collect();
    assert!(neither.is_empty(), "neither measured nor listed: {neither:?}");
}
