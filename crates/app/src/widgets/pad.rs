//! The keypad of a form: it belongs to the field that has the focus.

use super::keypad::Keypad;
use super::writing::Writing;
use leptos::prelude::*;
use screen::entry::form::Ask;

/// The keypad of the open field; nothing while none is open.
#[component]
pub(crate) fn FormPad(
    /// The form.
    writing: Writing,
) -> impl IntoView {
    let open = Memo::new(move |_| writing.open.get());
    let pad = move || {
        let path = open.get()?;
        let asked = writing.asked(&path).get_untracked()?;
        let (Ask::Quantity(keys) | Ask::Count(keys) | Ask::Time(keys)) = asked.ask else { return None };
        let label = asked.label;
        let (text, echo) = (writing.text(&path), writing.echo(&path));
        let press = Callback::new(move |key| writing.press(key));
        let away = Callback::new(move |()| writing.put_away());
        Some(view! { <Keypad label=label text=text echo=echo keys=keys press=press away=away/> })
    };
    view! { {pad} }
}
