//! An elevation that does not follow from the depth written beside it.
//!
//! Two numbers for one thing show each other's slips. The printed pour of [FHWA-INSPECTOR] holds two.

use super::Doubt;
use super::zero::{Reading, Zeros, corrected, length, nanometers};
use crate::kinds::ConcreteSounded;
use crate::log::{Line, Log};
use crate::question::Suspicion;
use quantity::{Elevation, Entered};

/// Soundings of the concrete whose elevation lies outside their depths by more than half of the last
/// digit it was written with.
pub(super) fn disagree(log: &Log<'_>) -> Vec<Doubt> {
    let zeros = Zeros::of(log);
    let found = log.each::<ConcreteSounded>();
    found.filter_map(|(line, sounding)| Some((line.entry.id, doubt(&zeros, line, sounding)?))).collect()
}

fn doubt(zeros: &Zeros<'_>, line: &Line<'_>, sounding: &ConcreteSounded) -> Option<Suspicion> {
    let entered = sounding.elevation.as_ref()?;
    let written = nanometers(entered.value().0);
    let level = |point: &crate::kinds::bottom::DepthPoint| {
        let depth = corrected(point.depth.value(), sounding.tape_correction.as_ref())?;
        zeros.level(&Reading { depth, reference: sounding.reference.as_deref(), at: line.at })
    };
    let levels: Vec<i128> = sounding.points.iter().filter_map(level).collect();
    let (low, high) = (*levels.iter().min()?, *levels.iter().max()?);
    let follows = written.clamp(low, high);
    let far = 2 * (written - follows).abs() > last_digit(entered);
    let follows = Elevation(length(follows)?);
    far.then_some(Suspicion::ElevationDisagrees { written: entered.value(), follows })
}

/// What one step of the last digit written is worth, in nanometres; zero when no digit can be stepped.
///
/// The text itself tells: with its last digit one higher or lower, it reads as another elevation. The
/// last digit of a fraction is that of its numerator.
fn last_digit(entered: &Entered<Elevation>) -> i128 {
    let stored = entered.stored();
    let typed = stored.split(" {").next().unwrap_or(&stored);
    let fraction = typed.rfind('/').unwrap_or(typed.len());
    let Some(place) = typed[..fraction].rfind(|sign: char| sign.is_ascii_digit()) else { return 0 };
    let digit = stored[place..=place].parse::<i8>().unwrap_or(0);
    let stepped = |digit: i8| {
        let text = format!("{}{digit}{}", &stored[..place], &stored[place + 1..]);
        Entered::<Elevation>::from_stored(&text).ok().filter(|_| (0..=9).contains(&digit))
    };
    let other = stepped(digit + 1).or_else(|| stepped(digit - 1));
    other.map_or(0, |other| (nanometers(other.value().0) - nanometers(entered.value().0)).abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Length;

    #[track_caller]
    fn check(stored: &str, expected: Length) {
        let entered = Entered::<Elevation>::from_stored(stored).expect("the elevation reads");
        assert_eq!(last_digit(&entered), nanometers(expected), "{stored}");
    }

    #[test]
    fn the_last_digit_is_worth_what_it_was_written_in() {
        check("+5.8 ft", Length::feet(0.1));
        check("28.70 {ft}", Length::feet(0.01));
        check("55 ft", Length::feet(1.0));
        check("12'-6 1/2\"", Length::inches(0.5));
        check("3.82 m", Length::meters(0.01));
        check("3,82 {m,}", Length::meters(0.01));
        check("-0.5 ft", Length::feet(0.1));
        check("10.0 ft", Length::feet(0.1));
    }
}
