//! The papers of the made-up job, the plan of its shaft, and the morning before the drill turns.

use record::Fault;

use super::writer::Writer;
use super::{AUTHOR, Chosen};
use crate::site::{BOTTOM_FT, REFERENCE_FT};

/// Elevation of a depth of the site, as it is written.
fn elevation(depth_ft: f64) -> String {
    format!("{:.1} ft", REFERENCE_FT - depth_ft)
}

/// Writes everything up to the first run of the tool.
pub(super) fn write(writer: &mut Writer, chosen: Option<&Chosen>) -> Result<(), Vec<Fault>> {
    writer.minute = 5 * 60;
    job(writer, chosen)?;
    papers(writer)?;
    plan(writer)?;
    writer.minute = 6 * 60 + 30;
    morning(writer)
}

fn job(writer: &mut Writer, chosen: Option<&Chosen>) -> Result<(), Vec<Fault>> {
    writer.paper(
        "job_opened",
        &[
            ("name", "Rehearsal: a made-up shaft"),
            ("location", "nowhere; nothing of it was ever drilled"),
            ("datum", "made-up datum"),
            ("time_zone", "America/Denver"),
            ("units", "us"),
            ("lengths", "feet_tenths"),
            ("rehearsal", "yes"),
        ],
    )?;
    writer.paper("person_named", &[("name", AUTHOR), ("role", "inspector")])?;
    let Some(chosen) = chosen else { return Ok(()) };
    writer.paper("criteria_chosen", &[("set", &chosen.set), ("file", &chosen.file.to_string())])
}

fn papers(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.paper(
        "mix_approved",
        &[
            ("mix", "R-4000"),
            ("strength", "4000 psi"),
            ("strength_age", "28 d"),
            ("slump_low", "7 in"),
            ("slump_high", "9 in"),
            ("slump_end", "4 in"),
            ("w_cm", "0.44"),
            ("cementitious", "675 lb/yd3"),
            ("aggregate", "3/8 in"),
            ("temperature_low", "50 F"),
            ("temperature_high", "90 F"),
            ("discharge_within", "90 min"),
            ("revolutions", "300"),
            ("trial.0.age", "0 min"),
            ("trial.0.slump", "8 1/2 in"),
            ("trial.1.age", "120 min"),
            ("trial.1.slump", "7 1/2 in"),
            ("trial.2.age", "240 min"),
            ("trial.2.slump", "6 in"),
            ("trial.3.age", "360 min"),
            ("trial.3.slump", "3 1/2 in"),
            ("trial.4.age", "480 min"),
            ("trial.4.slump", "2 in"),
        ],
    )?;
    writer.paper(
        "fluid_approved",
        &[("product", "Stillwater R"), ("fluid", "polymer"), ("water", "fresh"), ("trial_hole", "yes")],
    )
}

fn plan(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say(
        "shaft_planned",
        &[
            ("structure", "bridge"),
            ("northing", "1000.00 ft"),
            ("easting", "2000.00 ft"),
            ("ground", &elevation(1.0)),
            ("top", &elevation(1.0)),
            ("tip", &elevation(BOTTOM_FT)),
            ("groundwater", "85.0 ft"),
            ("method", "temporary_casing"),
            ("bore.0.diameter", "48 in"),
            ("mix", "R-4000"),
            ("fluid", "Stillwater R"),
        ],
    )?;
    writer.say(
        "cage_planned",
        &[
            ("length", "59.5 ft"),
            ("diameter", "40 in"),
            ("bars.0.count", "12"),
            ("bars.0.size", "#9"),
            ("hoops.0.sort", "hoops"),
            ("hoops.0.size", "#4"),
            ("hoops.0.spacing", "12 in"),
            ("cover", "4 in"),
            ("top", "99.8 ft"),
            ("stand_off", "4 in"),
        ],
    )?;
    writer.say(
        "pour_planned",
        &[
            ("headway", "30 min"),
            ("duration", "180 min"),
            ("after", "45 min"),
            ("truck", "6.5 cy"),
            ("haul", "30 min"),
        ],
    )
}

fn morning(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say("weather", &[("temperature", "61 F"), ("text", "dry")])?;
    let (three_weeks_before, plan) =
        (-60 * 24 * 21, [("document", "Installation plan R-1"), ("approved", "yes")]);
    writer.say_at(three_weeks_before, "installation_plan", &plan)?;
    let water = [("instrument", "funnel"), ("water_time", "26.0 s/qt"), ("temperature", "70 F")];
    writer.say("instrument_checked", &water)?;
    let balance = [("instrument", "balance"), ("water_density", "62.4 pcf"), ("temperature", "70 F")];
    writer.say("instrument_checked", &balance)?;
    let tape = [("instrument", "tape"), ("tape_reads", "25.0 ft"), ("tape_known", "25.0 ft"), ("fit", "yes")];
    writer.say("instrument_checked", &tape)?;
    writer.wait(10);
    writer.say("stake_out", &[("northing", "1000.00 ft"), ("easting", "2000.00 ft")])?;
    writer
        .say("utilities_cleared", &[("ticket", "R-100"), ("hand_dug", "4 ft"), ("overhead_clear", "yes")])?;
    writer.wait(10);
    let top = elevation(0.0);
    writer.say("reference_set", &[("name", "top of casing"), ("elevation", &top), ("how", "level")])
}
