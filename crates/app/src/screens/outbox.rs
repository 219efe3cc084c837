//! The outbox: what waits to travel, since when, what was refused and why.
//!
//! Never: let an entry that was refused look like one that was sent.

use super::paths;
use super::settings::storage_text;
use super::shell::PageHead;
use crate::device::{Link, Outbox, RefusedEntry, use_device};
use crate::widgets::{Key, KeyLink, MarkBadge, NoticeCard, Sign, Tone};
use leptos::prelude::*;
use quantity::Moment;

/// What waits and what was refused.
#[component]
pub(super) fn OutboxScreen() -> impl IntoView {
    view! {
        <section class="page">
            <PageHead heading="Outbox"/>
            <Waiting/>
            <LinkState/>
            <Refused/>
            <Safe/>
        </section>
    }
}

/// `7 May, 14:02`, on the clock of this device.
fn told(moment: Moment) -> String {
    let here = use_device().now("").offset_seconds();
    let moment = Moment::at(moment.seconds(), here);
    format!("{}, {}", moment.day(), moment.clock())
}

#[component]
fn Waiting() -> impl IntoView {
    let outbox = use_device().outbox();
    let entries = move || match outbox.get() {
        outbox if !outbox.counted => "What waits is being counted.".to_owned(),
        Outbox { waiting: 0, .. } => "No entry waits.".to_owned(),
        Outbox { waiting: 1, .. } => "1 entry waits to be sent.".to_owned(),
        Outbox { waiting, .. } => format!("{waiting} entries wait to be sent."),
    };
    let since = move || outbox.get().since.map(|since| format!("The oldest was entered on {}.", told(since)));
    let photos = move || match outbox.get().photos {
        0 => None,
        1 => Some("1 photo waits.".to_owned()),
        many => Some(format!("{many} photos wait.")),
    };
    view! {
        <section class="stack" aria-live="polite">
            <p class="lead">{entries}</p>
            <p>{since}</p>
            <p>{photos}</p>
            <p class="soft">"All of them are kept on this device, whether they have travelled or not."</p>
        </section>
    }
}

#[component]
fn LinkState() -> impl IntoView {
    let device = use_device();
    let outbox = device.outbox();
    let text = move || match outbox.get().link {
        Link::NotLooked => "The desk is being looked for.".to_owned(),
        Link::NeverPaired => "No desk knows this device yet.".to_owned(),
        Link::NoConnection { since } => {
            format!("The desk cannot be reached since {}. Nothing to do: it is tried again.", told(since))
        }
        Link::Sending => "Entries are on their way.".to_owned(),
        Link::InStep { at } => format!("This device and the desk had the same at {}.", told(at)),
        Link::Refused(_) => "The desk answered and refused.".to_owned(),
    };
    let notice = move || match outbox.get().link {
        Link::Refused(notice) => Some(view! { <NoticeCard notice=notice/> }),
        _ => None,
    };
    let key = move || match device.paired().get() {
        Some(_) => {
            view! { <Key label="Send and fetch now" tone=Tone::Main press=move |()| device.sync_now()/> }
                .into_any()
        }
        None => view! { <KeyLink to=paths::PAIR label="Pair with a desk" tone=Tone::Main/> }.into_any(),
    };
    view! {
        <section class="stack">
            <h2>"Desk"</h2>
            <p>{move || device.paired().get().map(|pairing| format!("{} knows this device as {}.", pairing.office, pairing.name))}</p>
            <p aria-live="polite">{text}</p>
            {notice}
            <div class="row">{key}</div>
        </section>
    }
}

#[component]
fn Refused() -> impl IntoView {
    let refused = use_device().refused();
    let rows =
        move || refused.get().into_iter().map(|entry| view! { <RefusedCard entry=entry/> }).collect_view();
    let section = move || {
        (!refused.read().is_empty()).then(|| {
            view! {
                <section class="stack">
                    <h2>"Refused by the desk"</h2>
                    <p>"These entries are kept here unchanged and are not sent again by themselves."</p>
                    {rows()}
                </section>
            }
        })
    };
    view! { {section} }
}

#[component]
fn RefusedCard(
    /// The entry and what the desk said.
    entry: RefusedEntry,
) -> impl IntoView {
    let short: String = entry.id.chars().take(8).collect();
    view! {
        <article class="card stack">
            <div class="card-head">
                <h3>{entry.what}</h3>
                <MarkBadge sign=Sign::Doubtful word="refused"/>
            </div>
            <p>{entry.meaning}</p>
            <p>{entry.next}</p>
            <p class="small soft">"Job " {entry.job} ", entry " {short}</p>
        </article>
    }
}

/// How the entries are kept meanwhile.
#[component]
fn Safe() -> impl IntoView {
    let storage = use_device().storage();
    view! {
        <section class="stack">
            <h2>"Kept meanwhile"</h2>
            <p>{move || storage_text(&storage.get())}</p>
        </section>
    }
}
