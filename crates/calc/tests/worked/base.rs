//! `base`, `reads`; `mean`, `worst`, `share`, `slope`.

use calc::base::{Base, Weighing};
use calc::plane::{BasePoint, best_plane};
use quantity::Length;

use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["base", d, du] => {
            quantity(d, du).map(|diameter| site.base_diameter = diameter).map(|()| Answer::nothing())
        }
        [x, xu, "east", y, yu, "north", "reads", v, vu] => point(site, [x, xu, y, yu], [v, vu]),
        ["sediment"] => sediment(site),
        ["share", "below", t, tu] => share(site, [t, tu], Base::share_below),
        ["share", "above", t, tu] => share(site, [t, tu], Base::share_above),
        ["slope", "with", "readings", "±", e, eu] => slope(site, e, eu),
        _ => return None,
    })
}

fn point(site: &mut Site, [x, xu, y, yu]: [&str; 4], [v, vu]: [&str; 2]) -> Result<Answer, String> {
    site.base.push(BasePoint { x: quantity(x, xu)?, y: quantity(y, yu)?, value: quantity(v, vu)? });
    Ok(Answer::nothing())
}

fn weighed(site: &Site) -> Result<Base, String> {
    let radius = Length::nanometers(site.base_diameter.to_nanometers() / 2);
    Base::new(&site.base, Weighing::NearestPart { radius }).map_err(|error| error.to_string())
}

fn sediment(site: &Site) -> Result<Answer, String> {
    let base = weighed(site)?;
    let equal = Base::new(&site.base, Weighing::EqualShares).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("mean", Figure::of(base.mean())),
        ("plain mean", Figure::of(equal.mean())),
        ("worst", Figure::of(base.greatest().1)),
        ("share of the first", Figure::of(base.shares()[0])),
    ]))
}

fn share(
    site: &Site,
    [t, tu]: [&str; 2],
    ask: fn(&Base, Length) -> quantity::Fraction,
) -> Result<Answer, String> {
    Ok(Answer::of([("share", Figure::of(ask(&weighed(site)?, quantity(t, tu)?)))]))
}

fn slope(site: &Site, e: &str, eu: &str) -> Result<Answer, String> {
    let plane = best_plane(&site.base, quantity(e, eu)?).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("slope", Figure::doubted(plane.slope.value, plane.slope.standard_error)),
        ("left over", Figure::of(plane.left_over)),
    ]))
}
