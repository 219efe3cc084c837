//! What is shown where nothing is.
//!
//! An old bookmark or a mistyped address must never look like a lost record.

use super::looking::Looking;
use super::paths;
use super::shell::title;
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

/// A shaft that is named by the address and of which nothing was written in this job.
#[component]
pub(crate) fn NoShaft(
    /// The job that is looked at.
    looking: Looking,
) -> impl IntoView {
    let (job, shaft) = (looking.job, looking.shaft);
    let heading = move || format!("No shaft {} is planned in this job", shaft.get());
    title(heading);
    let back = move || paths::job(&job.get());
    let plan = move || paths::enter(&job.get(), Some(&shaft.get()), "shaft_planned");
    view! {
        <section class="page">
            <h1>{heading}</h1>
            <p>
                "Nothing is lost: the shafts of this job stand in its list. A name is written as on the drawings, and "
                "S1 is another one than S-1. What another device planned comes with the next connection."
            </p>
            <div class="row">
                <a href=back class="button main">"To the shafts of the job"</a>
                <a href=plan class="button">"Plan shaft " {shaft}</a>
            </div>
        </section>
    }
}
