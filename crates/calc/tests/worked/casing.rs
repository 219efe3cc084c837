//! `surface`; `pull`, `least head`.

use calc::casing::{
    HeadRule, Withdrawal, concrete_to_keep_level, highest_lift, least_head, lift, unexplained_volume,
};
use calc::estimate::Level;
use calc::geometry::Bore;
use quantity::{Density, Depth, Elevation, Volume};

use super::site::level;
use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["surface", d, du] => {
            level(d, du).map(|level| site.surface = Some(level)).map(|()| Answer::nothing())
        }
        ["pull", "shoe", "to", d, du] => pull(site, d, du),
        ["pull", "shoe", "to", d, du, "and", "keep", k, ku] => keep(site, [d, du, k, ku]),
        ["pull", "until", h, hu, "of", "head", "are", "left"] => until(site, h, hu),
        ["sounded", s, su, "after", "pulling", "shoe", "to", d, du] => behind(site, [s, su, d, du]),
        ["least", "head", "against", w, wu, "of", r, ru] => against(site, [w, wu, r, ru]),
        _ => return None,
    })
}

fn standing<'a>(site: &Site, hole: &'a Bore) -> Result<Withdrawal<'a>, String> {
    let value = site.surface.ok_or("no surface")?;
    let concrete = Level { value, standard_error: site.tape_error };
    Ok(Withdrawal { hole, others: &[], casing: site.casing.ok_or("no casing")?, concrete })
}

fn pull(site: &Site, d: &str, du: &str) -> Result<Answer, String> {
    let hole = site.drilled()?;
    let standing = standing(site, &hole)?;
    let up = level(d, du)?.above(standing.casing.shoe);
    let after = lift(&standing, up, Volume::cubic_meters(0.0)).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("level", Figure::doubted(depth(after.level.value), Depth(after.level.standard_error))),
        ("head", Figure::doubted(after.head.value, after.head.standard_error)),
        ("drop", Figure::of(standing.concrete.value.above(after.level.value))),
    ]))
}

fn keep(site: &Site, [d, du, k, ku]: [&str; 4]) -> Result<Answer, String> {
    let hole = site.drilled()?;
    let standing = standing(site, &hole)?;
    let up = level(d, du)?.above(standing.casing.shoe);
    let added = concrete_to_keep_level(&standing, up, level(k, ku)?).map_err(|error| error.to_string())?;
    Ok(Answer::of([("add", Figure::doubted(added.value, added.standard_error))]))
}

fn until(site: &Site, h: &str, hu: &str) -> Result<Answer, String> {
    let hole = site.drilled()?;
    let standing = standing(site, &hole)?;
    let lift = highest_lift(&standing, HeadRule { required: quantity(h, hu)? });
    let lift = lift.map_err(|error| error.to_string())?;
    let shoe = standing.casing.lifted(lift).shoe;
    Ok(Answer::of([("lift", Figure::of(lift)), ("shoe", Figure::of(depth(shoe)))]))
}

fn behind(site: &Site, [s, su, d, du]: [&str; 4]) -> Result<Answer, String> {
    let hole = site.drilled()?;
    let standing = standing(site, &hole)?;
    let up = level(d, du)?.above(standing.casing.shoe);
    let expected = lift(&standing, up, Volume::cubic_meters(0.0)).map_err(|error| error.to_string())?.level;
    let after = standing.bore_after(up).map_err(|error| error.to_string())?;
    let measured = Level { value: level(s, su)?, standard_error: site.tape_error };
    let found = unexplained_volume(&after, expected, measured).map_err(|error| error.to_string())?;
    Ok(Answer::of([("void", Figure::doubted(found.value, found.standard_error))]))
}

fn against(site: &Site, [w, wu, r, ru]: [&str; 4]) -> Result<Answer, String> {
    let concrete = site.concrete.ok_or("no concrete")?;
    let head = least_head(quantity::<Density>(r, ru)?, quantity(w, wu)?, concrete);
    Ok(Answer::of([("head", Figure::of(head.map_err(|error| error.to_string())?))]))
}

fn depth(level: Elevation) -> Depth {
    Depth(-level.0)
}
