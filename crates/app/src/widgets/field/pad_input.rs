//! A field of a number or a time: typed on a keyboard or on the pad, which opens with the focus.

use super::frame::said;
use crate::widgets::writing::{Writing, field_id};
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// The line the number stands in.
#[component]
pub(super) fn PadInput(
    /// The form.
    writing: Writing,
    /// Where.
    path: String,
) -> impl IntoView {
    let text = writing.text(&path);
    let fault = writing.fault(&path);
    let (id, described) = (field_id(&path), said(&path));
    let (open, typed) = (path.clone(), path);
    let open = StoredValue::new(open);
    let opens = move |_| writing.open.set(Some(open.get_value()));
    // An arrow down goes to the first digit of the pad, or fetches the pad that was put away.
    let to_pad = move |event: KeyboardEvent| {
        if event.key() != "ArrowDown" {
            return;
        }
        event.prevent_default();
        if !focus_pad() {
            writing.open.set(Some(open.get_value()));
        }
    };
    view! {
        // No keyboard slides over the form: the pad writes, and so does a keyboard that is plugged in.
        <input type="text" class="field-input num" inputmode="none" autocomplete="off" spellcheck="false"
            enterkeyhint="done" id=id aria-describedby=described
            aria-invalid=move || fault.with(|fault| !fault.is_empty()).to_string()
            prop:value=text
            on:focus=opens
            on:keydown=to_pad
            on:change=move |_| writing.leave()
            on:input=move |event| writing.set(&typed, &event_target_value(&event))/>
    }
}

/// Whether there is a pad, and its first digit took the focus.
fn focus_pad() -> bool {
    let first = document().query_selector(".keypad-keys button").ok().flatten();
    let first = first.and_then(|key| wasm_bindgen::JsCast::dyn_into::<web_sys::HtmlElement>(key).ok());
    first.is_some_and(|key| key.focus().is_ok())
}
