//! Keys a gloved hand can hit, and the groups they stand in.
//!
//! A key says what it does in words; the arrow keys of a keyboard walk through a group of them.
//!
//! Words: *tone* = how loud a key is; *likely* = the key that is wanted next, if the day goes on as usual.

use leptos::ev::KeyboardEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

/// How loud a key is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Tone {
    /// As every key.
    #[default]
    Plain,
    /// The one thing this screen is for.
    Main,
    /// What is wanted next, if the day goes on as usual.
    Likely,
    /// Stands back: cancel, more, help.
    Quiet,
    /// Cannot be taken back lightly: strike through.
    Grave,
}

impl Tone {
    /// The classes of a key of this tone.
    pub(crate) fn classes(self) -> &'static str {
        match self {
            Tone::Plain => "key",
            Tone::Main => "key key-main",
            Tone::Likely => "key key-likely",
            Tone::Quiet => "key key-quiet",
            Tone::Grave => "key key-grave",
        }
    }
}

/// A key: a label, and under it a note in small letters.
#[component]
pub(crate) fn Key(
    /// What pressing it does.
    #[prop(into)]
    label: Signal<String>,
    /// What the label leaves out, such as the plan value.
    #[prop(optional, into)]
    note: MaybeProp<String>,
    /// How loud it is.
    #[prop(optional)]
    tone: Tone,
    /// Nothing happens while this is true.
    #[prop(optional, into)]
    off: Signal<bool>,
    /// Pressed.
    #[prop(into)]
    press: Callback<()>,
) -> impl IntoView {
    view! {
        <button type="button" class=tone.classes() disabled=off on:click=move |_| press.run(())>
            {face(label, note)}
        </button>
    }
}

/// A key that leads to another screen.
#[component]
pub(crate) fn KeyLink(
    /// Where it leads.
    #[prop(into)]
    to: Signal<String>,
    /// What is there.
    #[prop(into)]
    label: Signal<String>,
    /// What the label leaves out.
    #[prop(optional, into)]
    note: MaybeProp<String>,
    /// How loud it is.
    #[prop(optional)]
    tone: Tone,
) -> impl IntoView {
    view! { <a class=tone.classes() href=to>{face(label, note)}</a> }
}

fn face(label: Signal<String>, note: MaybeProp<String>) -> impl IntoView {
    let small = move || note.get().filter(|text| !text.is_empty());
    view! {
        <span class="key-label">{label}</span>
        {move || small().map(|text| view! { <span class="key-note">{text}</span> })}
    }
}

/// A group of keys under one name; the arrow keys walk through it, Home and End go to its ends.
#[component]
pub(crate) fn KeyGrid(
    /// What the keys have in common, for those who cannot see that they stand together.
    #[prop(into)]
    name: Signal<String>,
    /// The keys.
    children: Children,
) -> impl IntoView {
    view! {
        <div class="keys" role="group" aria-label=name on:keydown=walk>
            {children()}
        </div>
    }
}

/// Moves the focus within the group the event came through.
pub(crate) fn walk(event: KeyboardEvent) {
    let step = match event.key().as_str() {
        "ArrowRight" | "ArrowDown" => Step::By(1),
        "ArrowLeft" | "ArrowUp" => Step::By(-1),
        "Home" => Step::First,
        "End" => Step::Last,
        _ => return,
    };
    let Some(group) = event.current_target().and_then(|target| target.dyn_into::<Element>().ok()) else {
        return;
    };
    if go(&group, step) {
        event.prevent_default();
    }
}

/// Where the focus goes.
#[derive(Clone, Copy)]
enum Step {
    By(i32),
    First,
    Last,
}

const REACHABLE: &str = "button:not([disabled]), a[href]";

fn go(group: &Element, step: Step) -> bool {
    let Ok(found) = group.query_selector_all(REACHABLE) else { return false };
    let keys: Vec<HtmlElement> =
        (0..found.length()).filter_map(|at| found.get(at)?.dyn_into::<HtmlElement>().ok()).collect();
    let focused = document().active_element();
    let at = keys.iter().position(|key| focused.as_ref() == Some(key.as_ref()));
    let (Some(at), Ok(count)) = (at, i32::try_from(keys.len())) else { return false };
    let next = match step {
        Step::By(by) => (at as i32 + by).rem_euclid(count),
        Step::First => 0,
        Step::Last => count - 1,
    };
    keys[next as usize].focus().is_ok()
}

/// Moves the focus within a group whose keys lie in rows and columns, to the nearest key in the direction of the
/// arrow.
pub(crate) fn walk_grid(event: KeyboardEvent) {
    let toward = match event.key().as_str() {
        "ArrowRight" => (1.0, 0.0),
        "ArrowLeft" => (-1.0, 0.0),
        "ArrowDown" => (0.0, 1.0),
        "ArrowUp" => (0.0, -1.0),
        _ => return,
    };
    let group = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
    let next = group.and_then(|group| nearest(&group, toward));
    if next.is_some_and(|key| key.focus().is_ok()) {
        event.prevent_default();
    }
}

/// The key next to the one that has the focus; what lies off the line of the arrow counts as farther.
fn nearest(group: &Element, toward: (f64, f64)) -> Option<HtmlElement> {
    let found = group.query_selector_all(REACHABLE).ok()?;
    let from = middle(&document().active_element()?);
    let keys = (0..found.length()).filter_map(|at| found.get(at)?.dyn_into::<HtmlElement>().ok());
    let ahead = keys.filter_map(|key| {
        let (x, y) = middle(&key);
        let (right, down) = (x - from.0, y - from.1);
        let along = right * toward.0 + down * toward.1;
        let aside = (right * toward.1 - down * toward.0).abs();
        (along > 1.0).then_some((along + 3.0 * aside, key))
    });
    ahead.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, key)| key)
}

fn middle(element: &Element) -> (f64, f64) {
    let place = element.get_bounding_client_rect();
    (place.left() + place.width() / 2.0, place.top() + place.height() / 2.0)
}
