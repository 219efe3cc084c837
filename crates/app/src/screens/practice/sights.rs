//! What can be read now: papers, samples with their drawn instruments, things that are seen.

use super::super::paths;
use super::Played;
use crate::widgets::{KeyLink, Svg, Tone};
use leptos::prelude::*;
use rehearse::day::SHAFT;
use screen::practice::{Instrument, SightCard, known, sight, unwritten};

/// The numbers of what can be read now, what is not written down yet first.
pub(super) fn open(played: Played) -> Memo<Vec<usize>> {
    let left = left(played);
    Memo::new(move |_| {
        let Some(one) = played.one() else { return Vec::new() };
        let offers = one.practice.offers(one.now());
        let mut numbers: Vec<usize> = offers.iter().map(|offer| offer.number).collect();
        let left = left.read();
        numbers.sort_by_key(|number| (!left.contains(number), *number));
        numbers
    })
}

/// The numbers of the offers of the whole day that nothing was written for.
pub(super) fn left(played: Played) -> Memo<Vec<usize>> {
    let answered =
        played.part(|one| one.practice.day().asks.iter().filter(|ask| ask.answer.is_some()).count());
    Memo::new(move |_| {
        answered.track();
        let job = played.job.get();
        let record = played.device.record(&job).get();
        let one = played.device.practice(&job);
        record.zip(one).map(|(record, one)| unwritten(&one.practice, &record)).unwrap_or_default()
    })
}

/// The cards.
#[component]
pub(super) fn Sights(played: Played) -> impl IntoView {
    let (open, left) = (open(played), left(played));
    let none = move || {
        let text = "Nothing is to be read at the moment. Let the clock run, or go on to what comes next.";
        open.read().is_empty().then(|| view! { <p class="empty">{text}</p> })
    };
    let key = move |number: &usize| (*number, left.read().contains(number));
    let card = move |number: usize| {
        let one = played.device.practice(&played.job.get_untracked())?;
        let offer = one.practice.all_offers().find(|offer| offer.number == number)?;
        let card = sight(&one.practice, &offer)?;
        let to = paths::enter_with(
            (&played.job.get_untracked(), Some(SHAFT)),
            card.kind,
            &known(&one.practice, number),
        );
        let open = left.with_untracked(|left| left.contains(&number));
        Some(view! { <Sight card=card to=to open=open/> })
    };
    view! {
        {none}
        <div class="sights"><For each=move || open.get() key=key children=card/></div>
    }
}

/// One card: open until it is written down.
#[component]
fn Sight(card: SightCard, to: String, open: bool) -> impl IntoView {
    let (clock, title) = (card.clock.clone(), card.title.clone());
    let written = (!open).then(|| view! { <span class="tag">"written down"</span> });
    view! {
        <details class="sight" open=open>
            <summary>
                <span class="num sight-clock">{clock}</span>
                <span class="sight-title">{title}</span>
                {written}
            </summary>
            <div class="stack">
                {seen(card)}
                <div class="row"><KeyLink to=to label="Write it down" tone=Tone::Likely/></div>
            </div>
        </details>
    }
}

/// What is seen of it: a sentence, a paper, drawings.
pub(super) fn seen(card: SightCard) -> impl IntoView {
    let paper = (!card.paper.is_empty()).then(|| paper(card.paper));
    let said = (!card.seen.is_empty()).then(|| view! { <p>{card.seen}</p> });
    let instruments = card.instruments.into_iter().map(instrument).collect_view();
    view! {
        {said}
        {paper}
        <div class="instruments">{instruments}</div>
    }
}

/// A paper as it is handed over.
fn paper(lines: Vec<(String, String)>) -> impl IntoView {
    let lines =
        lines.into_iter().map(|(label, text)| view! { <dt>{label}</dt><dd>{text}</dd> }).collect_view();
    view! { <dl class="paper pairs">{lines}</dl> }
}

/// A drawing to be read, with how.
pub(super) fn instrument(one: Instrument) -> impl IntoView {
    view! {
        <figure class="instrument">
            <figcaption><strong>{one.label}</strong> <span class="small soft">{one.hint}</span></figcaption>
            <Svg text=one.svg/>
        </figure>
    }
}
