//! One open item: what waits, for whom and since when, and the keys of the entries that settle it.

use crate::device::use_device;
use crate::screens::paths;
use crate::widgets::{KeyLink, Tone};
use leptos::prelude::*;
use screen::live::{OpenRow, Step};

/// One of them.
#[component]
pub(super) fn Item(row: OpenRow, job: String, shaft: String) -> impl IntoView {
    let place = (job, shaft);
    let tone = if row.mine { Tone::Likely } else { Tone::Plain };
    let keys: Vec<_> = row.steps.iter().map(|step| key(step, &place, tone)).collect();
    let since =
        (!row.since.is_empty()).then(|| view! { <span class="small soft">"since " {row.since}</span> });
    let mine = row.mine.then(|| view! { <span class="tag open-mine">"yours"</span> });
    view! {
        <article class="card stack open-item" class:open-item-mine=row.mine id=row.id>
            <p class="open-head">
                <strong>{row.lead}</strong> " " <span>{row.waits_for}</span> " " {mine} " " {since}
            </p>
            <p>{row.what}</p>
            <p class="soft">{row.meaning}</p>
            <p class="card-next">{row.next}</p>
            <div class="keys-row no-print">{keys}</div>
            {about(&row.about, row.word, &place)}
        </article>
    }
}

/// The key of an entry that settles it. Who signs is who writes on this device.
fn key(step: &Step, (job, shaft): &(String, String), tone: Tone) -> impl IntoView + use<> {
    let (kind, known, place) = (step.kind, step.known.clone(), (job.clone(), shaft.clone()));
    let author = use_device().author();
    let to = Signal::derive(move || {
        let who = match kind {
            "signed" => Some("name"),
            "finding_disposed" | "hold_released" => Some("by"),
            _ => None,
        };
        let mut known = known.clone();
        known.extend(who.map(|field| (field, author.get())));
        paths::enter_from_open_items((&place.0, Some(&place.1)), kind, &known)
    });
    view! { <KeyLink to=to label=step.label.clone() tone=tone/> }
}

/// Ask about the entry it rests on, say something of it, look at it.
fn about(entry: &str, word: &str, (job, shaft): &(String, String)) -> Option<impl IntoView + use<>> {
    let ask = matches!(word, "finding" | "hold" | "dispute");
    let known = [("about", entry.to_owned())];
    let to = |kind: &str| paths::enter_from_open_items((job, Some(shaft)), kind, &known);
    let (question, comment) = (ask.then(|| to("question_asked")), to("comment"));
    let log = paths::shaft_page(job, shaft, "log");
    (!entry.is_empty()).then(|| {
        let question = question.map(|to| view! { <a class="open-link" href=to>"Ask a question"</a> });
        view! {
            <p class="open-links no-print">
                {question}
                <a class="open-link" href=comment>"Comment"</a>
                <a class="open-link" href=log>"See the log"</a>
            </p>
        }
    })
}
