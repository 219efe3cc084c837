//! The menu: every screen that can be reached from here, in one list.

use super::super::paths;
use super::super::way::use_way;
use crate::device::{Theme, use_device};
use crate::widgets::{Dialog, Key, KeyGrid, KeyLink, Tone};
use leptos::prelude::*;

/// The pages of a shaft: word of the address and name.
pub(crate) const SHAFT_PAGES: &[(&str, &str)] = &[
    ("drawings", "Drawings"),
    ("findings", "Findings and questions"),
    ("ready", "What is missing"),
    ("log", "Log"),
    ("sheet", "Sheet to print"),
];
/// The pages of a job.
pub(crate) const JOB_PAGES: &[(&str, &str)] = &[
    ("open-items", "Open items"),
    ("schedule", "Add shafts"),
    ("compare", "Shafts compared"),
    ("people", "People, mixes, fluid"),
    ("limits", "Criteria and limits"),
    ("files", "Files of this job"),
];

/// The menu, as a dialog.
#[component]
pub(crate) fn Menu(
    /// Whether it is open.
    open: RwSignal<bool>,
) -> impl IntoView {
    let path = use_way().path();
    Effect::new(move |_| {
        path.track();
        open.set(false);
    });
    view! {
        <Dialog open=open title="Menu">
            <Pages/>
            <KeyGrid name="The app">
                <KeyLink to=paths::JOBS label="All jobs"/>
                <KeyLink to=paths::OUTBOX label="Outbox"/>
                <KeyLink to=paths::SETTINGS label="Settings"/>
                <KeyLink to=paths::HELP label="Help and cautions"/>
                <KeyLink to=paths::PRACTICE label="Practice"/>
                <ThemeKey/>
            </KeyGrid>
        </Dialog>
    }
}

/// The pages of the job and the shaft in sight.
#[component]
fn Pages() -> impl IntoView {
    let place = paths::place();
    let of_shaft = move || {
        let place = place.get();
        let (job, shaft) = (place.job?, place.shaft?);
        let keys = SHAFT_PAGES.iter().map(|(page, name)| {
            view! { <KeyLink to=paths::shaft_page(&job, &shaft, page) label=*name/> }
        });
        let first = view! { <KeyLink to=paths::shaft(&job, &shaft) label="The shaft" tone=Tone::Main/> };
        let keys = keys.collect_view();
        Some(view! { <KeyGrid name=format!("Shaft {shaft}")>{first}{keys}</KeyGrid> })
    };
    let of_job = move || {
        let job = place.get().job?;
        let keys = JOB_PAGES.iter().map(|(page, name)| {
            view! { <KeyLink to=paths::job_page(&job, page) label=*name/> }
        });
        let keys = keys.collect_view();
        Some(view! { <KeyGrid name="The job"><KeyLink to=paths::job(&job) label="The job"/>{keys}</KeyGrid> })
    };
    view! { {of_shaft}{of_job} }
}

/// Day and night in one tap.
#[component]
fn ThemeKey() -> impl IntoView {
    let settings = use_device().settings();
    let night = move || settings.get().theme == Theme::Night;
    let label = Signal::derive(move || if night() { "Sunlight colors" } else { "Night colors" }.to_owned());
    let press = move |()| {
        let theme = if night() { Theme::Sun } else { Theme::Night };
        settings.update(|settings| settings.theme = theme);
    };
    view! { <Key label=label press=press/> }
}
