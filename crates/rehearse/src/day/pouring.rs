//! The pour of the made-up day: line, loads, soundings, casing, top, and the days after.

use record::Fault;
use record::field::UnitSystem;

use super::drilling::{READY_MINUTES, borrowed};
use super::papers::{AS_BUILT, TREMIE};
use super::writer::Writer;
use crate::decision::{Answer, Question};
use crate::readings::{Readings, Sounding};
use crate::scenario::Scenario;
use crate::site::FOOT;

/// What a piece of the tremie may lack in the concrete and is taken off.
const NEARLY: f64 = 1e-6;
/// Minutes from plant to site.
const HAUL: i64 = 30;
/// No truck is here sooner after it was batched.
const LEAST_HAUL: i64 = 15;
/// Minutes the late truck stands on the road.
const LATE: i64 = 75;
/// Minutes until the stuck casing comes.
const STUCK: i64 = 190;
/// Minutes until a truck comes in the place of one that was sent away.
const REPLACED: i64 = 25;
/// Minutes until one more truck comes, when the last one brought too little.
const SHORT: i64 = 50;

/// Where the pour stands.
struct Pour<'r> {
    readings: &'r Readings,
    tip_m: f64,
    /// Loads discharged so far.
    loads: usize,
    /// Trucks that came so far.
    trucks: usize,
    /// The load whose truck brings the rest, by its number; 0: there is none.
    last: usize,
    /// What the last truck was ordered with, in cubic metres, and at which minute.
    ordered: Option<(f64, i64)>,
}

impl Pour<'_> {
    /// What the truck of the load that comes brings.
    fn truck_m3(&self, full_m3: f64) -> f64 {
        self.order().map_or(full_m3, |(volume_m3, _)| volume_m3)
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
    let mut pour =
        Pour { readings, tip_m: writer.site.tremie.tip_m, loads: 0, trucks: 0, last: loads, ordered: None };
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
    let tip = writer.site.length(writer.site.tremie.tip_m);
    let made_up = [
        ("name", "tremie"),
        ("line", "tremie"),
        ("tip", tip.as_str()),
        ("material", "steel"),
        ("watertight", "yes"),
        ("clean", "yes"),
        ("plug", "foam ball"),
    ];
    writer.say("line_made_up", &[made_up.as_slice(), writer.of(TREMIE)].concat())?;
    writer.wait(6);
    Ok(())
}

/// One load from the gate to the sounding after it; where the last one brought too little, one more.
fn load(
    writer: &mut Writer,
    pour: &mut Pour<'_>,
    (sounding, needed_m3): (&Sounding, f64),
) -> Result<(), Vec<Fault>> {
    let brought_m3 = pour.truck_m3(writer.site.truck_m3);
    let level = |pour: &Pour<'_>| pour.readings.depth_when_in(pour.loads, brought_m3);
    if let Some(true_m) = level(pour).filter(|_| brought_m3 < needed_m3) {
        let points_m = points(writer, pour, true_m);
        let read_m = points_m.iter().sum::<f64>() / points_m.len() as f64;
        let part = Sounding { points_m, read_m, true_m, ..sounding.clone() };
        taken(writer, pour, (&part, brought_m3, brought_m3))?;
        wait_for_the_rest(writer)?;
        let rest_m3 = needed_m3 - brought_m3;
        let last_m3 = ordered_m3(writer, writer.site.order_for(rest_m3));
        return taken(writer, pour, (sounding, rest_m3, last_m3));
    }
    taken(writer, pour, (sounding, needed_m3, brought_m3))?;
    pour.loads += 1;
    Ok(())
}

/// Cubic metres of an order.
fn ordered_m3(writer: &Writer, tenths: u32) -> f64 {
    writer.site.cubic_meters(f64::from(tenths) / 10.0)
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
    let until = writer.text(writer.minute + 6);
    let fields = [("until", until.as_str()), ("reason", "the last truck did not bring enough")];
    writer.say_at(since, "interruption", &fields)
}

/// A truck that is taken, after as many as were sent away: discharge, sounding, tremie.
fn taken(
    writer: &mut Writer,
    pour: &mut Pour<'_>,
    (sounding, needed_m3, brought_m3): (&Sounding, f64, f64),
) -> Result<(), Vec<Fault>> {
    let ticket = accepted(writer, pour, brought_m3)?;
    writer.say("discharge_started", &[("ticket", &ticket), ("line", "tremie")])?;
    writer.work([11.0, 16.0]);
    let mut ended = vec![("ticket".to_owned(), ticket.clone()), ("revolutions".to_owned(), "140".to_owned())];
    let left_m3 = brought_m3 - needed_m3;
    if writer.site.in_units(left_m3) > 0.05 {
        ended.push(("returned".to_owned(), writer.site.volume(left_m3)));
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
fn accepted(writer: &mut Writer, pour: &mut Pour<'_>, brought_m3: f64) -> Result<String, Vec<Fault>> {
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
        arrival(writer, &Truck { ticket: &ticket, volume_m3: brought_m3, age, wrong })?;
        writer.wait(3);
        let slump = slump(writer, late);
        let warm = writer.of(["68 F", "20 C"]);
        writer.say("concrete_test", &[("ticket", &ticket), ("slump", &slump), ("temperature", warm)])?;
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
    let until = writer.text(writer.minute + 6);
    let fields = [("until", until.as_str()), ("reason", "the truck was stuck on the road")];
    writer.say_at(since, "interruption", &fields)
}

/// With two loads to go the plant asks how much the last truck is to bring.
fn order(writer: &mut Writer, pour: &mut Pour<'_>) -> Result<(), Vec<Fault>> {
    let asked = pour.last >= 3 && pour.loads + 3 == pour.last && pour.ordered.is_none();
    let last =
        pour.readings.soundings.get(pour.last.wrapping_sub(1)).and_then(|last| last.tickets_m3.first());
    let Some(needed_m3) = last.filter(|_| asked) else { return Ok(()) };
    let site = writer.site;
    let (wise, question) =
        (Answer::Order(site.order_for(*needed_m3)), Question::Order { system: site.system });
    let Answer::Order(tenths) = writer.ask([writer.minute, writer.minute + 2], question, wise) else {
        return Ok(());
    };
    let volume_m3 = ordered_m3(writer, tenths);
    let ordered_at = writer.minute + 2;
    pour.ordered = Some((volume_m3, ordered_at));
    writer.say_at(ordered_at, "concrete_ordered", &[("volume", &site.volume(volume_m3))])
}

/// A truck at the gate.
struct Truck<'a> {
    ticket: &'a str,
    volume_m3: f64,
    /// Minutes since it was batched.
    age: i64,
    /// It brings another mix.
    wrong: bool,
}

/// A mix and what a full truck carries of it: water, moisture of the aggregate, cement. A smaller load has less
/// of all of it.
type Load = (&'static str, [f64; 3]);
/// As ordered, and the leaner mix; in pounds, and in kilograms.
const OF_US: [Load; 2] = [("R-4000", [1690.0, 140.0, 4390.0]), ("W-3000", [2050.0, 140.0, 3600.0])];
const OF_METRIC: [Load; 2] = [("BP-30", [660.0, 60.0, 1560.0]), ("M-20", [770.0, 60.0, 1280.0])];

fn arrival(writer: &mut Writer, truck: &Truck<'_>) -> Result<(), Vec<Fault>> {
    let site = writer.site;
    let (mix, [water, moisture, cement]) = site.pick(OF_US, OF_METRIC)[usize::from(truck.wrong)];
    let share = truck.volume_m3 / site.truck_m3;
    let mass = |full: f64| format!("{:.0} {}", libm::round(full * share), site.pick("lb", "kg"));
    let (water, moisture, cement) = (mass(water), mass(moisture), mass(cement));
    let batched = writer.text(writer.minute - truck.age);
    let revolutions = writer.chance.whole([70, 95]).to_string();
    writer.say(
        "load_arrived",
        &[
            ("ticket", truck.ticket),
            ("mix", mix),
            ("volume", &site.volume(truck.volume_m3)),
            ("batched", &batched),
            ("revolutions", &revolutions),
            ("water", &water),
            ("moisture", &moisture),
            ("cementitious", &cement),
            ("ticket_checked", "yes"),
        ],
    )
}

/// Slump to the quarter inch, or to ten millimetres. What stood on the road has lost most of its own.
fn slump(writer: &mut Writer, late: bool) -> String {
    if writer.site.system == UnitSystem::Metric {
        let tens = if late { 14.0 } else { 20.5 + 0.9 * writer.chance.even() };
        return format!("{:.0} mm", 10.0 * libm::round(tens));
    }
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
    let site = writer.site;
    let off_m = if misread { site.misread_m } else { 0.0 };
    let mut fields = vec![("after".to_owned(), ticket.to_owned())];
    for (index, (place, read_m)) in ["center", "outside"].into_iter().zip(&sounding.points_m).enumerate() {
        fields.push((format!("points.{index}.place"), place.to_owned()));
        fields.push((format!("points.{index}.depth"), site.length(read_m.max(0.0) + off_m)));
    }
    writer.say("concrete_sounded", &borrowed(&fields))
}

/// Pieces come off as long as enough of the tremie stays in the concrete.
fn raise(writer: &mut Writer, pour: &mut Pour<'_>, sounding: &Sounding) -> Result<(), Vec<Fault>> {
    let (site, tremie) = (writer.site, &writer.site.tremie);
    let buried_m = pour.tip_m - sounding.read_m - tremie.embedment_m;
    let spare = (buried_m / tremie.piece_m + NEARLY).max(0.0) as usize;
    let too_far = writer.scenario == Scenario::TremiePulledTooFar && pour.loads + 1 == 3;
    let pieces = spare + if too_far { tremie.too_far } else { 0 };
    if pieces == 0 {
        return Ok(());
    }
    let tip_m = pour.tip_m - tremie.piece_m * pieces as f64;
    let wise = if too_far { Answer::Not } else { Answer::GoOn };
    let stopped = writer.ask([writer.minute, writer.minute + 2], Question::Lift { pieces, tip_m }, wise);
    writer.wait(2);
    if stopped == Answer::Not {
        return Ok(());
    }
    pour.tip_m = tip_m;
    let (tip, count) = (site.length(tip_m), pieces.to_string());
    writer.say("tip_moved", &[("name", "tremie"), ("tip", &tip), ("slowly", "yes")])?;
    writer.wait(1);
    writer.say("pieces_removed", &[("name", "tremie"), ("count", &count), ("tip", &tip)])
}

fn top_of_the_pour(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say("over_poured", &[("good", "yes"), ("note", "clean concrete at the top of the casing")])?;
    writer.wait(5);
    writer.say("line_out", &[("name", "tremie")])?;
    writer.wait(4);
    let [set_m, rise_m] = writer.site.cage_m;
    let top_m = set_m + if writer.scenario == Scenario::CageLifting { rise_m } else { 0.0 };
    let top = writer.of([format!("{:.2} ft", top_m / FOOT), format!("{top_m:.2} m")]);
    writer.say("cage_elevation", &[("moment", "after_pour"), ("top", &top)])?;
    let wait = if writer.scenario == Scenario::CasingStuck { STUCK } else { 8 };
    writer.wait(wait);
    Ok(())
}

fn casing_out(writer: &mut Writer, before: &Sounding, after: &Sounding) -> Result<(), Vec<Fault>> {
    let [level_before, level_after] = [before, after].map(|level| writer.site.length(level.read_m.max(0.0)));
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
    let top = writer.site.pick(writer.site.elevation(writer.site.ground_m), "50.00 m".to_owned());
    writer.say("as_built", &[[("top", top.as_str())].as_slice(), writer.of(AS_BUILT)].concat())
}
