//! Slump against time.

use crate::view::View;
use figure::{LoadLife, Mark, Size, SlumpPoint, SlumpSheet, slump_svg};
use quantity::{Length, Moment, Span};
use record::kinds::PourPlanned;

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    view.assessment.picture.loads.iter().any(|load| load.tests.iter().any(|test| test.slump.is_some()))
}

pub(crate) fn draw(view: &View<'_, '_>, size: Size) -> String {
    slump_svg(&sheet(view), size)
}

fn sheet(view: &View<'_, '_>) -> SlumpSheet {
    let slump = view.assessment.reckoning.slump.as_ref();
    let done = view.findings("slump.until_finished").find_map(|finding| finding.at);
    let planned = || planned_end(view).map(|at| (at, "planned end"));
    let end = done.map(|at| (at, "casing and inserts done")).or_else(planned);
    SlumpSheet {
        title: view.title("slump and its life"),
        subtitle: slump
            .map_or_else(|| "no slump-loss trial in the record".to_owned(), |s| format!("mix {}", s.mix)),
        slump: view.scales().small,
        limit_m: slump.and_then(|slump| slump.limit).map(Length::to_meters),
        end: end.map(|(at, _)| at),
        end_label: end.map_or("", |(_, label)| label).to_owned(),
        loads: view.assessment.picture.loads.iter().map(|load| life(view, load)).collect(),
        blanks: Vec::new(),
        words: figure::Words::default(),
    }
}

fn planned_end(view: &View<'_, '_>) -> Option<Moment> {
    let (_, plan) = view.log.last::<PourPlanned>()?;
    let begun = view.assessment.picture.concrete_started()?;
    let after = plan.after.as_ref().map_or(0.0, |span| span.value().to_seconds());
    Some(begun.plus_seconds((plan.duration.as_ref()?.value().to_seconds() + after) as i64))
}

fn life(view: &View<'_, '_>, load: &assess::picture::Load<'_>) -> LoadLife {
    let reckoned = view.assessment.reckoning.slump.as_ref();
    let own = reckoned.and_then(|slump| slump.loads.iter().find(|life| life.ticket == load.ticket));
    let subject = assess::Subject::Load(load.ticket.to_owned());
    let tests = load.tests.iter().filter_map(|test| {
        let mark = view.mark_on(test.entry, |fact| fact == "slump.placing");
        Some(SlumpPoint { at: test.at, slump_m: test.slump?.to_meters(), mark })
    });
    LoadLife {
        label: load.ticket.to_owned(),
        batched: load.batched,
        discharge_from: load.started,
        discharge_to: load.ended,
        life_ends: own.and_then(assess::reckon::LoadLife::ends),
        tests: tests.collect(),
        expected: expected(view, load),
        mark: if load.refused.is_some() { Mark::Fails } else { view.mark_of("slump.placing", &subject) },
    }
}

/// The expected slump every ten minutes, as far as the trial reaches.
fn expected(view: &View<'_, '_>, load: &assess::picture::Load<'_>) -> Vec<SlumpPoint> {
    let (Some(slump), Some(batched)) = (&view.assessment.reckoning.slump, load.batched) else {
        return Vec::new();
    };
    let at_age = |minutes: i64| {
        let slump = slump.slump_of(load.ticket, Span::minutes(minutes as f64))?;
        let at = batched.plus_seconds(minutes * 60);
        (slump > Length::ZERO).then_some(SlumpPoint { at, slump_m: slump.to_meters(), mark: Mark::NoLimit })
    };
    (0..=72).map(|step| step * 10).filter_map(at_age).collect()
}
