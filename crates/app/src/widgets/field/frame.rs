//! What surrounds the writable part of a field: label, meaning, plan value, offer, echo, fault, question.

use crate::widgets::keypad::echo_line;
use crate::widgets::writing::{Writing, element, field_id};
use leptos::prelude::*;
use screen::entry::Echo;
use screen::entry::form::{Ask, Asked, Concern};
use wording::LimitBeside;

/// A field with one writable element.
#[component]
pub(super) fn Frame(
    /// The form.
    writing: Writing,
    /// The field.
    asked: Asked,
    /// The writable element; its id is that of the field.
    children: ChildrenFn,
) -> impl IntoView {
    let path = asked.path.clone();
    let opened = move || writing.open.with(|open| open.as_ref() == Some(&path));
    view! {
        <div class=classes(&asked) class:field-open=opened>
            <div class="field-head">
                <label class="field-label" for=field_id(&asked.path)>{name(&asked)}</label>
                {plan(&asked)}
            </div>
            {limits(writing, &asked.path)}
            {children()}
            {below(writing, &asked)}
        </div>
    }
}

/// A field of several elements that are one answer: radio keys.
#[component]
pub(super) fn Together(
    /// The form.
    writing: Writing,
    /// The field.
    asked: Asked,
    /// The keys.
    children: ChildrenFn,
) -> impl IntoView {
    view! {
        <fieldset class=classes(&asked) aria-describedby=said(&asked.path)>
            <legend class="field-head">
                <span class="field-label">{name(&asked)}</span>
                {plan(&asked)}
            </legend>
            {limits(writing, &asked.path)}
            {children()}
            {below(writing, &asked)}
        </fieldset>
    }
}

/// The id of what is said under a field.
pub(super) fn said(path: &str) -> String {
    format!("{}-said", field_id(path))
}

fn classes(asked: &Asked) -> String {
    format!("field level-{}", asked.level.min(3))
}

/// The label, with the row it belongs to for those who cannot see where it stands.
fn name(asked: &Asked) -> impl IntoView + use<> {
    let may = (!asked.required && asked.level == 0).then(|| {
        view! { <span class="field-may">" may stay blank"</span> }
    });
    let row = row_of(&asked.path).map(|row| {
        view! { <span class="visually-hidden">{format!(", row {row}")}</span> }
    });
    view! { {asked.label.clone()}{row}{may} }
}

fn row_of(path: &str) -> Option<usize> {
    let (_, rest) = path.rsplit_once('[')?;
    rest.split_once(']')?.0.parse::<usize>().ok().map(|row| row + 1)
}

fn plan(asked: &Asked) -> Option<impl IntoView + use<>> {
    asked.planned.clone().map(|planned| view! { <span class="field-plan">{planned}</span> })
}

/// The limits in force, each with its source; those of the stage that is chosen in the form.
fn limits(writing: Writing, path: &str) -> impl IntoView + use<> {
    let asked = writing.asked(path);
    let limits = Memo::new(move |_| asked.get().map(|asked| asked.limits).unwrap_or_default());
    let line = |said: LimitBeside| {
        let source = (!said.source.is_empty()).then(|| {
            view! { <span class="field-source" class:field-unsure=said.unsure>{said.source.clone()}</span> }
        });
        view! { <li><span class="field-bound">{said.limit.clone()}</span>" "{source}</li> }
    };
    move || {
        let limits = limits.get();
        (!limits.is_empty())
            .then(|| view! { <ul class="field-limits">{limits.into_iter().map(line).collect_view()}</ul> })
    }
}

fn below(writing: Writing, asked: &Asked) -> impl IntoView + use<> {
    let path = asked.path.clone();
    let read = matches!(asked.ask, Ask::Quantity(_) | Ask::Count(_) | Ask::Time(_));
    // `Truck: Truck.` says nothing twice.
    let says_more = asked.hint.trim_end_matches('.').to_lowercase() != asked.label.to_lowercase();
    let hint = (!asked.hint.is_empty() && says_more)
        .then(|| view! { <p class="field-hint">{asked.hint.replace('`', "")}</p> });
    let echo = writing.echo(&path);
    let fault = writing.fault(&path);
    let wrong = move || {
        let fault = fault.get();
        (!fault.is_empty()).then(|| view! { <p class="field-fault" role="alert">{fault}</p> })
    };
    view! {
        {offer(writing, &path)}
        <div id=said(&path)>
            {hint}
            {read.then(|| view! {
                <p class="field-echo" aria-live="polite">{move || echo_line(echo.get())}</p>
            })}
            {wrong}
        </div>
        {read.then(|| perhaps(writing, &path))}
        {question(writing, path)}
    }
}

/// The likely value, taken with one tap.
fn offer(writing: Writing, path: &str) -> impl IntoView + use<> {
    let asked = writing.asked(path);
    let path = StoredValue::new(path.to_owned());
    move || {
        asked.get().and_then(|asked| asked.offer).map(|offer| {
            view! {
                <div class="chips">
                    <button type="button" class="chip" on:click=move |_| writing.take(&path.get_value())>
                        <span>{offer.text}</span>
                        <span class="chip-why">{offer.why}</span>
                    </button>
                </div>
            }
        })
    }
}

/// What may have been meant by a text that cannot be read.
fn perhaps(writing: Writing, path: &str) -> impl IntoView + use<> {
    let echo = writing.echo(path);
    let path = StoredValue::new(path.to_owned());
    let chip = move |text: String| {
        let label = format!("Did you mean {text}?");
        view! {
            <button type="button" class="chip" on:click=move |_| writing.set(&path.get_value(), &text)>
                {label}
            </button>
        }
    };
    move || match echo.get() {
        Echo::Faulty { perhaps, .. } if !perhaps.is_empty() => {
            Some(view! { <div class="chips">{perhaps.into_iter().map(chip).collect_view()}</div> })
        }
        _ => None,
    }
}

/// Something looks odd about this field.
pub(super) fn question(writing: Writing, path: String) -> impl IntoView {
    let named = path.split(['.', '[']).next().unwrap_or_default().to_owned();
    let last = path.rsplit('.').next().unwrap_or_default().to_owned();
    let whole = path.clone();
    let mine = move |one: &Concern| one.field.as_ref().is_some_and(|field| *field == last || *field == whole);
    let first = move |path: &str| {
        let of_list = |asked: &&Asked| asked.path.split(['.', '[']).next() == Some(named.as_str());
        writing.fields.with(|all| all.iter().find(of_list).map(|asked| asked.path == path)).unwrap_or(true)
    };
    move || {
        let here = |one: &Concern| mine(one) && (!path.contains('[') || first(&path) || path.contains("[0]"));
        let concerns = writing.open_concerns().into_iter().filter(here);
        concerns
            .map(|one| view! { <Question writing=writing concern=one at=Some(field_id(&path))/> })
            .collect_view()
    }
}

/// A question about what was written, with its answer keys.
#[component]
pub(crate) fn Question(
    /// The form.
    writing: Writing,
    /// What looks odd.
    concern: Concern,
    /// The field to go to for a change.
    at: Option<String>,
) -> impl IntoView {
    let accept = concern.clone();
    let change = at.map(|id| {
        let go = move |_| {
            if let Some(field) = element(&id) {
                let _ = field.focus();
            }
        };
        view! {
            <button type="button" class="key" on:click=go>
                <span class="key-label">"Change it"</span>
            </button>
        }
    });
    view! {
        <div class="field-question" role="alert">
            <p class="notice-what">{concern.what}" Is that right?"</p>
            <p class="notice-next">{concern.next}</p>
            <div class="keys-row">
                <button type="button" class="key"
                    on:click=move |_| writing.accepted.update(|all| all.push(accept.clone()))>
                    <span class="key-label">"Yes, as written"</span>
                </button>
                {change}
            </div>
        </div>
    }
}
