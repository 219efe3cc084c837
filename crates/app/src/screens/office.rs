//! All jobs together: for the owner and the office, from what is on this device, also without a connection.
//!
//! Each line leads to the page of its job, each mark to its shaft, and from there to the entries. A rehearsal is no part of
//! it unless somebody asks for it, or there is nothing else.
//!
//! Never: keep the finger waiting; jobs are read and reckoned one after the other, shaft by shaft.

use super::compare::{Sections, width};
use super::paths;
use super::reckoning::{Far, FarView, Whole};
use super::shell::PageHead;
use crate::device::{Device, JobCard, use_device};
use crate::widgets::Svg;
use figure::Size;
use leptos::prelude::*;
use leptos::task::spawn_local;
use screen::live::{OfficeJob, OfficeRow, OfficeScreen, Reckoned};
use std::sync::Arc;

/// What the page is made of.
#[derive(Clone, Copy)]
struct Shown {
    screen: RwSignal<Option<Arc<OfficeScreen>>>,
    far: RwSignal<Option<Far>>,
    /// Which of the jobs is being reckoned: its name.
    under_way: RwSignal<String>,
}

/// The page.
#[component]
pub(super) fn Office() -> impl IntoView {
    let device = use_device();
    let with_rehearsals = RwSignal::new(None::<bool>);
    let wanted = Memo::new(move |_| wanted(&device.jobs().get(), with_rehearsals.get()));
    let shown = together(device, wanted);
    let lead = move || shown.screen.with(|screen| screen.as_ref().map(|screen| screen.lead.clone()));
    let across = Signal::derive(move || shown.screen.get().map(|screen| Arc::new(screen.across.clone())));
    let empty = move || {
        wanted.read().is_empty().then(|| view! { <p class="empty">"No job is on this device yet."</p> })
    };
    view! {
        <section class="page page-wide office">
            <PageHead heading="All jobs together"/>
            <p class="lead" role="status">{lead}</p>
            {move || shown.far.get().map(|_| view! { <p class="soft">"Reckoning " {shown.under_way}</p> })}
            <FarView far=shown.far.into()/>
            {empty}
            <Which jobs=device.jobs() with=with_rehearsals/>
            <Jobs screen=shown.screen.into()/>
            <Took screen=shown.screen.into()/>
            <Sections screen=across/>
        </section>
    }
}

/// The jobs that are looked at. Rehearsals stay out unless they are asked for or there is nothing else.
fn wanted(all: &[JobCard], with: Option<bool>) -> Vec<String> {
    let only_rehearsals = all.iter().all(|card| card.rehearsal);
    let take = |card: &&JobCard| !card.rehearsal || with.unwrap_or(only_rehearsals);
    all.iter().filter(take).map(|card| card.name.clone()).collect()
}

/// Reads and reckons the wanted jobs, one after the other.
fn together(device: Device, wanted: Memo<Vec<String>>) -> Shown {
    let shown = Shown {
        screen: RwSignal::new(None),
        far: RwSignal::new(None),
        under_way: RwSignal::new(String::new()),
    };
    Effect::new(move |_| {
        let jobs = wanted.get();
        spawn_local(async move {
            let still = move || wanted.try_with_untracked(|now| *now == jobs).unwrap_or(false);
            let jobs = wanted.try_get_untracked().unwrap_or_default();
            let mut all: Vec<Whole> = Vec::new();
            for job in jobs {
                shown.under_way.try_set(job.clone());
                let Some(record) = device.whole_record(&job).await else { continue };
                let turn = |far: Far| {
                    shown.far.try_set(Some(far));
                    still()
                };
                let Some(whole) = Whole::of((device, &job), record, None, turn).await else { return };
                all.push(whole);
            }
            shown.screen.try_set(Some(Arc::new(put_together(device, &all))));
            shown.far.try_set(None);
        });
    });
    shown
}

fn put_together(device: Device, all: &[Whole]) -> OfficeScreen {
    let at = device.now(all.last().and_then(|whole| whole.record.job()).unwrap_or_default());
    let jobs: Vec<(&record::Record, &[Reckoned])> =
        all.iter().map(|whole| (whole.record.as_ref(), whole.shafts.as_slice())).collect();
    OfficeScreen::together(&jobs, at, &paths::shaft)
}

/// Whether rehearsals are looked at too; nothing where there are none beside others.
#[component]
fn Which(jobs: Signal<Vec<JobCard>>, with: RwSignal<Option<bool>>) -> impl IntoView {
    let mixed = Memo::new(move |_| {
        let jobs = jobs.read();
        jobs.iter().any(|card| card.rehearsal) && jobs.iter().any(|card| !card.rehearsal)
    });
    let pressed = move || with.get().unwrap_or(false);
    let press = move |_| with.set(Some(!with.get_untracked().unwrap_or(false)));
    let key = move || {
        mixed.get().then(|| {
            view! {
                <div class="chips no-print">
                    <button type="button" class="chip" aria-pressed=move || pressed().to_string() on:click=press>
                        "With rehearsals"
                    </button>
                </div>
            }
        })
    };
    view! { {key} }
}

/// A card for each job.
#[component]
fn Jobs(screen: Signal<Option<Arc<OfficeScreen>>>) -> impl IntoView {
    let cards = move || {
        let screen = screen.get()?;
        Some(screen.jobs.iter().cloned().map(job).collect_view())
    };
    view! { <div class="office-jobs">{cards}</div> }
}

fn job(job: OfficeJob) -> impl IntoView {
    let to = paths::job(&job.key);
    let rehearsal = job.rehearsal.then(|| view! { <span class="tag">"rehearsal"</span> });
    let rows = job.rows.iter().map(|one| row(&job.key, one)).collect_view();
    let size = if width() < 400.0 { Size::points(272.0, 240.0) } else { Size::points(400.0, 260.0) };
    let plan = job.plan(size);
    view! {
        <article class="card office-job">
            <div class="stack">
                <h2><a href=to>{job.name}</a> " " {rehearsal}</h2>
                <dl class="pairs office-rows">{rows}</dl>
            </div>
            <Svg text=Signal::stored(plan)/>
        </article>
    }
}

fn row(job: &str, row: &OfficeRow) -> impl IntoView + use<> {
    let to = if row.page.is_empty() { paths::job(job) } else { paths::job_page(job, row.page) };
    view! { <dt>{row.label}</dt><dd><a class="office-way" href=to>{row.text.clone()}</a></dd> }
}

/// What each job took, where there are several to put side by side.
#[component]
fn Took(screen: Signal<Option<Arc<OfficeScreen>>>) -> impl IntoView {
    move || {
        let screen = screen.get()?;
        let text = screen.drawing(width(), &paths::spot);
        (screen.jobs.len() > 1 && !text.is_empty())
            .then(|| view! { <Svg text=Signal::stored(text) class="drawing-across"/> })
    }
}
