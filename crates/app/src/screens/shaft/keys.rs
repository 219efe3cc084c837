//! The entry keys of the stage, the likely one biggest, and the way to every kind of entry there is.

use super::super::looking::Looking;
use super::super::paths;
use crate::widgets::{Dialog, Key, KeyGrid, KeyLink, Tone, steady};
use leptos::prelude::*;
use screen::entry::keys::{EntryKey, all};

/// Keys under the thumb.
#[component]
pub(super) fn StageKeys(
    /// What is looked at.
    looking: Looking,
    /// The keys of the stage; `None` while the record is being read.
    keys: Memo<Option<Vec<EntryKey>>>,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let place = move || (looking.job.get(), looking.shaft.get());
    let keys = steady(move || keys.get().unwrap_or_default());
    let stage = move || keys.get().into_iter().map(|key| link(key, &place())).collect_view();
    view! {
        <div class="shaft-keys no-print">
            <KeyGrid name="Entries of this stage">
                {stage}
                <Key label="All entries" tone=Tone::Quiet press=move |()| open.set(true)/>
            </KeyGrid>
            <Dialog open=open title="All entries">
                <Every place=place()/>
            </Dialog>
        </div>
    }
}

fn link(key: EntryKey, (job, shaft): &(String, String)) -> impl IntoView + use<> {
    let to = paths::enter(job, Some(shaft), key.word);
    let tone = if key.likely { Tone::Likely } else { Tone::Plain };
    view! { <KeyLink to=to label=key.label tone=tone/> }
}

/// Every kind of entry, by family.
#[component]
fn Every(
    /// Job and shaft.
    place: (String, String),
) -> impl IntoView {
    let groups = all().into_iter().map(|group| {
        let keys = group.keys.into_iter().map(|key| link(key, &place)).collect_view();
        view! {
            <section class="stack">
                <h3>{group.label}</h3>
                <KeyGrid name=group.label>{keys}</KeyGrid>
            </section>
        }
    });
    groups.collect_view()
}
