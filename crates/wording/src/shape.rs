//! The estimated shape of a shaft in the words of the trade.
//!
//! Every sentence says that it is an estimate, carries its band, and never calls a possible neck a neck. What
//! the readings could not have shown is said with it, because a calm estimate is no proof.
//!
//! Never: judge; leave out a band; tell a probability as a certainty.

use crate::notice::Notice;
use crate::phrase::capital;
use crate::show::Show;
use assess::Assessment;
use assess::shape::{Band, NoShape, Shape, Told};
use calc::profile::{Issue, POWER};
use quantity::{Elevation, Length};

/// The estimated shape, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShapeText {
    /// The whole shaft.
    pub whole: String,
    /// Stretches that stand out, from the bottom up: what it is, and what to do now.
    pub told: Vec<ToldText>,
    /// What these readings could not have shown; empty when nothing was sounded high enough.
    pub blind_spots: String,
    /// What to do about that; empty when nothing was sounded high enough.
    pub blind_do: &'static str,
    /// Where one more sounding would help; empty when the pour is over.
    pub next: String,
    /// What is doubtful about the readings.
    pub doubts: Vec<Notice>,
}

/// A stretch that stands out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToldText {
    /// Stable word: `wide`, `took_less`, `neck_possible`.
    pub word: &'static str,
    /// What it is, in a few words: `Estimate: wide from 38.0 ft to 44.0 ft deep`.
    pub title: String,
    /// What the estimate says.
    pub sentence: String,
    /// What to do now.
    pub do_now: &'static str,
}

/// The estimated shape as text.
pub fn shape(shape: &Shape, assessment: &Assessment<'_>, show: &Show) -> ShapeText {
    let place = Place { assessment, show };
    ShapeText {
        whole: format!(
            "Estimate: as far as it was sounded the shaft took {} times the volume of its nominal bore ({}).",
            show.ratio(shape.whole.mean),
            ends(shape.whole, show)
        ),
        told: shape.told.iter().map(|told| stretch(told, &place)).collect(),
        blind_do: blind_do(shape),
        blind_spots: blind_spots(shape, &place),
        next: next(shape, &place),
        doubts: shape.issues.iter().filter_map(|issue| doubt(*issue, &place)).collect(),
    }
}

/// Why a shaft has no estimated shape.
pub fn no_shape(why: NoShape) -> String {
    match why {
        NoShape::NothingSounded => {
            "There is no estimate of the shape: the concrete was not sounded yet. Sound after every load."
                .to_owned()
        }
        NoShape::Unreckonable(error) => format!(
            "There is no estimate of the shape: {error}. The readings are kept; look at the bottom, the soundings and the \
             plan of the shaft."
        ),
    }
}

/// Where a level is, as people at this shaft say it.
struct Place<'p> {
    assessment: &'p Assessment<'p>,
    show: &'p Show,
}

impl Place<'_> {
    /// `from 38.0 ft to 44.0 ft deep`, or in elevations where no reference is known.
    fn stretch(&self, [upper, lower]: [Elevation; 2]) -> String {
        let at = self.assessment.at;
        let depth =
            |level| self.assessment.picture.references.depth(level, at).map(|depth| self.show.depth(depth));
        match (depth(upper), depth(lower)) {
            (Some(from), Some(to)) => format!("from {from} to {to} deep"),
            _ => format!("from {} to {}", self.show.elevation(upper), self.show.elevation(lower)),
        }
    }
}

/// `1.22–1.36`.
fn ends(band: Band, show: &Show) -> String {
    let [low, high] = band.ends.map(|end| show.ratio(end));
    format!("{low}–{high}")
}

fn stretch(told: &Told, place: &Place<'_>) -> ToldText {
    let show = place.show;
    match told {
        Told::Wide { ends: at, ratio, whole } => ToldText {
            word: "wide",
            title: format!("Estimate: wide {}", place.stretch(*at)),
            sentence: format!(
                "{}: {} times the volume of its nominal bore ({}), this shaft {} in all: over-break or a cavity.",
                capital(&place.stretch(*at)),
                show.ratio(ratio.mean),
                ends(*ratio, show),
                show.ratio(*whole)
            ),
            do_now: "Compare with what the tool runs met there, and check the tickets and the soundings at both ends.",
        },
        Told::TookLess { ends: at, ratio, whole, height, at_once } => ToldText {
            word: "took_less",
            title: format!("Estimate: took less {}", place.stretch(*at)),
            sentence: format!(
                "{}: {} times the volume of its nominal bore ({}), less than this shaft’s {} in all. A volume does not say \
                 where in it the concrete is missing: all of it in one place would be {} of the area across a height of {}.",
                capital(&place.stretch(*at)),
                show.ratio(ratio.mean),
                ends(*ratio, show),
                show.ratio(*whole),
                share(*at_once, show),
                show.length(*height)
            ),
            do_now: "Compare with the ground met there, and check the tickets and the soundings at both ends; the engineer \
                     decides whether it is tested.",
        },
        Told::NeckPossible { ends: at, ratio, whole, height, share, probability } => ToldText {
            word: "neck_possible",
            title: format!("Estimate: a neck is possible {}", place.stretch(*at)),
            sentence: format!(
                "{}: {} ({}) against this shaft’s {}; a neck is possible. Probability that somewhere a stretch of {} has \
                 lost more than {} of its area: {}.",
                capital(&place.stretch(*at)),
                show.ratio(ratio.mean),
                ends(*ratio, show),
                show.ratio(*whole),
                show.length(*height),
                whole_percent(share.to_part(), show),
                show.ratio(*probability)
            ),
            do_now: "Sound again and check the tickets; tell the engineer, who decides whether it is tested.",
        },
    }
}

/// `38 %`, or more than there is.
fn share(part: f64, show: &Show) -> String {
    if part < 1.0 { whole_percent(part, show) } else { "more than all".to_owned() }
}

/// `A loss of area could have stayed hidden in these readings: across a height of 3.0 ft up to 38 %, from …`.
fn blind_spots(shape: &Shape, place: &Place<'_>) -> String {
    let show = place.show;
    let worst: Vec<_> = shape
        .blind_spots
        .iter()
        .filter_map(|blind_spots| Some((blind_spots.height, blind_spots.worst()?)))
        .collect();
    if worst.is_empty() {
        return String::new();
    }
    // Where even all of it hides over a height, it does so over any lower one.
    let all = worst.iter().rposition(|(_, spot)| spot.loss >= 1.0);
    let told = worst.iter().skip(all.unwrap_or(0)).map(|(height, spot)| {
        let at = place.stretch([spot.top, spot.bottom]);
        match spot.loss {
            loss if loss >= 1.0 => {
                format!("across a height of {} or less even all of it, as {at}", show.length(*height))
            }
            loss => format!(
                "across a height of {} up to {}, {at}",
                show.length(*height),
                whole_percent(loss, show)
            ),
        }
    });
    let told = told.collect::<Vec<_>>().join("; ");
    let hidden = format!("A loss of area could have stayed hidden in these readings: {told}.");
    match worst.iter().any(|(_, spot)| spot.loss < 1.0) {
        true => format!(
            "{hidden} A larger one would have shown with a probability of {}.",
            whole_percent(POWER, show)
        ),
        false => hidden,
    }
}

/// While concrete comes a sounding helps; afterwards only a test of the shaft itself does.
fn blind_do(shape: &Shape) -> &'static str {
    let known = shape.blind_spots.iter().any(|blind_spots| blind_spots.worst().is_some());
    match (known, &shape.next) {
        (false, _) => "",
        (true, Some(_)) => {
            "That is no sign of one: it says how finely the concrete was sounded. Sound after every load, and within a \
             large one."
        }
        (true, None) => {
            "That is no sign of one: it says how finely the concrete was sounded. Whether one is there only a test of the \
             finished shaft can show, through its tubes or from its top; the engineer decides. On the next shaft more \
             soundings leave less room."
        }
    }
}

fn next(shape: &Shape, place: &Place<'_>) -> String {
    let Some(next) = &shape.next else { return String::new() };
    let (sounding, show) = (&next.sounding, place.show);
    let Some(best) = sounding.best.filter(|best| best.loss < 1.0) else { return String::new() };
    let hides = |loss: f64| match loss {
        loss if loss >= 1.0 => "all of it".to_owned(),
        loss => whole_percent(loss, show),
    };
    format!(
        "Sound also when {} of the next load is in: {}, the mean loss of area over {} that could hide shrinks from {} to \
         {}.",
        part(best.part),
        place.stretch([sounding.end, sounding.start]),
        show.length(next.height),
        hides(sounding.without),
        hides(best.loss)
    )
}

fn part(part: f64) -> &'static str {
    match part {
        part if part < 0.4 => "a quarter",
        part if part < 0.6 => "half",
        _ => "three quarters",
    }
}

/// What is doubtful about the readings; `None` for what the volume curve says already.
fn doubt(issue: Issue, place: &Place<'_>) -> Option<Notice> {
    let pour = place.assessment.reckoning.pour.as_ref()?;
    let when = |at: usize| pour.soundings.get(at).map(|sounding| place.show.moment(sounding.at));
    let chance = |probability: f64| place.show.ratio(probability);
    match issue {
        Issue::LeftOut { .. } | Issue::SurfaceFell { .. } | Issue::TotalFell { .. } => None,
        Issue::Misread { at, probability } => Some(Notice::new(
            "misread",
            format!("The sounding of {} may be misread: probability {}.", when(at)?, chance(probability)),
            "The reading is kept as it was written; the estimate of the shape believes it less.",
            "Look at the tape and the reference, sound again, and correct the entry if it was wrong.",
        )),
        Issue::WrongTicket { at, probability } => Some(Notice::new(
            "wrong_ticket",
            format!(
                "A load that went in before {} may not be what its ticket says: probability {}.",
                when(at)?,
                chance(probability)
            ),
            "The ticket is kept as it was written; the estimate of the shape believes it less.",
            "Compare the ticket with the batch record and with what stayed in the drum, and correct the entry if it was \
             wrong.",
        )),
    }
}

/// `34 %`.
fn whole_percent(part: f64, show: &Show) -> String {
    format!("{} %", show.plain(part * 100.0, 0))
}

/// The heights of a loss that this job thinks in.
pub fn heights(show: &Show) -> [Length; 3] {
    assess::shape::heights(show.style().system == quantity::System::Us)
}
