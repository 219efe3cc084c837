//! `pipe`, `fluid`, `concrete`; `first charge`, `balance`, `embedment`.

use calc::estimate::Level;
use calc::tremie::{Start, balance_level, embedment, first_charge, highest_safe_lift};
use quantity::Depth;

use super::site::level;
use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["pipe", d, du, "with", "its", "tip", "at", t, tu] => pipe(site, [d, du, t, tu]),
        ["fluid", r, ru, "at", l, lu] => fluid(site, [r, ru, l, lu]),
        ["concrete", r, ru] => {
            quantity(r, ru).map(|density| site.concrete = Some(density)).map(|()| Answer::nothing())
        }
        ["first", "charge", "to", "bury", e, eu] => charge(site, [e, eu], "1"),
        ["first", "charge", "to", "bury", e, eu, "at", "over-break", k] => charge(site, [e, eu], k),
        ["balance", "with", "concrete", "at", d, du] => balance(site, d, du),
        ["embedment", "with", "concrete", "at", d, du, "and", r, ru, "required"] => {
            buried(site, [d, du, r, ru])
        }
        _ => return None,
    })
}

fn pipe(site: &mut Site, [d, du, t, tu]: [&str; 4]) -> Result<Answer, String> {
    site.pipe = Some((quantity(d, du)?, level(t, tu)?));
    Ok(Answer::nothing())
}

fn fluid(site: &mut Site, [r, ru, l, lu]: [&str; 4]) -> Result<Answer, String> {
    site.fluid = Some((quantity(r, ru)?, level(l, lu)?));
    Ok(Answer::nothing())
}

fn charge(site: &Site, [e, eu]: [&str; 2], overbreak: &str) -> Result<Answer, String> {
    let (pipe_inside, tip) = site.pipe.ok_or("no pipe")?;
    let (fluid, fluid_level) = site.fluid.ok_or("no fluid")?;
    let start = Start {
        tip,
        embedment: quantity(e, eu)?,
        pipe_inside,
        fluid_level,
        fluid,
        concrete: site.concrete.ok_or("no concrete")?,
        overbreak: overbreak.parse().map_err(|_| "no over-break")?,
    };
    let charge = first_charge(&site.bore()?, &start).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("total", Figure::of(charge.total())),
        ("least", Figure::of(charge.least())),
        ("shaft", Figure::of(charge.shaft)),
        ("pipe above", Figure::of(charge.pipe_above)),
        ("pipe below", Figure::of(charge.pipe_below)),
    ]))
}

fn balance(site: &Site, d: &str, du: &str) -> Result<Answer, String> {
    let (fluid, fluid_level) = site.fluid.ok_or("no fluid")?;
    let concrete = site.concrete.ok_or("no concrete")?;
    let level =
        balance_level(fluid, concrete, fluid_level, level(d, du)?).map_err(|error| error.to_string())?;
    Ok(Answer::of([("level", Figure::of(Depth(-level.0)))]))
}

fn buried(site: &Site, [d, du, r, ru]: [&str; 4]) -> Result<Answer, String> {
    let (_, tip) = site.pipe.ok_or("no pipe")?;
    let embedment = embedment(tip, Level { value: level(d, du)?, standard_error: site.tape_error });
    let lift = highest_safe_lift(embedment, quantity(r, ru)?);
    Ok(Answer::of([
        ("embedment", Figure::doubted(embedment.value, embedment.standard_error)),
        ("lift", Figure::doubted(lift.value, lift.standard_error)),
    ]))
}
