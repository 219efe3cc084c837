//! The time an entry is about: stamped by the tap that opened it, set back by steps or by typing.
//!
//! Words: *stamp* = the moment of the tap; *step* = a minute or five, back or on.
//! Never: read a clock; hide that an entry is late.

use leptos::prelude::*;
use quantity::Moment;
use screen::entry::time::{Clock, clock_text};

/// Steps that are offered: what stands on the key, minutes, how it is said.
const STEPS: &[(&str, i64, &str)] = &[
    ("−5", -5, "five minutes earlier"),
    ("−1", -1, "one minute earlier"),
    ("+1", 1, "one minute later"),
    ("+5", 5, "five minutes later"),
];

/// When it was seen.
#[component]
pub(crate) fn TimeStamp(
    /// The moment; changed in place.
    at: RwSignal<Moment>,
    /// The site clock.
    now: Callback<(), Moment>,
    /// What a time that was set back says; empty while it is on time.
    #[prop(into)]
    late: Signal<String>,
) -> impl IntoView {
    let fault = RwSignal::new(String::new());
    let set = move |moment: Moment| {
        fault.set(String::new());
        at.set(moment);
    };
    let step = move |minutes: i64| set(at.get_untracked().plus_seconds(60 * minutes));
    let typed = move |text: String| match Clock::at(now.run(())).moment(&text) {
        Some(moment) => set(moment),
        None => fault.set(format!("`{text}` is no time; expected one such as 10:41 or 2026-05-04 10:41.")),
    };
    let keys = STEPS.iter().map(|&(face, minutes, spoken)| {
        view! {
            <button type="button" class="key" aria-label=spoken on:click=move |_| step(minutes)>
                {face}
            </button>
        }
    });
    view! {
        <fieldset class="stamp">
            <legend class="field-label">"Seen at"</legend>
            <div class="stamp-line">
                <input class="stamp-time field-input" type="text" inputmode="numeric" autocomplete="off"
                    aria-label="Time it was seen" aria-describedby="stamp-said"
                    aria-invalid=move || fault.with(|fault| !fault.is_empty()).to_string()
                    prop:value=move || clock_text(at.get(), at.get())
                    on:change=move |event| typed(event_target_value(&event))/>
                <div class="stamp-steps" role="group" aria-label="Set the time" on:keydown=super::key::walk>
                    {keys.collect_view()}
                    <button type="button" class="key" on:click=move |_| set(now.run(()))>"Now"</button>
                </div>
            </div>
            <div id="stamp-said" aria-live="polite">
                <span class="stamp-day">{move || wording::show::day_text(at.get())}</span>
                <span class="stamp-late">{move || prefixed(&late.get())}</span>
                <span class="field-fault">{move || prefixed(&fault.get())}</span>
            </div>
        </fieldset>
    }
}

fn prefixed(text: &str) -> String {
    if text.is_empty() { String::new() } else { format!(" · {text}") }
}
