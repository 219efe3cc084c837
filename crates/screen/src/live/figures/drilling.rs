//! While the hole is made: how deep, how far to go, where the fluid stands.

use super::{Big, Looked, depth, fluid, notes, of_fact, of_level, zero};
use assess::picture::DepthStep;
use quantity::{Elevation, Length};
use record::kinds::StratumMet;

pub(super) fn figures(looked: &Looked<'_>) -> Vec<Big> {
    let mut all = vec![reached(looked)];
    all.extend(to_go(looked));
    all.extend(fluid::level(looked).map(Big::main));
    all.extend(fluid::last_test(looked));
    all.extend(ground(looked));
    all.extend(of_fact(looked, "casing_plumb", "Casing out of plumb", "casing.plumbness"));
    all
}

/// The deepest any run came.
fn deepest<'l>(looked: &'l Looked<'_>) -> Option<&'l DepthStep> {
    looked.assessment.picture.hole.iter().min_by_key(|step| step.reached)
}

fn reached(looked: &Looked<'_>) -> Big {
    let (word, label) = ("depth_reached", "Depth reached");
    let step = deepest(looked);
    let Some(step) = step else {
        return Big::said(word, label, "no run yet").main();
    };
    let note = format!("{}, {}", looked.show.elevation(step.reached), looked.show.moment(step.at));
    of_level(word, label, step.reached, looked).note(note).main()
}

/// From the deepest run to the planned tip.
fn to_go(looked: &Looked<'_>) -> Option<Big> {
    let plan = looked.assessment.picture.plan.as_ref()?;
    let show = &looked.show;
    let above = |level: Elevation| level.above(plan.tip);
    let left = deepest(looked).map_or_else(|| plan.depth(), |step| above(step.reached));
    let tip = depth(looked, plan.tip)
        .map_or_else(String::new, |tip| format!("at {} {}", show.depth(tip), zero(looked)));
    let note = notes(&[format!("planned tip {} {tip}", show.elevation(plan.tip)).trim_end().to_owned()]);
    let (label, left) = match left < Length::ZERO {
        true => ("Below the planned tip", -left),
        false => ("To the planned tip", left),
    };
    Some(Big::new("to_planned_tip", label, &show.length(left)).note(note).main())
}

/// The ground met last.
fn ground(looked: &Looked<'_>) -> Option<Big> {
    let (line, layer) = looked.log.last::<StratumMet>()?;
    let named = layer.description.clone().unwrap_or_else(|| wording::label::choice(layer.ground.word()));
    let from = format!("from {}, {}", layer.from.shown(), looked.show.moment(line.at));
    Some(Big::said("ground", "Ground met last", named).note(from))
}
