//! What is doubtful about the readings of a profile, and why there may be none.

use quantity::{Elevation, Length, Volume};

use super::fit::Fit;
use super::rare::Kind;
use crate::curve::Pour;

/// A rare thing is named from this probability on. Judgement: more likely than not would come too late, and one in
/// ten would name a sounding in every shaft.
const NAMED_FROM: f64 = 0.3;

/// What is doubtful. `at` counts stations from zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Issue {
    /// The level lies outside the hole as drawn: the station was left out, its loads count with the next one.
    LeftOut {
        /// Which station.
        at: usize,
        /// The level sounded.
        level: Elevation,
    },
    /// The surface went down although no casing moved.
    SurfaceFell {
        /// Which station.
        at: usize,
        /// By how much.
        by: Length,
    },
    /// More was wasted or stands in the lines than came in: the running total went down.
    TotalFell {
        /// Which station.
        at: usize,
        /// By how much.
        by: Volume,
    },
    /// The level was probably misread.
    Misread {
        /// Which station.
        at: usize,
        /// How probable it is.
        probability: f64,
    },
    /// A load before this station was probably not what its ticket says.
    WrongTicket {
        /// Which station.
        at: usize,
        /// How probable it is.
        probability: f64,
    },
}

/// Why there is no profile, or no answer from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ProfileError {
    /// The level the concrete starts from lies outside the hole as drawn.
    BaseOutside {
        /// That level.
        level: Elevation,
    },
    /// A stretch that is empty, or reaches beyond the profile.
    Stretch {
        /// Its upper end.
        top: Elevation,
        /// Its lower end.
        bottom: Elevation,
    },
    /// A height or volume that is not greater than zero.
    NotPositive,
    /// A value of the prior that makes no sense.
    Prior,
    /// Readings too far out to be reckoned with.
    Unreckonable,
}

impl std::fmt::Display for ProfileError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            ProfileError::BaseOutside { .. } => "the bottom that was sounded lies outside the hole as drawn",
            ProfileError::Stretch { .. } => "the stretch is empty or reaches beyond the hole",
            ProfileError::NotPositive => "a height or volume is not greater than zero",
            ProfileError::Prior => "a value of the prior makes no sense",
            ProfileError::Unreckonable => "the readings are too far out to be reckoned with",
        })
    }
}

impl std::error::Error for ProfileError {}

/// Everything doubtful, in the order of the stations.
pub(super) fn issues(pour: &Pour, fit: &Fit) -> Vec<Issue> {
    (0..pour.stations.len()).flat_map(|at| of_station(pour, fit, at)).collect()
}

fn of_station(pour: &Pour, fit: &Fit, at: usize) -> Vec<Issue> {
    let level = pour.stations[at].level.value;
    let Some(row) = fit.rows.stations.iter().position(|station| *station == at) else {
        return vec![Issue::LeftOut { at, level }];
    };
    let probability = |wanted: Kind| fit.probability(|rare| rare.kind == wanted);
    let (misread, ticket) = (probability(Kind::Misread(row)), probability(Kind::Ticket(row)));
    let total = fit.rows.placed_m3[row];
    let found = [
        fell(pour, at).map(|by| Issue::SurfaceFell { at, by }),
        (total < 0.0).then(|| Issue::TotalFell { at, by: Volume::cubic_meters(-total) }),
        (misread >= NAMED_FROM).then_some(Issue::Misread { at, probability: misread }),
        (ticket >= NAMED_FROM).then_some(Issue::WrongTicket { at, probability: ticket }),
    ];
    found.into_iter().flatten().collect()
}

fn fell(pour: &Pour, at: usize) -> Option<Length> {
    let station = &pour.stations[at];
    let (before, bore) = match at {
        0 => (pour.base.value, pour.bore),
        _ => (pour.stations[at - 1].level.value, pour.stations[at - 1].bore),
    };
    let by = before.above(station.level.value);
    (by > Length::ZERO && bore == station.bore).then_some(by)
}
