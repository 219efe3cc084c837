//! Keeps numbers out of a drawing that no site can have measured.
//!
//! One value that is none, or a depth of a million kilometres, would push everything else off the page.
//! Such values are left out before anything is laid out, and the drawing says how many there were.
//!
//! Units: SI. Never: replace a value by another.

use crate::axis::known;
use crate::base_plan::BasePlan;
use crate::cage_section::CageSection;
use crate::fluid_tests::FluidTests;
use crate::position::Position;
use crate::profile::ProfileSheet;
use crate::section::Section;
use crate::slump::SlumpSheet;
use crate::time_depth::{AtDepth, TimeDepth};
use crate::volume_curve::VolumeCurve;

/// Counts what is left out.
#[derive(Default)]
struct Sieve {
    dropped: usize,
}

impl Sieve {
    fn maybe(&mut self, value: &mut Option<f64>) {
        let kept = known(*value);
        self.dropped += usize::from(kept.is_none() && value.is_some());
        *value = kept;
    }

    fn each(&mut self, values: &mut [&mut Option<f64>]) {
        for value in values {
            self.maybe(value);
        }
    }

    /// A plain number without which the thing cannot be drawn at all; zero draws nothing.
    fn plain(&mut self, value: &mut f64) {
        if known(Some(*value)).is_none() {
            self.dropped += 1;
            *value = 0.0;
        }
    }

    /// Drops the items of which one of the numbers is unusable.
    fn items<T, const N: usize>(&mut self, items: &mut Vec<T>, numbers: impl Fn(&T) -> [f64; N]) {
        let before = items.len();
        items.retain(|item| numbers(item).into_iter().all(|n| known(Some(n)).is_some()));
        self.dropped += before - items.len();
    }

    /// Drops the whole when one of its numbers is unusable.
    fn whole<T, const N: usize>(&mut self, item: &mut Option<T>, numbers: impl Fn(&T) -> [f64; N]) {
        let bad =
            item.as_ref().is_some_and(|item| numbers(item).into_iter().any(|n| known(Some(n)).is_none()));
        if bad {
            *item = None;
            self.dropped += 1;
        }
    }

    fn levels(&mut self, levels: &mut Vec<AtDepth>) {
        self.items(levels, |level| [level.depth_m]);
    }

    /// Adds how many values were left out to what the drawing calls blanks.
    fn tell(self, blanks: &mut Vec<String>, words: &str) {
        if self.dropped > 0 {
            blanks.push(format!("{} {words}", self.dropped));
        }
    }
}

impl Section {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> Section {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        sieve.each(&mut [&mut data.zero_elevation_m, &mut data.ground_m]);
        sieve.items(&mut data.strata, |s| [s.top_m]);
        data.strata.iter_mut().for_each(|s| sieve.maybe(&mut s.bottom_m));
        for bores in [&mut data.planned, &mut data.drilled] {
            sieve.items(bores, |b| [b.top_m, b.bottom_m, b.top_diameter_m, b.bottom_diameter_m]);
        }
        sieve.items(&mut data.profile, |p| [p.depth_m, p.low_m, p.estimate_m, p.high_m]);
        sieve.items(&mut data.casings, |c| [c.top_m, c.shoe_m, c.diameter_m]);
        sieve.whole(&mut data.cage, |c| [c.top_m, c.bottom_m, c.diameter_m]);
        if let Some(cage) = &mut data.cage {
            sieve.maybe(&mut cage.hoop_spacing_m);
            sieve.items(&mut cage.spacers_m, |depth| [*depth]);
        }
        sieve.whole(&mut data.tremie, |t| [t.tip_m, t.top_m]);
        if let Some(tremie) = &mut data.tremie {
            sieve.maybe(&mut tremie.diameter_m);
            sieve.items(&mut tremie.joints_m, |depth| [*depth]);
        }
        sieve.whole(&mut data.sediment, |s| [s.thickness_m]);
        sieve.items(&mut data.levels, |l| [l.depth_m]);
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}

impl VolumeCurve {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> VolumeCurve {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        sieve.items(&mut data.theoretical, |p| [p.depth_m, p.volume_m3]);
        sieve.items(&mut data.placed, |p| [p.depth_m, p.volume_m3]);
        data.placed.iter_mut().for_each(|p| sieve.each(&mut [&mut p.depth_error_m, &mut p.volume_error_m3]));
        sieve.items(&mut data.intervals, |i| [i.top_m, i.bottom_m]);
        for interval in &mut data.intervals {
            sieve.each(&mut [&mut interval.ratio, &mut interval.standard_error, &mut interval.running_ratio]);
        }
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}

impl ProfileSheet {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> ProfileSheet {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        sieve.items(&mut data.strata, |s| [s.top_m]);
        data.strata.iter_mut().for_each(|s| sieve.maybe(&mut s.bottom_m));
        sieve.items(&mut data.cells, |c| {
            [c.top_m, c.bottom_m, c.ratio, c.half.0, c.half.1, c.most.0, c.most.1]
        });
        sieve.items(&mut data.read, |r| [r.top_m, r.bottom_m, r.ratio]);
        sieve.items(&mut data.soundings_m, |depth| [*depth]);
        for line in &mut data.blind_spots {
            sieve.items(&mut line.points, |p| [p.depth_m]);
            line.points.iter_mut().for_each(|p| sieve.maybe(&mut p.loss));
        }
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}

impl TimeDepth {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> TimeDepth {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        sieve.each(&mut [&mut data.zero_elevation_m, &mut data.ground_m, &mut data.planned_tip_m]);
        sieve.items(&mut data.strata, |s| [s.top_m]);
        data.strata.iter_mut().for_each(|s| sieve.maybe(&mut s.bottom_m));
        sieve.items(&mut data.runs, |run| [run.to_m]);
        for levels in [&mut data.concrete, &mut data.tremie, &mut data.fluid_level, &mut data.groundwater] {
            sieve.levels(levels);
        }
        data.casings.iter_mut().for_each(|casing| sieve.levels(&mut casing.shoe));
        data.base_soundings.iter_mut().for_each(|s| sieve.maybe(&mut s.depth_m));
        data.fluid_tests.iter_mut().for_each(|t| sieve.maybe(&mut t.depth_m));
        data.cages.iter_mut().for_each(|c| sieve.each(&mut [&mut c.top_m, &mut c.bottom_m]));
        data.flags.iter_mut().for_each(|f| sieve.maybe(&mut f.depth_m));
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}

impl BasePlan {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> BasePlan {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        sieve.each(&mut [&mut data.diameter_m, &mut data.north_degrees]);
        sieve.items(&mut data.points, |p| [p.x_m, p.y_m]);
        data.points.iter_mut().for_each(|p| sieve.maybe(&mut p.thickness_m));
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}

impl CageSection {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> CageSection {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        sieve.each(&mut [&mut data.hole_diameter_m, &mut data.casing_diameter_m, &mut data.cage_diameter_m]);
        sieve.each(&mut [&mut data.clear_spacing_m, &mut data.cover_m]);
        for value in [&mut data.bar_diameter_m, &mut data.hoop_diameter_m, &mut data.tube_diameter_m] {
            sieve.plain(value);
        }
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}

impl SlumpSheet {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> SlumpSheet {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        sieve.maybe(&mut data.limit_m);
        for load in &mut data.loads {
            sieve.items(&mut load.tests, |p| [p.slump_m]);
            sieve.items(&mut load.expected, |p| [p.slump_m]);
        }
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}

impl FluidTests {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> FluidTests {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        for panel in &mut data.panels {
            sieve.each(&mut [&mut panel.low, &mut panel.high, &mut panel.accuracy]);
            panel.points.iter_mut().for_each(|p| sieve.maybe(&mut p.value));
        }
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}

impl Position {
    /// Without the numbers that cannot be drawn.
    pub(crate) fn usable(&self) -> Position {
        let (mut data, mut sieve) = (self.clone(), Sieve::default());
        sieve.each(&mut [&mut data.planned_diameter_m, &mut data.built_diameter_m, &mut data.tolerance_m]);
        sieve.each(&mut [
            &mut data.east_m,
            &mut data.north_m,
            &mut data.plumb_limit,
            &mut data.north_degrees,
        ]);
        sieve.items(&mut data.plumb, |p| [p.depth_m, p.offset_m]);
        sieve.tell(&mut data.blanks, &self.words.unusable);
        data
    }
}
