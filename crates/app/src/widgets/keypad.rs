//! The keypad: big keys for the field that has the focus, what stands in it, how it was understood.
//!
//! Which keys there are and what a press makes of the text comes from `screen`; here they are placed. The
//! keys leave the focus in the field, so that a keyboard and the pad can be used in turn. On a phone the pad
//! covers the key that saves the form; so it has one itself. An arrow down leads from the field to the pad, arrows
//! walk over it.

use leptos::prelude::*;
use screen::entry::{Cap, Echo, Key, Keypad as Keys};

/// The keys of one field.
#[component]
pub(crate) fn Keypad(
    /// What is asked.
    #[prop(into)]
    label: Signal<String>,
    /// What stands in the field.
    #[prop(into)]
    text: Signal<String>,
    /// How it was understood.
    #[prop(into)]
    echo: Signal<Echo>,
    /// The keys of the field.
    keys: Keys,
    /// A key was pressed.
    press: Callback<Key>,
    /// The pad is put away.
    away: Callback<()>,
) -> impl IntoView {
    let Keys { digits, marks, fractions, units, erase, next, bare_unit } = keys;
    // Only a number that says no unit itself has the one of the job.
    let bare =
        move || text.with(|text| text.ends_with(|sign: char| sign.is_ascii_digit()) && !text.contains('\''));
    let understood = move || echo.with(|echo| matches!(echo, Echo::Understood { .. }));
    let unit = move || (bare() && understood()).then(|| bare_unit.clone());
    let more = if fractions.is_empty() { "Units" } else { "Parts of an inch, units" };
    let grid = digits.into_iter().chain(marks).chain([erase, next]);
    view! {
        <div class="keypad" role="group" aria-label=move || format!("Keypad: {}", label.get())
            on:pointerdown=|event| event.prevent_default() on:keydown=super::key::walk_grid>
            <div class="keypad-head">
                <span class="field-label">{label}</span>
                <button type="button" class="key key-quiet" on:click=move |_| away.run(())>"Put away"</button>
                <button type="submit" class="key key-main pad-save">"Save"</button>
            </div>
            <div class="keypad-read">
                {text}
                <span class="keypad-unit">{move || unit().map(|unit| format!(" {unit}"))}</span>
            </div>
            <div class="keypad-echo" aria-live="polite">{move || echo_line(echo.get())}</div>
            {row(more, fractions.into_iter().chain(units).collect(), press)}
            <div class="keypad-keys">
                {grid.map(|cap| pad_key(cap, press)).collect_view()}
            </div>
        </div>
    }
}

fn row(name: &'static str, caps: Vec<Cap>, press: Callback<Key>) -> impl IntoView {
    (!caps.is_empty()).then(|| {
        view! {
            <div class="keypad-row" role="group" aria-label=name>
                {caps.into_iter().map(|cap| pad_key(cap, press)).collect_view()}
            </div>
        }
    })
}

fn pad_key(cap: Cap, press: Callback<Key>) -> impl IntoView {
    let Cap { key, face, spoken } = cap;
    view! {
        <button type="button" class=format!("key {}", place(key)) aria-label=spoken
            on:click=move |_| press.run(key)>
            {face}
        </button>
    }
}

/// The class that gives a key its place in the grid.
fn place(key: Key) -> String {
    match key {
        Key::Digit(digit) => format!("pad-{digit}"),
        Key::Decimal(_) => "pad-decimal".to_owned(),
        Key::Feet => "pad-feet".to_owned(),
        Key::Inches => "pad-inches".to_owned(),
        Key::Minus => "pad-minus".to_owned(),
        Key::Colon => "pad-colon".to_owned(),
        Key::Erase => "pad-erase".to_owned(),
        Key::Next => "pad-next key-word".to_owned(),
        Key::Fraction(_) => "pad-part".to_owned(),
        Key::Unit(_) => "pad-unit key-word".to_owned(),
    }
}

/// How the text was understood, as a line.
pub(crate) fn echo_line(echo: Echo) -> AnyView {
    match echo {
        Echo::Empty => ().into_any(),
        Echo::Understood { text, also } => {
            let also = also.map(|also| view! { " · " {also} });
            view! { "= " <b>{text}</b> {also} }.into_any()
        }
        Echo::Incomplete { hint } => hint.into_any(),
        Echo::Faulty { sentence, .. } => view! { <span class="field-fault">{sentence}</span> }.into_any(),
    }
}
