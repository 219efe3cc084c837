//! What has been seen of the pour by now.
//!
//! Words: *under way* = batched or arrived, and not discharged yet.
//! Units: seconds after now; before now is below zero.
//! Never: guess a time that nobody wrote down.

use super::DayError;
use crate::waiting::LoadMoments;
use quantity::{Moment, Span};

/// The pour by now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoFar<'a> {
    /// The time the question is asked; before the first load, when the first truck is to be batched.
    pub now: Moment,
    /// The loads batched by now, in the order of the pour, refused ones left out.
    pub loads: &'a [LoadMoments],
    /// How long taking off each section took today.
    pub sections: &'a [Span],
    /// How long each lift of the casing took today.
    pub lifts: &'a [Span],
}

/// Where a load under way is, seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum UnderWay {
    OnTheRoad { batched: f64 },
    OnSite { arrived: f64 },
    Discharging { since: f64 },
}

impl SoFar<'_> {
    /// A pour that begins at a moment.
    pub fn nothing(starts: Moment) -> Self {
        SoFar { now: starts, loads: &[], sections: &[], lifts: &[] }
    }

    /// Seconds from now.
    pub(super) fn after(&self, moment: Moment) -> f64 {
        (moment.seconds() - self.now.seconds()) as f64
    }

    pub(super) fn check(&self) -> Result<(), DayError> {
        for (load, of) in self.loads.iter().enumerate() {
            let times = [of.batched, of.arrived, of.discharge_started, of.discharge_finished, Some(self.now)];
            let known: Vec<Moment> = times.into_iter().flatten().collect();
            if known.windows(2).any(|pair| pair[1].seconds() < pair[0].seconds()) {
                return Err(DayError::Backwards { load });
            }
        }
        Ok(())
    }

    /// How long each haul took that is over.
    pub(super) fn hauls(&self) -> Vec<Span> {
        self.spans(|load| Some((load.batched?, load.arrived?)))
    }

    /// How long each discharge took that is over.
    pub(super) fn discharges(&self) -> Vec<Span> {
        self.spans(|load| Some((load.discharge_started?, load.discharge_finished?)))
    }

    fn spans(&self, read: impl Fn(&LoadMoments) -> Option<(Moment, Moment)>) -> Vec<Span> {
        let ends = self.loads.iter().filter_map(read);
        ends.map(|(from, until)| Span::minutes(until.minutes_since(from))).collect()
    }

    /// When the oldest concrete was batched.
    pub(super) fn oldest(&self) -> Option<f64> {
        let batched = self.loads.iter().filter_map(|load| load.batched);
        batched.map(|moment| self.after(moment)).reduce(f64::min)
    }

    /// When the plant batched last.
    pub(super) fn batched_last(&self) -> Option<f64> {
        let batched = self.loads.iter().filter_map(|load| load.batched);
        batched.map(|moment| self.after(moment)).reduce(f64::max)
    }

    /// Ends of the discharges that are over, in order of time.
    pub(super) fn ended(&self) -> Vec<f64> {
        let ended = self.loads.iter().filter_map(|load| load.discharge_finished);
        let mut ended: Vec<f64> = ended.map(|moment| self.after(moment)).collect();
        ended.sort_by(f64::total_cmp);
        ended
    }

    /// The loads under way: those that discharge first, then the others in their order.
    ///
    /// # Errors
    /// When a load has neither a batch time nor an arrival.
    pub(super) fn under_way(&self) -> Result<Vec<UnderWay>, DayError> {
        let loads = self.loads.iter().filter(|load| load.discharge_finished.is_none());
        let mut places: Vec<UnderWay> = loads
            .map(|load| self.place_of(load).ok_or(DayError::NoBatchTime))
            .collect::<Result<_, DayError>>()?;
        places.sort_by_key(|place| !matches!(place, UnderWay::Discharging { .. }));
        Ok(places)
    }

    fn place_of(&self, load: &LoadMoments) -> Option<UnderWay> {
        let discharging = load.discharge_started.map(|at| UnderWay::Discharging { since: self.after(at) });
        let on_site = load.arrived.map(|at| UnderWay::OnSite { arrived: self.after(at) });
        let on_the_road = load.batched.map(|at| UnderWay::OnTheRoad { batched: self.after(at) });
        discharging.or(on_site).or(on_the_road)
    }
}
