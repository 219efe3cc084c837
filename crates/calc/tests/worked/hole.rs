//! `hole`, `bell`, `steel`, `casing`; `volume`, `level of`, `diameter of`.

use calc::geometry::{Casing, Part, Piece, Steel, equivalent_diameter};
use quantity::{Depth, Elevation, Volume};

use super::site::level;
use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["hole", d, du, "from", rest @ ..] => piece(site, [d, du, d, du], rest),
        ["bell", u, uu, "to", l, lu, "from", rest @ ..] => piece(site, [u, uu, l, lu], rest),
        ["steel", a, au, "from", rest @ ..] => steel(site, [a, au], rest),
        ["casing", i, iu, "inside", o, ou, "outside", "from", rest @ ..] => {
            casing(site, [i, iu, o, ou], rest)
        }
        [] | ["volume"] => volume(site, None),
        ["volume", "from", rest @ ..] => volume(site, Some(rest)),
        ["level", "of", v, vu] => level_of(site, v, vu),
        ["diameter", "of", v, vu, "over", l, lu] => diameter(v, vu, l, lu),
        _ => return None,
    })
}

/// `A ft to B ft`, as the two levels.
fn ends(words: &[&str]) -> Result<[Elevation; 2], String> {
    match words {
        [top, tu, "to", bottom, bu] => Ok([level(top, tu)?, level(bottom, bu)?]),
        _ => Err(format!("not understood: {}", words.join(" "))),
    }
}

fn piece(site: &mut Site, [u, uu, l, lu]: [&str; 4], rest: &[&str]) -> Result<Answer, String> {
    let [top, bottom] = ends(rest)?;
    let (upper_diameter, lower_diameter) = (quantity(u, uu)?, quantity(l, lu)?);
    site.pieces.push(Piece { part: Part::Shaft, top, bottom, upper_diameter, lower_diameter });
    Ok(Answer::nothing())
}

fn steel(site: &mut Site, [a, au]: [&str; 2], rest: &[&str]) -> Result<Answer, String> {
    let [top, bottom] = ends(rest)?;
    site.steel.push(Steel { area: quantity(a, au)?, top, bottom });
    Ok(Answer::nothing())
}

fn casing(site: &mut Site, [i, iu, o, ou]: [&str; 4], rest: &[&str]) -> Result<Answer, String> {
    let [top, shoe] = ends(rest)?;
    let (inside_diameter, outside_diameter) = (quantity(i, iu)?, quantity(o, ou)?);
    site.casing = Some(Casing { inside_diameter, outside_diameter, top, shoe });
    Ok(Answer::nothing())
}

fn volume(site: &Site, between: Option<&[&str]>) -> Result<Answer, String> {
    let bore = site.bore()?;
    let volume = match between {
        None => bore.volume(),
        Some(rest) => {
            let [upper, lower] = ends(rest)?;
            bore.volume_between(lower, upper).map_err(|error| error.to_string())?
        }
    };
    Ok(Answer::of([("volume", Figure::of(volume))]))
}

fn level_of(site: &Site, v: &str, vu: &str) -> Result<Answer, String> {
    let level = site.bore()?.level_holding(quantity(v, vu)?).map_err(|error| error.to_string())?;
    Ok(Answer::of([("level", Figure::of(Depth(-level.0)))]))
}

fn diameter(v: &str, vu: &str, l: &str, lu: &str) -> Result<Answer, String> {
    let diameter = equivalent_diameter(quantity::<Volume>(v, vu)?, quantity(l, lu)?);
    Ok(Answer::of([("diameter", Figure::of(diameter.map_err(|error| error.to_string())?))]))
}
