//! The fluid: whether density and sand of a sample fit together, and what its sand would leave on the base.

use super::Hole;
use crate::assumed;
use crate::picture::Picture;
use calc::estimate::Estimate;
use calc::fluid_density::{Pair, PairErrors, PairFit, Parts, compare, quartz};
use calc::settling::{FluidStretch, SandSample, Settled, settled_thickness};
use quantity::{Density, Depth, Length};
use record::choices::FluidStage;
use record::kinds::FluidTest;
use record::{EntryId, Log};

/// Density and sand of one sample.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SandPair {
    /// The test.
    pub entry: EntryId,
    /// What the sand calls for, against what was weighed.
    pub fit: PairFit,
    /// The reading is heavier or lighter than water and sand alone explain, by more than two standard
    /// errors: fines in suspension, or a reading that is wrong.
    pub apart: bool,
}

/// What the tests of a fluid tell beside their limits.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FluidReckoning {
    /// The fluid without sand: as it came from the tank, else water.
    pub clean: Option<(Density, Option<EntryId>)>,
    /// Each test that has both readings.
    pub pairs: Vec<SandPair>,
    /// Sediment on the base if all the sand of the last round came down; `None` without samples of known
    /// depth or a fluid level.
    pub settled: Option<Estimate<Length>>,
    /// The tests behind that.
    pub settled_from: Vec<EntryId>,
}

impl FluidReckoning {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>, hole: Option<&Hole>) -> Self {
        let clean = clean(log);
        let pairs = clean.map_or_else(Vec::new, |(density, _)| pairs(log, density));
        let (settled, settled_from) = hole
            .and_then(|hole| settled(log, picture, hole))
            .map_or((None, Vec::new()), |(t, e)| (Some(t), e));
        FluidReckoning { clean, pairs, settled, settled_from }
    }
}

/// The first sample without sand; water where there was none. `None` when no fluid was tested at all.
fn clean(log: &Log<'_>) -> Option<(Density, Option<EntryId>)> {
    log.each::<FluidTest>().next()?;
    let tank = log.each::<FluidTest>().find_map(|(line, test)| {
        let fresh = test.stage == FluidStage::Introduction;
        let sandless = test.sand.as_ref().is_none_or(|sand| sand.value().to_part() == 0.0);
        Some((test.density.as_ref().filter(|_| fresh && sandless)?.value(), Some(line.entry.id)))
    });
    Some(tank.unwrap_or((assumed::fluid_density(), None)))
}

fn pairs(log: &Log<'_>, clean: Density) -> Vec<SandPair> {
    let parts = Parts { clean, grains: quartz(assumed::water_density()) };
    let errors = PairErrors { density: assumed::balance_error(), sand: assumed::sand_error() };
    let fit = |(line, test): (&record::Line<'_>, &FluidTest)| {
        let (density, sand) = (test.density.as_ref()?.value(), test.sand.as_ref()?.value());
        let fit = compare(parts, Pair { density, sand }, errors).ok()?;
        let apart = fit.errors_apart().is_some_and(|errors| errors > 2.0);
        Some(SandPair { entry: line.entry.id, fit, apart })
    };
    log.each::<FluidTest>().filter_map(fit).collect()
}

/// From the last samples before concrete of known depth, by the depth below the fluid surface.
fn settled(log: &Log<'_>, picture: &Picture<'_>, hole: &Hole) -> Option<(Estimate<Length>, Vec<EntryId>)> {
    let level =
        picture.fluid.iter().rfind(|step| picture.concrete_started().is_none_or(|at| step.at <= at))?;
    let bottom = Depth::of_elevation(level.surface, hole.base.value);
    let mut from = Vec::new();
    let mut samples = Vec::new();
    for (line, test) in crate::facts::last_round(log, picture) {
        let Some((sand, depth)) = test.sand.as_ref().zip(test.depth.as_ref()) else { continue };
        let at = picture.references.elevation(depth.value(), line.at)?;
        // A sample read a little below the bottom as sounded was taken at the bottom.
        let depth = Depth::of_elevation(level.surface, at).min(bottom);
        samples.push(SandSample { depth, sand: sand.value() });
        from.push(line.entry.id);
    }
    let stretch = FluidStretch { top: Depth(Length::ZERO), bottom };
    let loose = Settled { porosity: assumed::sediment_porosity(), sand_error: assumed::sand_error() };
    let thickness = settled_thickness(&samples, stretch, loose).ok()?;
    from.push(level.entry);
    Some((thickness, from))
}
