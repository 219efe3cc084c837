//! Figures of the fluid: where it stands, and its last test.

use super::{Big, Looked, Sign, notes, of_level, sign};
use quantity::{Elevation, Span};
use record::EntryId;
use record::kinds::{FluidIntroduced, FluidTest};

/// Where the fluid stands, with its head above the groundwater.
pub(super) fn level(looked: &Looked<'_>) -> Option<Big> {
    let (word, label) = ("fluid_level", "Depth to fluid");
    let Some(step) = looked.assessment.picture.fluid.last() else {
        let used = looked.log.last::<FluidIntroduced>().is_some();
        return used.then(|| {
            Big::said(word, label, "not read").note("fluid is in the hole").sign(sign(looked, "fluid.head"))
        });
    };
    let show = &looked.show;
    let note = notes(&[
        format!("{}, {}", show.elevation(step.surface), show.moment(step.at)),
        head(looked, step.surface, step.groundwater),
    ]);
    Some(of_level(word, label, step.surface, looked).note(note).sign(sign(looked, "fluid.head")))
}

/// Head above the groundwater read with it, met before, or expected by the plan.
fn head(looked: &Looked<'_>, surface: Elevation, read: Option<Elevation>) -> String {
    let picture = &looked.assessment.picture;
    let met = picture.water.last().map(|step| step.level);
    let expected = picture.plan.as_ref().and_then(|plan| plan.groundwater);
    let told =
        |water: Elevation, which: &str| format!("{} above {which}", looked.show.length(surface.above(water)));
    match (read, met, expected) {
        (Some(water), ..) => told(water, "groundwater as read"),
        (None, Some(water), _) => told(water, "groundwater as met"),
        (None, None, Some(water)) => told(water, "groundwater as expected"),
        (None, None, None) => String::new(),
    }
}

/// The last test, as typed, with how long ago.
pub(super) fn last_test(looked: &Looked<'_>) -> Option<Big> {
    let (word, label) = ("fluid_test", "Last fluid test");
    let Some((line, test)) = looked.log.last::<FluidTest>() else {
        let used = looked.log.last::<FluidIntroduced>().is_some();
        return used.then(|| {
            Big::said(word, label, "none yet").note("fluid is in the hole").sign(Sign::NotMeasured)
        });
    };
    let show = &looked.show;
    let ago = show.span(Span::minutes(looked.at.minutes_since(line.at).max(0.0)));
    let readings = [
        test.density.as_ref().map(quantity::Entered::shown),
        test.viscosity.as_ref().map(quantity::Entered::shown),
        test.sand.as_ref().map(|sand| format!("sand {}", sand.shown())),
        test.ph.as_ref().map(|ph| format!("pH {}", ph.shown())),
    ];
    let readings: Vec<String> = readings.into_iter().flatten().collect();
    let place = test.depth.as_ref().map_or_else(String::new, |depth| format!("at {}", depth.shown()));
    let note = notes(&[readings.join(", "), place, show.moment(line.at)]);
    Some(Big::said(word, label, format!("{ago} ago")).note(note).sign(of_test(looked, line.entry.id)))
}

/// The worst that was found about a test.
fn of_test(looked: &Looked<'_>, entry: EntryId) -> Sign {
    let about = |finding: &&assess::Finding| {
        finding.fact.name.starts_with("fluid.") && finding.evidence.contains(&entry)
    };
    Sign::worst(looked.assessment.findings.iter().filter(about).map(Sign::of_finding))
}
