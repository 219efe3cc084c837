//! At the hole: what is asked, what can be read, the tape, and the clock with its pace.

use super::super::ask::ChoiceAsk;
use super::super::looking::{Looking, OfJob};
use super::super::paths;
use super::super::shell::PageHead;
use super::super::way::use_way;
use super::Played;
use super::asked::Asked;
use super::begin::pace_text;
use super::sights::Sights;
use super::tape::TapeCard;
use crate::device::PACES;
use crate::widgets::{Key, KeyGrid, KeyLink, Tone};
use leptos::prelude::*;
use rehearse::day::SHAFT;

/// The screen.
#[component]
pub(in crate::screens) fn HoleScreen() -> impl IntoView {
    let (looking, played) = (Looking::here(), Played::here());
    let is = played.part(|one| if one.ended { State::Ended } else { State::Played });
    let body = move || match is.get() {
        State::Played => view! { <Hole played=played/> }.into_any(),
        State::Ended => view! { <Ended played=played/> }.into_any(),
        State::None => view! { <NoPractice/> }.into_any(),
    };
    view! { <OfJob looking=looking>{body}</OfJob> }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum State {
    #[default]
    None,
    Played,
    Ended,
}

#[component]
fn Hole(played: Played) -> impl IntoView {
    let over = played.part(|one| one.practice.is_over(one.now()));
    let shaft = move || paths::shaft(&played.job.get(), SHAFT);
    view! {
        <section class="page page-wide hole">
            <PageHead heading="At the hole"/>
            <Asked played=played/>
            {move || over.get().then(|| view! { <Over played=played/> })}
            <div class="hole-parts">
                <section class="stack" aria-labelledby="sights-title">
                    <h2 id="sights-title">"To be read and written down"</h2>
                    <Sights played=played/>
                </section>
                <div class="stack">
                    <TapeCard played=played at_hole=true/>
                    <Pace played=played/>
                    <div class="row"><KeyLink to=Signal::derive(shaft) label="To the shaft" note="figures, clocks, what calls"/></div>
                </div>
            </div>
        </section>
    }
}

/// On to what comes next, how fast, and the end.
#[component]
fn Pace(played: Played) -> impl IntoView {
    let pace = played.part(|one| one.pace);
    let over = played.part(|one| one.practice.is_over(one.now()));
    let still = played.part(|one| one.is_held() || one.practice.is_over(one.now()));
    let paces = PACES.map(|pace| (pace, pace_text(pace))).to_vec();
    view! {
        <section class="stack" aria-labelledby="pace-title">
            <h2 id="pace-title">"The clock"</h2>
            <Key
                label="On to what comes next"
                note="nothing in between is left out"
                off=still
                press=move |()| played.change(|one| one.skip())
            />
            <ChoiceAsk
                label="How fast"
                choices=paces
                chosen=pace
                choose=Callback::new(move |pace| played.change(|one| one.pace(pace)))
            />
            {move || (!over.get()).then(|| view! { <EndKey played=played/> })}
        </section>
    }
}

/// The day is over.
#[component]
fn Over(played: Played) -> impl IntoView {
    view! {
        <section class="question-card stack">
            <h2>"The day is over"</h2>
            <p>"What you have not written down yet can still be written. Then look at what was true."</p>
            <EndKey played=played/>
        </section>
    }
}

/// Ends the practice and leads to the debrief. Before the day is over it takes a second tap.
#[component]
pub(super) fn EndKey(played: Played) -> impl IntoView {
    let (way, sure) = (use_way(), RwSignal::new(false));
    let over = played.part(|one| one.practice.is_over(one.now()));
    let end = move || {
        played.change(|one| one.end());
        way.go(&paths::job_page(&played.job.get_untracked(), "debrief"));
    };
    let press = move |()| if over.get_untracked() { end() } else { sure.set(true) };
    let first = move || {
        view! { <Key label="End, and see the truth" note="nothing can be read after that" tone=Tone::Grave press=press/> }
    };
    let second = move || {
        view! {
            <p>"The day is not over. Who ends it now misses what is still to come."</p>
            <KeyGrid name="End it now?">
                <Key label="End now" tone=Tone::Grave press=move |()| end()/>
                <Key label="Go on" press=move |()| sure.set(false)/>
            </KeyGrid>
        }
    };
    view! { <div class="stack" aria-live="polite">{move || if sure.get() { second().into_any() } else { first().into_any() }}</div> }
}

#[component]
fn Ended(played: Played) -> impl IntoView {
    let to = Signal::derive(move || paths::job_page(&played.job.get(), "debrief"));
    view! {
        <section class="page">
            <PageHead heading="At the hole"/>
            <p class="lead">"This practice has ended."</p>
            <div class="row">
                <KeyLink to=to label="The debrief" tone=Tone::Main/>
                <KeyLink to=paths::PRACTICE label="Practice again"/>
            </div>
        </section>
    }
}

/// The job is no practice, or not one of this device.
#[component]
pub(super) fn NoPractice() -> impl IntoView {
    view! {
        <section class="page">
            <PageHead heading="No practice"/>
            <p>"This job is not a practice of this device. Its record is untouched."</p>
            <div class="row"><KeyLink to=paths::PRACTICE label="Practice"/></div>
        </section>
    }
}
