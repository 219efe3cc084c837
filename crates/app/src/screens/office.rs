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
use screen::live::{OfficeJob, OfficeRow, OfficeScreen, ReckonedJob};
use std::sync::Arc;

/// What is looked at.
#[derive(Clone, PartialEq)]
struct Wanted {
    /// Each job with the number of its entries.
    jobs: Vec<(String, usize)>,
    /// The jobs of demonstrations: each has a clock of its own, which the office may tell after the page has begun.
    made_up: Vec<String>,
}

impl Wanted {
    /// Whether what was begun for another is of use here: the same jobs by the same clock, with however many entries.
    fn is_of_use_to(&self, other: &Wanted) -> bool {
        let names = |one: &Wanted| one.jobs.iter().map(|(name, _)| name.clone()).collect::<Vec<_>>();
        self.made_up == other.made_up && names(self) == names(other)
    }
}

/// A job as it was reckoned.
struct Reached {
    job: String,
    entries: usize,
    made_up: bool,
    whole: Whole,
}

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
    let wanted = Memo::new(move |_| Wanted {
        jobs: wanted(&device.jobs().get(), with_rehearsals.get()),
        made_up: device.made_up_clocks().with(|clocks| clocks.keys().cloned().collect()),
    });
    let shown = together(device, wanted);
    let lead = move || shown.screen.with(|screen| screen.as_ref().map(|screen| screen.lead.clone()));
    let across = Signal::derive(move || shown.screen.get().map(|screen| Arc::new(screen.across.clone())));
    let empty = move || {
        wanted.read().jobs.is_empty().then(|| view! { <p class="empty">"No job is on this device yet."</p> })
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
fn wanted(all: &[JobCard], with: Option<bool>) -> Vec<(String, usize)> {
    let only_rehearsals = all.iter().all(|card| card.rehearsal);
    let take = |card: &&JobCard| !card.rehearsal || with.unwrap_or(only_rehearsals);
    all.iter().filter(take).map(|card| (card.name.clone(), card.entries)).collect()
}

/// Reads and reckons the wanted jobs, and again whenever something else is wanted or an entry came.
fn together(device: Device, wanted: Memo<Wanted>) -> Shown {
    let shown = Shown {
        screen: RwSignal::new(None),
        far: RwSignal::new(None),
        under_way: RwSignal::new(String::new()),
    };
    let at_it = StoredValue::new(false);
    let reached = StoredValue::new_local(Vec::new());
    Effect::new(move |_| {
        wanted.track();
        // Whoever is at it looks again before ending.
        if at_it.get_value() {
            return;
        }
        at_it.set_value(true);
        spawn_local(async move {
            while let Some(now) = wanted.try_get_untracked() {
                let before = reached.try_update_value(std::mem::take).unwrap_or_default();
                let after = one_after_the_other(device, (&now, wanted), before, shown).await;
                reached.try_set_value(after);
                if wanted.try_with_untracked(|wanted| *wanted == now).unwrap_or(true) {
                    break;
                }
            }
            at_it.try_set_value(false);
        });
    });
    shown
}

/// Reckons each job, what is known already only where it changed. It ends early when it is of no use any more.
async fn one_after_the_other(
    device: Device,
    (now, wanted): (&Wanted, Memo<Wanted>),
    mut before: Vec<Reached>,
    shown: Shown,
) -> Vec<Reached> {
    before.retain(|one| one.made_up == now.made_up.contains(&one.job));
    let mut all: Vec<Reached> = Vec::new();
    for (job, entries) in now.jobs.iter().cloned() {
        let known = before.iter().position(|one| one.job == job).map(|index| before.swap_remove(index));
        let known = match known {
            Some(known) if known.entries == entries => {
                all.push(known);
                continue;
            }
            known => known.map(|known| known.whole),
        };
        let is_new = known.is_none();
        shown.under_way.try_set(job.clone());
        let Some(record) = device.whole_record(&job).await else { continue };
        let turn = |far: Far| {
            if is_new {
                shown.far.try_set(Some(far));
            }
            wanted.try_with_untracked(|wanted| now.is_of_use_to(wanted)).unwrap_or(false)
        };
        match Whole::of((device, &job), record, known, turn).await {
            Some(whole) => {
                let made_up = now.made_up.contains(&job);
                all.push(Reached { job, entries, made_up, whole });
            }
            None => {
                all.extend(before);
                return all;
            }
        }
    }
    shown.screen.try_set(Some(Arc::new(put_together(device, &all))));
    shown.far.try_set(None);
    all
}

fn put_together(device: Device, all: &[Reached]) -> OfficeScreen {
    let jobs: Vec<ReckonedJob<'_>> = all
        .iter()
        .map(|one| ReckonedJob {
            record: one.whole.record.as_ref(),
            shafts: one.whole.shafts.as_slice(),
            at: device.now(&one.job),
        })
        .collect();
    OfficeScreen::together(&jobs, &paths::shaft)
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
