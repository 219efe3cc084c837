//! The pour of the made-up day: line, loads, soundings, casing, top, and the days after.

use record::Fault;

use super::drilling::{borrowed, feet};
use super::writer::Writer;
use crate::readings::{Readings, Sounding};
use crate::scenario::Scenario;
use crate::site::{FOOT, REFERENCE_FT, TRUCK_CY, YARD};

/// Depth of the tip at the start, in feet: half a foot over the bottom.
const START_TIP_FT: f64 = 60.5;
/// Pieces of the tremie come off one by one.
const PIECE_FT: f64 = 10.0;
/// What the crew leaves in the concrete after it took pieces off.
const EMBEDMENT_FT: f64 = 12.0;
/// Minutes from plant to site.
const HAUL: i64 = 30;
/// Minutes the late truck stands on the road.
const LATE: i64 = 75;
/// Minutes until the stuck casing comes.
const STUCK: i64 = 190;
/// What a misread tape is off by.
const MISREAD_FT: f64 = 10.0;

/// Where the pour stands.
struct Pour {
    tip_ft: f64,
    /// Loads discharged so far.
    loads: usize,
}

/// Writes everything from the line in the hole to the survey days later.
pub(super) fn write(writer: &mut Writer, readings: &Readings) -> Result<(), Vec<Fault>> {
    line(writer)?;
    let mut pour = Pour { tip_ft: START_TIP_FT, loads: 0 };
    let last = readings.soundings.iter().rposition(|sounding| !sounding.tickets_m3.is_empty());
    for (index, sounding) in readings.soundings.iter().enumerate() {
        match sounding.tickets_m3.first() {
            Some(ticket_m3) => load(writer, &mut pour, (sounding, *ticket_m3))?,
            None => casing_out(writer, &readings.soundings[index.saturating_sub(1)], sounding)?,
        }
        if Some(index) == last {
            top_of_the_pour(writer)?;
        }
    }
    afterwards(writer)
}

fn line(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.wait(8);
    writer.say(
        "line_made_up",
        &[
            ("name", "tremie"),
            ("line", "tremie"),
            ("inside", "10 in"),
            ("pieces.0.length", "10 ft"),
            ("pieces.0.count", "6"),
            ("pieces.1.length", "5 ft"),
            ("tip", &feet(START_TIP_FT)),
            ("off_bottom", "6 in"),
            ("material", "steel"),
            ("watertight", "yes"),
            ("clean", "yes"),
            ("plug", "foam ball"),
            ("hopper", "1.5 cy"),
        ],
    )?;
    writer.wait(6);
    Ok(())
}

/// One load from the gate to the sounding after it.
fn load(
    writer: &mut Writer,
    pour: &mut Pour,
    (sounding, ticket_m3): (&Sounding, f64),
) -> Result<(), Vec<Fault>> {
    let number = pour.loads + 1;
    let ticket = (4100 + number).to_string();
    let late = writer.scenario == Scenario::LateTruck && number == 4;
    let waits_since = writer.minute;
    if late {
        writer.wait(LATE);
    }
    let age = if late { HAUL + LATE } else { HAUL };
    arrival(writer, &ticket, age)?;
    if late {
        let until = Writer::text(writer.minute + 6);
        let fields = [("until", until.as_str()), ("reason", "the truck was stuck on the road")];
        writer.say_at(waits_since, "interruption", &fields)?;
    }
    writer.wait(3);
    let slump = slump(writer, late);
    writer.say("concrete_test", &[("ticket", &ticket), ("slump", &slump), ("temperature", "68 F")])?;
    if number == 1 {
        writer.say("cylinders_made", &[("set", "R1-A"), ("ticket", &ticket), ("count", "4")])?;
    }
    writer.wait(3);
    writer.say("discharge_started", &[("ticket", &ticket), ("line", "tremie")])?;
    writer.work([11.0, 16.0]);
    let mut ended = vec![("ticket".to_owned(), ticket.clone()), ("revolutions".to_owned(), "140".to_owned())];
    let left_cy = TRUCK_CY - ticket_m3 / YARD;
    if left_cy > 0.05 {
        ended.push(("returned".to_owned(), format!("{left_cy:.1} cy")));
    }
    writer.say("discharge_ended", &borrowed(&ended))?;
    writer.wait(2);
    sound(writer, &ticket, sounding, number)?;
    pour.loads = number;
    raise(writer, pour, sounding)?;
    writer.wait(4);
    Ok(())
}

fn arrival(writer: &mut Writer, ticket: &str, age: i64) -> Result<(), Vec<Fault>> {
    let wrong = writer.scenario == Scenario::WrongTicket && ticket == "4103";
    let (mix, water, cement) =
        if wrong { ("W-3000", "2050 lb", "3600 lb") } else { ("R-4000", "1690 lb", "4390 lb") };
    let batched = Writer::text(writer.minute - age);
    let revolutions = writer.chance.whole([70, 95]).to_string();
    writer.say(
        "load_arrived",
        &[
            ("ticket", ticket),
            ("mix", mix),
            ("volume", &format!("{TRUCK_CY:.1} cy")),
            ("batched", &batched),
            ("revolutions", &revolutions),
            ("water", water),
            ("moisture", "140 lb"),
            ("cementitious", cement),
            ("ticket_checked", "yes"),
        ],
    )
}

/// Slump to the quarter inch. What stood on the road has lost most of its own.
fn slump(writer: &mut Writer, late: bool) -> String {
    let inches = if late { 6.5 } else { 8.25 + 0.25 * writer.chance.even() };
    let quarters = libm::round(inches * 4.0) as i64;
    match quarters % 4 {
        0 => format!("{} in", quarters / 4),
        2 => format!("{} 1/2 in", quarters / 4),
        odd => format!("{} {odd}/4 in", quarters / 4),
    }
}

fn sound(writer: &mut Writer, ticket: &str, sounding: &Sounding, number: usize) -> Result<(), Vec<Fault>> {
    let misread = writer.scenario == Scenario::MisreadTape && number == 3;
    let off_ft = if misread { MISREAD_FT } else { 0.0 };
    let mut fields = vec![("after".to_owned(), ticket.to_owned())];
    for (index, (place, read_m)) in ["center", "outside"].into_iter().zip(&sounding.points_m).enumerate() {
        fields.push((format!("points.{index}.place"), place.to_owned()));
        fields.push((format!("points.{index}.depth"), feet((read_m / FOOT).max(0.0) + off_ft)));
    }
    writer.say("concrete_sounded", &borrowed(&fields))
}

/// Pieces come off as long as enough of the tremie stays in the concrete.
fn raise(writer: &mut Writer, pour: &mut Pour, sounding: &Sounding) -> Result<(), Vec<Fault>> {
    let level_ft = sounding.read_m / FOOT;
    let spare = ((pour.tip_ft - level_ft - EMBEDMENT_FT) / PIECE_FT).max(0.0) as usize;
    let too_far = writer.scenario == Scenario::TremiePulledTooFar && pour.loads == 3;
    let pieces = spare + usize::from(too_far);
    if pieces == 0 {
        return Ok(());
    }
    pour.tip_ft -= PIECE_FT * pieces as f64;
    writer.wait(2);
    let (tip, count) = (feet(pour.tip_ft), pieces.to_string());
    writer.say("tip_moved", &[("name", "tremie"), ("tip", &tip), ("slowly", "yes")])?;
    writer.wait(1);
    writer.say("pieces_removed", &[("name", "tremie"), ("count", &count), ("tip", &tip)])
}

fn top_of_the_pour(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say("over_poured", &[("good", "yes"), ("note", "clean concrete at the top of the casing")])?;
    writer.wait(5);
    writer.say("line_out", &[("name", "tremie")])?;
    writer.wait(4);
    let rise_ft = if writer.scenario == Scenario::CageLifting { 8.0 / 12.0 } else { 0.0 };
    let top = format!("{:.2} ft", 99.8 + rise_ft);
    writer.say("cage_elevation", &[("moment", "after_pour"), ("top", &top)])?;
    let wait = if writer.scenario == Scenario::CasingStuck { STUCK } else { 8 };
    writer.wait(wait);
    Ok(())
}

fn casing_out(writer: &mut Writer, before: &Sounding, after: &Sounding) -> Result<(), Vec<Fault>> {
    let [level_before, level_after] = [before, after].map(|level| feet((level.read_m / FOOT).max(0.0)));
    writer.say(
        "casing_out",
        &[
            ("name", "surface"),
            ("level_before", &level_before),
            ("level_after", &level_after),
            ("steadily", "yes"),
        ],
    )?;
    writer.wait(6);
    Ok(())
}

fn afterwards(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say("curing", &[("method", "wet burlap")])?;
    writer.wait(60 * 24 * 4);
    let top = feet(REFERENCE_FT - 1.0);
    writer.say("as_built", &[("east", "1/2 in"), ("north", "0 in"), ("top", &top), ("diameter", "50 in")])
}
