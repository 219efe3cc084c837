//! Read a file in: a record of signed entries, field notes, or a table from a spreadsheet.
//!
//! A record is taken in at once, because it is signed already. Notes and tables are shown first: how many
//! entries they give, which are here already, or every mistake with its place; nothing is kept before a
//! person says so.

use super::ask::{ChoiceAsk, FileAsk, TextAsk};
use super::paths;
use super::shell::PageHead;
use crate::device::{Device, NotesFile, NotesRead, use_device};
use crate::widgets::{Key, NoticeCard, Tone};
use leptos::prelude::*;
use wording::Notice;

/// What became of a file.
#[derive(Clone)]
enum Outcome {
    /// Nothing was chosen yet.
    Nothing,
    /// It is being read.
    Busy,
    /// Every mistake of it; nothing was kept.
    Mistakes(String, Vec<String>),
    /// Drafts that wait for a person.
    Drafts(String, Box<NotesRead>),
    /// Kept: what happened, and the job it belongs to where that is known.
    Kept(String, Option<String>),
    /// The device could not.
    Refused(Notice),
}

/// The page by itself: the file may open a job or belong to one that is here.
#[component]
pub(super) fn Read() -> impl IntoView {
    let jobs = use_device().jobs();
    let job = RwSignal::new(String::new());
    let choices = move || {
        let new = (String::new(), "It opens a job, or holds signed entries".to_owned());
        let here = jobs.get().into_iter().map(|card| (card.name.clone(), card.title.unwrap_or(card.name)));
        std::iter::once(new).chain(here).collect::<Vec<_>>()
    };
    let ask = move || {
        view! {
            <ChoiceAsk
                label="What the file belongs to"
                choices=choices()
                chosen=job
                choose=Callback::new(move |chosen| job.set(chosen))
            />
        }
    };
    view! {
        <section class="page form">
            <PageHead heading="Read a file"/>
            {ask}
            <Reader job=job/>
        </section>
    }
}

/// Takes a file and tells what became of it.
#[component]
pub(super) fn Reader(
    /// The job it is for; empty: the file says so itself.
    #[prop(into)]
    job: Signal<String>,
) -> impl IntoView {
    let device = use_device();
    let outcome = RwSignal::new(Outcome::Nothing);
    let (shaft, date) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let taken = Callback::new(move |(name, bytes): (String, Vec<u8>)| {
        outcome.set(Outcome::Busy);
        let (job, shaft, date) = (job.get_untracked(), shaft.get_untracked(), date.get_untracked());
        leptos::task::spawn_local(async move {
            let found = if name.to_lowercase().ends_with(".jsonl") {
                signed(device, bytes).await
            } else {
                let file = NotesFile {
                    job: said(&job),
                    name: &name,
                    bytes: &bytes,
                    table: None,
                    shaft: said(&shaft),
                    date: said(&date),
                };
                written(device, &file)
            };
            outcome.set(found);
        });
    });
    view! {
        <FileAsk
            label="File"
            hint="A record (.jsonl), field notes (.toml), or a table from a spreadsheet (.csv)."
            accept=".jsonl,.toml,.csv"
            taken=taken
        />
        <details class="more">
            <summary>"A table whose rows do not say shaft or day"</summary>
            <div class="form">
                <TextAsk label="Shaft" text=shaft/>
                <TextAsk label="Day" hint="Such as 2026-05-04." text=date/>
            </div>
        </details>
        <Told outcome=outcome/>
    }
}

fn said(text: &str) -> Option<&str> {
    Some(text.trim()).filter(|text| !text.is_empty())
}

async fn signed(device: Device, bytes: Vec<u8>) -> Outcome {
    let text = String::from_utf8_lossy(&bytes).into_owned();
    match device.read_lines(text).await {
        Ok(added) => {
            let told = format!("{} entries are new here, {} were here already.", added.new, added.known);
            Outcome::Kept(told, None)
        }
        Err(notice) => Outcome::Refused(notice),
    }
}

fn written(device: Device, file: &NotesFile<'_>) -> Outcome {
    match device.read_notes(file) {
        Ok(read) => Outcome::Drafts(file.name.to_owned(), Box::new(read)),
        Err(mistakes) => Outcome::Mistakes(file.name.to_owned(), mistakes),
    }
}

#[component]
fn Told(outcome: RwSignal<Outcome>) -> impl IntoView {
    let told = move || match outcome.get() {
        Outcome::Nothing => ().into_any(),
        Outcome::Busy => view! { <p>"Reading …"</p> }.into_any(),
        Outcome::Refused(notice) => view! { <NoticeCard notice=notice/> }.into_any(),
        Outcome::Mistakes(name, mistakes) => mistakes_view(&name, mistakes).into_any(),
        Outcome::Drafts(name, read) => view! { <Drafts name=name read=*read outcome=outcome/> }.into_any(),
        Outcome::Kept(told, job) => kept_view(told, job).into_any(),
    };
    view! { <div class="stack" aria-live="polite">{told}</div> }
}

fn mistakes_view(name: &str, mistakes: Vec<String>) -> impl IntoView + use<> {
    let count = match mistakes.len() {
        1 => "1 mistake".to_owned(),
        many => format!("{many} mistakes"),
    };
    let lines = mistakes.into_iter().map(|line| view! { <li class="said">{line}</li> }).collect_view();
    view! {
        <h2>{format!("{name}: {count}")}</h2>
        <p>"Nothing of the file was kept. Mend these and choose the file again."</p>
        <ul class="lines">{lines}</ul>
    }
}

fn kept_view(told: String, job: Option<String>) -> impl IntoView {
    let (to, label) = match job {
        Some(job) => (paths::job(&job), "Open the job"),
        None => (paths::JOBS.to_owned(), "Go to the jobs"),
    };
    view! {
        <p class="lead">{told}</p>
        <div class="row"><a class="button main" href=to>{label}</a></div>
    }
}

#[component]
fn Drafts(name: String, read: NotesRead, outcome: RwSignal<Outcome>) -> impl IntoView {
    let device = use_device();
    let job = read.notes.context.key.clone();
    let (new, known) = (read.new, read.known);
    let left_out = read.left_out.iter().map(|line| view! { <li>{line.clone()}</li> }).collect_view();
    let read = StoredValue::new_local(read);
    let press = move |()| {
        let (read, job) = (read.get_value(), job.clone());
        outcome.set(Outcome::Busy);
        leptos::task::spawn_local(async move {
            outcome.set(match device.enter_notes(read).await {
                Ok(count) => Outcome::Kept(format!("{count} entries are signed and kept."), Some(job)),
                Err(notice) => Outcome::Refused(notice),
            });
        });
    };
    let nobody = move || device.author().read().trim().is_empty();
    let again = (known > 0).then(|| format!("{known} are in the record already and are not entered twice."));
    let ask = move || nobody().then(|| view! { <super::settings::Author/> });
    view! {
        <h2>{format!("{name}: {new} entries to enter")}</h2>
        <p>{again}</p>
        <ul class="lines">{left_out}</ul>
        {ask}
        <div class="row">
            <Key label="Enter them" tone=Tone::Main off=Signal::derive(move || new == 0 || nobody()) press=press/>
        </div>
    }
}
