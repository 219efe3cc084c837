//! What the formulas found odd: readings that cannot both be right, curves that fall, concrete that went
//! somewhere.
//!
//! A doubt is no finding: no criterion stands behind it. It says where to look again.
//!
//! Never: judge by a limit; drop a reading.

use crate::facts::Sources;
use calc::curve::Issue;
use calc::estimate::Estimate;
use calc::fluid_density::PairFit;
use calc::payment::PaymentIssue;
use calc::slump::SlumpIssue;
use quantity::{Length, Volume};
use record::EntryId;

/// What is odd.
#[derive(Debug, Clone, PartialEq)]
pub enum Odd {
    /// About the volume curve; `at` counts its stations.
    Curve(Issue),
    /// A sounding was taken while a load was going in, and nobody wrote how much of it was in: the curve
    /// leaves it out.
    SoundedDuringDischarge,
    /// About the slump-loss trial or the tests of the day.
    Slump(SlumpIssue),
    /// Density and sand of one sample cannot both be right, unless fines explain it.
    SandAgainstDensity(PairFit),
    /// The sand left in the column would make this much sediment if all of it came down.
    SandLeft(Estimate<Length>),
    /// The surface after a lift of a casing is not where it should be: positive, concrete went somewhere;
    /// negative, something came in.
    LiftUnexplained {
        /// Number of the lift, from 1.
        lift: usize,
        /// How much.
        volume: Estimate<Volume>,
    },
    /// Tool runs overlap or leave a gap.
    Runs(PaymentIssue),
}

/// A doubt, with the entries to look at again.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubt {
    /// What is odd.
    pub odd: Odd,
    /// The entries.
    pub evidence: Vec<EntryId>,
}

/// Every doubt, in the order of the work.
pub(crate) fn all(sources: &Sources<'_, '_>) -> Vec<Doubt> {
    let mut all = runs(sources);
    all.extend(fluid(sources));
    all.extend(slump(sources));
    all.extend(curve(sources));
    all.extend(lifts(sources));
    all
}

fn runs(sources: &Sources<'_, '_>) -> Vec<Doubt> {
    let issues = &sources.reckoning.payment.issues;
    let evidence: Vec<EntryId> = sources.picture.hole.iter().map(|step| step.entry).collect();
    issues.iter().map(|issue| Doubt { odd: Odd::Runs(*issue), evidence: evidence.clone() }).collect()
}

fn fluid(sources: &Sources<'_, '_>) -> Vec<Doubt> {
    let fluid = &sources.reckoning.fluid;
    let apart = fluid.pairs.iter().filter(|pair| pair.apart);
    let mut all: Vec<Doubt> = apart
        .map(|pair| Doubt { odd: Odd::SandAgainstDensity(pair.fit), evidence: vec![pair.entry] })
        .collect();
    let settled = fluid.settled.filter(|thickness| thickness.value > Length::ZERO);
    all.extend(
        settled
            .map(|thickness| Doubt { odd: Odd::SandLeft(thickness), evidence: fluid.settled_from.clone() }),
    );
    all
}

fn slump(sources: &Sources<'_, '_>) -> Vec<Doubt> {
    let Some(slump) = &sources.reckoning.slump else { return Vec::new() };
    let evidence = |issue: &SlumpIssue| match issue {
        SlumpIssue::TrialRises { .. } => vec![slump.mix_entry],
        SlumpIssue::TestOutsideTrial { load, .. } => {
            slump.loads.get(*load).map_or_else(Vec::new, |load| load.entries.clone())
        }
    };
    slump.issues.iter().map(|issue| Doubt { odd: Odd::Slump(*issue), evidence: evidence(issue) }).collect()
}

fn curve(sources: &Sources<'_, '_>) -> Vec<Doubt> {
    let Some(pour) = &sources.reckoning.pour else { return Vec::new() };
    let entry = |issue: &Issue| {
        let (Issue::SurfaceFell { at, .. }
        | Issue::TotalFell { at, .. }
        | Issue::TinyInterval { at, .. }
        | Issue::HardlyRose { at, .. }
        | Issue::OutsideBore { at, .. }) = issue;
        pour.soundings.get(*at).map(|sounding| sounding.entry).into_iter().collect()
    };
    let left_out = pour.left_out.iter();
    let left_out = left_out.map(|entry| Doubt { odd: Odd::SoundedDuringDischarge, evidence: vec![*entry] });
    let issues = pour.issues.iter().map(|issue| Doubt { odd: Odd::Curve(*issue), evidence: entry(issue) });
    left_out.chain(issues).collect()
}

/// Lifts whose surface stands more than two standard errors from where it should.
fn lifts(sources: &Sources<'_, '_>) -> Vec<Doubt> {
    let lifts = sources.reckoning.lifts.iter().enumerate();
    let odd = lifts.filter_map(|(index, lift)| {
        let volume = lift.unexplained?;
        let [found, error] = [volume.value, volume.standard_error].map(Volume::to_cubic_meters);
        let odd = Odd::LiftUnexplained { lift: index + 1, volume };
        (found.abs() > 2.0 * error).then(|| Doubt { odd, evidence: lift.entries.clone() })
    });
    odd.collect()
}
