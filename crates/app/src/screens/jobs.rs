//! The jobs on this device, and the ways a job comes here.
//!
//! The first screen a newcomer sees: it has to say what to do, in order, without a manual.

use super::paths;
use super::settings::Author;
use super::shell::title;
use super::way::use_way;
use crate::device::{JobCard, Storage, use_device};
use crate::widgets::{KeyGrid, KeyLink, Tone};
use leptos::prelude::*;

/// All jobs.
#[component]
pub(super) fn Jobs() -> impl IntoView {
    let device = use_device();
    let jobs = device.jobs();
    title(|| "Jobs".to_owned());
    follow_code();
    let opening = move || matches!(device.storage().get(), Storage::Opening);
    let empty = Memo::new(move |_| jobs.read().is_empty());
    let body = move || match (opening(), empty.get()) {
        (true, _) => view! { <p>"Opening the storage of this device …"</p> }.into_any(),
        (false, true) => view! { <Newcomer/> }.into_any(),
        (false, false) => view! { <List/> }.into_any(),
    };
    view! { <section class="page">{body}</section> }
}

/// A code that came with the address leads to pairing at once.
fn follow_code() {
    let offered = use_device().code_offered();
    let way = use_way();
    Effect::new(move |_| {
        if offered.read().is_some() {
            way.go(paths::PAIR);
        }
    });
}

/// Nothing is here yet.
#[component]
fn Newcomer() -> impl IntoView {
    view! {
        <h1>"A record of every shaft, kept at the hole"</h1>
        <p class="lead">
            "What you enter is kept on this device at once, without a connection, and nothing is ever erased. "
            "From it the app reckons depth, concrete, embedment and time as the work goes on."
        </p>
        <ol class="begin">
            <li class="stack">
                <AuthorStep/>
            </li>
            <li class="stack">
                <h2>"Bring a job here"</h2>
                <Ways/>
            </li>
            <li class="stack">
                <h2>"Add its shafts, then open one"</h2>
                <p class="soft">
                    "The keys of each stage of the work stand on the screen of the shaft. "
                    <a href=paths::HELP>"Help and cautions"</a>
                </p>
            </li>
        </ol>
    }
}

#[component]
fn AuthorStep() -> impl IntoView {
    view! { <Author/> }
}

/// The ways a job comes onto this device.
#[component]
fn Ways() -> impl IntoView {
    view! {
        <KeyGrid name="Ways a job comes here">
            <KeyLink to=paths::BEGIN label="Begin a job" note="new, on this device" tone=Tone::Main/>
            <KeyLink to=paths::READ label="Read a file" note="a record, field notes, a table"/>
            <KeyLink to=paths::PAIR label="Pair with a desk" note="with the code it shows"/>
            <KeyLink to=paths::PRACTICE label="Practice" note="a made-up pour, never a record"/>
        </KeyGrid>
    }
}

/// The jobs that are here.
#[component]
fn List() -> impl IntoView {
    let device = use_device();
    let rows = move || device.jobs().get().into_iter().map(|card| view! { <Row card=card/> }).collect_view();
    let nobody = Memo::new(move |_| device.author().read().trim().is_empty());
    view! {
        <h1>"Jobs on this device"</h1>
        {move || nobody.get().then(|| view! { <Author/> })}
        <ul class="list">{rows}</ul>
        <KeyGrid name="All jobs">
            <KeyLink to=paths::OFFICE label="All jobs together" note="what waits, what was placed, who is late"/>
        </KeyGrid>
        <Ways/>
    }
}

#[component]
fn Row(card: JobCard) -> impl IntoView {
    let entries = if card.entries == 1 { "1 entry".to_owned() } else { format!("{} entries", card.entries) };
    let to = paths::job(&card.name);
    let made_up = card.rehearsal.then(|| view! { <span class="tag">"rehearsal"</span> });
    let (title, short) = match card.title {
        Some(title) => (title, card.name),
        None => (card.name, String::new()),
    };
    view! {
        <li>
            <a class="list-row" href=to>
                <span class="list-main">
                    <span class="list-name">{title}</span>
                    <span class="small soft">{short}" "{made_up}</span>
                </span>
                <span class="list-side num">{entries}</span>
            </a>
        </li>
    }
}
