//! What is missing before the drill turns, and before concrete comes; each item with the key that settles it.

use super::paths;
use super::shaft::{ShaftPage, Shown};
use super::signs::of_ready;
use crate::widgets::{KeyLink, MarkBadge, Tone};
use leptos::prelude::*;
use screen::live::{self, Before, Item, Readiness, Ready};

/// Both lists.
#[component]
pub(super) fn ReadyScreen() -> impl IntoView {
    let shown = Shown::here();
    view! {
        <ShaftPage shown=shown heading="What is missing">
            <List shown=shown before=Before::Drilling heading="Before drilling"/>
            <List shown=shown before=Before::Concrete heading="Before concrete"/>
        </ShaftPage>
    }
}

#[component]
fn List(shown: Shown, before: Before, heading: &'static str) -> impl IntoView {
    let looking = shown.looking;
    let list = Memo::new(move |_| {
        let record = looking.record.get()?;
        Some(live::readiness(&record, &looking.shaft.get(), looking.at(), before))
    });
    let sentence = move || list.get().map(|list| list.sentence);
    let ahead = move || {
        let ahead = list.get().map_or_else(Vec::new, |list| list.ahead);
        ahead.into_iter().map(|sentence| view! { <p>{sentence}</p> }).collect_view()
    };
    let rows = move |there: bool| {
        let place = (looking.job.get(), looking.shaft.get());
        let items = list.get().map_or_else(Vec::new, |list: Readiness| list.items);
        let items = items.into_iter().filter(|item| (item.ready == Ready::There) == there);
        items.map(|item| row(item, &place)).collect_view()
    };
    view! {
        <section class="stack">
            <h2>{heading}</h2>
            <p class="lead">{sentence}</p>
            {ahead}
            <ul class="list">{move || rows(false)}</ul>
            <details class="more">
                <summary>"What is there"</summary>
                <ul class="list">{move || rows(true)}</ul>
            </details>
        </section>
    }
}

fn row(item: Item, (job, shaft): &(String, String)) -> impl IntoView + use<> {
    let (sign, word) = of_ready(item.ready);
    let key = item.wants.first().map(|want| {
        let to = paths::enter(job, Some(shaft), want.kind);
        view! { <KeyLink to=to label=want.label.clone() tone=Tone::Plain/> }
    });
    let holds = item.holds.then(|| view! { <span class="tag tag-late">"concrete waits"</span> });
    view! {
        <li class="list-row">
            <span class="list-main">
                <span class="list-name">{item.title}</span>
                <span class="small soft">{item.sentence}</span>
                <span class="row"><MarkBadge sign=sign word=word/>{holds}</span>
            </span>
            <span class="list-side no-print">{key}</span>
        </li>
    }
}
