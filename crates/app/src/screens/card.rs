//! A card: one finding, forecast, question or doubt, with what to do and the entry that would settle it.

use super::paths;
use super::signs::{of_haste, of_sign};
use crate::widgets::{KeyLink, MarkBadge, Tone};
use leptos::prelude::*;
use screen::live::{Card, Want};

/// One card in full.
#[component]
pub(super) fn CardView(
    /// What it says.
    card: Card,
    /// The job its entries are written for.
    job: String,
    /// The shaft; empty: the whole job.
    shaft: String,
) -> impl IntoView {
    let keys = settle(&card, &job, &shaft);
    let mark = card.sign.map(|sign| (of_sign(sign), sign.text()));
    let mark = mark.or(card.haste.map(|haste| (of_haste(haste), haste.word())));
    let badge = mark.map(|(sign, word)| view! { <MarkBadge sign=sign word=word/> });
    let holds = card.holds.then(|| view! { <span class="tag tag-late">"concrete waits for it"</span> });
    let decided =
        card.decided.iter().map(|line| view! { <p class="written">{line.clone()}</p> }).collect_view();
    let more = more(&card);
    view! {
        <article class="card stack" id=card.id.clone()>
            <div class="card-head">
                <h3>{card.title}</h3>
                <span class="row">{badge}{holds}</span>
            </div>
            <p>{card.sentence}</p>
            {said("card-next", card.next)}
            {decided}
            {more}
            {keys}
        </article>
    }
}

/// Source, reason and entries, behind a fold.
fn more(card: &Card) -> Option<impl IntoView + use<>> {
    let source = (!card.source.is_empty()).then(|| pair("Source", card.source.clone()));
    let why = (!card.why.is_empty()).then(|| pair("Why it matters", card.why.clone()));
    let entries = (!card.evidence_text.is_empty()).then(|| pair("Rests on", card.evidence_text.join("; ")));
    let any = source.is_some() || why.is_some() || entries.is_some();
    any.then(|| {
        view! {
            <details class="more">
                <summary>"Source and entries"</summary>
                <dl class="pairs">{source}{why}{entries}</dl>
            </details>
        }
    })
}

fn pair(name: &'static str, text: String) -> impl IntoView {
    view! { <dt>{name}</dt><dd>{text}</dd> }
}

fn said(class: &'static str, text: String) -> Option<impl IntoView> {
    (!text.is_empty()).then(|| view! { <p class=class>{text}</p> })
}

/// The keys of the entries that would settle it; a finding that fails can also be decided.
fn settle(card: &Card, job: &str, shaft: &str) -> Option<impl IntoView + use<>> {
    let shaft = Some(shaft).filter(|shaft| !shaft.is_empty());
    let link = |want: &Want, known: &[(&str, String)]| {
        let to = paths::enter_with((job, shaft), want.kind, known);
        view! { <KeyLink to=to label=want.label.clone() tone=Tone::Plain/> }
    };
    let about = card.evidence.first().cloned().unwrap_or_default();
    let known = known(card, about);
    let mut keys: Vec<_> = card.wants.iter().map(|want| link(want, &known)).collect();
    let fails = card.open && card.sign == Some(screen::live::Sign::Fails);
    if fails && card.wants.iter().all(|want| want.kind != "finding_disposed") {
        let to = paths::enter_with((job, shaft), "finding_disposed", &known);
        keys.push(view! { <KeyLink to=to label="Decide about it" tone=Tone::Plain/> });
    }
    let any = card.open && !keys.is_empty();
    any.then(|| view! { <div class="keys-row no-print">{keys}</div> })
}

/// What an entry about a card is about.
fn known(card: &Card, about: String) -> Vec<(&'static str, String)> {
    use screen::live::CardSort;
    match card.sort {
        CardSort::Question => vec![("about", about), ("question", card.criterion.clone())],
        CardSort::Record => vec![("about", about)],
        _ if card.criterion.is_empty() => Vec::new(),
        _ => vec![("criterion", card.criterion.clone())],
    }
}
