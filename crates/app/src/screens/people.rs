//! Who is on the job, and what it is built with: people, mixes, drilling fluids.

use super::job::JobShown;
use super::looking::OfJob;
use super::paths;
use super::shell::PageHead;
use crate::widgets::KeyLink;
use leptos::prelude::*;
use screen::live::{MixRow, PersonRow};

/// All of them, with the keys that add one.
#[component]
pub(super) fn People() -> impl IntoView {
    let shown = JobShown::here();
    let people = shown.part(|screen| screen.people.clone());
    let mixes = shown.part(|screen| screen.mixes.clone());
    let fluids = shown.part(|screen| screen.fluids.clone());
    let persons = move || people.get().into_iter().map(person).collect_view();
    view! {
        <OfJob looking=shown.looking>
            <section class="page">
                <PageHead heading="People, mixes, fluid"/>
                <section class="stack">
                    <h2>"People"</h2>
                    {move || people.read().is_empty().then(|| view! { <p class="empty">"Nobody was named yet."</p> })}
                    <ul class="list">{persons}</ul>
                    <Add shown=shown kind="person_named" label="Name a person"/>
                </section>
                <Materials shown=shown heading="Mixes" rows=mixes kind="mix_approved" label="Add a mix"/>
                <Materials shown=shown heading="Drilling fluids" rows=fluids kind="fluid_approved" label="Add a fluid"/>
            </section>
        </OfJob>
    }
}

fn person(row: PersonRow) -> impl IntoView {
    view! {
        <li class="list-row">
            <span class="list-main"><span class="list-name">{row.name}</span><span class="small soft">{row.more}</span></span>
            <span class="list-side">{row.role}</span>
        </li>
    }
}

#[component]
fn Materials(
    shown: JobShown,
    heading: &'static str,
    rows: Memo<Vec<MixRow>>,
    kind: &'static str,
    label: &'static str,
) -> impl IntoView {
    let all = move || {
        let job = shown.looking.job.get();
        rows.get().into_iter().map(|row| material(row, &job)).collect_view()
    };
    view! {
        <section class="stack">
            <h2>{heading}</h2>
            {move || rows.read().is_empty().then(|| view! { <p class="empty">"None was approved yet."</p> })}
            <ul class="list">{all}</ul>
            <Add shown=shown kind=kind label=label/>
        </section>
    }
}

fn material(row: MixRow, job: &str) -> impl IntoView + use<> {
    let about = format!("Correct {}", row.name);
    view! {
        <li class="list-row">
            <span class="list-main">
                <span class="list-name">{row.name}</span>
                <span class="small written">{row.text}</span>
            </span>
            <a class="list-side" href=paths::strike(job, &row.entry) aria-label=about>"Correct"</a>
        </li>
    }
}

/// A key for an entry about the whole job.
#[component]
pub(super) fn Add(shown: JobShown, kind: &'static str, label: &'static str) -> impl IntoView {
    let to = Signal::derive(move || paths::enter(&shown.looking.job.get(), None, kind));
    view! { <div class="row"><KeyLink to=to label=label/></div> }
}
