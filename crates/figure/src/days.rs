//! A time axis over one day or several, with the hours in which nothing happened cut out.
//!
//! A shaft drilled on Monday and poured on Wednesday has two busy days and a silent night between;
//! drawn to one scale the busy hours would be unreadable, so long silences are cut and say how long they were.
//!
//! Words: *stretch* = a part of the axis drawn to scale; *cut* = the silence between two stretches.
//! Units: seconds since 1970 for times, points for places.

use crate::axis::Tick;
use quantity::{InOrder, Moment};

/// Silences longer than this are cut.
const LONGEST_SILENCE_SECONDS: i64 = 3 * 3600;
/// Room for the mark of a cut.
const CUT_WIDTH: f64 = 26.0;
/// Silence kept before the first and after the last event of a stretch.
const EDGE_SECONDS: i64 = 10 * 60;

/// One stretch: seconds and points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stretch {
    pub(crate) from: i64,
    pub(crate) to: i64,
    pub(crate) start: f64,
    pub(crate) end: f64,
}

/// The whole axis. Invariant: at least one stretch, in order of time.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Days {
    pub(crate) stretches: Vec<Stretch>,
    offset_seconds: i32,
}

impl Days {
    /// Lays the moments out between two places; nothing without a moment.
    pub(crate) fn lay_out(moments: &[Moment], places: (f64, f64)) -> Option<Self> {
        let mut seconds: Vec<i64> = moments.iter().map(|moment| moment.seconds()).collect();
        seconds.put_in_order();
        let offset_seconds = moments.first()?.offset_seconds();
        let spans = stretched(&busy_spans(&seconds));
        let room = places.1 - places.0;
        let cut = CUT_WIDTH.min(room * 0.3 / spans.len() as f64);
        let cuts = cut * (spans.len() - 1) as f64;
        let total: i64 = spans.iter().map(|span| span.1 - span.0).sum();
        let floor = (room - cuts) * 0.25 / spans.len() as f64;
        let rest = (room - cuts) * 0.75;
        let mut start = places.0;
        let mut stretches = Vec::new();
        for (from, to) in spans {
            let width = floor + rest * (to - from) as f64 / total as f64;
            stretches.push(Stretch { from, to, start, end: start + width });
            start += width + cut;
        }
        Some(Days { stretches, offset_seconds })
    }

    /// The place of a moment; one that falls into a cut stands at the nearer edge of it.
    pub(crate) fn at(&self, moment: Moment) -> f64 {
        let second = moment.seconds();
        let holding = self.stretches.iter().find(|s| second <= s.to).or(self.stretches.last());
        let s = holding.expect("at least one stretch");
        let part = (second - s.from).max(0) as f64 / (s.to - s.from) as f64;
        s.start + part.min(1.0) * (s.end - s.start)
    }

    /// Full hours, or parts of one when there is room, at least `apart` points from each other.
    pub(crate) fn ticks(&self, apart: f64) -> Vec<Tick> {
        let widest = self.stretches.iter().map(seconds_per_point).fold(0.0, f64::max);
        let steps = [300, 600, 900, 1800, 3600, 7200, 10_800, 21_600, 43_200, 86_400];
        let step = steps.into_iter().find(|&step| step as f64 >= apart * widest).unwrap_or(604_800);
        self.stretches.iter().flat_map(|stretch| self.ticks_in(stretch, step, apart)).collect()
    }

    /// The first moment of each stretch, for the date written there.
    pub(crate) fn beginnings(&self) -> Vec<(Moment, Stretch)> {
        self.stretches.iter().map(|s| (Moment::at(s.from, self.offset_seconds), *s)).collect()
    }

    /// The cuts: where each begins and ends, and how long it was, `14 h 20 min`.
    pub(crate) fn cuts(&self) -> Vec<(f64, f64, String)> {
        self.stretches
            .windows(2)
            .map(|pair| (pair[0].end, pair[1].start, duration(pair[1].from - pair[0].to)))
            .collect()
    }

    fn ticks_in(&self, stretch: &Stretch, step: i64, apart: f64) -> Vec<Tick> {
        let local = |second: i64| second + i64::from(self.offset_seconds);
        let first = local(stretch.from).div_euclid(step) * step - i64::from(self.offset_seconds);
        let mut ticks = Vec::new();
        let mut second = first;
        while second <= stretch.to && ticks.len() < 400 {
            if stretch.from <= second {
                let moment = Moment::at(second, self.offset_seconds);
                ticks.push(Tick { at: self.at(moment), label: moment.clock() });
            }
            second += step;
        }
        if ticks.is_empty() && stretch.end - stretch.start > apart {
            let moment = Moment::at((stretch.from + stretch.to) / 2, self.offset_seconds);
            ticks.push(Tick { at: self.at(moment), label: moment.clock() });
        }
        ticks
    }
}

/// `14 h 20 min`, `3 d 2 h`, `25 min`.
pub(crate) fn duration(seconds: i64) -> String {
    let minutes = (seconds + 30) / 60;
    match (minutes / 1440, minutes / 60 % 24, minutes % 60) {
        (0, 0, minutes) => format!("{minutes} min"),
        (0, hours, 0) => format!("{hours} h"),
        (0, hours, minutes) => format!("{hours} h {minutes} min"),
        (days, 0, _) => format!("{days} d"),
        (days, hours, _) => format!("{days} d {hours} h"),
    }
}

fn seconds_per_point(stretch: &Stretch) -> f64 {
    (stretch.to - stretch.from) as f64 / (stretch.end - stretch.start)
}

/// Runs of moments without a long silence.
fn busy_spans(seconds: &[i64]) -> Vec<(i64, i64)> {
    let mut spans: Vec<(i64, i64)> = Vec::new();
    for &second in seconds {
        match spans.last_mut() {
            Some(span) if second - span.1 <= LONGEST_SILENCE_SECONDS => span.1 = second,
            _ => spans.push((second, second)),
        }
    }
    spans
}

/// A little silence at both edges, so that no mark stands on the frame.
fn stretched(spans: &[(i64, i64)]) -> Vec<(i64, i64)> {
    spans.iter().map(|&(from, to)| (from - EDGE_SECONDS, to + EDGE_SECONDS)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn moment(text: &str) -> Moment {
        Moment::parse(text).expect("a moment")
    }

    #[test]
    fn a_night_is_cut_out_and_says_how_long_it_was() {
        let moments = ["2031-05-04T07:00:00-06:00", "2031-05-04T09:00:00-06:00", "2031-05-05T07:10:00-06:00"];
        let days = Days::lay_out(&moments.map(moment), (0.0, 500.0)).expect("moments");
        assert_eq!(days.stretches.len(), 2);
        assert_eq!(days.cuts()[0].2, "21 h 50 min");
        let places: Vec<_> = moments.map(|text| days.at(moment(text))).into();
        assert!(places.windows(2).all(|pair| pair[0] < pair[1]), "{places:?}");
        assert!(days.ticks(30.0).iter().any(|tick| tick.label == "08:00"));
    }

    #[test]
    fn no_moment_gives_no_axis() {
        assert_eq!(Days::lay_out(&[], (0.0, 500.0)), None);
    }
}
