//! The drawings of a shaft: volume curve, time–depth sheet, base, cage, slump, fluid, position.

use super::shaft::{ShaftPage, Shown};
use super::shape::ShapeNote;
use crate::widgets::Svg;
use figure::Size;
use leptos::prelude::*;
use screen::live::{self, DrawingCard};

/// As wide as a tablet held upright, in points.
const LARGE: Size = Size::points(760.0, 560.0);

/// Every drawing that has something to show, one at a time.
#[component]
pub(super) fn Drawings() -> impl IntoView {
    let shown = Shown::here();
    let chosen = RwSignal::new("day");
    let all = shown.part(|screen| screen.drawings.clone());
    let text = drawn(shown, Signal::derive(move || chosen.get()));
    let estimated = move || ["section", "profile"].contains(&chosen.get());
    let note = move || estimated().then(|| view! { <ShapeNote shown=shown/> });
    let empty = move || {
        let blank = all.read().iter().any(|card| card.word == chosen.get() && !card.has_content);
        blank.then(|| view! { <p class="empty">"Nothing was entered yet that this drawing shows."</p> })
    };
    view! {
        <ShaftPage shown=shown heading="Drawings" class="page-wide">
            <Which all=all chosen=chosen/>
            {empty}
            <div class="drawing-scroll" tabindex="0" role="region" aria-label="Drawing"><Svg text=text/></div>
            {note}
        </ShaftPage>
    }
}

/// The drawing of a word, at the moment looked at.
fn drawn(shown: Shown, word: Signal<&'static str>) -> Signal<String> {
    let looking = shown.looking;
    let text = Memo::new(move |_| {
        let record = looking.record.get()?;
        let (shaft, at) = (looking.shaft.get(), looking.at());
        live::drawing(&record, &shaft, (at, word.get()), LARGE)
    });
    Signal::derive(move || text.get().unwrap_or_default())
}

/// Which drawing: keys beside each other where there is room, else one list to pick from.
#[component]
fn Which(all: Memo<Vec<DrawingCard>>, chosen: RwSignal<&'static str>) -> impl IntoView {
    let keys = move || all.get().into_iter().map(|card| tab(card, chosen)).collect_view();
    let options = move || all.get().into_iter().map(|card| option(card, chosen)).collect_view();
    let pick = move |event| {
        let word = event_target_value(&event);
        if let Some(card) = all.read().iter().find(|card| card.word == word) {
            chosen.set(card.word);
        }
    };
    view! {
        <div class="keys-row drawing-keys no-print" role="group" aria-label="Which drawing">{keys}</div>
        <label class="field drawing-pick no-print">
            <span class="field-label">"Which drawing"</span>
            <select class="field-input" on:change=pick>{options}</select>
        </label>
    }
}

fn option(card: DrawingCard, chosen: RwSignal<&'static str>) -> impl IntoView {
    let label =
        if card.has_content { card.title.to_owned() } else { format!("{} (nothing yet)", card.title) };
    view! { <option value=card.word prop:selected=move || chosen.get() == card.word>{label}</option> }
}

fn tab(card: DrawingCard, chosen: RwSignal<&'static str>) -> impl IntoView {
    let is = move || chosen.get() == card.word;
    let note = (!card.has_content).then(|| view! { <span class="key-note">"nothing yet"</span> });
    view! {
        <button
            type="button"
            class="key"
            aria-pressed=move || is().to_string()
            on:click=move |_| chosen.set(card.word)
        >
            <span class="key-label">{card.title}</span>
            {note}
        </button>
    }
}
