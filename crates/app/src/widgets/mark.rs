//! A sign with its word: meets, fails, not measured, no limit, in doubt; now, soon, later; late.
//!
//! Each sign has a shape of its own, the same as in the drawings, so that it can be told without colour.

use assess::{Outcome, Urgency};
use figure::Mark;
use leptos::prelude::*;

/// The sign that stands beside a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Sign {
    /// Within its limit: a ring with a tick.
    Meets,
    /// Outside its limit: a filled square with a cross.
    Fails,
    /// A limit stands but nothing was measured: a broken ring with a dash.
    NotMeasured,
    /// Nothing to compare with: a dot.
    #[default]
    NoLimit,
    /// In doubt, disputed or asked about: a triangle.
    Doubtful,
    /// At once: a filled square with a stroke.
    Now,
    /// Before long: a half filled ring.
    Soon,
    /// In good time: an empty ring with hands.
    Later,
    /// Written down well after it was seen: an hourglass.
    Late,
}

impl From<Mark> for Sign {
    fn from(mark: Mark) -> Self {
        match mark {
            Mark::Meets => Sign::Meets,
            Mark::Fails => Sign::Fails,
            Mark::NotMeasured => Sign::NotMeasured,
            Mark::NoLimit => Sign::NoLimit,
            Mark::Doubtful => Sign::Doubtful,
        }
    }
}

impl From<Outcome> for Sign {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Meets => Sign::Meets,
            Outcome::Fails => Sign::Fails,
            Outcome::NotMeasured => Sign::NotMeasured,
            Outcome::NoLimitSet => Sign::NoLimit,
            Outcome::CannotSay => Sign::Doubtful,
        }
    }
}

impl From<Urgency> for Sign {
    fn from(urgency: Urgency) -> Self {
        match urgency {
            Urgency::Now => Sign::Now,
            Urgency::Soon => Sign::Soon,
            Urgency::Later => Sign::Later,
        }
    }
}

impl Sign {
    /// Its word, where the screen brings none.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Sign::Meets => "meets",
            Sign::Fails => "fails",
            Sign::NotMeasured => "not measured",
            Sign::NoLimit => "no limit set",
            Sign::Doubtful => "in doubt",
            Sign::Now => "now",
            Sign::Soon => "soon",
            Sign::Later => "later",
            Sign::Late => "late entry",
        }
    }

    /// The class that gives it its ink.
    pub(crate) fn class(self) -> &'static str {
        match self {
            Sign::Meets => "mark mark-meets",
            Sign::Fails => "mark mark-fails",
            Sign::NotMeasured => "mark mark-not-measured",
            Sign::NoLimit => "mark mark-no-limit",
            Sign::Doubtful => "mark mark-doubtful",
            Sign::Now => "mark mark-now",
            Sign::Soon => "mark mark-soon",
            Sign::Later => "mark mark-later",
            Sign::Late => "mark mark-late",
        }
    }

    /// Its lines in a square of 20: outline, then strokes.
    fn lines(self) -> (&'static str, &'static str) {
        match self {
            Sign::Meets => (RING, "M6 10.4 9 13.4 14.2 6.6"),
            Sign::Fails => (SQUARE, "M6.4 6.4 13.6 13.6M13.6 6.4 6.4 13.6"),
            Sign::NotMeasured => (RING, "M6.5 10H13.5"),
            Sign::NoLimit => ("M10 7a3 3 0 1 0 .01 0Z", ""),
            Sign::Doubtful => ("M10 2 18.4 17.4H1.6Z", "M10 7.6V12M10 14.4V14.9"),
            Sign::Now => (SQUARE, "M10 5.2V11.4M10 14.2V14.7"),
            Sign::Soon => (RING, "M10 5.4V10L13.2 12"),
            Sign::Later => (RING, "M10 5.4V10H13.4"),
            Sign::Late => ("M4.6 2.2H15.4L10 10 15.4 17.8H4.6L10 10Z", "M7.6 15.8H12.4"),
        }
    }
}

const RING: &str = "M10 1.8a8.2 8.2 0 1 0 .01 0Z";
const SQUARE: &str = "M2 2H18V18H2Z";

/// A sign with its word beside it.
#[component]
pub(crate) fn MarkBadge(
    /// Which sign.
    #[prop(into)]
    sign: Signal<Sign>,
    /// The word beside it; without one, the sign's own.
    #[prop(optional, into)]
    word: MaybeProp<String>,
) -> impl IntoView {
    let words = move || word.get().unwrap_or_else(|| sign.get().word().to_owned());
    view! {
        <span class=move || sign.get().class()>
            <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
                <path class="mark-outline" d=move || sign.get().lines().0></path>
                <path class="mark-stroke" d=move || sign.get().lines().1></path>
            </svg>
            <span class="mark-word">{words}</span>
        </span>
    }
}
