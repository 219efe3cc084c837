//! At the bottom: where it is, what lies on it, whether it was accepted.

use super::{Big, Looked, fluid, notes, of_level, sign, sign_of};
use assess::picture::BottomSounding;

pub(super) fn figures(looked: &Looked<'_>) -> Vec<Big> {
    let mut all = vec![sounded(looked), sediment(looked)];
    all.extend(beside_plan(looked));
    all.extend(fluid::last_test(looked));
    all.extend(fluid::level(looked));
    all.push(accepted(looked));
    all
}

/// The bottom as last sounded; as drilled where nobody sounded.
pub(super) fn sounded(looked: &Looked<'_>) -> Big {
    let (word, label) = ("bottom", "Bottom");
    let picture = &looked.assessment.picture;
    let show = &looked.show;
    if let Some(last) = picture.bottom.last_sounding() {
        let mean = last.surface.mean;
        let error = show.bare(show.length(mean.standard_error));
        let note = notes(&[show.elevation(mean.value), points(last), show.moment(last.at)]);
        return of_level(word, label, mean.value, looked)
            .uncertain(&error)
            .note(note)
            .sign(sign(looked, "bottom.sounded"))
            .main();
    }
    match picture.bottom.reached {
        Some((at, level, _)) => {
            let note = format!("{}, as drilled, {}; not sounded yet", show.elevation(level), show.moment(at));
            of_level(word, label, level, looked).note(note).sign(sign(looked, "bottom.sounded")).main()
        }
        None => Big::said(word, label, "not sounded yet").sign(sign(looked, "bottom.sounded")).main(),
    }
}

fn points(sounding: &BottomSounding) -> String {
    match sounding.points.len() {
        0 | 1 => "one point".to_owned(),
        count => format!("mean of {count} points"),
    }
}

/// What lies on the bottom: the worst point, and the mean.
pub(super) fn sediment(looked: &Looked<'_>) -> Big {
    let (word, label) = ("sediment", "Sediment, worst point");
    let sign = sign_of(looked, &["bottom.sediment.max", "bottom.sediment.mean", "bottom.sediment.half_area"]);
    let Some(base) = &looked.assessment.reckoning.base else {
        return Big::said(word, label, "not measured").sign(sign).main();
    };
    let show = &looked.show;
    let note = format!("mean {}, {}", show.small(base.mean), show.moment(base.at));
    Big::new(word, label, &show.small(base.worst)).note(note).sign(sign).main()
}

/// How far the bottom lies from the planned tip.
fn beside_plan(looked: &Looked<'_>) -> Option<Big> {
    let picture = &looked.assessment.picture;
    let plan = picture.plan.as_ref()?;
    let level = picture.bottom.last_sounding().map(|last| last.surface.mean.value);
    let level = level.or(picture.bottom.reached.map(|(_, level, _)| level))?;
    let show = &looked.show;
    let (label, by) = match plan.tip < level {
        true => ("Above the planned tip", level.above(plan.tip)),
        false => ("Below the planned tip", plan.tip.above(level)),
    };
    let note = format!("planned tip {}", show.elevation(plan.tip));
    Some(
        Big::new("beside_plan", label, &show.length(by))
            .note(note)
            .sign(sign(looked, "bottom.tip_above_plan")),
    )
}

fn accepted(looked: &Looked<'_>) -> Big {
    let (word, label) = ("accepted", "Bottom accepted");
    let sign = sign(looked, "bottom.accepted");
    match looked.assessment.picture.bottom.accepted.last() {
        Some((at, _, by)) => {
            Big::said(word, label, looked.show.moment(*at)).note(format!("by {by}")).sign(sign)
        }
        None => Big::said(word, label, "not yet").sign(sign),
    }
}
