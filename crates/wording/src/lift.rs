//! A lift of a casing: what was expected of the concrete level, what was measured, and what the difference
//! may mean.
//!
//! Never: say what is behind the casing; only the volume that is unexplained, and what usually explains it.

use crate::entry::entry_reference;
use crate::phrase::sentences;
use crate::show::Show;
use assess::reckon::Lift;
use calc::estimate::Estimate;
use quantity::{Length, Volume};
use record::Log;

/// A lift, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LiftText {
    /// `Lift 2 of surface casing, 12:14`.
    pub heading: String,
    /// Expected against measured.
    pub sentence: String,
    /// What the volumes leave unexplained, alone; empty when nothing stands out.
    pub unexplained: String,
    /// What to do now; empty when nothing stands out.
    pub do_now: String,
    /// The entries behind it.
    pub evidence: Vec<String>,
}

/// A lift as text; `number` counts lifts from 1.
pub fn lift(number: usize, lift: &Lift, log: &Log<'_>, show: &Show) -> LiftText {
    let standing_out = standing_out(lift);
    let shoe = match lift.shoe_after {
        Some(shoe) => format!("Shoe from {} to {}.", show.elevation(lift.shoe_before), show.elevation(shoe)),
        None => format!("Shoe from {} out of the ground.", show.elevation(lift.shoe_before)),
    };
    LiftText {
        heading: format!("Lift {number} of {}, {}", lift.casing, show.moment(lift.at)),
        sentence: sentences(&[
            shoe,
            level(lift, show),
            unexplained(lift, show),
            head(lift, show),
            cage(lift, show),
        ]),
        unexplained: unexplained(lift, show),
        do_now: standing_out.map_or_else(String::new, |more| step(more).to_owned()),
        evidence: lift.entries.iter().map(|id| entry_reference(*id, log, show)).collect(),
    }
}

/// How far the level fell beyond the expected; negative when it fell less or rose.
fn beyond(lift: &Lift) -> Option<Length> {
    let expected = lift.expected.as_ref()?.as_ref().ok()?.level.value;
    let (measured, _) = lift.measured?;
    Some(expected.above(measured))
}

/// The difference, when it is more than two standard errors of the soundings.
fn standing_out(lift: &Lift) -> Option<Length> {
    let error = lift.expected.as_ref()?.as_ref().ok()?.level.standard_error;
    beyond(lift).filter(|beyond| beyond.abs() > error + error)
}

fn level(lift: &Lift, show: &Show) -> String {
    let expected = match &lift.expected {
        Some(Ok(expected)) => expected,
        Some(Err(error)) => return format!("No level can be expected: {error}."),
        None => {
            return "No level can be expected: the level before the lift, or the casing's diameters and top, \
                    were not entered."
                .to_owned();
        }
    };
    match beyond(lift) {
        None => format!(
            "The concrete was expected at {}; it was not sounded after the lift.",
            show.level(expected.level)
        ),
        Some(_) if standing_out(lift).is_none() => {
            "The level fell as expected, within the error of the tape.".to_owned()
        }
        Some(more) if more > Length::ZERO => {
            format!("The level fell {} more than expected.", show.length(more))
        }
        Some(less) => format!("The level stands {} higher than expected.", show.length(-less)),
    }
}

fn unexplained(lift: &Lift, show: &Show) -> String {
    let Some(volume) = lift.unexplained.filter(|_| standing_out(lift).is_some()) else {
        return String::new();
    };
    let size = Volume::cubic_meters(volume.value.to_cubic_meters().abs());
    let size = show.volume_estimate(Estimate::new(size, volume.standard_error));
    if volume.value.to_cubic_meters() >= 0.0 {
        format!("{size} went behind the casing that the drawing does not know: a void, or a wall washed out.")
    } else {
        format!("{size} of room is missing: soil may have come in, or the cage may have risen.")
    }
}

fn head(lift: &Lift, show: &Show) -> String {
    match lift.measured {
        Some((_, Some(head))) if head < Length::ZERO => {
            format!("The concrete stands {} below the shoe.", show.length(-head))
        }
        Some((_, Some(head))) => format!("The concrete stands {} over the shoe.", show.length(head)),
        _ => String::new(),
    }
}

fn cage(lift: &Lift, show: &Show) -> String {
    match lift.cage_rise {
        Some(rise) if rise > Length::ZERO => format!("The cage rose {}.", show.small(rise)),
        Some(rise) if rise < Length::ZERO => format!("The cage sank {}.", show.small(-rise)),
        Some(_) => "The cage did not move.".to_owned(),
        None => String::new(),
    }
}

fn step(more: Length) -> &'static str {
    if more > Length::ZERO {
        "Sound again before the next lift and add concrete until the head is enough."
    } else {
        "Stop pulling, sound again and read the cage elevation before the next lift."
    }
}
