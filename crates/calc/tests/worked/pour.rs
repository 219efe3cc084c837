//! `tape`, `tickets`, `load`; `interval`, `total`, `noise`.

use calc::curve::{LoadError, PlannedInterval, Pour, Station, VolumeCurve, balance, noise, volume_curve};
use calc::estimate::Estimate;
use calc::geometry::Bore;
use quantity::{Fraction, Length, Volume};

use super::site::level;
use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["tape", "±", e, eu] => {
            quantity(e, eu).map(|error| site.tape_error = error).map(|()| Answer::nothing())
        }
        ["tickets", "±", e, "%", "each"] => {
            part(e).map(|error| site.load_error = error).map(|()| Answer::nothing())
        }
        ["tickets", "±", e, "%", "together"] => {
            part(e).map(|error| site.shared_error = error).map(|()| Answer::nothing())
        }
        ["load", v, vu, "to", d, du] => load(site, [v, vu, d, du], ["0", "m³"]),
        ["load", v, vu, "to", d, du, "with", h, hu, "in", "the", "lines"] => {
            load(site, [v, vu, d, du], [h, hu])
        }
        ["interval", which] => interval(site, which),
        ["total"] => total(site),
        ["noise", "of", v, vu, "in", d, du] => planned(site, [v, vu, d, du]),
        _ => return None,
    })
}

pub(super) fn part(percent: &str) -> Result<f64, String> {
    quantity::<Fraction>(percent, "%").map(Fraction::to_part)
}

fn load(site: &mut Site, [v, vu, d, du]: [&str; 4], [h, hu]: [&str; 2]) -> Result<Answer, String> {
    site.loads.push((quantity(v, vu)?, level(d, du)?, quantity(h, hu)?));
    Ok(Answer::nothing())
}

pub(super) fn curve(site: &Site) -> Result<VolumeCurve, String> {
    let bore = site.bore()?;
    let (curve, issues) = volume_curve(&poured(site, &bore));
    if issues.is_empty() { Ok(curve) } else { Err(format!("a doubtful curve: {issues:?}")) }
}

/// The pour of a site in its hole.
pub(super) fn poured<'a>(site: &Site, bore: &'a Bore) -> Pour<'a> {
    let station = |(load, level, held): &(Volume, _, Volume)| Station {
        level: Estimate::new(*level, site.tape_error),
        loads: vec![*load],
        wasted: Volume::cubic_meters(0.0),
        held: *held,
        bore,
    };
    Pour {
        base: Estimate::new(bore.bottom(), site.tape_error),
        bore,
        stations: site.loads.iter().map(station).collect(),
        load_error: LoadError { each: site.load_error, shared: site.shared_error },
        least_rise: Length::ZERO,
    }
}

fn interval(site: &Site, which: &str) -> Result<Answer, String> {
    let curve = curve(site)?;
    let at = which.parse::<usize>().ok().and_then(|which| which.checked_sub(1));
    let interval = at.and_then(|at| curve.intervals.get(at)).ok_or("no such interval")?;
    let theory = interval.theoretical.ok_or("no theoretical volume")?;
    let ratio = interval.ratio.ok_or("no ratio")?;
    let diameter = interval.diameter.ok_or("no diameter")?;
    let cumulative = interval.cumulative.ratio.ok_or("no cumulative ratio")?;
    let departure = interval.departure.ok_or("no other interval")?;
    Ok(Answer::of([
        ("ratio", Figure::plain_doubted(ratio.value, ratio.standard_error)),
        ("rise", Figure::doubted(interval.rise.value, interval.rise.standard_error)),
        ("theory", Figure::doubted(theory.value, theory.standard_error)),
        ("placed", Figure::doubted(interval.placed.value, interval.placed.standard_error)),
        ("diameter", Figure::doubted(diameter.value, diameter.standard_error)),
        ("cumulative", Figure::plain_doubted(cumulative.value, cumulative.standard_error)),
        ("others", Figure::plain_doubted(departure.others.value, departure.others.standard_error)),
        ("departure", Figure::plain_doubted(departure.difference.value, departure.difference.standard_error)),
        ("z", Figure::plain(departure.z.ok_or("no z without errors")?)),
    ]))
}

fn total(site: &Site) -> Result<Answer, String> {
    let curve = curve(site)?;
    let last = &curve.intervals.last().ok_or("no load")?.cumulative;
    let balance = balance(last).ok_or("no balance")?;
    let ratio = last.ratio.ok_or("no ratio")?;
    Ok(Answer::of([
        ("ratio", Figure::plain_doubted(ratio.value, ratio.standard_error)),
        ("placed", Figure::doubted(last.placed.value, last.placed.standard_error)),
        ("over-pour", Figure::doubted(balance.over_pour.value, balance.over_pour.standard_error)),
    ]))
}

fn planned(site: &Site, [v, vu, d, du]: [&str; 4]) -> Result<Answer, String> {
    let (load, diameter) = (quantity(v, vu)?, quantity(d, du)?);
    let planned =
        PlannedInterval { diameter, load, tape_error: site.tape_error, load_error: site.load_error };
    let noise = noise(&planned).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("ratio", Figure::plain(noise.ratio)),
        ("rise", Figure::of(noise.rise)),
        ("diameter", Figure::of(noise.diameter)),
    ]))
}
