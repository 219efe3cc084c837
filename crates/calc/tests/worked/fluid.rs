//! `clean fluid`, `groundwater`; `density`, `pair`, `sand`, `excess`.

use calc::fluid_density::{Pair, PairErrors, Parts, compare, density_with_sand, quartz};
use calc::fluid_pressure::{Balance, Column};
use calc::settling::{FluidStretch, SandSample, Settled, settled_thickness};
use quantity::{Depth, Length};

use super::site::level;
use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["clean", "fluid", c, cu, "in", "water", "of", w, wu] => clean(site, [c, cu, w, wu]),
        ["groundwater", r, ru, "at", l, lu] => groundwater(site, [r, ru, l, lu]),
        ["density", "with", s, "%", "sand"] => with_sand(site, s),
        ["pair", r, ru, "±", e, eu, "and", s, "%", "±", t, "%", "sand"] => {
            pair(site, [r, ru, e, eu], [s, t])
        }
        ["sand", s, "%", "±", e, "%", "over", h, hu, "at", "porosity", n, "%"] => {
            settled([s, e, n], [h, hu])
        }
        ["excess", "at", d, du] => excess(site, d, du),
        _ => return None,
    })
}

fn clean(site: &mut Site, [c, cu, w, wu]: [&str; 4]) -> Result<Answer, String> {
    site.parts = Some(Parts { clean: quantity(c, cu)?, grains: quartz(quantity(w, wu)?) });
    Ok(Answer::nothing())
}

fn groundwater(site: &mut Site, [r, ru, l, lu]: [&str; 4]) -> Result<Answer, String> {
    site.groundwater = Some(Column { density: quantity(r, ru)?, surface: level(l, lu)? });
    Ok(Answer::nothing())
}

fn with_sand(site: &Site, sand: &str) -> Result<Answer, String> {
    let parts = site.parts.ok_or("no clean fluid")?;
    let density = density_with_sand(parts, quantity(sand, "%")?).map_err(|error| error.to_string())?;
    Ok(Answer::of([("density", Figure::of(density))]))
}

fn pair(site: &Site, [r, ru, e, eu]: [&str; 4], [sand, error]: [&str; 2]) -> Result<Answer, String> {
    let parts = site.parts.ok_or("no clean fluid")?;
    let pair = Pair { density: quantity(r, ru)?, sand: quantity(sand, "%")? };
    let errors = PairErrors { density: quantity(e, eu)?, sand: quantity(error, "%")? };
    let fit = compare(parts, pair, errors).map_err(|error| error.to_string())?;
    Ok(Answer::of([
        ("difference", Figure::doubted(fit.difference.value, fit.difference.standard_error)),
        ("implied sand", Figure::of(fit.sand_implied)),
        ("fines", Figure::of(fit.fines)),
        ("errors apart", Figure::plain(fit.errors_apart().ok_or("no errors")?)),
    ]))
}

fn settled([sand, error, porosity]: [&str; 3], [h, hu]: [&str; 2]) -> Result<Answer, String> {
    let bottom: Depth = quantity(h, hu)?;
    let sample = SandSample { depth: bottom, sand: quantity(sand, "%")? };
    let stretch = FluidStretch { top: Depth(Length::ZERO), bottom };
    let settled = Settled { porosity: quantity(porosity, "%")?, sand_error: quantity(error, "%")? };
    let thickness = settled_thickness(&[sample], stretch, settled).map_err(|error| error.to_string())?;
    Ok(Answer::of([("thickness", Figure::doubted(thickness.value, thickness.standard_error))]))
}

fn excess(site: &Site, d: &str, du: &str) -> Result<Answer, String> {
    let (density, surface) = site.fluid.ok_or("no fluid")?;
    let outside = site.groundwater.ok_or("no groundwater")?;
    let balance = Balance { inside: Column { density, surface }, outside };
    let excess = balance.excess(level(d, du)?);
    Ok(Answer::of([("excess", Figure::of(excess)), ("head", Figure::of(balance.head()))]))
}
