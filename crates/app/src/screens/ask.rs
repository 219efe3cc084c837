//! The few questions that are no entries: names, choices, switches, files.
//!
//! Each has its label above it, what is meant below it, and says what is wrong where it is wrong.
//!
//! Never: check what an entry says; that is the form's work.

use crate::device::use_device;
use leptos::prelude::*;
use std::sync::atomic::{AtomicUsize, Ordering};
use wording::Notice;

/// A name no other element of the page has.
pub(super) fn fresh(word: &str) -> String {
    static COUNT: AtomicUsize = AtomicUsize::new(0);
    format!("{word}-{}", COUNT.fetch_add(1, Ordering::Relaxed))
}

/// A line of text.
#[component]
pub(super) fn TextAsk(
    /// What is asked.
    #[prop(into)]
    label: Signal<String>,
    /// What is meant.
    #[prop(optional, into)]
    hint: MaybeProp<String>,
    /// What is wrong with it; empty while nothing is.
    #[prop(optional, into)]
    fault: Signal<String>,
    /// The text, changed in place.
    text: RwSignal<String>,
    /// What a browser may fill in by itself.
    #[prop(default = "off")]
    complete: &'static str,
) -> impl IntoView {
    let id = fresh("ask");
    let said = format!("{id}-said");
    view! {
        <div class="field">
            <label class="field-label" for=id.clone()>{label}</label>
            <input
                type="text"
                class="field-input"
                id=id
                autocomplete=complete
                aria-describedby=said.clone()
                aria-invalid=move || (!fault.read().is_empty()).to_string()
                prop:value=text
                on:input=move |event| text.set(event_target_value(&event))
            />
            <div id=said>
                {move || hint.get().map(|hint| view! { <p class="field-hint">{hint}</p> })}
                {move || wrong(fault.get())}
            </div>
        </div>
    }
}

/// Several lines of text.
#[component]
pub(super) fn LinesAsk(
    /// What is asked.
    #[prop(into)]
    label: Signal<String>,
    /// What is meant.
    #[prop(into)]
    hint: Signal<String>,
    /// The text, changed in place.
    text: RwSignal<String>,
) -> impl IntoView {
    let id = fresh("ask");
    let said = format!("{id}-said");
    view! {
        <div class="field">
            <label class="field-label" for=id.clone()>{label}</label>
            <p class="field-hint" id=said.clone()>{hint}</p>
            <textarea
                id=id
                rows="8"
                spellcheck="false"
                aria-describedby=said
                prop:value=text
                on:input=move |event| text.set(event_target_value(&event))
            ></textarea>
        </div>
    }
}

/// One of a few.
#[component]
pub(super) fn ChoiceAsk<T>(
    /// What is asked.
    #[prop(into)]
    label: Signal<String>,
    /// Each choice and its words.
    choices: Vec<(T, String)>,
    /// What is chosen now.
    #[prop(into)]
    chosen: Signal<T>,
    /// Something is chosen.
    choose: Callback<T>,
) -> impl IntoView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let name = fresh("choice");
    let keys = choices.into_iter().map(|(choice, words)| {
        let (is, pick) = (choice.clone(), choice);
        view! {
            <label class="choice">
                <input
                    type="radio"
                    name=name.clone()
                    prop:checked=move || chosen.get() == is
                    on:change=move |_| choose.run(pick.clone())
                />
                <span>{words}</span>
            </label>
        }
    });
    let keys = keys.collect_view();
    view! {
        <fieldset class="field">
            <legend class="field-label">{label}</legend>
            <div class="choices">{keys}</div>
        </fieldset>
    }
}

/// Yes or no.
#[component]
pub(super) fn SwitchAsk(
    /// What is switched.
    #[prop(into)]
    label: Signal<String>,
    /// Whether it is on.
    #[prop(into)]
    on: Signal<bool>,
    /// It is switched.
    switch: Callback<bool>,
) -> impl IntoView {
    view! {
        <label class="choice">
            <input
                type="checkbox"
                prop:checked=on
                on:change=move |event| switch.run(event_target_checked(&event))
            />
            <span>{label}</span>
        </label>
    }
}

/// A file by its name, with its bytes.
pub(super) type File = (String, Vec<u8>);

/// Files of this device; names and bytes are handed over once all are read.
#[component]
pub(super) fn FilesAsk(
    /// What is asked.
    #[prop(into)]
    label: Signal<String>,
    /// What is meant.
    #[prop(into)]
    hint: Signal<String>,
    /// The ends of the names that are offered, such as `.jsonl,.toml`.
    accept: &'static str,
    /// Files were taken.
    taken: Callback<Vec<File>>,
) -> impl IntoView {
    let id = fresh("file");
    let said = format!("{id}-said");
    let device = use_device();
    let take = move |event: leptos::ev::Event| {
        let input: web_sys::HtmlInputElement = event_target(&event);
        leptos::task::spawn_local(async move {
            match read_files(&input).await {
                Ok(files) if files.is_empty() => {}
                Ok(files) => taken.run(files),
                Err(name) => device.notices().update(|all| all.push(unread(&name))),
            }
            // The same file can be chosen again after it was mended.
            input.set_value("");
        });
    };
    view! {
        <div class="field">
            <label class="field-label" for=id.clone()>{label}</label>
            <p class="field-hint" id=said.clone()>{hint}</p>
            <input type="file" multiple class="file" id=id accept=accept aria-describedby=said on:change=take/>
        </div>
    }
}

/// Every chosen file, or the name of the first that the browser could not read.
async fn read_files(input: &web_sys::HtmlInputElement) -> Result<Vec<File>, String> {
    let mut all = Vec::new();
    let Some(files) = input.files() else { return Ok(all) };
    for file in (0..files.length()).filter_map(|index| files.get(index)) {
        let buffer =
            wasm_bindgen_futures::JsFuture::from(file.array_buffer()).await.map_err(|_| file.name())?;
        all.push((file.name(), js_sys::Uint8Array::new(&buffer).to_vec()));
    }
    Ok(all)
}

fn wrong(fault: String) -> Option<impl IntoView> {
    (!fault.is_empty()).then(|| view! { <p class="field-fault" role="alert">{fault}</p> })
}

fn unread(name: &str) -> Notice {
    Notice {
        code: "file_unread",
        what: format!("The browser could not read {name}."),
        meaning: "Nothing was taken in.".to_owned(),
        next: "Copy the file onto this device and choose it again.".to_owned(),
    }
}
