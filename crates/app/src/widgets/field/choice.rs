//! One of a few, as big radio keys; one of many, as a list to pick from.

use super::frame::said;
use crate::widgets::writing::{Writing, field_id};
use leptos::prelude::*;
use screen::entry::form::ChoiceWord;

/// More words than this are picked from a list.
pub(super) const KEYS_MAX: usize = 14;

/// The two words of a flag.
pub(super) fn yes_or_no() -> Vec<ChoiceWord> {
    let word = |word: &str, label: &str| ChoiceWord {
        word: word.to_owned(),
        label: label.to_owned(),
        meaning: String::new(),
    };
    vec![word("yes", "Yes"), word("no", "No")]
}

/// Words and what stands on them.
pub(super) fn options(words: &[ChoiceWord]) -> Vec<(String, String)> {
    words.iter().map(|word| (word.word.clone(), word.label.clone())).collect()
}

/// Radio keys. A tap on the chosen one takes it back, so that a blank can be a blank again.
#[component]
pub(super) fn Choice(
    /// The form.
    writing: Writing,
    /// Where.
    path: String,
    /// What can be chosen.
    words: Vec<ChoiceWord>,
) -> impl IntoView {
    let text = writing.text(&path);
    let group = field_id(&path);
    let path = StoredValue::new(path);
    let pick = move |word: &str| {
        writing.open.set(None);
        writing.set(&path.get_value(), word);
        writing.leave();
    };
    let key = |(at, choice): (usize, ChoiceWord)| {
        let ChoiceWord { word, label, meaning } = choice;
        let id = if at == 0 { group.clone() } else { format!("{group}-{at}") };
        let (is, take, back) = (word.clone(), word.clone(), word);
        let chosen = Memo::new(move |_| text.with(|text| *text == is));
        let untake = move |event: leptos::ev::MouseEvent| {
            if text.with_untracked(|text| *text == back) && event.detail() > 0 {
                pick("");
            }
        };
        view! {
            <label class="choice" title=meaning>
                <input type="radio" name=group.clone() id=id prop:checked=chosen
                    on:click=untake on:change=move |_| pick(&take)/>
                <span>{label}</span>
            </label>
        }
    };
    view! { <div class="choices">{words.into_iter().enumerate().map(key).collect_view()}</div> }
}

/// A list to pick from.
#[component]
pub(super) fn Pick(
    /// The form.
    writing: Writing,
    /// Where.
    path: String,
    /// What is set, and what stands on it.
    options: Vec<(String, String)>,
) -> impl IntoView {
    let text = writing.text(&path);
    let fault = writing.fault(&path);
    let (id, described) = (field_id(&path), said(&path));
    let option = |(word, label): (String, String)| {
        let is = word.clone();
        view! { <option value=word prop:selected=move || text.with(|text| *text == is)>{label}</option> }
    };
    let options = options.into_iter().map(option).collect_view();
    let picked = move |event| {
        writing.set(&path, &event_target_value(&event));
        writing.leave();
    };
    view! {
        <select class="field-input" id=id aria-describedby=described
            aria-invalid=move || fault.with(|fault| !fault.is_empty()).to_string()
            on:focus=move |_| writing.open.set(None)
            on:change=picked>
            <option value="" prop:selected=move || text.with(String::is_empty)>"Nothing chosen"</option>
            {options}
        </select>
    }
}
