//! Every kind of entry there is, by the part of the work it belongs to, with a filter.
//!
//! The keys of the shaft's screen hold what this stage of the work usually needs; here is all the rest.

use super::super::paths;
use super::super::shell::PageHead;
use crate::widgets::{KeyGrid, KeyLink};
use leptos::prelude::*;
use screen::entry::{EntryKey, KeyGroup, keys};

/// All kinds, for a shaft or for the whole job.
#[component]
pub(crate) fn ChooseScreen() -> impl IntoView {
    let (job, shaft) = (paths::job_here(), paths::shaft_here());
    let wanted = RwSignal::new(String::new());
    let about = move || Some(shaft.get_untracked()).filter(|shaft| !shaft.is_empty());
    let groups = Memo::new(move |_| matching(&wanted.get()));
    let none = move || groups.with(Vec::is_empty);
    let to = move |word: &str| paths::enter(&job.get_untracked(), about().as_deref(), word);
    let link = move |key: EntryKey| view! { <KeyLink to=to(key.word) label=key.label note=key.hint/> };
    let group = move |group: KeyGroup| {
        view! {
            <section class="stack">
                <h2>{group.label}</h2>
                <KeyGrid name=group.label>{group.keys.into_iter().map(link).collect_view()}</KeyGrid>
            </section>
        }
    };
    view! {
        <div class="page page-wide">
            <PageHead heading="All entries"/>
            <div class="field">
                <label class="field-label" for="wanted">"Find an entry"</label>
                <input type="search" class="field-input" id="wanted" autocomplete="off"
                    prop:value=wanted on:input=move |event| wanted.set(event_target_value(&event))/>
            </div>
            <div class="stack-wide" aria-live="polite">
                {move || groups.get().into_iter().map(group).collect_view()}
                {move || none().then(|| view! { <p class="empty">"No kind of entry is called that."</p> })}
            </div>
        </div>
    }
}

/// The keys in which every wanted word occurs.
fn matching(wanted: &str) -> Vec<KeyGroup> {
    let words: Vec<String> = wanted.split_whitespace().map(str::to_lowercase).collect();
    let fits = |group: &str, key: &EntryKey| {
        let text = format!("{group} {} {} {}", key.label, key.hint, key.word).to_lowercase();
        words.iter().all(|word| text.contains(word))
    };
    let narrowed = |mut group: KeyGroup| {
        group.keys.retain(|key| fits(group.label, key));
        group
    };
    keys::all().into_iter().map(narrowed).filter(|group| !group.keys.is_empty()).collect()
}
