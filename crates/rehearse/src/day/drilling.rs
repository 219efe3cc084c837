//! The hole of the made-up day: casing, runs of the tool, fluid, bottom, cage.

use record::Fault;

use super::writer::Writer;
use crate::decision::{Answer, Question};
use crate::scenario::Scenario;
use crate::site::{BOTTOM_FT, FOOT, GROUND, SHOE_FT};

/// Depth of the sample near the bottom and of the one above it, in feet.
const SAMPLES_FT: [f64; 2] = [60.0, 51.0];
/// The fluid is tested while drilling when the hole passes these depths, in feet.
const TESTED_BELOW_FT: [f64; 2] = [20.0, 50.0];
/// How long the concrete comes late in the scenario of the wait: so many times so many minutes, with a
/// test of the fluid before each.
const WAITS: usize = 5;
const WAIT_MINUTES: i64 = 60;
/// From the last look until the line goes in.
pub(super) const READY_MINUTES: i64 = 8;

/// A length in feet and tenths, as it is written.
pub(super) fn feet(feet: f64) -> String {
    format!("{feet:.1} ft")
}

/// Writes everything from the casing to the last look at the bottom.
pub(super) fn write(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    casing(writer)?;
    runs(writer)?;
    strata(writer)?;
    bottom(writer)?;
    cage(writer)?;
    before_concrete(writer)
}

fn casing(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say("drilling_started", &[("rig", "rig 1")])?;
    let begun = writer.minute;
    writer.work([18.0, 25.0]);
    let out = Writer::text(writer.minute);
    writer.say_at(
        begun,
        "tool_run",
        &[
            ("out", &out),
            ("from", "1.0 ft"),
            ("to", &feet(SHOE_FT)),
            ("ground", "clay"),
            ("material", GROUND[0].says),
        ],
    )?;
    writer.wait(10);
    writer.say(
        "casing_set",
        &[
            ("name", "surface"),
            ("stay", "temporary"),
            ("outside", "50 in"),
            ("wall", "1/2 in"),
            ("length", "8 ft"),
            ("top", "101.0 ft"),
            ("shoe", &feet(SHOE_FT)),
            ("plumb", "0.3 %"),
        ],
    )?;
    writer.wait(5);
    fluid_test(writer, &Sample { place: "tank", depth_ft: None, stage: "introduction", sand: 0.0 })?;
    let fluid = [("product", "Stillwater R"), ("fluid", "polymer"), ("recirculated", "no")];
    writer.say("fluid_introduced", &fluid)?;
    writer.say("fluid_level", &[("depth", "2.0 ft"), ("groundwater", "16.0 ft")])
}

/// Runs of ten feet or less, and a test of the fluid halfway.
fn runs(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let mut from_ft = SHOE_FT;
    while from_ft < BOTTOM_FT {
        let to_ft = (from_ft + 9.0).min(BOTTOM_FT);
        let ground = ground_at((from_ft + to_ft) / 2.0);
        let begun = writer.minute;
        writer.work([16.0, 26.0]);
        let (out, from, to) = (Writer::text(writer.minute), feet(from_ft), feet(to_ft));
        let fields = [
            ("out", out.as_str()),
            ("from", &from),
            ("to", &to),
            ("ground", ground.word),
            ("material", ground.says),
        ];
        writer.say_at(begun, "tool_run", &fields)?;
        if TESTED_BELOW_FT.iter().any(|below_ft| (from_ft..to_ft).contains(below_ft)) {
            let depth_ft = Some(from_ft);
            fluid_test(writer, &Sample { place: "hole", depth_ft, stage: "drilling", sand: 0.5 })?;
        }
        writer.wait(3);
        from_ft = to_ft;
    }
    Ok(())
}

fn ground_at(depth_ft: f64) -> &'static crate::site::Ground {
    GROUND.iter().find(|ground| depth_ft <= ground.bottom_ft).unwrap_or(&GROUND[GROUND.len() - 1])
}

fn strata(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let mut from_ft = 1.0;
    for ground in &GROUND {
        let (from, to) = (feet(from_ft), feet(ground.bottom_ft));
        let fields =
            [("from", from.as_str()), ("to", &to), ("ground", ground.word), ("description", ground.says)];
        writer.say("stratum_met", &fields)?;
        from_ft = ground.bottom_ft;
    }
    Ok(())
}

fn bottom(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say("bottom_reached", &[("depth", &feet(BOTTOM_FT)), ("ground", "clay")])?;
    let begun = writer.minute;
    writer.work([20.0, 30.0]);
    let until = Writer::text(writer.minute);
    writer.say_at(begun, "cleaning", &[("method", "clean-out bucket"), ("until", &until)])?;
    writer.wait(3);
    sound_bottom(writer, "after_cleaning", 0.0)?;
    sediment(writer, ["1/4 in", "1/4 in", "3/8 in", "1/4 in", "1/4 in"])?;
    writer.say("bottom_accepted", &[("by", "B. Engineer")])
}

/// Soundings of the bottom at five points; `up_ft` of sediment lies on it.
fn sound_bottom(writer: &mut Writer, purpose: &str, up_ft: f64) -> Result<(), Vec<Fault>> {
    let mut fields = vec![("purpose".to_owned(), purpose.to_owned())];
    for (index, place) in ["center", "north", "east", "south", "west"].into_iter().enumerate() {
        let read_m = (BOTTOM_FT - up_ft) * FOOT + 0.012 * writer.chance.bounded();
        fields.push((format!("points.{index}.place"), place.to_owned()));
        fields.push((format!("points.{index}.depth"), feet(read_m / FOOT)));
    }
    writer.say("bottom_sounded", &borrowed(&fields))
}

fn sediment(writer: &mut Writer, thicknesses: [&str; 5]) -> Result<(), Vec<Fault>> {
    let mut fields = vec![("method".to_owned(), "plate and point".to_owned())];
    for (index, (place, thickness)) in
        ["center", "north", "east", "south", "west"].into_iter().zip(thicknesses).enumerate()
    {
        fields.push((format!("points.{index}.place"), place.to_owned()));
        fields.push((format!("points.{index}.thickness"), thickness.to_owned()));
    }
    writer.say("sediment_measured", &borrowed(&fields))
}

/// Fields as a body takes them.
pub(super) fn borrowed(fields: &[(String, String)]) -> Vec<(&str, &str)> {
    fields.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect()
}

fn cage(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say(
        "cage_checked",
        &[
            ("bars.0.count", "12"),
            ("bars.0.size", "#9"),
            ("hoops.0.sort", "hoops"),
            ("hoops.0.size", "#4"),
            ("hoops.0.spacing", "12 in"),
            ("diameter", "40 in"),
            ("length", "59.5 ft"),
            ("tied", "100 %"),
            ("spacers_per_level", "6"),
            ("spacer_levels_every", "5 ft"),
            ("spacer_end", "24 in"),
            ("spacer_cover", "4 in"),
            ("clean", "yes"),
            ("braced", "yes"),
        ],
    )?;
    writer.work([20.0, 30.0]);
    writer.say(
        "cage_set",
        &[
            ("top", "99.8 ft"),
            ("stand_off", "4 in"),
            ("held", "hung from the casing"),
            ("lifted_well", "yes"),
        ],
    )
}

/// One sample of the fluid.
struct Sample<'a> {
    place: &'a str,
    depth_ft: Option<f64>,
    stage: &'a str,
    /// Percent.
    sand: f64,
}

fn fluid_test(writer: &mut Writer, sample: &Sample<'_>) -> Result<(), Vec<Fault>> {
    let viscosity = libm::round(writer.chance.between([50.0, 60.0]));
    // Sand of 165 pcf takes the place of fluid: about one pound more for each percent.
    let density = 62.7 + 1.02 * sample.sand + 0.1 * writer.chance.even();
    let mut fields = vec![
        ("place".to_owned(), sample.place.to_owned()),
        ("stage".to_owned(), sample.stage.to_owned()),
        ("temperature".to_owned(), "60 F".to_owned()),
        ("density".to_owned(), format!("{density:.1} pcf")),
        ("viscosity".to_owned(), format!("{viscosity:.0} s/qt")),
        ("ph".to_owned(), "9.5".to_owned()),
        ("sand".to_owned(), format!("{:.1} %", sample.sand)),
    ];
    fields.extend(sample.depth_ft.map(|depth_ft| ("depth".to_owned(), feet(depth_ft))));
    writer.say("fluid_test", &borrowed(&fields))
}

fn before_concrete(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    if writer.scenario == Scenario::SedimentAfterWaiting {
        wait_for_concrete(writer)?;
    }
    writer.wait(5);
    let mut cleaned = false;
    loop {
        let bad = [Scenario::SedimentAfterWaiting, Scenario::FluidOutOfLimits].contains(&writer.scenario);
        last_look(writer, cleaned)?;
        let wise = if bad && !cleaned { Answer::Not } else { Answer::GoOn };
        let [at, until] = [writer.minute, writer.minute + READY_MINUTES];
        if writer.ask([at, until], Question::Concrete, wise) != Answer::Not {
            return Ok(());
        }
        clean_again(writer)?;
        cleaned = true;
    }
}

/// The concrete is hours late; the fluid is tested while everybody waits.
fn wait_for_concrete(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.say("work_stopped", &[("reason", "no concrete from the plant"), ("covered", "yes")])?;
    for _ in 0..WAITS {
        let depth_ft = Some(SAMPLES_FT[1]);
        fluid_test(writer, &Sample { place: "hole", depth_ft, stage: "cleaning", sand: 0.3 })?;
        writer.wait(WAIT_MINUTES);
    }
    writer.say("work_resumed", &[])
}

/// Fluid, bottom and sediment, right before concrete.
fn last_look(writer: &mut Writer, cleaned: bool) -> Result<(), Vec<Fault>> {
    let is = |scenario| writer.scenario == scenario && !cleaned;
    let sand = if is(Scenario::FluidOutOfLimits) { [3.0, 1.8] } else { [0.4, 0.3] };
    let settled = is(Scenario::SedimentAfterWaiting);
    for (depth_ft, sand) in SAMPLES_FT.into_iter().zip(sand) {
        let sample = Sample { place: "hole", depth_ft: Some(depth_ft), stage: "before_concrete", sand };
        fluid_test(writer, &sample)?;
    }
    writer.say("fluid_level", &[("depth", "2.0 ft"), ("groundwater", "16.0 ft")])?;
    writer.wait(3);
    match settled {
        true => {
            sound_bottom(writer, "before_concrete", 0.25)?;
            sediment(writer, ["3 in", "2 1/2 in", "3 in", "2 1/2 in", "3 in"])
        }
        false => {
            sound_bottom(writer, "before_concrete", 0.0)?;
            sediment(writer, ["1/4 in", "1/4 in", "3/8 in", "3/8 in", "1/4 in"])
        }
    }
}

/// The bottom is cleaned once more, and the fluid changed for clean fluid.
fn clean_again(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.wait(READY_MINUTES);
    let begun = writer.minute;
    writer.work([30.0, 40.0]);
    let until = Writer::text(writer.minute);
    let fields = [("method", "clean-out bucket, fluid changed"), ("until", until.as_str())];
    writer.say_at(begun, "cleaning", &fields)?;
    writer.wait(5);
    Ok(())
}
