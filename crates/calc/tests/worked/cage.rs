//! `cage`, `axis`; `gap`, `cover`, `lean`, `allowed`.

use calc::as_built::PositionRule;
use calc::axis::{Axis, AxisReading, Offset, fit_axis};
use calc::bars::find;
use calc::cage::{BarCircle, CageOutline, stones_in_gap};
use calc::cover::{HoleStretch, PlacedCage, least_cover};
use quantity::{Depth, Elevation, Length, Slope};

use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["cage", c, cu, "over", tie, "ties"] => cage(site, [c, cu, tie]),
        ["gap", "between", n, bar, "for", "stones", "of", s, su] => gap(site, [n, bar, s, su]),
        ["axis", "off", e, eu, "east", n, nu, "north", "at", d, du] => reading(site, [e, eu, n, nu, d, du]),
        ["lean", "with", "offsets", "±", e, eu] => lean(site, e, eu),
        ["cover", "of", "a", "plumb", "cage", "down", "to", d, du] => cover(site, d, du),
        ["allowed", p, pu, "and", m, mu, "at", d, du, adding] => allowed([p, pu, m, mu, d, du], adding),
        _ => return None,
    })
}

fn cage(site: &mut Site, [c, cu, tie]: [&str; 3]) -> Result<Answer, String> {
    let tie = find(tie).ok_or("no such tie")?.diameter;
    site.cage = Some((quantity(c, cu)?, tie));
    Ok(Answer::nothing())
}

fn gap(site: &Site, [places, bar, s, su]: [&str; 4]) -> Result<Answer, String> {
    let (outside, tie) = site.cage.ok_or("no cage")?;
    let bar = find(bar).ok_or("no such bar")?;
    let outline = CageOutline { outside, tie, bar: bar.diameter };
    let circle = outline.bar_circle().map_err(|error| error.to_string())?;
    let places = places.parse().map_err(|_| "no number of bars")?;
    let gap = BarCircle { places, bars_abreast: 1, bar, circle }.clear_gap();
    let gap = gap.map_err(|error| error.to_string())?;
    let stones = stones_in_gap(gap, quantity(s, su)?).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("gap", Figure::of(gap)),
        ("circle", Figure::of(circle)),
        ("stones", Figure::plain(stones)),
    ]))
}

fn reading(site: &mut Site, [e, eu, n, nu, d, du]: [&str; 6]) -> Result<Answer, String> {
    let offset = Offset { east: quantity(e, eu)?, north: quantity(n, nu)? };
    site.axis.push(AxisReading { depth: quantity(d, du)?, offset });
    Ok(Answer::nothing())
}

fn lean(site: &Site, e: &str, eu: &str) -> Result<Answer, String> {
    let fitted = fit_axis(&site.axis, quantity(e, eu)?).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("lean", Figure::doubted(fitted.axis.lean(), fitted.errors.lean)),
        ("bend", Figure::of(fitted.greatest_bend)),
    ]))
}

fn cover(site: &Site, d: &str, du: &str) -> Result<Answer, String> {
    let (outside, _) = site.cage.ok_or("no cage")?;
    let hole = fit_axis(&site.axis, Length::ZERO).map_err(|error| error.to_string())?.axis;
    let below = |level: Elevation| Depth(-level.0);
    let stretches: Vec<HoleStretch> = site
        .pieces
        .iter()
        .map(|piece| HoleStretch {
            top: below(piece.top),
            bottom: below(piece.bottom),
            diameter: piece.lower_diameter,
        })
        .collect();
    let top = Depth(Length::ZERO);
    let axis = Axis {
        depth: top,
        offset: Offset { east: Length::ZERO, north: Length::ZERO },
        lean_east: Slope::part(0.0),
        lean_north: Slope::part(0.0),
    };
    let placed = PlacedCage { axis, top, bottom: quantity(d, du)?, outside };
    let least = least_cover(hole, &stretches, placed).map_err(|error| error.to_string())?;
    let bearing = least.cage_off_hole.bearing_degrees().ok_or("the cage hangs in the middle")?;
    Ok(Answer::of([
        ("cover", Figure::of(least.cover)),
        ("at", Figure::of(least.depth)),
        ("thin side", Figure::plain(bearing)),
    ]))
}

fn allowed([p, pu, m, mu, d, du]: [&str; 6], adding: &str) -> Result<Answer, String> {
    let lean_adds = match adding {
        "added" => true,
        "alone" => false,
        other => return Err(format!("`{other}` is neither `added` nor `alone`")),
    };
    let defined_at = Depth(Length::ZERO);
    let rule = PositionRule { position: quantity(p, pu)?, lean: quantity(m, mu)?, defined_at, lean_adds };
    let allowance = rule.allowance(quantity(d, du)?).map_err(|error| error.to_string())?;
    Ok(Answer::of([("allowance", Figure::of(allowance))]))
}
