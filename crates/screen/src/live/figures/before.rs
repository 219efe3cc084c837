//! Before drilling: what the hole should become.

use super::{Big, Looked, ahead, of_fact};

pub(super) fn figures(looked: &Looked<'_>) -> Vec<Big> {
    let show = &looked.show;
    let Some(plan) = &looked.assessment.picture.plan else {
        return vec![Big::said("plan", "Plan", "not entered").note("enter what the drawings say").main()];
    };
    let mut all = vec![
        Big::new("planned_depth", "Planned depth", &show.length(plan.depth()))
            .zero(super::planned_zero(plan))
            .main(),
    ];
    all.push(Big::new("planned_tip", "Planned tip", &show.elevation(plan.tip)).main());
    all.extend(
        plan.diameter.map(|size| Big::new("planned_diameter", "Least diameter", &show.small(size)).main()),
    );
    let theoretical = plan.bore.as_ref().ok().and_then(|bore| bore.volume_below(plan.top).ok());
    all.extend(theoretical.map(|volume| {
        Big::new("planned_volume", "Theoretical volume", &show.volume(volume)).note("top to tip, as planned")
    }));
    all.extend(ahead::to_order(looked));
    all.push(reference(looked));
    all.extend(of_fact(looked, "stake_out", "Stake-out checked", "stakeout.checked"));
    all.extend(of_fact(looked, "utilities", "Utilities cleared", "utilities.cleared"));
    all
}

fn reference(looked: &Looked<'_>) -> Big {
    let references = &looked.assessment.picture.references;
    match references.in_force(None, looked.at).filter(|_| references.is_set()) {
        Some((level, _)) => Big::new("reference", "Reference", &looked.show.elevation(level))
            .note(references.name(looked.at).unwrap_or_default()),
        None => Big::said("reference", "Reference", "not set")
            .note("depths are taken from the ground of the plan"),
    }
}
