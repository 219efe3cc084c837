//! A clock that counts to the next limit, or up from a beginning.
//!
//! It counts with the site clock it is given, second by second; how urgent it is comes in with it, as a sign
//! and a word.
//!
//! Units: seconds. Never: decide what is urgent.

use super::mark::{MarkBadge, Sign};
use leptos::prelude::*;

/// `2:05:09`, `14:20`; negative spans without their sign.
pub(crate) fn clock_text(seconds: i64) -> String {
    let seconds = seconds.unsigned_abs();
    let (hours, minutes, rest) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if hours > 0 { format!("{hours}:{minutes:02}:{rest:02}") } else { format!("{minutes}:{rest:02}") }
}

/// Counts down to a moment, then says how long it is over; or counts up from one.
#[component]
pub(crate) fn Clock(
    /// What ends or began, in words.
    #[prop(into)]
    label: Signal<String>,
    /// The moment counted to, or from; seconds since 1970.
    #[prop(into)]
    at: Signal<i64>,
    /// The site clock; seconds since 1970.
    #[prop(into)]
    now: Signal<i64>,
    /// Counts up from `at` instead of down to it.
    #[prop(optional)]
    up: bool,
    /// How urgent it is: sign and word.
    #[prop(into)]
    sign: Signal<(Sign, String)>,
    /// What stands under it: the limit and its source.
    #[prop(optional, into)]
    note: MaybeProp<String>,
) -> impl IntoView {
    let left = Memo::new(move |_| at.get() - now.get());
    let words = move || match (up, left.get()) {
        (true, _) => "",
        (false, left) if left < 0 => "over by",
        (false, _) => "left",
    };
    let badge = move || {
        let (sign, word) = sign.get();
        view! { <MarkBadge sign=sign word=word/> }
    };
    let class = move || match sign.get().0 {
        Sign::Now | Sign::Fails => "clock clock-now",
        Sign::Soon => "clock clock-soon",
        _ => "clock",
    };
    view! {
        <div class=class role="group" aria-label=label>
            <span class="clock-label">{label}</span>
            <span class="clock-time" role="timer">
                <span class="clock-number">{move || clock_text(left.get())}</span>
                " "
                <span class="clock-words">{words}</span>
            </span>
            {badge}
            {move || note.get().map(|note| view! { <span class="clock-note">{note}</span> })}
        </div>
    }
}
