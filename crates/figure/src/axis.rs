//! A straight axis: values of one kind onto points of the paper, and the ticks between.
//!
//! Units: SI for values, points for places.

use crate::scale::{Scale, fixed, step};

/// Maps `from`..`to` (SI) onto `start`..`end` (points). Invariant: finite, `from` ≠ `to`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Axis {
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) start: f64,
    pub(crate) end: f64,
}

/// One tick: where it stands and what is written there.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Tick {
    pub(crate) at: f64,
    pub(crate) label: String,
}

impl Axis {
    /// An axis over a range; a range without extent is widened by one SI unit.
    pub(crate) fn new(range: (f64, f64), places: (f64, f64)) -> Self {
        let (from, to) = if (range.1 - range.0).abs() > 1e-9 { range } else { (range.0, range.0 + 1.0) };
        Axis { from, to, start: places.0, end: places.1 }
    }

    pub(crate) fn at(&self, value: f64) -> f64 {
        self.start + (value - self.from) / (self.to - self.from) * (self.end - self.start)
    }

    /// Like `at`, for a value that may lie outside the range: the nearer end.
    pub(crate) fn clamped(&self, value: f64) -> f64 {
        self.at(value.clamp(self.from.min(self.to), self.from.max(self.to)))
    }

    pub(crate) fn contains(&self, value: f64) -> bool {
        self.from.min(self.to) - 1e-9 <= value && value <= self.from.max(self.to) + 1e-9
    }

    /// Points of the paper for one SI unit.
    pub(crate) fn points_per_unit(&self) -> f64 {
        ((self.end - self.start) / (self.to - self.from)).abs()
    }

    /// Round numbers of the scale's unit at least `apart` points from each other.
    pub(crate) fn ticks(&self, scale: &Scale, apart: f64) -> Vec<Tick> {
        self.ticks_from(scale, apart, 0.0)
    }

    /// Ticks for values counted from another zero: `label = origin − value` when the axis runs down.
    pub(crate) fn elevation_ticks(&self, scale: &Scale, apart: f64, zero_elevation: f64) -> Vec<Tick> {
        let turned = Axis { from: zero_elevation - self.from, to: zero_elevation - self.to, ..*self };
        turned.ticks(scale, apart)
    }

    fn ticks_from(&self, scale: &Scale, apart: f64, origin: f64) -> Vec<Tick> {
        let (a, b) = (scale.in_unit(self.from - origin), scale.in_unit(self.to - origin));
        let (low, high) = (a.min(b), a.max(b));
        let finest = u32::from(scale.decimals) + 1;
        let (size, decimals) = step(high - low, (self.end - self.start).abs() / apart);
        // Ticks finer than a tenth of the last printed decimal would only repeat themselves.
        let (size, decimals) = (size.max(libm::pow(10.0, -f64::from(finest))), decimals.min(finest as usize));
        let first = libm::ceil(low / size - 1e-6);
        let count = (libm::floor(high / size + 1e-6) - first).clamp(-1.0, 400.0) as i32;
        (0..=count)
            .map(|k| (first + f64::from(k)) * size)
            .map(|value| Tick { at: self.at(scale.si(value) + origin), label: fixed(value, decimals) })
            .collect()
    }
}

/// The smallest range that holds every finite value; nothing when there is none.
pub(crate) fn range(values: impl IntoIterator<Item = f64>) -> Option<(f64, f64)> {
    values.into_iter().filter(|value| value.is_finite()).fold(None, |range, value| {
        let (low, high) = range.unwrap_or((value, value));
        Some((low.min(value), high.max(value)))
    })
}

/// A value as a drawing may use it: present, finite and at most 10 000 SI units either way.
pub(crate) fn known(value: Option<f64>) -> Option<f64> {
    value.filter(|value| value.is_finite() && value.abs() <= 1e4)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_stand_on_round_numbers_of_the_unit() {
        let axis = Axis::new((0.0, 3.048), (100.0, 200.0));
        let labels: Vec<_> = axis.ticks(&Scale::feet(), 18.0).into_iter().map(|t| (t.label, t.at)).collect();
        let labels: Vec<_> = labels.iter().map(|(l, at)| format!("{l}@{at:.0}")).collect();
        assert_eq!(labels, ["0@100", "2@120", "4@140", "6@160", "8@180", "10@200"]);
        let elevations = axis.elevation_ticks(&Scale::feet(), 40.0, 30.48);
        let labels: Vec<_> = elevations.iter().map(|t| format!("{}@{:.0}", t.label, t.at)).collect();
        assert_eq!(labels, ["90@200", "95@150", "100@100"]);
    }
}
