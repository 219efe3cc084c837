//! The screen of a job: its shafts on a plan and in a list, each with the stage it is in, and what the record
//! itself reveals.

mod plan;
mod rows;

use super::card::CardView;
use super::looking::{Looking, OfJob};
use super::paths;
use super::shell::title;
use crate::widgets::{KeyGrid, KeyLink, Tone};
use leptos::prelude::*;
use screen::live::{self, Card, JobScreen};
use std::sync::Arc;

/// What the parts of the screen read from.
#[derive(Clone, Copy)]
pub(super) struct JobShown {
    /// What is looked at.
    pub(super) looking: Looking,
    /// The last look; `None` while the record is being read.
    pub(super) screen: Memo<Option<Arc<JobScreen>>>,
}

impl JobShown {
    /// Looks at the job of the address, again whenever its record changes.
    pub(super) fn here() -> Self {
        let looking = Looking::here();
        let screen = Memo::new(move |_| {
            let record = looking.record.get()?;
            Some(Arc::new(live::job(&record, looking.now())))
        });
        JobShown { looking, screen }
    }

    /// A part of the screen that changes by itself only.
    pub(super) fn part<T>(self, of: impl Fn(&JobScreen) -> T + Send + Sync + 'static) -> Memo<T>
    where
        T: Default + PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.screen.with(|screen| screen.as_deref().map(&of).unwrap_or_default()))
    }
}

/// The screen.
#[component]
pub(super) fn Job() -> impl IntoView {
    let shown = JobShown::here();
    let name = shown.part(|screen| screen.name.clone());
    title(move || name.get());
    view! {
        <OfJob looking=shown.looking>
            <section class="page page-wide">
                <Heading shown=shown/>
                <Cards shown=shown/>
                <div class="split split-job">
                    <rows::Shafts shown=shown/>
                    <div class="stack">
                        <plan::Plan shown=shown/>
                        <Pages shown=shown/>
                        <About shown=shown/>
                    </div>
                </div>
            </section>
        </OfJob>
    }
}

#[component]
fn Heading(shown: JobShown) -> impl IntoView {
    let name = shown.part(|screen| screen.name.clone());
    let line = shown.part(|screen| {
        let count = match screen.entries {
            1 => "1 entry".to_owned(),
            many => format!("{many} entries"),
        };
        format!("{} · {} · {count}", screen.criteria, screen.units)
    });
    view! { <header><h1>{name}</h1><p class="soft">{line}</p></header> }
}

/// Alarms and what has to be said about the record, before everything else.
#[component]
fn Cards(shown: JobShown) -> impl IntoView {
    let cards =
        shown.part(|screen| -> Vec<Card> { screen.alarms.iter().chain(&screen.record).cloned().collect() });
    let all = move || {
        let job = shown.looking.job.get();
        let view = |card| view! { <CardView card=card job=job.clone() shaft=String::new()/> };
        cards.get().into_iter().map(view).collect_view()
    };
    view! { {all} }
}

/// The ways on from here.
#[component]
fn Pages(shown: JobShown) -> impl IntoView {
    let empty = shown.part(|screen| screen.shafts.is_empty());
    let lead = move || {
        empty
            .get()
            .then(|| view! { <p class="lead">"No shaft is planned yet. Add the shafts of the drawings."</p> })
    };
    let keys = move || {
        let job = shown.looking.job.get();
        let key = |(page, name): &(&'static str, &'static str)| {
            let first = *page == "schedule" && empty.get();
            let tone = if first { Tone::Main } else { Tone::Plain };
            view! { <KeyLink to=paths::job_page(&job, page) label=*name tone=tone/> }
        };
        super::shell::JOB_PAGES.iter().map(key).collect_view()
    };
    view! { {lead}<KeyGrid name="This job">{keys}</KeyGrid> }
}

/// What was entered of the job.
#[component]
fn About(shown: JobShown) -> impl IntoView {
    let about = shown.part(|screen| screen.about.clone());
    let rows = move || {
        about.get().into_iter().map(|(name, text)| view! { <dt>{name}</dt><dd>{text}</dd> }).collect_view()
    };
    view! { <dl class="pairs">{rows}</dl> }
}
