//! What is shown where nothing is.
//!
//! An old bookmark or a mistyped address must never look like a lost record.

use super::paths;
use leptos::prelude::*;

/// An address that names no screen.
#[component]
pub(crate) fn Unknown() -> impl IntoView {
    view! {
        <section class="page">
            <h1>"There is no screen at this address"</h1>
            <p>"Nothing is lost: every job on this device is in the list of jobs."</p>
            <a href=paths::JOBS class="button main">"Go to the jobs"</a>
        </section>
    }
}

/// A thing that is named by the address and is not on this device.
#[component]
pub(crate) fn NotHere(
    /// What is not here, as a sentence.
    #[prop(into)]
    what: Signal<String>,
) -> impl IntoView {
    view! {
        <section class="page">
            <h1>{move || what.get()}</h1>
            <p>"It may be on another device: read its file here, or pair with the desk that has it."</p>
            <div class="row">
                <a href=paths::JOBS class="button main">"Go to the jobs"</a>
                <a href=paths::READ class="button">"Read a file"</a>
            </div>
        </section>
    }
}
