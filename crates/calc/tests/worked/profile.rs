//! `ground`, `boundary`; `profile`, `blind spot`, `neck`, `still to place`.

use calc::profile::{Ground, Prior, Profile, Scale, profile};
use quantity::{Elevation, Fraction, Length, Volume};

use super::pour::{part, poured};
use super::site::level;
use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["ground", ratio, "±", shaft, "by", "shaft", "and", "±", stratum, "by", "stratum"] => {
            ground(site, [ratio, shaft, stratum])
        }
        ["boundary", "at", d, du] => {
            level(d, du).map(|level| site.boundaries.push(level)).map(|()| Answer::nothing())
        }
        ["profile", "from", t, tu, "to", b, bu] => stretch(site, [t, tu, b, bu]),
        ["blind", "spot", "of", h, hu, "at", d, du] => blind(site, [h, hu, d, du]),
        ["neck", "of", s, "%", "over", h, hu, "from", t, tu, "to", b, bu] => {
            neck(site, s, [h, hu], [t, tu, b, bu])
        }
        ["still", "to", "place", "to", d, du] => still(site, [d, du]),
        _ => return None,
    })
}

/// Ground in which nothing rare happens and every stratum is even.
fn ground(site: &mut Site, numbers: [&str; 3]) -> Result<Answer, String> {
    let [ratio, shaft_spread, stratum_spread] = numbers.map(str::parse::<f64>);
    site.prior = Some(Prior {
        ratio: ratio.map_err(|_| "no ratio")?,
        shaft_spread: shaft_spread.map_err(|_| "no spread")?,
        stratum_spread: stratum_spread.map_err(|_| "no spread")?,
        gentle_spread: 0.0,
        scales: vec![Scale { factor: 1.0, weight: 1.0 }],
        shapes: Vec::new(),
        misread: 0.0,
        wrong_ticket: 0.0,
        ..Prior::default()
    });
    Ok(Answer::nothing())
}

fn estimated(site: &Site) -> Result<Profile, String> {
    let bore = site.bore()?;
    let ground = Ground { jumps: site.boundaries.clone(), ..Ground::default() };
    let prior = site.prior.clone().unwrap_or_default();
    match profile(&poured(site, &bore), &ground, &prior) {
        Ok((profile, issues)) if issues.is_empty() => Ok(profile),
        Ok((_, issues)) => Err(format!("a doubtful profile: {issues:?}")),
        Err(error) => Err(error.to_string()),
    }
}

fn stretch(site: &Site, [t, tu, b, bu]: [&str; 4]) -> Result<Answer, String> {
    let ratio = estimated(site)?.stretch(level(t, tu)?, level(b, bu)?).map_err(|error| error.to_string())?;
    let [low, high] = ratio.band(0.90).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("ratio", Figure::plain_doubted(ratio.mean(), ratio.sd())),
        ("low", Figure::plain(low)),
        ("high", Figure::plain(high)),
    ]))
}

fn blind(site: &Site, [h, hu, d, du]: [&str; 4]) -> Result<Answer, String> {
    let spots = estimated(site)?.blind_spots(quantity(h, hu)?).map_err(|error| error.to_string())?;
    let wanted: Elevation = level(d, du)?;
    let holds = |spot: &&calc::profile::BlindSpot| spot.bottom < wanted && wanted <= spot.top;
    let nearest = spots.iter().filter(holds).min_by_key(|spot| {
        let middle: Length = spot.bottom.0 + spot.top.0;
        (middle - wanted.0 - wanted.0).max(wanted.0 + wanted.0 - middle)
    });
    Ok(Answer::of([("loss", Figure::plain(nearest.ok_or("no such stretch was sounded")?.loss))]))
}

fn neck(site: &Site, share: &str, [h, hu]: [&str; 2], [t, tu, b, bu]: [&str; 4]) -> Result<Answer, String> {
    let range = [level(t, tu)?, level(b, bu)?];
    let share = Fraction::part(part(share)?);
    let found = estimated(site)?.loss_probability(range, quantity(h, hu)?, share);
    Ok(Answer::of([("probability", Figure::plain(found.map_err(|error| error.to_string())?))]))
}

fn still(site: &Site, [d, du]: [&str; 2]) -> Result<Answer, String> {
    let left = estimated(site)?.remaining(level(d, du)?).map_err(|error| error.to_string())?;
    let volume = |m3: f64| Volume::cubic_meters(m3);
    let enough = left.quantile(0.95).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("volume", Figure::doubted(volume(left.mean()), volume(left.sd()))),
        ("enough", Figure::of(volume(enough))),
    ]))
}
