//! The debrief: what was true, what the tool showed and when, what was decided, read and missed.

use super::super::looking::{Looking, OfJob};
use super::super::paths;
use super::super::shell::PageHead;
use super::Played;
use super::hole::{EndKey, NoPractice};
use crate::widgets::{KeyLink, MarkBadge, Sign, Svg, Tone};
use leptos::prelude::*;
use rehearse::day::SHAFT;
use screen::practice::{DebriefScreen, Decided, Line, Reading, Stretch, debrief};

/// The page.
#[component]
pub(in crate::screens) fn DebriefPage() -> impl IntoView {
    let (looking, played) = (Looking::here(), Played::here());
    let ended = played.part(|one| Some(one.ended));
    let told = Memo::new(move |_| {
        let record = looking.record.get()?;
        let one = played.device.practice(&played.job.get()).filter(|one| one.ended)?;
        Some(debrief(&one.practice, &record))
    });
    let body = move || match (ended.get(), told.get()) {
        (None, _) => view! { <NoPractice/> }.into_any(),
        (Some(false), _) => view! { <NotYet played=played/> }.into_any(),
        (Some(true), told) => view! { <Told told=told.unwrap_or_default() played=played/> }.into_any(),
    };
    view! { <OfJob looking=looking>{body}</OfJob> }
}

/// It is still going on.
#[component]
fn NotYet(played: Played) -> impl IntoView {
    let to = Signal::derive(move || paths::job_page(&played.job.get(), "hole"));
    view! {
        <section class="page">
            <PageHead heading="Debrief"/>
            <p class="lead">"The practice is still going on. The truth is told when it has ended."</p>
            <div class="row"><KeyLink to=to label="Back to the hole" tone=Tone::Main/><EndKey played=played/></div>
        </section>
    }
}

#[component]
fn Told(told: DebriefScreen, played: Played) -> impl IntoView {
    let shaft = Signal::derive(move || paths::shaft(&played.job.get(), SHAFT));
    let chart = told.chart;
    view! {
        <section class="page page-wide debrief">
            <PageHead heading="Debrief"/>
            <p class="lead">{told.story}</p>
            <p>{told.shown}</p>
            <div class="debrief-parts">
                <div class="stack">
                    {decisions(told.decided)}
                    {lines("Not written down", told.missed, "Everything there was to read was written down.")}
                    {lines("What the tool showed beside that", told.others, "Nothing.")}
                </div>
                <div class="stack">
                    {readings(told.readings)}
                    {stretches(told.stretches)}
                    <section class="stack"><h2>"The wall as it is"</h2><Svg text=chart class="debrief-chart"/></section>
                </div>
            </div>
            <div class="row">
                <KeyLink to=paths::PRACTICE label="Practice again" tone=Tone::Main/>
                <KeyLink to=shaft label="To the shaft" note="with its drawings and findings"/>
            </div>
        </section>
    }
}

fn decisions(all: Vec<Decided>) -> impl IntoView {
    let row = |one: Decided| {
        let wise = (!one.wise.is_empty()).then(|| {
            view! { <span class="debrief-wise"><MarkBadge sign=Sign::Fails word="better"/> " " {one.wise}</span> }
        });
        view! { <tr><td class="num">{one.clock}</td><th scope="row">{one.what}</th><td>{one.answer} " " {wise}</td></tr> }.into_any()
    };
    table("What was decided", &["Asked", "What", "Answer"], all.into_iter().map(row).collect())
}

fn readings(all: Vec<Reading>) -> impl IntoView {
    let row = |one: Reading| {
        let off = one.off.then(|| view! { <MarkBadge sign=Sign::Fails word="misread"/> });
        view! { <tr><td class="num">{one.clock}</td><td class="num">{one.written}</td><td class="num">{one.truth} " " {off}</td></tr> }.into_any()
    };
    table("Depth to the concrete", &["Seen", "As written", "In truth"], all.into_iter().map(row).collect())
}

fn stretches(all: Vec<Stretch>) -> impl IntoView {
    let row = |one: Stretch| {
        view! { <tr><th scope="row" class="num">{one.depths}</th><td class="num">{one.written}</td><td class="num">{one.truth}</td></tr> }.into_any()
    };
    let heads = ["Between", "Placed over theoretical", "In truth"];
    table("Ratio between the soundings", &heads, all.into_iter().map(row).collect())
}

fn table(caption: &'static str, heads: &[&'static str], rows: Vec<AnyView>) -> AnyView {
    if rows.is_empty() {
        return view! { <section class="stack"><h2>{caption}</h2><p class="soft">"Nothing was written down."</p></section> }
            .into_any();
    }
    let heads = heads.iter().map(|head| view! { <th scope="col">{*head}</th> }).collect_view();
    view! {
        <div class="table-wide" tabindex="0" role="region" aria-label=caption>
            <table class="table"><caption>{caption}</caption><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>
        </div>
    }
    .into_any()
}

fn lines(heading: &'static str, all: Vec<Line>, none: &'static str) -> impl IntoView {
    let none = all.is_empty().then(|| view! { <p class="soft">{none}</p> });
    let row = |line: Line| view! { <li><span class="num">{line.clock}</span> " " {line.what}</li> };
    let rows = all.into_iter().map(row).collect_view();
    view! { <section class="stack"><h2>{heading}</h2>{none}<ul class="lines">{rows}</ul></section> }
}
