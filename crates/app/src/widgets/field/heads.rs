//! Heads of lists, rows and groups, and the keys that add a row and take one out.

use super::frame::question;
use crate::widgets::writing::{Writing, element, field_id};
use leptos::prelude::*;
use screen::entry::form::{Ask, Asked};

/// The head of a list or a group; its fields follow.
#[component]
pub(super) fn Head(
    /// The form.
    writing: Writing,
    /// The list or group.
    asked: Asked,
) -> impl IntoView {
    let fault = writing.fault(&asked.path);
    let offered = writing.asked(&asked.path);
    let path = asked.path.clone();
    let chip = move || {
        let path = path.clone();
        offered.get().and_then(|asked| asked.offer).map(|offer| {
            view! {
                <div class="chips">
                    <button type="button" class="chip" on:click=move |_| writing.take(&path)>
                        <span>{offer.text}</span>
                        <span class="chip-why">{offer.why}</span>
                    </button>
                </div>
            }
        })
    };
    let wrong = move || {
        let fault = fault.get();
        (!fault.is_empty()).then(|| view! { <p class="field-fault" role="alert">{fault}</p> })
    };
    view! {
        <div class=format!("field head level-{}", asked.level.min(3)) id=field_id(&asked.path) tabindex="-1">
            <div class="field-head">
                <h3>{asked.label.clone()}</h3>
                {asked.planned.clone().map(|planned| view! { <span class="field-plan">{planned}</span> })}
            </div>
            {(!asked.hint.is_empty()).then(|| view! { <p class="field-hint">{asked.hint.clone()}</p> })}
            {chip}
            {wrong}
            {question(writing, asked.path.clone())}
        </div>
    }
}

/// The head of a row, with the key that takes it out.
#[component]
pub(super) fn RowHead(
    /// The form.
    writing: Writing,
    /// The row.
    asked: Asked,
    /// The list it belongs to.
    list: String,
    /// Its number there, from 0.
    row: usize,
) -> impl IntoView {
    let label = asked.label.clone();
    let spoken = format!("Take out {label}");
    let out = move |_| {
        writing.form.update(|form| form.remove(&list, row));
        writing.faults.set(Vec::new());
        writing.leave();
    };
    view! {
        <div class=format!("field row-head level-{}", asked.level.min(3))>
            <h4 class="field-label">{label}</h4>
            <button type="button" class="key key-quiet" aria-label=spoken on:click=out>
                <span class="key-label">"Take out"</span>
            </button>
        </div>
    }
}

/// The key that adds a row, after the rows there are.
#[component]
pub(super) fn AddRow(
    /// The form.
    writing: Writing,
    /// The list.
    list: Asked,
) -> impl IntoView {
    let Ask::List { add, .. } = list.ask.clone() else { return ().into_any() };
    let path = list.path.clone();
    let more = move |_| {
        writing.form.update(|form| form.add(&path));
        let rows = writing.fields.with_untracked(|all| {
            let of = |asked: &&Asked| asked.path.starts_with(&format!("{path}[")) && asked.ask != Ask::Group;
            let last = all.iter().filter(of).filter(|asked| !matches!(asked.ask, Ask::Row { .. }));
            let row = |asked: &Asked| asked.path.rsplit_once(']').map(|(row, _)| row.to_owned());
            let last_row = last.clone().next_back().and_then(row);
            last.clone().find(|asked| row(asked) == last_row).map(|asked| asked.path.clone())
        });
        // The first field of the new row is written next.
        request_animation_frame(move || {
            if let Some(field) = rows.and_then(|path| element(&field_id(&path))) {
                let _ = field.focus();
            }
        });
    };
    view! {
        <div class=format!("field add-row level-{}", list.level.min(3))>
            <button type="button" class="key" on:click=more><span class="key-label">{add}</span></button>
        </div>
    }
    .into_any()
}
