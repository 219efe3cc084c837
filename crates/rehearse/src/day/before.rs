//! The papers of the made-up job, the plan of its shaft, and the morning before the drill turns.

use record::Fault;

use super::papers::{CAGE, CHECKS, FLUID, MIX, PLAN};
use super::writer::Writer;
use super::{AUTHOR, Chosen};

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
            ("units", writer.site.pick("us", "metric")),
            ("lengths", writer.site.pick("feet_tenths", "meters")),
            ("rehearsal", "yes"),
        ],
    )?;
    writer.paper("person_named", &[("name", AUTHOR), ("role", "inspector")])?;
    let Some(chosen) = chosen else { return Ok(()) };
    writer.paper("criteria_chosen", &[("set", &chosen.set), ("file", &chosen.file.to_string())])
}

fn papers(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.paper("mix_approved", writer.of(MIX))?;
    writer.paper("fluid_approved", writer.of(FLUID))
}

fn plan(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let site = writer.site;
    let (ground, tip) = (site.elevation(site.ground_m), site.elevation(site.bottom_m));
    let levels = [
        ("structure", "bridge"),
        ("ground", &ground),
        ("top", site.pick(ground.as_str(), "50.00 m")),
        ("tip", &tip),
        ("method", "temporary_casing"),
    ];
    let easting = easting(writer);
    let stands = [("easting", easting.as_str())];
    writer.say("shaft_planned", &[levels.as_slice(), writer.of(PLAN), &stands].concat())?;
    writer.say("cage_planned", writer.of(CAGE))?;
    let truck = site.volume(site.truck_m3);
    let pour = [
        ("headway", "30 min"),
        ("duration", site.pick("180 min", "210 min")),
        ("after", "45 min"),
        ("truck", truck.as_str()),
        ("haul", "30 min"),
    ];
    writer.say("pour_planned", &pour)
}

fn morning(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let site = writer.site;
    writer.say("weather", &[("temperature", site.pick("61 F", "16 C")), ("text", "dry")])?;
    let document = format!("Installation plan {}", writer.place.shaft);
    let (three_weeks_before, plan) = (-60 * 24 * 21, [("document", document.as_str()), ("approved", "yes")]);
    writer.say_at(three_weeks_before, "installation_plan", &plan)?;
    for check in writer.of(CHECKS) {
        writer.say("instrument_checked", check)?;
    }
    writer.wait(10);
    let (northing, easting) = (site.pick("1000.00 ft", "1000.00 m"), easting(writer));
    writer.say("stake_out", &[("northing", northing), ("easting", &easting)])?;
    let dug = site.pick("4 ft", "1.2 m");
    writer.say("utilities_cleared", &[("ticket", "R-100"), ("hand_dug", dug), ("overhead_clear", "yes")])?;
    writer.wait(10);
    let top = site.elevation(0.0);
    writer.say("reference_set", &[("name", "top of casing"), ("elevation", &top), ("how", "level")])
}

/// The shafts stand in a row.
fn easting(writer: &Writer) -> String {
    let east = 2000.0 + writer.of([20.0, 6.0]) * f64::from(writer.place.east);
    writer.of([format!("{east:.2} ft"), format!("{east:.2} m")])
}
