//! What to do next, each step with the key of the entry it would be written as.

use super::super::paths;
use super::super::signs::of_haste;
use super::Shown;
use crate::widgets::{MarkBadge, steady};
use leptos::prelude::*;
use screen::live::{Haste, Next};

/// The steps, in order.
#[component]
pub(super) fn NextSteps(shown: Shown) -> impl IntoView {
    let part = shown.part(|screen| screen.next.clone());
    let steps = steady(move || part.get());
    // A step that did not change keeps its place on the screen, and the focus of whoever stands on it.
    let key = |step: &Next| format!("{}|{}|{}|{}", step.id, step.what, step.why, step.haste.word());
    let step = move |step: Next| step_view(step, &(shown.looking.job.get(), shown.looking.shaft.get()));
    let none =
        move || steps.read().is_empty().then(|| view! { <p class="soft">"Nothing is asked for now."</p> });
    view! {
        <section class="shaft-next" aria-labelledby="next-title">
            <h2 id="next-title">"Next"</h2>
            {none}
            <ol class="todo"><For each=move || steps.get() key=key children=step/></ol>
        </section>
    }
}

fn step_view(step: Next, (job, shaft): &(String, String)) -> impl IntoView + use<> {
    let to = paths::enter_with((job, Some(shaft)), step.kind, &step.known);
    let haste = (step.haste != Haste::Later).then(|| {
        view! { <MarkBadge sign=of_haste(step.haste) word=step.haste.word()/> }
    });
    let holds = step.holds.then(|| view! { <span class="tag tag-late">"concrete waits"</span> });
    let why = (!step.why.is_empty()).then(|| view! { <span class="todo-why">{step.why}</span> });
    view! {
        <li class="todo-step">
            <a class="todo-link" href=to>
                <span class="todo-what">{step.what}</span>
                {why}
            </a>
            <span class="todo-signs">{haste}{holds}</span>
        </li>
    }
}
