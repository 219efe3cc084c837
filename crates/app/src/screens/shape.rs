//! What shape the shaft probably has, and what the readings could not have shown, in words.
//!
//! Never: stand without saying that it is an estimate.

use super::shaft::Shown;
use leptos::prelude::*;
use wording::ShapeText;

/// The estimate in words; nothing before the first sounding of concrete.
#[component]
pub(super) fn ShapeNote(shown: Shown) -> impl IntoView {
    let text = shown.part(|screen| screen.shape.clone());
    move || text.get().map(told)
}

fn told(text: ShapeText) -> impl IntoView {
    let stretches = text.told.into_iter().map(|told| view! { <li>{told.sentence}</li> }).collect_view();
    view! {
        <section class="card stack" aria-labelledby="shape-title">
            <h2 id="shape-title">"What shape it probably has"</h2>
            <p>{text.whole}</p>
            <ul>{stretches}</ul>
            <p>{text.blind_spots}</p>
            <p class="card-next">{text.blind_do}</p>
            <p>{text.next}</p>
        </section>
    }
}
