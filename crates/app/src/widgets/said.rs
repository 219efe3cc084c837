//! What was just done, said once: saved, struck through, kept.
//!
//! Words: *said* = a sentence that goes away by itself; what has to be read is a notice.
//! Never: say "saved" before the device has kept it.

use leptos::prelude::*;
use std::time::Duration;

/// How long a sentence stays.
const STAYS: Duration = Duration::from_secs(6);

/// The sentence now shown, wherever the person has gone since.
#[derive(Clone, Copy)]
pub(crate) struct Saying(RwSignal<Option<(u32, String)>>);

impl Saying {
    /// Makes the place for sentences; once, above every screen.
    pub(crate) fn provide() -> Saying {
        let saying = Saying(RwSignal::new(None));
        provide_context(saying);
        saying
    }

    /// Says a sentence.
    pub(crate) fn say(self, text: impl Into<String>) {
        let number = self.0.with_untracked(|said| said.as_ref().map_or(0, |said| said.0)).wrapping_add(1);
        self.0.set(Some((number, text.into())));
        let forget = move || {
            if self.0.with_untracked(|said| said.as_ref().is_some_and(|said| said.0 == number)) {
                self.0.set(None);
            }
        };
        set_timeout(forget, STAYS);
    }
}

/// Where sentences are shown.
#[component]
pub(crate) fn Said() -> impl IntoView {
    let saying = use_context::<Saying>().unwrap_or_else(Saying::provide);
    let text = move || saying.0.get().map(|(_, text)| view! { <p class="toast">{text}</p> });
    view! { <div class="toasts no-print" role="status">{text}</div> }
}
