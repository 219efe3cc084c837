//! `trial`, `slump tests`, `loads`, `test`; `life`.

use calc::slump::{Adjustment, DayCurve, SlumpAtAge, SlumpErrors, SlumpTrial};

use super::{Answer, Figure, Outcome, Site, quantity};

pub(super) fn run(site: &mut Site, words: &[&str]) -> Outcome {
    Some(match words {
        ["trial", s, su, "at", a, au] => at_age([s, su, a, au]).map(|point| {
            site.trial.push(point);
            Answer::nothing()
        }),
        ["slump", "tests", "±", e, eu] => {
            quantity(e, eu).map(|error| site.slump_error = error).map(|()| Answer::nothing())
        }
        ["loads", "differ", "by", "±", e, eu] => {
            quantity(e, eu).map(|error| site.load_spread = error).map(|()| Answer::nothing())
        }
        ["load", which, "untested"] => tested(site, which, None),
        ["load", which, "tested", s, su, "at", a, au] => tested(site, which, Some([s, su, a, au])),
        ["life", "of", "load", which, "down", "to", l, lu, "by", how] => life(site, which, [l, lu], how),
        ["life", "of", "load", which, "down", "to", l, lu, "in", part, "%"] => {
            between(site, which, [l, lu, part])
        }
        _ => return None,
    })
}

fn at_age([s, su, a, au]: [&str; 4]) -> Result<SlumpAtAge, String> {
    Ok(SlumpAtAge { age: quantity(a, au)?, slump: quantity(s, su)? })
}

fn number(which: &str) -> Result<usize, String> {
    which.parse::<usize>().ok().and_then(|which| which.checked_sub(1)).ok_or("no such load".to_owned())
}

fn tested(site: &mut Site, which: &str, test: Option<[&str; 4]>) -> Result<Answer, String> {
    let load = number(which)?;
    site.tests.resize(site.tests.len().max(load + 1), Vec::new());
    if let Some(words) = test {
        site.tests[load].push(at_age(words)?);
    }
    Ok(Answer::nothing())
}

fn life(site: &Site, which: &str, [l, lu]: [&str; 2], how: &str) -> Result<Answer, String> {
    let adjustment = match how {
        "offset" => Adjustment::Offset,
        "scale" => Adjustment::Scale,
        other => return Err(format!("no adjustment by {other}")),
    };
    let trial = trial(site)?;
    let day = fitted(site, &trial, adjustment)?;
    let life = day.life(number(which)?, quantity(l, lu)?).map_err(|error| error.to_string())?;
    Ok(Answer::of([("life", Figure::doubted(life.value, life.standard_error))]))
}

fn trial(site: &Site) -> Result<SlumpTrial, String> {
    SlumpTrial::new(&site.trial).map(|told| told.0).map_err(|error| error.to_string())
}

fn fitted<'t>(site: &Site, trial: &'t SlumpTrial, adjustment: Adjustment) -> Result<DayCurve<'t>, String> {
    let errors = SlumpErrors { test: site.slump_error, between_loads: site.load_spread };
    DayCurve::fit(trial, &site.tests, adjustment, errors)
        .map(|told| told.0)
        .map_err(|error| error.to_string())
}

fn between(site: &Site, which: &str, [l, lu, part]: [&str; 3]) -> Result<Answer, String> {
    let trial = trial(site)?;
    let day = fitted(site, &trial, Adjustment::Offset)?;
    let part: f64 = part.parse().map_err(|_| "no probability")?;
    let interval = day
        .life_interval(number(which)?, quantity(l, lu)?, part / 100.0)
        .map_err(|error| error.to_string())?;
    let end =
        |end: Option<quantity::Span>| end.map(Figure::of).ok_or("the trial does not see that end".to_owned());
    Ok(Answer::of([("earliest", end(interval.earliest)?), ("furthest", end(interval.furthest)?)]))
}
