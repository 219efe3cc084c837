//! Cage and line: where the cage hangs, its cover, how deep the line reaches, and the bottom once more.

use super::{Big, Looked, bottom, fluid, notes, of_fact, of_level, sign_of};
use record::kinds::{CageElevation, CageSet};

pub(super) fn figures(looked: &Looked<'_>) -> Vec<Big> {
    let mut all = vec![top(looked)];
    all.extend(of_fact(looked, "cover", "Cover", "cage.cover"));
    all.push(line(looked));
    all.push(Big { main: false, ..bottom::sediment(looked) });
    all.push(Big { main: false, ..bottom::sounded(looked) });
    all.extend(of_fact(looked, "clear_spacing", "Clear spacing of bars", "cage.clear_spacing"));
    all.extend(of_fact(looked, "ties", "Crossings tied", "cage.ties"));
    all.extend(fluid::last_test(looked));
    all
}

/// The top of the cage as last read, beside the plan.
pub(super) fn top(looked: &Looked<'_>) -> Big {
    let (word, label) = ("cage_top", "Top of cage");
    let facts =
        ["cage.top_deviation.set", "cage.top_deviation.after_pour", "cage.top_deviation.after_casing"];
    let sign = sign_of(looked, &facts);
    let set = looked.log.last::<CageSet>().and_then(|(line, set)| Some((line.at, set.top.as_ref()?)));
    let again = looked.log.last::<CageElevation>().map(|(line, read)| (line.at, &read.top));
    let plan = looked.assessment.picture.plan.as_ref().and_then(|plan| plan.cage);
    let plan = plan.and_then(|(_, cage)| cage.top.as_ref());
    let planned = plan.map_or_else(String::new, |top| format!("plan {}", top.shown()));
    match set.into_iter().chain(again).max_by_key(|(at, _)| *at) {
        Some((at, level)) => {
            let note = notes(&[planned, looked.show.moment(at)]);
            Big::new(word, label, &level.shown()).note(note).sign(sign).main()
        }
        None => Big::said(word, label, "not read").note(planned).sign(sign).main(),
    }
}

/// The tip of the line that was made up last.
pub(super) fn line(looked: &Looked<'_>) -> Big {
    let (word, label) = ("tip", "Tip of the line");
    let picture = &looked.assessment.picture;
    let Some(line) = picture.lines.last() else { return Big::said(word, label, "not made up yet").main() };
    let show = &looked.show;
    let sign = super::sign(looked, "line.tip_above_bottom");
    let Some(tip) = line.tip(looked.at) else {
        let off = line.off_bottom.map(|off| format!("{} off the bottom as entered", show.small(off)));
        return Big::said(word, label, "depth not entered").note(off.unwrap_or_default()).sign(sign).main();
    };
    let bottom = picture.bottom.last_sounding().map(|last| last.surface.mean.value);
    let above =
        bottom.map_or_else(String::new, |bottom| format!("{} off the bottom", show.small(tip.above(bottom))));
    let pieces = line.step(looked.at).map_or(0, |step| step.pieces);
    let pieces = if pieces > 0 { format!("{pieces} pieces") } else { String::new() };
    let note = notes(&[show.elevation(tip), above, pieces]);
    of_level(word, label, tip, looked).note(note).sign(sign).main()
}
