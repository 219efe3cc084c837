//! What the crew asks, with a key for each answer.

use super::super::paths;
use super::Played;
use crate::widgets::{Key, KeyGrid, Tone};
use leptos::prelude::*;
use rehearse::day::SHAFT;
use screen::practice::{QuestionCard, question, show};

/// The question that is asked now.
#[component]
pub(super) fn Asked(played: Played) -> impl IntoView {
    let asked = played.part(|one| {
        let show = show(&one.practice);
        one.practice.asked(one.now()).map(|ask| question(&ask.question, &show))
    });
    view! { <div aria-live="polite">{move || asked.get().map(|card| card_view(card, played))}</div> }
}

fn card_view(card: QuestionCard, played: Played) -> impl IntoView {
    let keys = card.keys.into_iter().map(move |key| {
        let answer = key.answer;
        view! { <Key label=key.label tone=Tone::Likely press=move |()| played.change(|one| one.answer(answer))/> }
    });
    let shaft = move || paths::shaft(&played.job.get(), SHAFT);
    let keys = keys.collect_view();
    view! {
        <section class="question-card stack" aria-labelledby="asked-title">
            <h2 id="asked-title">{card.what}</h2>
            <p>{card.hint} " " <a href=shaft>"To the shaft’s screen"</a></p>
            <KeyGrid name="Answers">{keys}</KeyGrid>
        </section>
    }
}
