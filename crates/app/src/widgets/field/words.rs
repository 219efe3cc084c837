//! A field of words: one line for a name, several for what is told.

use super::frame::said;
use crate::widgets::writing::{Writing, field_id};
use leptos::prelude::*;
use screen::entry::form::Asked;

/// Fields in which something is told rather than named.
const TOLD: &[&str] =
    &["text", "note", "reason", "statement", "description", "how", "action", "answer", "findings", "result"];

/// Whether it takes several lines.
pub(super) fn is_long(asked: &Asked) -> bool {
    let name = asked.path.rsplit('.').next().unwrap_or_default();
    TOLD.contains(&name)
}

/// The lines the words stand in.
#[component]
pub(super) fn Words(
    /// The form.
    writing: Writing,
    /// Where.
    path: String,
    /// Several lines.
    long: bool,
) -> impl IntoView {
    let text = writing.text(&path);
    let fault = writing.fault(&path);
    let (id, described) = (field_id(&path), said(&path));
    let invalid = move || fault.with(|fault| !fault.is_empty()).to_string();
    let away = move |_| writing.open.set(None);
    let left = move |_| writing.leave();
    let typed = move |event| writing.set(&path, &event_target_value(&event));
    if long {
        view! {
            <textarea class="field-input" id=id aria-describedby=described aria-invalid=invalid
                prop:value=text on:focus=away on:change=left on:input=typed></textarea>
        }
        .into_any()
    } else {
        view! {
            <input type="text" class="field-input" autocomplete="off" id=id aria-describedby=described
                aria-invalid=invalid prop:value=text on:focus=away on:change=left on:input=typed/>
        }
        .into_any()
    }
}
