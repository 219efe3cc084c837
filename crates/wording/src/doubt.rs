//! What the formulas found odd, each with where to look again.
//!
//! Never: call a doubt a finding; no criterion stands behind it.

use crate::notice::Notice;
use crate::show::Show;
use crate::{curve, lift, sand, slump};
use assess::{Assessment, Doubt, Odd};
use calc::payment::PaymentIssue;
use record::{EntryId, Log};

/// A doubt, or several of one kind, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DoubtText {
    /// The entries to look at again.
    pub evidence: Vec<EntryId>,
    /// What is odd.
    pub notice: Notice,
}

/// Every doubt of an assessment, in the order of the work. Tests whose sand does not explain their density are told
/// together; sand that is left in the fluid matters until concrete comes.
pub fn doubts(assessment: &Assessment<'_>, log: &Log<'_>, show: &Show) -> Vec<DoubtText> {
    let poured = assessment.picture.concrete_started().is_some();
    let open = |doubt: &&Doubt| !poured || !matches!(doubt.odd, Odd::SandLeft(_));
    let (apart, others): (Vec<&Doubt>, Vec<&Doubt>) = assessment
        .issues
        .iter()
        .filter(open)
        .partition(|doubt| matches!(doubt.odd, Odd::SandAgainstDensity(_)));
    let one = |doubt: &Doubt| {
        let notice = self::doubt(doubt, assessment, log, show)?;
        Some(DoubtText { evidence: doubt.evidence.clone(), notice })
    };
    let together = match apart.as_slice() {
        [] => None,
        [only] => one(only),
        many => Some(tests_apart(many)),
    };
    together.into_iter().chain(others.into_iter().filter_map(one)).collect()
}

fn tests_apart(many: &[&Doubt]) -> DoubtText {
    let evidence: Vec<EntryId> = many.iter().flat_map(|doubt| doubt.evidence.iter().copied()).collect();
    let what = format!("{} fluid tests find a density that their sand does not explain.", many.len());
    let notice = Notice::new(
        "density_against_sand",
        what,
        "Every reading is kept and judged as it was written.",
        "Check the balance in water and the sand tube. Fines in suspension would explain a heavier fluid too.",
    );
    DoubtText { evidence, notice }
}

/// A doubt as a notice; `None` where the reckoning it is about is gone.
pub fn doubt(doubt: &Doubt, assessment: &Assessment<'_>, log: &Log<'_>, show: &Show) -> Option<Notice> {
    let reckoning = &assessment.reckoning;
    Some(match &doubt.odd {
        Odd::Curve(issue) => curve::curve_issue(*issue, reckoning.pour.as_ref()?, show),
        Odd::Slump(issue) => slump::slump_issue(*issue, reckoning.slump.as_ref()?, show),
        Odd::SandAgainstDensity(_) => {
            let entry = doubt.evidence.first()?;
            let pair = reckoning.fluid.pairs.iter().find(|pair| pair.entry == *entry)?;
            sand::sand_pair(pair, log, show)?
        }
        Odd::LiftUnexplained { lift: number, .. } => {
            let text = lift::lift(*number, reckoning.lifts.get(number.checked_sub(1)?)?, log, show);
            let what = format!("{}: {}", text.heading, text.sentence);
            Notice::new("lift_unexplained", what, "Every reading is kept as written.", &text.do_now)
        }
        Odd::SoundedDuringDischarge => Notice::new(
            "sounded_during_discharge",
            "The surface was sounded while a load was going in, and nobody wrote how much of it was in."
                .to_owned(),
            "The reading is kept and used for the embedment; the volume curve leaves it out.",
            "Correct the sounding with the load it was read after and the share that was in.",
        ),
        Odd::SandLeft(thickness) => Notice::new(
            "sand_left",
            format!(
                "The sand left in the fluid would make {} of sediment if all of it came down.",
                show.small(thickness.value)
            ),
            "It is no measurement; the last samples say how much sand there was, not where it is.",
            "Sound the bottom again right before concrete.",
        ),
        Odd::Runs(issue) => runs(*issue, show),
    })
}

fn runs(issue: PaymentIssue, show: &Show) -> Notice {
    let what = match issue {
        PaymentIssue::Overlap { top, bottom } => {
            format!("Two tool runs overlap between {} and {}.", show.depth(top), show.depth(bottom))
        }
        PaymentIssue::Gap { top, bottom } => {
            format!("No tool run covers the depth between {} and {}.", show.depth(top), show.depth(bottom))
        }
    };
    let next = "Look at the depths of the runs, and correct the one that is wrong.";
    Notice::new("tool_runs", what, "Every run is kept as written.", next)
}
