//! The fields of a form, one widget for each way of asking.
//!
//! Every field has its label, what is meant, the plan value beside it, what was understood below it, a likely
//! value to be taken with one tap, and a question where something looks odd.
//!
//! Never: take a value nobody typed or tapped.

mod choice;
mod frame;
mod heads;
mod pad_input;
mod photo;
mod words;

use super::writing::Writing;
pub(crate) use frame::Question;
use frame::{Frame, Together};
use leptos::prelude::*;
use screen::entry::form::{Ask, Asked, When};

/// The fields of a form that are asked for at once, then those behind "more".
#[component]
pub(crate) fn Fields(
    /// The form.
    writing: Writing,
) -> impl IntoView {
    let more = Memo::new(move |_| places(writing, true));
    let at_once = move || places(writing, false);
    let filled = move || more.with(|more| more.iter().any(|place| place.filled));
    let count = move || more.with(|more| more.iter().filter(|place| place.level == 0).count());
    view! {
        <div class="fields">
            <For each=at_once key=|place| place.key.clone() let:place>{field(writing, place)}</For>
        </div>
        <Show when=move || !more.with(Vec::is_empty)>
            <details class="more" prop:open=filled>
                <summary>{move || format!("More that can be written ({})", count())}</summary>
                <div class="fields">
                    <For each=move || more.get() key=|place| place.key.clone() let:place>
                        {field(writing, place)}
                    </For>
                </div>
            </details>
        </Show>
    }
}

/// What stands at one place of the form.
#[derive(Debug, Clone, PartialEq)]
struct Place {
    /// The same as long as the widget may stay.
    key: String,
    path: String,
    level: usize,
    filled: bool,
    /// The key that adds a row stands here, after the rows of the list.
    adds: bool,
}

/// Places in the order they are shown; the key that adds a row follows the rows of its list.
fn places(writing: Writing, more: bool) -> Vec<Place> {
    let all = writing.fields.get();
    let mut places = Vec::with_capacity(all.len());
    let mut adds: Vec<&Asked> = Vec::new();
    for asked in all.iter().filter(|asked| (asked.when == When::More) == more) {
        while let Some(list) = adds.pop_if(|list| !within(&asked.path, &list.path)) {
            places.push(place(list, true));
        }
        places.push(place(asked, false));
        if matches!(asked.ask, Ask::List { .. }) {
            adds.push(asked);
        }
    }
    places.extend(adds.into_iter().rev().map(|list| place(list, true)));
    places
}

/// Whether a field belongs to a list: `points[0].depth` to `points`.
fn within(path: &str, list: &str) -> bool {
    path.strip_prefix(list).is_some_and(|rest| rest.starts_with('['))
}

fn place(asked: &Asked, adds: bool) -> Place {
    let sort = std::mem::discriminant(&asked.ask);
    Place {
        key: format!("{} {sort:?} {adds}", asked.path),
        path: asked.path.clone(),
        level: asked.level,
        filled: !asked.text.is_empty() || matches!(asked.ask, Ask::Row { .. }),
        adds,
    }
}

fn field(writing: Writing, place: Place) -> AnyView {
    let Some(asked) = writing.asked(&place.path).get_untracked() else { return ().into_any() };
    if place.adds {
        return view! { <heads::AddRow writing=writing list=asked/> }.into_any();
    }
    let path = asked.path.clone();
    match asked.ask.clone() {
        Ask::Quantity(_) | Ask::Count(_) | Ask::Time(_) => view! {
            <Frame writing=writing asked=asked>
                <pad_input::PadInput writing=writing path=path.clone()/>
            </Frame>
        }
        .into_any(),
        Ask::Text => {
            let long = words::is_long(&asked);
            view! {
                <Frame writing=writing asked=asked>
                    <words::Words writing=writing path=path.clone() long=long/>
                </Frame>
            }
            .into_any()
        }
        Ask::Flag => together(writing, asked, choice::yes_or_no()),
        Ask::Choice(words) if words.len() > choice::KEYS_MAX => {
            let options = choice::options(&words);
            view! {
                <Frame writing=writing asked=asked>
                    <choice::Pick writing=writing path=path.clone() options=options.clone()/>
                </Frame>
            }
            .into_any()
        }
        Ask::Choice(words) => together(writing, asked, words),
        Ask::Entry(candidates) => {
            let options: Vec<_> = candidates.into_iter().map(|one| (one.id, one.text)).collect();
            view! {
                <Frame writing=writing asked=asked>
                    <choice::Pick writing=writing path=path.clone() options=options.clone()/>
                </Frame>
            }
            .into_any()
        }
        Ask::File => view! {
            <Frame writing=writing asked=asked>
                <photo::Photo writing=writing path=path.clone()/>
            </Frame>
        }
        .into_any(),
        Ask::List { .. } | Ask::Group => view! { <heads::Head writing=writing asked=asked/> }.into_any(),
        Ask::Row { list, row } => {
            view! { <heads::RowHead writing=writing asked=asked list=list row=row/> }.into_any()
        }
    }
}

fn together(writing: Writing, asked: Asked, words: Vec<screen::entry::form::ChoiceWord>) -> AnyView {
    let path = asked.path.clone();
    view! {
        <Together writing=writing asked=asked>
            <choice::Choice writing=writing path=path.clone() words=words.clone()/>
        </Together>
    }
    .into_any()
}
