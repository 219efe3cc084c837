//! Open items of a job: what waits for a decision, a release, an answer or a signature, whose move it is, and the
//! seal that closes a shaft when nothing waits any more.
//!
//! Works without a connection: each key opens the form of the entry that settles the item, with what is known filled
//! in. Only the seal is made at the desk.
//!
//! Never: settle an item with a single tap; a reason, an answer or a name is always written.

mod closing;
mod row;

use super::job::JobShown;
use super::looking::OfJob;
use super::paths;
use super::shell::{PageHead, title};
use crate::device::use_device;
use closing::Closing;
use leptos::prelude::*;
use row::Item;
use screen::live::{self, OpenItems, OpenShaft};

/// Whose items are shown.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
enum Whose {
    /// Everybody's.
    #[default]
    All,
    /// Of the one who writes on this device.
    Mine,
    /// Of a part or a person.
    Of(String),
}

/// All of it.
#[component]
pub(super) fn OpenItemsScreen() -> impl IntoView {
    let shown = JobShown::here();
    let looking = shown.looking;
    title(|| "Open items".to_owned());
    let author = use_device().author();
    let items = Memo::new(move |_| {
        let record = looking.record.get()?;
        Some(live::open_items(&record, looking.now(), &author.get()))
    });
    let whose = RwSignal::new(Whose::default());
    let part = move |of: fn(&OpenItems) -> usize| {
        Memo::new(move |_| items.with(|items| items.as_ref().map(of).unwrap_or_default()))
    };
    let count = part(|items| items.shafts.iter().map(|shaft| shaft.rows.len()).sum());
    let shafts = move || {
        let shafts = items.get().map(|items| items.shafts).unwrap_or_default();
        let job = looking.job.get();
        let some = shafts.into_iter().filter_map(|shaft| of(shaft, &whose.get()));
        some.map(|shaft| view! { <Shaft shaft=shaft job=job.clone()/> }).collect_view()
    };
    let lead = move || match count.get() {
        0 => "Nothing waits for anybody.".to_owned(),
        1 => "1 item waits.".to_owned(),
        many => format!("{many} items wait."),
    };
    view! {
        <OfJob looking=looking>
            <section class="page open-items">
                <PageHead heading="Open items"/>
                <p class="lead" role="status">{lead}</p>
                <Filter items=items whose=whose/>
                {shafts}
            </section>
        </OfJob>
    }
}

/// A shaft with what is shown of it; none where nothing of it is.
fn of(mut shaft: OpenShaft, whose: &Whose) -> Option<OpenShaft> {
    match whose {
        Whose::All => return Some(shaft),
        Whose::Mine => shaft.rows.retain(|row| row.mine),
        Whose::Of(name) => shaft.rows.retain(|row| row.waits_for == *name),
    }
    (!shaft.rows.is_empty()).then_some(shaft)
}

/// Whose items are shown: keys beside each other, each with how many.
#[component]
fn Filter(items: Memo<Option<OpenItems>>, whose: RwSignal<Whose>) -> impl IntoView {
    let key = move |label: String, of: Whose| {
        let (is, set) = (of.clone(), of);
        let pressed = move || (whose.get() == is).to_string();
        let press = move |_| whose.set(set.clone());
        view! { <button type="button" class="chip" aria-pressed=pressed on:click=press>{label}</button> }
    };
    let keys = move || {
        let items = items.get()?;
        let count: usize = items.whom.iter().map(|(_, count)| count).sum();
        (count > 0).then(|| {
            let mine = (items.mine > 0).then(|| key(format!("Mine ({})", items.mine), Whose::Mine));
            let others = items.whom.into_iter();
            let others = others.map(|(name, count)| key(format!("{name} ({count})"), Whose::Of(name)));
            let others = others.collect_view();
            view! {
                <div class="chips no-print" role="group" aria-label="Whose items">
                    {key(format!("All ({count})"), Whose::All)} {mine} {others}
                </div>
            }
        })
    };
    view! { {keys} }
}

#[component]
fn Shaft(shaft: OpenShaft, job: String) -> impl IntoView {
    let to = paths::shaft(&job, &shaft.name);
    let rows = shaft.rows.clone().into_iter();
    let rows =
        rows.map(|row| view! { <Item row=row job=job.clone() shaft=shaft.name.clone()/> }).collect_view();
    let (name, label) = (shaft.name.clone(), format!("Shaft {}", shaft.name));
    view! {
        <section class="stack open-shaft" aria-label=label>
            <h2><a href=to>"Shaft " {name}</a> " " <span class="tag">{shaft.stage}</span></h2>
            {rows}
            <Closing shaft=shaft job=job/>
        </section>
    }
}
