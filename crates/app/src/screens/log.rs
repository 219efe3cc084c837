//! The log: every entry in the order things were seen, with what became of it.
//!
//! Struck entries stand struck through with by whom and why; disputes show every candidate; each entry leads
//! to the screen that corrects it.
//!
//! Never: leave an entry out because it was corrected.

use super::card::CardView;
use super::paths;
use super::shaft::{ShaftPage, Shown};
use super::shell::{bring_into_sight, sought};
use crate::device::use_device;
use crate::widgets::{MarkBadge, Sign};
use leptos::prelude::*;
use screen::live::{self, Review, ReviewRow};

/// The log of the shaft.
#[component]
pub(super) fn LogScreen() -> impl IntoView {
    let shown = Shown::here();
    let looking = shown.looking;
    let (newest, jobs_too) = (RwSignal::new(true), RwSignal::new(false));
    let review = Memo::new(move |_| {
        let record = looking.record.get()?;
        Some(live::review(&record, &looking.shaft.get(), looking.at()))
    });
    let sought = sought();
    bring_into_sight(sought.clone());
    let sought = StoredValue::new(sought);
    let rows = Memo::new(move |_| review.with(|review| review.as_ref().map(|all| all.rows.clone())));
    let lines = move || {
        let place = (looking.job.get(), looking.shaft.get());
        let mut rows = rows.get().unwrap_or_default();
        rows.retain(|row| jobs_too.get() || !row.about_job);
        if newest.get() {
            rows.reverse();
        }
        rows.into_iter().map(|row| line(row, &place, &sought.read_value())).collect_view()
    };
    view! {
        <ShaftPage shown=shown heading="Log">
            <Told review=review shown=shown/>
            <div class="keys-row no-print">
                {state("Newest first", newest)}
                {state("With entries about the job", jobs_too)}
            </div>
            <ol class="log">{lines}</ol>
        </ShaftPage>
    }
}

/// A key that stands for a state.
fn state(label: &'static str, on: RwSignal<bool>) -> impl IntoView {
    view! {
        <button
            type="button"
            class="key"
            aria-pressed=move || on.get().to_string()
            on:click=move |_| on.update(|on| *on = !*on)
        >
            {label}
        </button>
    }
}

/// Disputes, alarms, newer entries: before the entries themselves.
#[component]
fn Told(review: Memo<Option<Review>>, shown: Shown) -> impl IntoView {
    let cards = move || {
        let place = (shown.looking.job.get(), shown.looking.shaft.get());
        let review = review.get()?;
        let all = review.alarms.into_iter().chain(review.record);
        let view = |card| view! { <CardView card=card job=place.0.clone() shaft=place.1.clone()/> };
        Some(all.map(view).collect_view())
    };
    view! { {cards} }
}

/// One entry.
fn line(row: ReviewRow, place: &(String, String), sought: &str) -> impl IntoView + use<> {
    let job = &place.0;
    let (id, is_sought) = (row.id.clone(), row.id == sought);
    let struck = row.struck.as_ref().map(|struck| {
        view! { <span class="log-mark">"Struck through by " {struck.who.clone()} ": " {struck.why.clone()}</span> }
    });
    let said = |words: &str, text: &str| (!text.is_empty()).then(|| format!("{words}{text}"));
    let text = if row.struck.is_some() { "log-what struck" } else { "log-what written" };
    let mark = |sign: Sign, text: Option<String>| text.map(|text| view! { <MarkBadge sign=sign word=text/> });
    let marks = (
        mark(Sign::Late, said("late: ", &row.late)),
        mark(Sign::Doubtful, said("in dispute: ", &row.disputed)),
        mark(Sign::Doubtful, row.newer.then(|| "written by a newer version; carried as it came".to_owned())),
        mark(Sign::Later, row.ahead.then(|| "dated ahead; no figure counts it yet".to_owned())),
    );
    let reason = said("Replaces another entry: ", &row.reason);
    let correct = row.correctable.then(|| {
        let to = paths::strike(job, &row.id);
        let about = format!("Correct {} of {}", row.label, row.time);
        view! { <a class="log-correct no-print" href=to aria-label=about>"Correct"</a> }
    });
    let ask = (!row.newer && !SAID.contains(&row.kind)).then(|| asks(&row, place));
    let said =
        row.said.iter().map(|text| view! { <span class="log-said">{text.clone()}</span> }).collect_view();
    let elevation = (!row.elevation.is_empty()).then(|| format!(" ({})", row.elevation));
    let photo = (!row.photo.is_empty()).then(|| view! { <Photo hash=row.photo.clone()/> });
    let hash = (!row.photo.is_empty()).then(|| format!(", SHA-256 of the photo {}", row.photo));
    let refused = refused(&row.id);
    view! {
        <li class="log-row" class:log-sought=is_sought id=id>
            <time class="log-time num">{row.time}</time>
            <div class="log-text">
                <span class="log-kind">{row.label}</span>
                <span class=text>{row.what}{elevation}</span>
                {struck}
                {reason.map(|text| view! { <span class="log-mark">{text}</span> })}
                <span class="row">{marks}{refused}</span>
                {photo}
                {said}
                <span class="log-meta">{row.who} ", " {row.device} " no. " {row.seq} ", " {row.short}{hash}</span>
                <span class="log-acts">{correct}{ask}</span>
            </div>
        </li>
    }
}

/// Kinds that are themselves said of an entry: what is asked about them is asked about that entry.
const SAID: &[&str] = &["question_asked", "question_answered", "comment"];

/// The forms that ask about an entry, and that say something of it.
fn asks(row: &ReviewRow, (job, shaft): &(String, String)) -> impl IntoView + use<> {
    let link = |kind: &str, word: &'static str| {
        let to = paths::enter_with((job, Some(shaft)), kind, &[("about", row.id.clone())]);
        let about = format!("{word} on {} of {}", row.label, row.time);
        view! { <a class="log-correct no-print" href=to aria-label=about>{word}</a> }
    };
    view! { {link("question_asked", "Question")}{link("comment", "Comment")} }
}

/// The desk refused it.
fn refused(id: &str) -> impl IntoView + use<> {
    let (refused, id) = (use_device().refused(), id.to_owned());
    move || {
        let is = refused.read().iter().any(|entry| entry.id == id);
        is.then(|| view! { <MarkBadge sign=Sign::Doubtful word="refused by the desk; see the outbox"/> })
    }
}

/// A photo, once it is found here or at the desk.
#[component]
fn Photo(hash: String) -> impl IntoView {
    let url = RwSignal::new(None::<String>);
    let device = use_device();
    leptos::task::spawn_local(async move {
        let found = device.photo_url(&hash).await;
        // The row may be gone by the time the photo is found.
        let _gone = url.try_set(found);
    });
    let image = move |url: String| view! { <img class="log-photo" src=url alt="Photo of this entry"/> };
    view! { {move || url.get().map(image)} }
}
