//! The hole of the made-up day: casing, runs of the tool, fluid, bottom, cage.

use record::Fault;

use super::papers::{CAGE_CAME, CASING, SEDIMENT};
use super::writer::Writer;
use crate::decision::{Answer, Question};
use crate::scenario::Scenario;
use crate::site::{Ground, Site};

/// How long the concrete comes late in the scenario of the wait: so many times so many minutes, with a
/// test of the fluid before each.
const WAITS: usize = 5;
const WAIT_MINUTES: i64 = 60;
/// A depth less than this is none.
const NOTHING_M: f64 = 1e-6;
/// From the last look until the line goes in.
pub(super) const READY_MINUTES: i64 = 8;

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
    let site = writer.site;
    let begun = writer.minute;
    writer.work([18.0, 25.0]);
    let (from, shoe) = (site.length(site.ground_m), site.length(site.shoe_m));
    let out = writer.text(writer.minute);
    let run = [
        ("out", out.as_str()),
        ("from", &from),
        ("to", &shoe),
        ("ground", "clay"),
        ("material", site.strata[0].says),
    ];
    writer.say_at(begun, "tool_run", &run)?;
    writer.wait(10);
    let set = [("name", "surface"), ("stay", "temporary"), ("shoe", shoe.as_str()), ("plumb", "0.3 %")];
    writer.say("casing_set", &[set.as_slice(), writer.of(CASING)].concat())?;
    writer.wait(5);
    fluid_test(writer, &Sample { place: "tank", depth_m: None, stage: "introduction", sand: 0.0 })?;
    introduced(writer)?;
    fluid_level(writer)
}

fn introduced(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let site = writer.site;
    let mut fluid = vec![
        ("product", site.pick("Stillwater R", "Stillwater B")),
        ("fluid", site.pick("polymer", "mineral")),
        ("recirculated", "no"),
    ];
    // Bentonite swells before it is used.
    let mixed = writer.text(writer.minute - 16 * 60);
    fluid.extend(site.pick(None, Some(("mixed", mixed.as_str()))));
    writer.say("fluid_introduced", &fluid)
}

fn fluid_level(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let [fluid, groundwater] = writer.site.water_m.map(|depth_m| writer.site.length(depth_m));
    writer.say("fluid_level", &[("depth", &fluid), ("groundwater", &groundwater)])
}

/// Runs of nine feet or less, and a test of the fluid halfway.
fn runs(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let site = writer.site;
    let mut from_m = site.shoe_m;
    while from_m < site.bottom_m - NOTHING_M {
        let to_m = (from_m + site.run_m).min(site.bottom_m);
        let ground = ground_at(site, (from_m + to_m) / 2.0);
        let begun = writer.minute;
        writer.work([16.0, 26.0]);
        let (out, from, to) = (writer.text(writer.minute), site.length(from_m), site.length(to_m));
        let fields = [
            ("out", out.as_str()),
            ("from", &from),
            ("to", &to),
            ("ground", ground.word),
            ("material", ground.says),
        ];
        writer.say_at(begun, "tool_run", &fields)?;
        if site.tested_below_m.iter().any(|below_m| (from_m..to_m).contains(below_m)) {
            let depth_m = Some(from_m);
            fluid_test(writer, &Sample { place: "hole", depth_m, stage: "drilling", sand: 0.5 })?;
        }
        writer.wait(3);
        from_m = to_m;
    }
    Ok(())
}

fn ground_at(site: &'static Site, depth_m: f64) -> &'static Ground {
    let strata = &site.strata;
    strata.iter().find(|ground| depth_m <= ground.bottom_m).unwrap_or(&strata[strata.len() - 1])
}

fn strata(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let site = writer.site;
    let mut from_m = site.ground_m;
    for ground in &site.strata {
        let (from, to) = (site.length(from_m), site.length(ground.bottom_m));
        let fields =
            [("from", from.as_str()), ("to", &to), ("ground", ground.word), ("description", ground.says)];
        writer.say("stratum_met", &fields)?;
        from_m = ground.bottom_m;
    }
    Ok(())
}

fn bottom(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    let depth = writer.site.length(writer.site.bottom_m);
    writer.say("bottom_reached", &[("depth", &depth), ("ground", "clay")])?;
    let begun = writer.minute;
    writer.work([20.0, 30.0]);
    let until = writer.text(writer.minute);
    writer.say_at(begun, "cleaning", &[("method", "clean-out bucket"), ("until", &until)])?;
    writer.wait(3);
    sound_bottom(writer, "after_cleaning", 0.0)?;
    sediment(writer, writer.of(SEDIMENT)[0])?;
    writer.say("bottom_accepted", &[("by", "B. Engineer")])
}

/// Soundings of the bottom at five points; `up_m` of sediment lies on it.
fn sound_bottom(writer: &mut Writer, purpose: &str, up_m: f64) -> Result<(), Vec<Fault>> {
    let site = writer.site;
    let mut fields = vec![("purpose".to_owned(), purpose.to_owned())];
    for (index, place) in ["center", "north", "east", "south", "west"].into_iter().enumerate() {
        let read_m = site.bottom_m - up_m + 0.012 * writer.chance.bounded();
        fields.push((format!("points.{index}.place"), place.to_owned()));
        fields.push((format!("points.{index}.depth"), site.taped(read_m)));
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
    let came = [("tied", "100 %"), ("spacers_per_level", "6"), ("clean", "yes"), ("braced", "yes")];
    writer.say("cage_checked", &[came.as_slice(), writer.of(CAGE_CAME)].concat())?;
    writer.work([20.0, 30.0]);
    let top = writer.site.length(writer.site.cage_m[0]);
    let set = [
        ("top", top.as_str()),
        ("stand_off", writer.of(["4 in", "100 mm"])),
        ("held", "hung from the casing"),
        ("lifted_well", "yes"),
    ];
    writer.say("cage_set", &set)
}

/// One sample of the fluid.
struct Sample<'a> {
    place: &'a str,
    depth_m: Option<f64>,
    stage: &'a str,
    /// Percent.
    sand: f64,
}

fn fluid_test(writer: &mut Writer, sample: &Sample<'_>) -> Result<(), Vec<Fault>> {
    let site = writer.site;
    let mut fields = vec![
        ("place".to_owned(), sample.place.to_owned()),
        ("stage".to_owned(), sample.stage.to_owned()),
        ("sand".to_owned(), format!("{:.1} %", sample.sand)),
    ];
    let readings = site.pick(polymer as fn(&mut Writer, f64) -> Vec<(&'static str, String)>, bentonite);
    let readings = readings(writer, sample.sand);
    fields.extend(readings.into_iter().map(|(name, text)| (name.to_owned(), text)));
    fields.extend(sample.depth_m.map(|depth_m| ("depth".to_owned(), site.length(depth_m))));
    writer.say("fluid_test", &borrowed(&fields))
}

/// Sand of 165 pcf takes the place of fluid: about one pound more for each percent.
fn polymer(writer: &mut Writer, sand: f64) -> Vec<(&'static str, String)> {
    let viscosity = libm::round(writer.chance.between([50.0, 60.0]));
    let density = 62.7 + 1.02 * sand + 0.1 * writer.chance.even();
    vec![
        ("temperature", "60 F".to_owned()),
        ("density", format!("{density:.1} pcf")),
        ("viscosity", format!("{viscosity:.0} s/qt")),
        ("ph", "9.5".to_owned()),
    ]
}

/// Sand of 2.65 g/cm³ takes the place of fluid.
fn bentonite(writer: &mut Writer, sand: f64) -> Vec<(&'static str, String)> {
    let viscosity = libm::round(writer.chance.between([36.0, 41.0]));
    let density = 1.03 + 0.016 * sand + 0.003 * writer.chance.even();
    vec![
        ("temperature", "16 C".to_owned()),
        ("density", format!("{density:.2} g/cm3")),
        ("viscosity", format!("{viscosity:.0} s/946 ml")),
        ("ph", "9.2".to_owned()),
        ("fluid_loss", "18 ml".to_owned()),
        ("cake", "1.5 mm".to_owned()),
    ]
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
        let depth_m = Some(writer.site.samples_m[1]);
        fluid_test(writer, &Sample { place: "hole", depth_m, stage: "cleaning", sand: 0.3 })?;
        writer.wait(WAIT_MINUTES);
    }
    writer.say("work_resumed", &[])
}

/// Fluid, bottom and sediment, right before concrete.
fn last_look(writer: &mut Writer, cleaned: bool) -> Result<(), Vec<Fault>> {
    let is = |scenario| writer.scenario == scenario && !cleaned;
    let site = writer.site;
    let sand = if is(Scenario::FluidOutOfLimits) { site.pick([3.0, 1.8], [5.0, 3.2]) } else { [0.4, 0.3] };
    let settled = is(Scenario::SedimentAfterWaiting);
    for (depth_m, sand) in site.samples_m.into_iter().zip(sand) {
        let sample = Sample { place: "hole", depth_m: Some(depth_m), stage: "before_concrete", sand };
        fluid_test(writer, &sample)?;
    }
    fluid_level(writer)?;
    writer.wait(3);
    sound_bottom(writer, "before_concrete", if settled { site.settled_m } else { 0.0 })?;
    let [_, clean, dirty] = writer.of(SEDIMENT);
    sediment(writer, if settled { dirty } else { clean })
}

/// The bottom is cleaned once more, and the fluid changed for clean fluid.
fn clean_again(writer: &mut Writer) -> Result<(), Vec<Fault>> {
    writer.wait(READY_MINUTES);
    let begun = writer.minute;
    writer.work([30.0, 40.0]);
    let until = writer.text(writer.minute);
    let fields = [("method", "clean-out bucket, fluid changed"), ("until", until.as_str())];
    writer.say_at(begun, "cleaning", &fields)?;
    writer.wait(5);
    Ok(())
}
