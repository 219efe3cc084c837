//! Banners: what stays true as long as it is shown, and cannot be put away.
//!
//! A made-up job, a clock that runs faster, a browser that keeps nothing: whoever looks at the screen has to
//! know it before the first figure is believed.

use super::super::paths;
use crate::device::{Storage, use_device};
use crate::widgets::{Key, NoticeCard, Tone, steady};
use leptos::prelude::*;

/// Every banner that holds.
#[component]
pub(super) fn Banners() -> impl IntoView {
    view! {
        <div class="banners">
            <Demonstration/>
            <Rehearsal/>
            <super::super::practice::ClockBarThere/>
            <Kept/>
            <NewVersion/>
        </div>
    }
}

/// The clock of the job in sight is made up; where no job is in sight, that of one on this device.
#[component]
fn Demonstration() -> impl IntoView {
    let clocks = use_device().made_up_clocks();
    let place = paths::place();
    let speed = steady(move || {
        let clocks = clocks.read();
        match place.get().job {
            Some(job) => clocks.get(&job).copied(),
            None => clocks.values().copied().reduce(f64::max),
        }
    });
    let text = move || {
        let text = match speed.get()?.to_string().as_str() {
            "1" => "Demonstration: the site clock is made up.".to_owned(),
            speed => format!("Demonstration: time runs {speed} times faster."),
        };
        Some(view! { <p class="banner banner-demo banner-demonstration">{text}</p> })
    };
    view! { {text} }
}

/// The job in sight is made up.
#[component]
fn Rehearsal() -> impl IntoView {
    let place = paths::place();
    let jobs = use_device().jobs();
    let rehearsal = steady(move || {
        let job = place.get().job;
        jobs.get().iter().any(|card| card.rehearsal && Some(&card.name) == job.as_ref())
    });
    let text = "Rehearsal: made up for practice, never part of a real record.";
    view! { {move || rehearsal.get().then(|| view! { <p class="banner banner-demo banner-rehearsal">{text}</p> })} }
}

/// How the browser keeps entries, when it may not.
#[component]
fn Kept() -> impl IntoView {
    let storage = use_device().storage();
    let notice = steady(move || match storage.get() {
        Storage::NotKept(notice) | Storage::Full(notice) => Some(notice),
        Storage::Opening | Storage::Persistent | Storage::MayBeCleared => None,
    });
    view! { {move || notice.get().map(|notice| view! { <NoticeCard notice=notice/> })} }
}

/// A new version lies ready.
#[component]
fn NewVersion() -> impl IntoView {
    let device = use_device();
    let waits = steady(move || device.new_version_waits().get());
    let banner = move || {
        view! {
            <div class="banner banner-version">
                <p>"A new version lies ready. Entries and half-filled forms stay on this device."</p>
                <Key label="Change to it" tone=Tone::Quiet press=move |()| device.use_new_version()/>
            </div>
        }
    };
    view! { {move || waits.get().then(banner)} }
}
