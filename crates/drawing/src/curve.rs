//! The volume curve.

use crate::view::View;
use assess::Subject;
use figure::{CurvePoint, Interval, PlacedPoint, Size, VolumeCurve, volume_curve_svg};
use quantity::{Elevation, Length};

/// How many points the theoretical curve is drawn with.
const POINTS: i64 = 60;

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    view.assessment.reckoning.pour.is_some()
}

pub(crate) fn draw(view: &View<'_, '_>, size: Size) -> String {
    volume_curve_svg(&curve(view), size)
}

/// The curve at the time of the assessment.
pub(crate) fn curve(view: &View<'_, '_>) -> VolumeCurve {
    let scales = view.scales();
    VolumeCurve {
        title: view.title("volume curve"),
        subtitle: totals(view),
        depth: scales.depth,
        volume: scales.volume,
        theoretical: theoretical(view),
        placed: placed(view),
        intervals: intervals(view),
        blanks: Vec::new(),
        words: figure::Words::default(),
    }
}

fn totals(view: &View<'_, '_>) -> String {
    let Some(pour) = &view.assessment.reckoning.pour else { return String::new() };
    let Some(last) = pour.curve.intervals.last() else { return String::new() };
    let volume = view.scales().volume;
    let placed = volume.label(last.cumulative.placed.value.to_cubic_meters());
    match (last.cumulative.theoretical, last.cumulative.ratio) {
        (Some(theory), Some(ratio)) => {
            let theory = volume.label(theory.value.to_cubic_meters());
            format!("placed {placed}, theoretical {theory}, ratio {:.2}", ratio.value)
        }
        _ => format!("placed {placed}"),
    }
}

/// Volume from the bottom to evenly spaced levels, with casings as they stood at the end.
fn theoretical(view: &View<'_, '_>) -> Vec<CurvePoint> {
    let Some(hole) = &view.assessment.reckoning.hole else { return Vec::new() };
    let bore = hole.at(view.assessment.at);
    let (top, bottom) = (bore.top().0.to_nanometers(), bore.bottom().0.to_nanometers());
    let sounded =
        view.assessment.picture.concrete.iter().map(|level| level.surface.highest.value.0.to_nanometers());
    let cut_off = view.assessment.picture.plan.as_ref().map(|plan| plan.cut_off.0.to_nanometers());
    let top = sounded.chain(cut_off).max().unwrap_or(top).min(top);
    let point = |index: i64| {
        let share = i128::from(top - bottom) * i128::from(index) / i128::from(POINTS);
        let level = Elevation(Length::nanometers(bottom + i64::try_from(share).ok()?));
        let volume_m3 = bore.volume_below(level).ok()?.to_cubic_meters();
        Some(CurvePoint { depth_m: view.depth_m(level)?, volume_m3 })
    };
    (0..=POINTS).filter_map(point).collect()
}

fn placed(view: &View<'_, '_>) -> Vec<PlacedPoint> {
    let Some(pour) = &view.assessment.reckoning.pour else { return Vec::new() };
    let rows = pour.curve.intervals.iter().zip(&pour.soundings);
    let point = |(interval, sounding): (&calc::curve::Interval, &assess::reckon::PourSounding)| {
        Some(PlacedPoint {
            depth_m: view.depth_m(interval.upper)?,
            depth_error_m: Some(assess::assumed::tape_error().to_meters()),
            volume_m3: interval.cumulative.placed.value.to_cubic_meters(),
            volume_error_m3: Some(interval.cumulative.placed.standard_error.to_cubic_meters()),
            label: sounding.tickets.last().cloned().unwrap_or_default(),
            mark: subject_mark(view, interval),
        })
    };
    rows.filter_map(point).collect()
}

fn subject_mark(view: &View<'_, '_>, interval: &calc::curve::Interval) -> figure::Mark {
    let subject = Subject::Interval { lower: interval.lower, upper: interval.upper };
    let marks = ["volume.ratio.interval", "volume.departure"].map(|fact| view.mark_of(fact, &subject));
    marks.into_iter().find(|mark| *mark == figure::Mark::Fails).unwrap_or(marks[0])
}

fn intervals(view: &View<'_, '_>) -> Vec<Interval> {
    let Some(pour) = &view.assessment.reckoning.pour else { return Vec::new() };
    let interval = |interval: &calc::curve::Interval| {
        Some(Interval {
            top_m: view.depth_m(interval.upper)?,
            bottom_m: view.depth_m(interval.lower)?,
            ratio: interval.ratio.map(|ratio| ratio.value),
            standard_error: interval.ratio.map(|ratio| ratio.standard_error),
            running_ratio: interval.departure.map(|departure| departure.others.value),
            mark: subject_mark(view, interval),
        })
    };
    pour.curve.intervals.iter().filter_map(interval).collect()
}
