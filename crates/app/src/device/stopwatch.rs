//! What the reckoning takes on this device, told to the browser's own tools.
//!
//! Somebody whose tablet is slow opens the browser's timeline and finds there, under names that begin with
//! `shaftbook`, which part of the work it was; the tests read their figures from the same place.
//!
//! Never: show a time to somebody at the hole; depend on the browser keeping it.

/// A part of the work that is timed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Work {
    /// Fold of the record, criteria in force, assessment of one shaft.
    Assessment,
    /// Figures, clocks and sentences of a screen.
    Words,
    /// The drawn section.
    Drawing,
    /// All of it again, with the order and the played rest of the day.
    SecondLook,
}

impl Work {
    /// Name of its measure in the browser's timeline.
    fn name(self) -> &'static str {
        match self {
            Work::Assessment => "shaftbook assessment",
            Work::Words => "shaftbook words",
            Work::Drawing => "shaftbook drawing",
            Work::SecondLook => "shaftbook second look",
        }
    }
}

/// Does a part of the work; its last time stays among the measures of the page.
pub(crate) fn timed<T>(work: Work, task: impl FnOnce() -> T) -> T {
    begin(work);
    let done = task();
    end(work);
    done
}

fn begin(work: Work) {
    let Some(performance) = web_sys::window().and_then(|window| window.performance()) else { return };
    // The list would grow with every look; whoever observes it was told already.
    performance.clear_measures_with_measure_name(work.name());
    performance.mark(work.name()).ok();
}

fn end(work: Work) {
    let Some(performance) = web_sys::window().and_then(|window| window.performance()) else { return };
    // Without its mark, or with measures switched off, the work was done all the same.
    performance.measure_with_start_mark(work.name(), work.name()).ok();
    performance.clear_marks_with_mark_name(work.name());
}
