//! What a shaft is taken to be like before its readings speak.
//!
//! Never: hold a value without saying where it comes from.

use quantity::{Length, Volume};

use super::ProfileError;

/// How calm the ground is held to be, as one of a few possibilities.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Factor on the spread of the gentle shape. How even a stratum is says nothing of how the next one differs.
    pub factor: f64,
    /// How probable it is, before the readings.
    pub weight: f64,
}

/// A kind of neck or cavity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shape {
    /// Change of the ratio: negative for a neck.
    pub change: f64,
    /// Standard deviation of that change.
    pub spread: f64,
    /// How many such things a metre of shaft holds, before the readings.
    pub per_meter: f64,
}

/// What a shaft is taken to be like before its readings speak.
///
/// The defaults are judgement, tried on made-up shafts (decision 0013 tells on which); the expected ratio of 1.08 is the middle of what practitioners
/// state for over-consumption [COMMON-PRACTICE]. A job that has finished shafts should learn from
/// them: [`Prior::learned`].
#[derive(Debug, Clone, PartialEq)]
pub struct Prior {
    /// Expected ratio of a shaft.
    pub ratio: f64,
    /// Spread of that from shaft to shaft. Judgement, tried on made-up shafts.
    pub shaft_spread: f64,
    /// Spread between the strata of a shaft. Judgement, tried on made-up shafts.
    pub stratum_spread: f64,
    /// Spread of the gentle shape within a stratum. Judgement, tried on made-up shafts.
    pub gentle_spread: f64,
    /// Length over which the gentle shape forgets itself: its correlation falls to 1/e. Judgement.
    pub gentle_length: Length,
    /// How calm the ground may be. Judgement: half as wild to twice as wild as the spreads say.
    pub scales: Vec<Scale>,
    /// Necks and cavities. Judgement: a neck each 40 m, more frequent than a good job has them, so that one is looked
    /// for; a cavity each 140 m and a large one each kilometre, as frequent as they are believed to be, because each
    /// of them is concrete that has to be ordered.
    pub shapes: Vec<Shape>,
    /// Their heights, each as probable as the others. Judgement.
    pub heights: Vec<Length>,
    /// Standard error that all soundings share: a reference point that is off. Judgement.
    pub shared_tape: Length,
    /// Standard error of what a part-emptied truck has discharged, as a part of its load. Judgement.
    pub part_load_error: f64,
    /// Standard error of a volume judged by eye: what is left in a truck that goes home, or runs over the top. Judgement.
    pub judged_error: Volume,
    /// Probability that a sounding is misread. Judgement.
    pub misread: f64,
    /// Standard deviation of a misreading. Judgement: a foot or two.
    pub misread_by: Length,
    /// Probability that a load is not what its ticket says. Judgement.
    pub wrong_ticket: f64,
    /// Standard deviation of a wrong ticket, as a part of the load. Judgement.
    pub wrong_ticket_by: f64,
}

impl Default for Prior {
    fn default() -> Self {
        let scale = |factor, weight| Scale { factor, weight };
        let shape = |change, spread, per_meter| Shape { change, spread, per_meter };
        Prior {
            ratio: 1.08,
            shaft_spread: 0.04,
            stratum_spread: 0.057,
            gentle_spread: 0.058,
            gentle_length: Length::meters(2.0),
            scales: vec![scale(0.5, 0.3), scale(1.0, 0.4), scale(2.0, 0.3)],
            shapes: vec![shape(-0.35, 0.20, 0.025), shape(0.40, 0.30, 0.007), shape(1.00, 0.60, 0.001)],
            heights: vec![Length::meters(1.0), Length::meters(2.5)],
            shared_tape: Length::ZERO,
            part_load_error: 0.03,
            judged_error: Volume::cubic_meters(0.1),
            misread: 0.002,
            misread_by: Length::meters(0.6),
            wrong_ticket: 0.0003,
            wrong_ticket_by: 0.3,
        }
    }
}

impl Prior {
    /// Says whether every value makes sense.
    pub(super) fn check(&self) -> Result<(), ProfileError> {
        let not_negative = [
            self.shaft_spread,
            self.stratum_spread,
            self.gentle_spread,
            self.shared_tape.to_meters(),
            self.part_load_error,
            self.judged_error.to_cubic_meters(),
            self.misread_by.to_meters(),
            self.wrong_ticket_by,
        ];
        let probabilities = [self.misread, self.wrong_ticket];
        let sound = self.ratio.is_finite()
            && self.ratio > 0.0
            && self.gentle_length > Length::ZERO
            && not_negative.iter().all(|value| value.is_finite() && *value >= 0.0)
            && probabilities.iter().all(|value| (0.0..1.0).contains(value))
            && self.scales.iter().any(|scale| scale.weight > 0.0)
            && self.scales.iter().all(|scale| scale.weight >= 0.0 && scale.factor > 0.0)
            && self.shapes.iter().all(|shape| shape.spread > 0.0 && shape.per_meter > 0.0)
            && self.heights.iter().all(|height| *height >= Length::meters(0.1));
        if sound { Ok(()) } else { Err(ProfileError::Prior) }
    }
}
