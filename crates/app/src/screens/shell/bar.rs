//! The bar: where this is, what time it is at the hole, what waits, who writes.

use super::super::paths;
use crate::device::{Link, Outbox, use_device};
use leptos::prelude::*;
use quantity::Moment;

/// The bar at the top of every screen.
#[component]
pub(super) fn Bar(
    /// Whether the menu is open.
    menu: RwSignal<bool>,
) -> impl IntoView {
    let device = use_device();
    let author = move || device.author().get();
    let who = move || if author().is_empty() { "Who writes?".to_owned() } else { author() };
    view! {
        <header class="bar">
            <a class="bar-home" href=paths::JOBS>"Shaftbook"</a>
            <Where/>
            <SiteClock/>
            <OutboxLink/>
            <a class="bar-author" class:bar-author-missing=move || author().is_empty() href=paths::SETTINGS>
                <span class="visually-hidden">"Written by "</span>
                {who}
            </a>
            <button
                type="button"
                class="bar-menu"
                aria-haspopup="dialog"
                aria-expanded=move || menu.get().to_string()
                on:click=move |_| menu.set(true)
            >
                "Menu"
            </button>
        </header>
    }
}

/// Job and shaft, each leading to its screen.
#[component]
fn Where() -> impl IntoView {
    let place = paths::place();
    let titles = use_device().jobs();
    let job = move || {
        place.get().job.map(|job| {
            let title = super::job_title(&titles.read(), &job);
            view! { <a class="bar-job" href=paths::job(&job)>{title}</a> }
        })
    };
    let shaft = move || {
        let place = place.get();
        let (job, shaft) = (place.job?, place.shaft?);
        let to = paths::shaft(&job, &shaft);
        Some(view! { <a class="bar-shaft" href=to>{shaft}</a> })
    };
    view! { <nav class="bar-where" aria-label="Job and shaft">{job}{shaft}</nav> }
}

/// The site clock of the job in sight, once its record is read: only then its zone and its clock are known. None where no
/// job is, because then no site has a clock.
#[component]
fn SiteClock() -> impl IntoView {
    let device = use_device();
    let place = paths::place();
    let job = Memo::new(move |_| {
        let job = place.get().job?;
        device.record(&job).with(Option::is_some).then_some(job)
    });
    let clock = move |job: String| {
        let now = move || {
            device.tick().track();
            device.now(&job)
        };
        let day = now.clone();
        view! {
            <span class="bar-clock" role="timer" aria-label="Site clock">
                <span class="bar-day">{move || wording::show::day_text(day())}</span>
                " "
                <span class="bar-time">{move || now().clock_to_the_second()}</span>
            </span>
        }
    };
    view! { {move || job.get().map(clock)} }
}

/// What waits, in a word or two, leading to the outbox.
#[component]
fn OutboxLink() -> impl IntoView {
    let device = use_device();
    let outbox = device.outbox();
    let since = move |moment: Moment| Moment::at(moment.seconds(), device.now("").offset_seconds()).clock();
    let class = move || match outbox.get() {
        outbox if outbox.refused > 0 || matches!(outbox.link, Link::Refused(_)) => {
            "bar-outbox bar-outbox-refused"
        }
        outbox if outbox.waiting > 0 => "bar-outbox bar-outbox-waits",
        _ => "bar-outbox",
    };
    view! {
        <a class=class href=paths::OUTBOX>
            <span class="bar-outbox-count">{move || count(&outbox.get())}</span>
            <span class="bar-outbox-link">
                {move || link(&outbox.get())}
                {move || outbox.get().since.map(|moment| format!(" since {}", since(moment)))}
            </span>
        </a>
    }
}

/// How many wait. Nothing is said to be sent that the desk was not heard to have.
fn count(outbox: &Outbox) -> String {
    match (outbox.refused, outbox.waiting + outbox.photos) {
        _ if !outbox.counted => "Outbox".to_owned(),
        (0, 0) => match outbox.link {
            Link::InStep { .. } => "All sent".to_owned(),
            Link::NeverPaired => "Kept here".to_owned(),
            _ => "Nothing to send".to_owned(),
        },
        (0, waiting) => format!("{waiting} to send"),
        (refused, _) => format!("{refused} refused"),
    }
}

/// How it stands with the desk.
fn link(outbox: &Outbox) -> &'static str {
    match outbox.link {
        Link::NotLooked => "looking for the desk",
        Link::NeverPaired => "no desk",
        Link::NoConnection { .. } => "no connection",
        Link::Sending => "sending",
        Link::InStep { .. } => "connected",
        Link::Refused(_) => "desk refused",
    }
}
