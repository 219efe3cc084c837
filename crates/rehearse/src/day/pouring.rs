//! The pour of the made-up day: line, loads, soundings, casing, top, and the days after.

use record::Fault;

use super::drilling::{READY_MINUTES, borrowed, feet};
use super::writer::Writer;
use crate::decision::{Answer, Question, order_for};
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
/// No truck is here sooner after it was batched.
const LEAST_HAUL: i64 = 15;
/// Minutes the late truck stands on the road.
const LATE: i64 = 75;
/// Minutes until the stuck casing comes.
const STUCK: i64 = 190;
/// What a misread tape is off by.
const MISREAD_FT: f64 = 10.0;

/// Minutes until a truck comes in the place of one that was sent away.
const REPLACED: i64 = 25;
/// Minutes until one more truck comes, when the last one brought too little.
const SHORT: i64 = 50;

/// Where the pour stands.
struct Pour<'r> {
    readings: &'r Readings,
    tip_ft: f64,
    /// Loads discharged so far.
    loads: usize,
    /// Trucks that came so far.
    trucks: usize,
    /// The load whose truck brings the rest, by its number; 0: there is none.
    last: usize,
    /// What the last truck was ordered with, in cubic yards, and at which minute.
    ordered: Option<(f64, i64)>,
}

impl Pour<'_> {
    /// What the truck of the load that comes brings.
    fn truck_cy(&self) -> f64 {
        self.order().map_or(TRUCK_CY, |(volume_cy, _)| volume_cy)
    }

    fn order(&self) -> Option<(f64, i64)> {
        self.ordered.filter(|_| self.loads + 1 == self.last)
    }
}

/// Writes everything from the line in the hole to the survey days later.
pub(super) fn write(writer: &mut Writer, readings: &Readings) -> Result<(), Vec<Fault>> {
    line(writer)?;
    let last = readings.soundings.iter().rposition(|sounding| !sounding.tickets_m3.is_empty());
    let loads = last.map_or(0, |last| last + 1);
    let mut pour = Pour { readings, tip_ft: START_TIP_FT, loads: 0, trucks: 0, last: loads, ordered: None };
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
    writer.wait(READY_MINUTES);
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

/// One load from the gate to the sounding after it; where the last one brought too little, one more.
fn load(
    writer: &mut Writer,
    pour: &mut Pour<'_>,
    (sounding, ticket_m3): (&Sounding, f64),
) -> Result<(), Vec<Fault>> {
    let (needed_cy, brought_cy) = (ticket_m3 / YARD, pour.truck_cy());
    let level = |pour: &Pour<'_>| pour.readings.depth_when_in(pour.loads, brought_cy * YARD);
    if let Some(true_m) = level(pour).filter(|_| brought_cy < needed_cy) {
        let points_m = points(writer, pour, true_m);
        let read_m = points_m.iter().sum::<f64>() / points_m.len() as f64;
        let part = Sounding { points_m, read_m, true_m, ..sounding.clone() };
        taken(writer, pour, (&part, brought_cy, brought_cy))?;
        wait_for_the_rest(writer)?;
        let rest_cy = needed_cy - brought_cy;
        return taken(writer, pour, (sounding, rest_cy, f64::from(order_for(rest_cy)) / 10.0));
    }
    taken(writer, pour, (sounding, needed_cy, brought_cy))?;
    pour.loads += 1;
    Ok(())
}

/// What a tape shows at each point of a surface that the readings of the day do not have.
fn points(writer: &mut Writer, pour: &Pour<'_>, true_m: f64) -> Vec<f64> {
    let tape = pour.readings.crew.tape;
    let shared_m = pour.readings.shared_m;
    let one = |_| tape.marks.round_m(true_m + shared_m + tape.each_m * writer.chance.bounded());
    (0..tape.points.max(1)).map(one).collect()
}

/// The pour stands still until one more truck is there.
fn wait_for_the_rest(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let since = writer.minute;
    writer.wait(SHORT);
    let until = Writer::text(writer.minute + 6);
    let fields = [("until", until.as_str()), ("reason", "the last truck did not bring enough")];
    writer.say_at(since, "interruption", &fields)
}

/// A truck that is taken, after as many as were sent away: discharge, sounding, tremie.
fn taken(
    writer: &mut Writer,
    pour: &mut Pour<'_>,
    (sounding, needed_cy, brought_cy): (&Sounding, f64, f64),
) -> Result<(), Vec<Fault>> {
    let ticket = accepted(writer, pour, brought_cy)?;
    writer.say("discharge_started", &[("ticket", &ticket), ("line", "tremie")])?;
    writer.work([11.0, 16.0]);
    let mut ended = vec![("ticket".to_owned(), ticket.clone()), ("revolutions".to_owned(), "140".to_owned())];
    let left_cy = brought_cy - needed_cy;
    if left_cy > 0.05 {
        ended.push(("returned".to_owned(), format!("{left_cy:.1} cy")));
    }
    writer.say("discharge_ended", &borrowed(&ended))?;
    writer.stands_at(sounding.true_m);
    writer.wait(2);
    sound(writer, &ticket, sounding, pour.loads + 1)?;
    order(writer, pour)?;
    raise(writer, pour, sounding)?;
    writer.wait(4);
    Ok(())
}

/// Trucks come until one is taken; its ticket.
fn accepted(writer: &mut Writer, pour: &mut Pour<'_>, brought_cy: f64) -> Result<String, Vec<Fault>> {
    let number = pour.loads + 1;
    for sent_away in 0.. {
        let first = sent_away == 0;
        pour.trucks += 1;
        let ticket = (4100 + pour.trucks).to_string();
        let late = first && writer.scenario == Scenario::LateTruck && number == 4;
        let wrong = first && writer.scenario == Scenario::WrongTicket && number == 3;
        if late {
            stuck_on_the_road(writer)?;
        }
        let at = writer.minute;
        let age = pour.order().map_or(HAUL, |(_, minute)| HAUL.min(at - minute - 1).max(LEAST_HAUL));
        let age = age + if late { LATE } else { 0 };
        arrival(writer, &Truck { ticket: &ticket, volume_cy: brought_cy, age, wrong })?;
        writer.wait(3);
        let slump = slump(writer, late);
        writer.say("concrete_test", &[("ticket", &ticket), ("slump", &slump), ("temperature", "68 F")])?;
        if number == 1 && first {
            writer.say("cylinders_made", &[("set", "R1-A"), ("ticket", &ticket), ("count", "4")])?;
        }
        writer.wait(3);
        let wise = if late || wrong { Answer::Not } else { Answer::GoOn };
        let question = Question::Load { ticket: ticket.clone() };
        if writer.ask([at, writer.minute], question, wise) != Answer::Not {
            return Ok(ticket);
        }
        writer.say("load_refused", &[("ticket", &ticket), ("reason", "sent away by the inspector")])?;
        writer.wait(REPLACED);
    }
    Ok(String::new())
}

fn stuck_on_the_road(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let since = writer.minute;
    writer.wait(LATE);
    let until = Writer::text(writer.minute + 6);
    let fields = [("until", until.as_str()), ("reason", "the truck was stuck on the road")];
    writer.say_at(since, "interruption", &fields)
}

/// With two loads to go the plant asks how much the last truck is to bring.
fn order(writer: &mut Writer, pour: &mut Pour<'_>) -> Result<(), Vec<Fault>> {
    let asked = pour.last >= 3 && pour.loads + 3 == pour.last && pour.ordered.is_none();
    let last =
        pour.readings.soundings.get(pour.last.wrapping_sub(1)).and_then(|last| last.tickets_m3.first());
    let Some(needed_m3) = last.filter(|_| asked) else { return Ok(()) };
    let wise = Answer::Order(order_for(needed_m3 / YARD));
    let Answer::Order(tenths) = writer.ask([writer.minute, writer.minute + 2], Question::Order, wise) else {
        return Ok(());
    };
    let volume_cy = f64::from(tenths) / 10.0;
    let ordered_at = writer.minute + 2;
    pour.ordered = Some((volume_cy, ordered_at));
    writer.say_at(ordered_at, "concrete_ordered", &[("volume", &format!("{volume_cy:.1} cy"))])
}

/// A truck at the gate.
struct Truck<'a> {
    ticket: &'a str,
    volume_cy: f64,
    /// Minutes since it was batched.
    age: i64,
    /// It brings another mix.
    wrong: bool,
}

fn arrival(writer: &mut Writer, truck: &Truck<'_>) -> Result<(), Vec<Fault>> {
    // What a full truck carries, in pounds; a smaller load has less of all of it.
    let (mix, water_lb, cement_lb) =
        if truck.wrong { ("W-3000", 2050.0, 3600.0) } else { ("R-4000", 1690.0, 4390.0) };
    let pounds = |full_lb: f64| format!("{:.0} lb", libm::round(full_lb * truck.volume_cy / TRUCK_CY));
    let (water, moisture, cement) = (pounds(water_lb), pounds(140.0), pounds(cement_lb));
    let batched = Writer::text(writer.minute - truck.age);
    let revolutions = writer.chance.whole([70, 95]).to_string();
    writer.say(
        "load_arrived",
        &[
            ("ticket", truck.ticket),
            ("mix", mix),
            ("volume", &format!("{:.1} cy", truck.volume_cy)),
            ("batched", &batched),
            ("revolutions", &revolutions),
            ("water", &water),
            ("moisture", &moisture),
            ("cementitious", &cement),
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
fn raise(writer: &mut Writer, pour: &mut Pour<'_>, sounding: &Sounding) -> Result<(), Vec<Fault>> {
    let level_ft = sounding.read_m / FOOT;
    let spare = ((pour.tip_ft - level_ft - EMBEDMENT_FT) / PIECE_FT).max(0.0) as usize;
    let too_far = writer.scenario == Scenario::TremiePulledTooFar && pour.loads + 1 == 3;
    let pieces = spare + usize::from(too_far);
    if pieces == 0 {
        return Ok(());
    }
    let tip_ft = pour.tip_ft - PIECE_FT * pieces as f64;
    let wise = if too_far { Answer::Not } else { Answer::GoOn };
    let stopped = writer.ask([writer.minute, writer.minute + 2], Question::Lift { pieces, tip_ft }, wise);
    writer.wait(2);
    if stopped == Answer::Not {
        return Ok(());
    }
    pour.tip_ft = tip_ft;
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
    writer.stands_at(after.true_m);
    writer.wait(6);
    Ok(())
}

fn afterwards(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say("curing", &[("method", "wet burlap")])?;
    writer.wait(60 * 24 * 4);
    let top = feet(REFERENCE_FT - 1.0);
    writer.say("as_built", &[("east", "1/2 in"), ("north", "0 in"), ("top", &top), ("diameter", "50 in")])
}
