//! While concrete comes: where it stands, how deep the line is buried and how far it may go up, what was
//! placed against what the hole should take, how old the oldest concrete is, what is still to order.

use super::{Big, Looked, ahead, bottom, cage, fluid, load, notes, of_level, placing};
use crate::live::sign::{Haste, Sign};
use assess::{Outlook, Urgency};
use calc::estimate::Estimate;
use quantity::Length;

pub(super) fn figures(looked: &Looked<'_>) -> Vec<Big> {
    if looked.assessment.picture.concrete_started().is_none() {
        return waiting(looked);
    }
    let mut all = vec![concrete(looked)];
    all.extend(lines(looked));
    all.extend(placing::volumes(looked));
    all.extend(load::oldest(looked));
    all.extend(ahead::to_order(looked));
    all.extend(ahead::in_time(looked));
    all.extend(heads(looked));
    all
}

/// The line is in and no concrete yet: where its tip hangs, what lies below it, and the load that waits.
fn waiting(looked: &Looked<'_>) -> Vec<Big> {
    let mut all = vec![cage::line(looked), bottom::sediment(looked)];
    all.extend(load::waiting(looked));
    all.push(Big { main: false, ..bottom::sounded(looked) });
    all.extend(fluid::last_test(looked));
    all.push(Big { main: false, ..cage::top(looked) });
    all.extend(ahead::to_order(looked));
    all.extend(ahead::in_time(looked));
    all
}

/// The concrete surface as last read: its lowest point.
pub(super) fn concrete(looked: &Looked<'_>) -> Big {
    let (word, label) = ("depth_to_concrete", "Depth to concrete");
    let picture = &looked.assessment.picture;
    let show = &looked.show;
    let Some(surface) = picture.surface(looked.at) else {
        return Big::said(word, label, "not sounded yet").main();
    };
    let sounded = picture.concrete.iter().find(|level| level.entry == surface.entry);
    let points = sounded.map_or(1, |level| level.surface.levels.len());
    let points = if points > 1 { format!("lowest of {points} points") } else { String::new() };
    let note = notes(&[show.elevation(surface.level), points, show.moment(surface.at)]);
    let error = sounded.map(|level| level.surface.lowest.standard_error);
    let error = error.map_or_else(String::new, |error| show.bare(show.length(error)));
    of_level(word, label, surface.level, looked).uncertain(&error).note(note).main()
}

/// Embedment and safe lift of each line in the concrete; in words where they are not known.
fn lines(looked: &Looked<'_>) -> Vec<Big> {
    let forecasts = looked.assessment.forecasts.iter();
    let known: Vec<Big> =
        forecasts.flat_map(|forecast| of_line(&forecast.outlook, forecast.urgency, looked)).collect();
    let in_hole = looked.assessment.picture.lines.iter().any(|line| line.out.is_none());
    if known.is_empty() && in_hole {
        let why = match looked.assessment.picture.concrete.is_empty() {
            true => "sound the concrete",
            false => "enter the tip and the pieces of the line",
        };
        return vec![Big::said("embedment", "Embedment", "not known").note(why).sign(Sign::CannotSay).main()];
    }
    known
}

fn of_line(outlook: &Outlook, urgency: Urgency, looked: &Looked<'_>) -> Vec<Big> {
    let Outlook::Embedment { line, now, error, required, limit_set, safe_lift, pieces, after_next } = outlook
    else {
        return Vec::new();
    };
    let show = &looked.show;
    let sign = of_limit(*limit_set, urgency);
    let asked = asked(*required, *limit_set, looked);
    let buried = Big::new(
        "embedment",
        &format!("Embedment of {line}"),
        &show.length_estimate(Estimate::new(*now, *error)),
    )
    .note(asked)
    .sign(sign)
    .main();
    let after = after_next.map(|after| format!("{} after the next piece", show.length(after)));
    let (value, note) = match *safe_lift < Length::ZERO {
        true => ("no lift".to_owned(), format!("{} too high already", show.length(-*safe_lift))),
        false => (show.length(*safe_lift), notes(&[pieces_text(*pieces), after.unwrap_or_default()])),
    };
    vec![
        buried,
        Big::new("safe_lift", "Lift at most", &value).note(note).sign(sign).haste(Haste::of(urgency)).main(),
    ]
}

fn pieces_text(pieces: usize) -> String {
    match pieces {
        0 => "no piece may come off yet".to_owned(),
        1 => "1 piece may come off".to_owned(),
        more => format!("{more} pieces may come off"),
    }
}

/// A forecast that is due now tells that its limit is broken; where no limit is set nothing is judged.
fn of_limit(limit_set: bool, urgency: Urgency) -> Sign {
    match (limit_set, urgency) {
        (false, _) => Sign::NoLimitSet,
        (true, Urgency::Now) => Sign::Fails,
        (true, _) => Sign::Meets,
    }
}

fn asked(required: Length, limit_set: bool, looked: &Looked<'_>) -> String {
    let required = looked.show.length(required);
    if limit_set { format!("{required} at least") } else { format!("no limit set; {required} is watched") }
}

/// Head over the shoe of each temporary casing.
fn heads(looked: &Looked<'_>) -> Vec<Big> {
    let head = |forecast: &assess::Forecast| {
        let Outlook::HeadAtNextLift { casing, now, required, limit_set, safe_lift, add } = &forecast.outlook
        else {
            return None;
        };
        let show = &looked.show;
        let lift = match *safe_lift <= Length::ZERO {
            true => "no lift until concrete is added".to_owned(),
            false => format!("lift at most {}", show.length(*safe_lift)),
        };
        let add = add.filter(|add| add.to_cubic_meters() > 0.0);
        let add =
            add.map_or_else(String::new, |add| format!("add {} before the next lift", show.volume(add)));
        let note = notes(&[asked(*required, *limit_set, looked), lift, add]);
        let sign = if *limit_set { super::sign(looked, "casing.head_over_shoe") } else { Sign::NoLimitSet };
        let sign = if forecast.urgency == Urgency::Now { of_limit(*limit_set, Urgency::Now) } else { sign };
        Some(
            Big::new("head", &format!("Concrete over shoe, casing {casing}"), &show.length(*now))
                .note(note)
                .sign(sign),
        )
    };
    looked.assessment.forecasts.iter().filter_map(head).collect()
}
