//! `batch`; `ratio`, `water`, `yield`.

use calc::ticket::{Batch, batch_yield, mass_of_water, relative_yield, volume_of_water};
use quantity::{Density, Mass, Volume, WaterCement};

use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["batch", c, cu, "cement", "and", w, wu, "water"] => batch(site, [c, cu, w, wu]),
        ["added", v, vu] => added(site, v, vu),
        ["ratio"] => ratio(site),
        ["water", "still", "to", limit] => still(site, limit),
        ["yield", "of", m, mu, "at", weights @ .., "for", t, tu] => yielded([m, mu, t, tu], weights),
        _ => return None,
    })
}

fn batch(site: &mut Site, [c, cu, w, wu]: [&str; 4]) -> Result<Answer, String> {
    let (cementitious, plant_water) = (quantity(c, cu)?, quantity(w, wu)?);
    let added_water = Mass::kilograms(0.0);
    site.batch = Some(Batch { cementitious, plant_water, aggregates: vec![], added_water });
    Ok(Answer::nothing())
}

fn added(site: &mut Site, v: &str, vu: &str) -> Result<Answer, String> {
    let batch = site.batch.as_mut().ok_or("no batch")?;
    let before = batch.added_water.to_kilograms();
    batch.added_water = Mass::kilograms(before + mass_of_water(quantity(v, vu)?).to_kilograms());
    Ok(Answer::nothing())
}

fn ratio(site: &Site) -> Result<Answer, String> {
    let batch = site.batch.as_ref().ok_or("no batch")?;
    let ratio = batch.water_cement().map_err(|error| error.to_string())?;
    Ok(Answer::of([("ratio", Figure::plain(ratio.to_ratio()))]))
}

fn still(site: &Site, limit: &str) -> Result<Answer, String> {
    let batch = site.batch.as_ref().ok_or("no batch")?;
    let limit = limit.parse().map(WaterCement::ratio).map_err(|_| "no ratio")?;
    let mass = batch.water_to_ratio(limit).map_err(|error| error.to_string())?;
    Ok(Answer::of([("mass", Figure::of(mass)), ("volume", Figure::of(volume_of_water(mass)))]))
}

fn yielded([m, mu, t, tu]: [&str; 4], weights: &[&str]) -> Result<Answer, String> {
    let weights: Result<Vec<Density>, String> =
        weights.chunks(2).map(|pair| quantity(pair[0], pair.get(1).ok_or("no unit")?)).collect();
    let real = batch_yield(quantity(m, mu)?, &weights?).map_err(|error| error.to_string())?;
    let ticket: Volume = quantity(t, tu)?;
    let relative = relative_yield(real, ticket).map_err(|error| error.to_string())?;
    let error = real.standard_error.ok_or("one unit weight has no scatter")?;
    Ok(Answer::of([("volume", Figure::doubted(real.volume, error)), ("relative", Figure::of(relative))]))
}
