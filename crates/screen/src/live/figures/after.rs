//! After the pour: where the concrete ended, what went in, the cage once more, strength.

use super::{Big, Looked, cage, of_fact, placing, pour};
use assess::Outcome;

pub(super) fn figures(looked: &Looked<'_>) -> Vec<Big> {
    let mut all = vec![open(looked), top(looked)];
    all.extend(placing::volumes(looked).into_iter().skip(1));
    all.push(Big { main: false, ..cage::top(looked) });
    all.extend(strength(looked));
    all.extend(of_fact(looked, "overpour", "Above cut-off", "placing.overpour"));
    all.extend(of_fact(looked, "duration", "Duration of the pour", "placing.duration"));
    all.extend(of_fact(looked, "position", "Off its place at the top", "asbuilt.position_offset"));
    all.extend(of_fact(looked, "plumbness", "Out of plumb", "asbuilt.plumbness"));
    all
}

/// Findings that fail and wait for a decision.
fn open(looked: &Looked<'_>) -> Big {
    let findings = &looked.assessment.findings;
    let open = findings.iter().filter(|finding| finding.is_open()).count();
    let fails = findings.iter().filter(|finding| finding.outcome() == Outcome::Fails).count();
    let note = format!("{fails} fail in all");
    Big::said("open_findings", "Findings to decide", open.to_string()).note(note).main()
}

/// The surface as last read, beside the cut-off.
fn top(looked: &Looked<'_>) -> Big {
    let big = Big { main: true, ..pour::concrete(looked) };
    let cut_off = looked.assessment.picture.plan.as_ref().map(|plan| looked.show.elevation(plan.cut_off));
    let note = cut_off.map_or_else(|| big.note.clone(), |cut_off| format!("{}; cut-off {cut_off}", big.note));
    big.note(note)
}

/// The last breaks of the set that was broken last.
fn strength(looked: &Looked<'_>) -> Option<Big> {
    let sets = &looked.assessment.reckoning.strength.sets;
    let (set, (age, _, _)) = sets.iter().filter_map(|set| Some((set, set.breaks.last()?))).next_back()?;
    let show = &looked.show;
    let mean = set.last.as_ref()?.mean;
    let age = age.map_or_else(String::new, |age| format!(" at {}", show.span(age)));
    let note = format!("set {}{age}", set.set);
    Some(
        Big::new("strength", "Strength", &show.pressure(mean))
            .note(note)
            .sign(super::sign(looked, "cylinders.strength")),
    )
}
