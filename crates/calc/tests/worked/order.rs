//! `needed`, `trucks`, `earlier shaft`; `order`, `takes`, `stratum`; `round`, `day`.

use calc::estimate::Estimate;
use calc::mixture::Mixture;
use calc::order::{Ahead, EarlierRatio, Need, Trucks, USUAL_BELIEFS, from_earlier, ratio_within};
use calc::pour_day::{Durations, HowLong, PourDay, Sample, SoFar};
use quantity::{Fraction, Moment, Span, Volume};

use super::site::level;
use super::{Answer, Figure, Outcome, Site, pour, quantity};

/// What a block has said of an order and of the day.
#[derive(Default)]
pub(crate) struct Asked {
    needed: Option<Estimate<Volume>>,
    on_the_way: f64,
    trucks: Option<Trucks>,
    earlier: Vec<EarlierRatio>,
    ahead: Vec<Ahead>,
    /// Minutes of bay, road, place, discharge, back, finish.
    round: Option<[f64; 6]>,
}

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["needed", v, vu, "±", e, eu] => estimate([v, vu, e, eu]).map(|needed| {
            site.asked.needed = Some(needed);
            Answer::nothing()
        }),
        ["on", "the", "way", v, vu] => quantity::<Volume>(v, vu).map(|volume| {
            site.asked.on_the_way = volume.to_cubic_meters();
            Answer::nothing()
        }),
        ["trucks", "of", f, fu, "in", "steps", "of", s, su] => trucks(site, [f, fu, s, su]),
        ["order", "for", level, "%"] => order(site, level),
        ["earlier", "shaft", shaft, "took", r, "±", e, "in", "stratum", stratum] => {
            earlier(site, [shaft, r, e, stratum])
        }
        ["stratum", stratum, "ahead", v, vu] => ahead(site, [stratum, v, vu]),
        ["takes"] => takes(site),
        ["stratum", "from", t, tu, "to", b, bu] => stratum(site, [t, tu, b, bu]),
        ["round", minutes @ .., "min"] => round(site, minutes),
        ["day", "of", loads, "loads", "with", trucks, "trucks"] => day(site, loads, trucks),
        _ => return None,
    })
}

fn told(error: impl std::fmt::Display) -> String {
    error.to_string()
}

fn number<T: std::str::FromStr>(text: &str) -> Result<T, String> {
    text.parse().map_err(|_| format!("no number: {text}"))
}

fn estimate([v, vu, e, eu]: [&str; 4]) -> Result<Estimate<Volume>, String> {
    Ok(Estimate::new(quantity(v, vu)?, quantity(e, eu)?))
}

fn trucks(site: &mut Site, [f, fu, s, su]: [&str; 4]) -> Result<Answer, String> {
    site.asked.trucks = Some(Trucks { full: quantity(f, fu)?, step: quantity(s, su)? });
    Ok(Answer::nothing())
}

fn order(site: &Site, level: &str) -> Result<Answer, String> {
    let asked = &site.asked;
    let (needed, trucks) = (asked.needed.ok_or("nothing is needed")?, asked.trucks.ok_or("no trucks")?);
    let [mean, sd] = [needed.value, needed.standard_error].map(Volume::to_cubic_meters);
    let hole = Mixture::normal(mean, sd).map_err(told)?;
    let nothing = Estimate::new(Volume::cubic_meters(0.0), Volume::cubic_meters(0.0));
    let on_the_way = Volume::cubic_meters(asked.on_the_way);
    let need = Need {
        hole: &hole,
        over_pour: nothing,
        lines: nothing,
        on_the_way,
        yield_error: Fraction::part(0.0),
    };
    let order = need.order(&trucks, number::<f64>(level)? / 100.0).map_err(told)?;
    Ok(Answer::of([
        ("volume", Figure::of(order.volume)),
        ("short", Figure::plain(order.outcome.short)),
        ("left over", Figure::of(order.outcome.left_over)),
        ("full loads", Figure::plain(f64::from(order.full_loads))),
        ("part load", Figure::of(order.part_load)),
    ]))
}

fn earlier(site: &mut Site, [shaft, r, e, stratum]: [&str; 4]) -> Result<Answer, String> {
    let ratio = Estimate::new(number(r)?, number(e)?);
    site.asked.earlier.push(EarlierRatio { shaft: number(shaft)?, stratum: number(stratum)?, ratio });
    Ok(Answer::nothing())
}

fn ahead(site: &mut Site, [stratum, v, vu]: [&str; 3]) -> Result<Answer, String> {
    site.asked.ahead.push(Ahead { stratum: number(stratum)?, theoretical: quantity(v, vu)? });
    Ok(Answer::nothing())
}

fn takes(site: &Site) -> Result<Answer, String> {
    let told_by = from_earlier(&site.asked.earlier, &site.asked.ahead, &USUAL_BELIEFS).map_err(told)?;
    let enough = told_by.quantile(0.95).map_err(told)?;
    Ok(Answer::of([
        ("volume", Figure::doubted(Volume::cubic_meters(told_by.mean()), Volume::cubic_meters(told_by.sd()))),
        ("enough", Figure::of(Volume::cubic_meters(enough))),
    ]))
}

fn stratum(site: &Site, [t, tu, b, bu]: [&str; 4]) -> Result<Answer, String> {
    let told =
        ratio_within(&pour::curve(site)?, level(t, tu)?, level(b, bu)?).ok_or("too little was sounded")?;
    Ok(Answer::of([
        ("ratio", Figure::plain_doubted(told.ratio.value, told.ratio.standard_error)),
        ("theoretical", Figure::of(told.theoretical)),
    ]))
}

fn round(site: &mut Site, minutes: &[&str]) -> Result<Answer, String> {
    let minutes = minutes.iter().map(|text| number(text)).collect::<Result<Vec<f64>, String>>()?;
    site.asked.round = Some(minutes.try_into().map_err(|_| "six times are asked for")?);
    Ok(Answer::nothing())
}

/// A day on which nothing varies, from the first batch to the end.
fn day(site: &Site, loads: &str, trucks: &str) -> Result<Answer, String> {
    let [bay, haul, position, discharge, back, finish] =
        site.asked.round.ok_or("no round")?.map(|minutes| HowLong::always(Span::minutes(minutes)));
    let none = HowLong::none();
    let durations =
        Durations { bay, haul, test: none, position, discharge, back, section: none, lift: none, finish };
    let never = Span::hours(1_000.0);
    let plan = PourDay {
        durations,
        plan_worth: f64::INFINITY,
        loads_left: number(loads)?,
        headway: None,
        test_every: 0,
        work: Vec::new(),
        life: Estimate::new(never, Span::seconds(0.0)),
        gap_limit: never,
    };
    let begin = Moment::parse("2026-05-04T07:00:00Z").map_err(|_| "no moment")?;
    let outlook =
        plan.play(&SoFar::nothing(begin), number(trucks)?, Sample { days: 1, seed: 1 }).map_err(told)?;
    Ok(Answer::of([
        ("end", Figure::of(outlook.finish.half.value)),
        ("longest gap", Figure::of(outlook.longest_gap.half.value)),
    ]))
}
