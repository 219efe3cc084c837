//! The clock of a practice, on every screen of its job: pause it, let it go on, and the way to the hole.

use super::super::paths;
use super::Played;
use super::sights;
use crate::widgets::{Tone, steady};
use leptos::prelude::*;

/// The clock bar; nothing where the job in sight is no practice.
#[component]
pub(in crate::screens) fn ClockBar() -> impl IntoView {
    let played = Played::here();
    let part = played.part(|one| !one.ended);
    let is = steady(move || part.get());
    view! { {move || is.get().then(|| view! { <Running played=played/> })} }
}

/// How the clock stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Stands {
    #[default]
    Paused,
    Runs,
    Waits,
    Over,
}

#[component]
fn Running(played: Played) -> impl IntoView {
    let stands = played.part(|one| match one {
        one if one.practice.is_over(one.now()) => Stands::Over,
        one if one.is_held() => Stands::Waits,
        one if one.runs => Stands::Runs,
        _ => Stands::Paused,
    });
    let pace = played.part(|one| one.pace);
    let said = move || match stands.get() {
        Stands::Over => "The day is over.".to_owned(),
        Stands::Waits => "The crew waits for your answer.".to_owned(),
        Stands::Paused => "The clock stands still.".to_owned(),
        Stands::Runs if pace.get() <= 1 => "The clock runs as in life.".to_owned(),
        Stands::Runs => format!("The clock runs {} times faster.", pace.get()),
    };
    let toggle = move |_| {
        let runs = stands.get_untracked() == Stands::Runs;
        played.change(|one| one.run(!runs));
    };
    let key = move || if stands.get() == Stands::Runs { "Pause" } else { "Go on" };
    let movable = move || matches!(stands.get(), Stands::Runs | Stands::Paused);
    let to = move || paths::job_page(&played.job.get(), "hole");
    let (open, left) = (sights::open(played), sights::left(played));
    let here = Memo::new(move |_| {
        let left = left.read();
        open.read().iter().filter(|number| left.contains(number)).count()
    });
    let label = move || match here.get() {
        0 => "At the hole".to_owned(),
        more => format!("At the hole ({more})"),
    };
    view! {
        <div class="banner clock-bar no-print" role="group" aria-label="Practice">
            <span class="clock-bar-said">{said}</span>
            {move || movable().then(|| view! {
                <button type="button" class=Tone::Quiet.classes() on:click=toggle>{key}</button>
            })}
            <a class=Tone::Plain.classes() href=to>{label}</a>
        </div>
    }
}
