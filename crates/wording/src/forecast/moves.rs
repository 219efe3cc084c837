//! Forecasts about the next move: a piece off the line, a lift of the casing, the next truck.

use super::Said;
use crate::phrase::count;
use crate::show::Show;
use assess::Outlook;
use assess::assumed::watched_lift;
use calc::estimate::Estimate;
use quantity::{Length, Volume};

/// `Embedment 11.4 ft ± 0.1. Lift at most 1.4 ft; no piece may come off yet.`
pub(super) fn embedment(outlook: &Outlook, show: &Show) -> Said {
    let Outlook::Embedment { line, now, error, required, limit_set, safe_lift, pieces, after_next } = outlook
    else {
        unreachable!("asked for an embedment")
    };
    let told = show.length_estimate(Estimate::new(*now, *error));
    let asked = required_text(*required, *limit_set, show);
    let (lift, do_now) = match (*now <= Length::ZERO, *safe_lift < Length::ZERO) {
        (true, _) => out_of_concrete(*now, show),
        (false, true) => (
            format!("The tip is {} too high.", show.length(-*safe_lift)),
            "Do not lift the line. Lower the tip or place concrete, then sound again.".to_owned(),
        ),
        (false, false) => (
            format!("Lift at most {}; {}.", show.length(*safe_lift), pieces_text(*pieces)),
            next_step(*pieces, *after_next, *required, show),
        ),
    };
    let heading = format!("Embedment of {line}");
    Said { heading, sentence: format!("Embedment {told}; {asked}. {lift}"), do_now }
}

/// The seal is lost: what the readings say, and who has to be asked.
fn out_of_concrete(now: Length, show: &Show) -> (String, String) {
    (
        format!("By these readings the tip stands {} above the concrete.", show.length(-now)),
        "Stop the discharge, sound again, and ask the engineer before the line goes on; enter what was seen \
         and decided."
            .to_owned(),
    )
}

fn pieces_text(pieces: usize) -> String {
    match pieces {
        0 => "no piece may come off yet".to_owned(),
        pieces => format!("{} may come off", count(pieces, "piece", "pieces")),
    }
}

fn next_step(pieces: usize, after_next: Option<Length>, required: Length, show: &Show) -> String {
    match after_next {
        Some(after) if pieces == 0 => format!(
            "Place and sound before the next piece: without it the embedment would be {}, {} short.",
            show.length(after),
            show.length(required - after)
        ),
        Some(after) => {
            format!("Sound before each piece; after the next one the embedment is {}.", show.length(after))
        }
        None => "Sound before each move of the line.".to_owned(),
    }
}

/// `required: 10.0 ft`, or that no limit is set and what is watched instead.
fn required_text(required: Length, limit_set: bool, show: &Show) -> String {
    match limit_set {
        true => format!("required: {}", show.length(required)),
        false => format!("no limit is set, {} is watched", show.length(required)),
    }
}

/// Head of concrete over the shoe of a casing.
pub(super) fn head(outlook: &Outlook, show: &Show) -> Said {
    let Outlook::HeadAtNextLift { casing, now, required, limit_set, safe_lift, add } = outlook else {
        unreachable!("asked for a head")
    };
    let asked = required_text(*required, *limit_set, show);
    let lift = match *safe_lift <= Length::ZERO {
        true => "No lift until concrete is added.".to_owned(),
        false => format!("Lift at most {} before the head is too small.", show.length(*safe_lift)),
    };
    Said {
        heading: format!("Head in {casing} at the next lift"),
        sentence: format!("The concrete stands {} over the shoe; {asked}. {lift}", show.length(*now)),
        do_now: add_text(*add, show),
    }
}

fn add_text(add: Option<Volume>, show: &Show) -> String {
    let step = show.length(watched_lift());
    match add {
        Some(add) if add.to_cubic_meters() > 0.0 => format!(
            "For a lift of {step} add {} first; sound before and after every lift.",
            show.volume(add)
        ),
        Some(_) => {
            format!("Sound before and after every lift. A lift of {step} leaves the head that is asked for.")
        }
        None => {
            "Sound before and after every lift. What a lift needs cannot be reckoned: enter the diameters, top \
             and shoe of the casing."
                .to_owned()
        }
    }
}

/// Concrete still to order.
pub(super) fn order(outlook: &Outlook, show: &Show) -> Said {
    let Outlook::StillToOrder { volume, error, on_the_way, ordered } = outlook else {
        unreachable!("asked for an order")
    };
    let needed = show.volume_estimate(Estimate::new(*volume, *error));
    let short = volume.to_cubic_meters() - on_the_way.to_cubic_meters() - ordered.to_cubic_meters();
    let coming = match on_the_way.to_cubic_meters() == 0.0 {
        true => "nothing is on site that has not gone in".to_owned(),
        false => format!("{} is on site and has not gone in", show.volume(*on_the_way)),
    };
    let ordered = match ordered.to_cubic_meters() == 0.0 {
        true => String::new(),
        false => format!(", and {} is ordered", show.volume(*ordered)),
    };
    let do_now = match short > 0.0 {
        true => format!(
            "Order {} more, and ask the plant how soon; this counts the shaft's own ratio and the over-pour.",
            show.volume(Volume::cubic_meters(short))
        ),
        false => "Order nothing more yet; sound after the next load and look again.".to_owned(),
    };
    Said {
        heading: "Concrete still needed".to_owned(),
        sentence: format!("Still needed from the last sounding: {needed}; {coming}{ordered}."),
        do_now,
    }
}
