//! What surrounds every screen: the bar, the banners, the notices, the way past them.
//!
//! Wherever a person is in the app, these are in sight: which job and shaft this is, the site clock, how
//! many entries have not travelled yet, who writes, and everything that endangers the record.
//!
//! Never: hide a danger behind a tap.

mod banners;
mod bar;
mod menu;
mod notices;

use super::paths;
use super::way::use_way;
use crate::device::{Hand, JobCard, Storage, Theme, use_device};
use crate::widgets::Said;
use leptos::html;
use leptos::prelude::*;
use std::time::Duration;

pub(crate) use menu::{JOB_PAGES, Menu};

/// Bar, banners and notices around a screen.
#[component]
pub(crate) fn Shell(
    /// The screen.
    children: Children,
) -> impl IntoView {
    let main: NodeRef<html::Main> = NodeRef::new();
    let menu = RwSignal::new(false);
    let opening = move || matches!(use_device().storage().get(), Storage::Opening);
    follow_settings();
    focus_new_screen(main);
    let past = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        focus(main);
    };
    view! {
        <a class="skip" href="#main" on:click=past>"Skip to the screen"</a>
        <bar::Bar menu=menu/>
        <Menu open=menu/>
        <banners::Banners/>
        <notices::Notices/>
        <main id="main" class="main" tabindex="-1" node_ref=main aria-busy=move || opening().to_string()>
            {children()}
        </main>
        <Said/>
    }
}

/// Theme and hand stand on the root element, where the style sheets look for them.
fn follow_settings() {
    let settings = use_device().settings();
    Effect::new(move |_| {
        let chosen = settings.get();
        let theme = match chosen.theme {
            Theme::Sun => "sun",
            Theme::Night => "night",
            Theme::System => "system",
        };
        let hand = match chosen.hand {
            Hand::Right => "right",
            Hand::Left => "left",
        };
        let Some(root) = document().document_element() else { return };
        for (name, value) in [("data-theme", theme), ("data-hand", hand)] {
            if root.set_attribute(name, value).is_err() {
                leptos::logging::warn!("the root element keeps its {name}");
            }
        }
    });
}

/// After a change of screen the focus stands at its beginning, so that a keyboard does not start in the bar.
fn focus_new_screen(main: NodeRef<html::Main>) {
    let path = use_way().path();
    Effect::new(move |before: Option<String>| {
        let path = path.get();
        if before.is_some_and(|before| before != path) {
            focus(main);
        }
        path
    });
}

fn focus(main: NodeRef<html::Main>) {
    let Some(main) = main.get_untracked() else { return };
    let still = web_sys::FocusOptions::new();
    still.set_prevent_scroll(true);
    if main.focus_with_options(&still).is_err() {
        leptos::logging::warn!("the screen could not be focused");
    }
}

/// Names the screen in the title of the page.
pub(crate) fn title(text: impl Fn() -> String + 'static) {
    Effect::new(move |_| document().set_title(&format!("{} · Shaftbook", text())));
}

/// What the address names behind `#`: an entry of the log, a section of a page; empty where it names nothing.
pub(crate) fn sought() -> String {
    location().hash().unwrap_or_default().trim_start_matches('#').to_owned()
}

/// Brings what has this id into sight once it is drawn. A record may still be read from storage, so it is looked for
/// again.
pub(crate) fn bring_into_sight(id: String) {
    if id.is_empty() {
        return;
    }
    let show = move || {
        if let Some(there) = document().get_element_by_id(&id) {
            there.scroll_into_view();
        }
    };
    set_timeout(show.clone(), Duration::from_millis(60));
    set_timeout(show, Duration::from_millis(600));
}

/// What people call a job: its title, and its key until that is known.
fn job_title(jobs: &[JobCard], job: &str) -> String {
    let card = jobs.iter().find(|card| card.name == job);
    card.and_then(|card| card.title.clone()).unwrap_or_else(|| job.to_owned())
}

/// A way back, above the heading of a page.
#[component]
pub(crate) fn Back(
    /// Where it leads.
    #[prop(into)]
    to: Signal<String>,
    /// What is there.
    #[prop(into)]
    label: Signal<String>,
) -> impl IntoView {
    view! {
        <a class="back" href=to>
            <span aria-hidden="true" class="back-arrow"></span>
            {label}
        </a>
    }
}

/// The heading of a page with a way back to the shaft, or to the job where it is about no shaft.
#[component]
pub(crate) fn PageHead(
    /// What the page is.
    #[prop(into)]
    heading: Signal<String>,
) -> impl IntoView {
    let place = paths::place();
    let jobs = use_device().jobs();
    let back = move || {
        place.with(|place| match (&place.job, &place.shaft) {
            (Some(job), Some(shaft)) => (paths::shaft(job, shaft), format!("Shaft {shaft}")),
            (Some(job), None) => (paths::job(job), job_title(&jobs.read(), job)),
            _ => (paths::JOBS.to_owned(), "Jobs".to_owned()),
        })
    };
    title(move || heading.get());
    view! {
        <header class="page-head">
            <Back to=Signal::derive(move || back().0) label=Signal::derive(move || back().1)/>
            <h1>{heading}</h1>
        </header>
    }
}
