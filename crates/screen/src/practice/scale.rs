//! A graduated scale seen through a window, and the line at which it is read.
//!
//! The figure lies anywhere between the numbered marks, as on a real instrument; nothing prints it.

use super::paint::{Anchor, Paint};

/// A graduated scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Scale {
    /// Distance of two marks, of two longer ones, of two numbered ones.
    pub(super) steps: [f64; 3],
    /// What the scale begins and ends with.
    pub(super) ends: [f64; 2],
    /// Whether the longer marks carry the last digit of their number.
    pub(super) digits: bool,
}

/// Which way it grows and where it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Lies {
    /// Upright, growing upward, between two heights, its marks beginning at `x`.
    Up { x: f64, top: f64, bottom: f64 },
    /// Upright, growing downward.
    Down { x: f64, top: f64, bottom: f64 },
    /// Lying, growing to the right, its marks hanging from `y`.
    Right { y: f64, left: f64, right: f64 },
}

const LENGTHS: [f64; 3] = [10.0, 18.0, 28.0];

impl Scale {
    /// Where a value lies along the scale.
    pub(super) fn along(&self, value: f64, lies: Lies) -> f64 {
        let share = (value - self.ends[0]) / (self.ends[1] - self.ends[0]);
        match lies {
            Lies::Up { top, bottom, .. } => bottom - share * (bottom - top),
            Lies::Down { top, bottom, .. } => top + share * (bottom - top),
            Lies::Right { left, right, .. } => left + share * (right - left),
        }
    }

    /// Draws marks and numbers.
    pub(super) fn draw(&self, paint: &mut Paint, lies: Lies) {
        let first = (self.ends[0] / self.steps[0] - 1e-6).ceil() as i64;
        let last = (self.ends[1] / self.steps[0] + 1e-6).floor() as i64;
        for mark in first..=last {
            let value = mark as f64 * self.steps[0];
            let rank = self.rank(mark);
            self.mark(paint, (value, rank), lies);
        }
    }

    /// 0: a mark, 1: a longer one, 2: a numbered one.
    fn rank(&self, mark: i64) -> usize {
        let every = |step: f64| (step / self.steps[0]).round().max(1.0) as i64;
        match mark {
            mark if mark.rem_euclid(every(self.steps[2])) == 0 => 2,
            mark if mark.rem_euclid(every(self.steps[1])) == 0 => 1,
            _ => 0,
        }
    }

    fn mark(&self, paint: &mut Paint, (value, rank): (f64, usize), lies: Lies) {
        let at = self.along(value, lies);
        let (length, width) = (LENGTHS[rank], if rank == 2 { 2.0 } else { 1.2 });
        let number = self.number(value);
        match lies {
            Lies::Up { x, .. } | Lies::Down { x, .. } => {
                paint.line((x, at), (x + length, at), ("ink", width));
                if rank == 2 {
                    let beside = (x + length + 5.0, at + 6.0);
                    paint.classed("mark", beside, (17.0, true), (Anchor::Start, &number));
                } else if self.digits {
                    let digit = number.chars().last().map(String::from).unwrap_or_default();
                    paint.text((x + 22.0, at + 4.0), (11.0, false), Anchor::Start, &digit);
                }
            }
            Lies::Right { y, .. } => {
                paint.line((at, y), (at, y + length), ("ink", width));
                if rank == 2 {
                    paint.classed("mark", (at, y + length + 16.0), (15.0, true), (Anchor::Middle, &number));
                }
            }
        }
    }

    /// A numbered mark without places it does not need; one with digits shows them all.
    fn number(&self, value: f64) -> String {
        let whole = (value - value.round()).abs() < 1e-6;
        if whole && (!self.digits || self.is_numbered(value)) {
            return format!("{:.0}", value.abs());
        }
        format!("{value:.1}")
    }

    fn is_numbered(&self, value: f64) -> bool {
        self.rank((value / self.steps[0]).round() as i64) == 2
    }
}
