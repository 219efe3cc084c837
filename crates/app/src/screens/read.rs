//! Read files in: a record of signed entries, field notes, tables from a spreadsheet.
//!
//! A record is taken in at once, because it is signed already. Notes and tables are shown first: how many
//! entries they give, which are here already, or every mistake with its place; nothing is kept before a
//! person says so. Notes of one job that name each other's shafts and mixes are chosen together.

use super::ask::{ChoiceAsk, File, FilesAsk, TextAsk};
use super::paths;
use super::shell::PageHead;
use crate::device::{Added, Device, NotesRead, NotesWanted, use_device};
use crate::widgets::{Key, NoticeCard, Tone};
use leptos::prelude::*;
use screen::entry::drafts;
use wording::Notice;

/// What became of a file.
#[derive(Clone)]
enum Outcome {
    /// Nothing was chosen yet.
    Nothing,
    /// It is being read.
    Busy,
    /// Every mistake of what was chosen; nothing was kept.
    Mistakes(Vec<String>),
    /// Drafts that wait for a person, a file after the other.
    Drafts(Vec<NotesRead>),
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
    let taken = Callback::new(move |files: Vec<File>| {
        outcome.set(Outcome::Busy);
        let said = |text: RwSignal<String>| said(&text.get_untracked());
        let wanted = NotesWanted {
            job: job.with_untracked(|job| self::said(job)),
            files,
            shaft: said(shaft),
            date: said(date),
        };
        leptos::task::spawn_local(async move { outcome.set(read(device, wanted).await) });
    });
    view! {
        <FilesAsk
            label="Files"
            hint="A record (.jsonl), field notes (.toml), or tables from a spreadsheet (.csv). Notes of one job that \
                  belong together are chosen together."
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

fn said(text: &str) -> Option<String> {
    Some(text.trim().to_owned()).filter(|text| !text.is_empty())
}

/// Records are taken in, one after the other; notes and tables become drafts.
async fn read(device: Device, mut wanted: NotesWanted) -> Outcome {
    let files = std::mem::take(&mut wanted.files);
    let (signed, written): (Vec<File>, Vec<File>) =
        files.into_iter().partition(|file| file.0.to_lowercase().ends_with(".jsonl"));
    if !signed.is_empty() && !written.is_empty() {
        return Outcome::Mistakes(vec![
            "A record and notes were chosen together. Read the record first, then the notes.".to_owned(),
        ]);
    }
    if written.is_empty() {
        return take_in(device, signed).await;
    }
    wanted.files = written;
    match device.read_notes(&wanted).await {
        Ok(read) => Outcome::Drafts(read),
        Err(mistakes) => Outcome::Mistakes(mistakes),
    }
}

async fn take_in(device: Device, files: Vec<File>) -> Outcome {
    let mut all = Added { new: 0, known: 0 };
    for (_, bytes) in files {
        match device.read_lines(String::from_utf8_lossy(&bytes).into_owned()).await {
            Ok(added) => {
                all.new += added.new;
                all.known += added.known;
            }
            Err(notice) => return Outcome::Refused(notice),
        }
    }
    Outcome::Kept(format!("{} entries are new here, {} were here already.", all.new, all.known), None)
}

#[component]
fn Told(outcome: RwSignal<Outcome>) -> impl IntoView {
    let told = move || match outcome.get() {
        Outcome::Nothing => ().into_any(),
        Outcome::Busy => view! { <p>"Reading …"</p> }.into_any(),
        Outcome::Refused(notice) => view! { <NoticeCard notice=notice/> }.into_any(),
        Outcome::Mistakes(mistakes) => mistakes_view(mistakes).into_any(),
        Outcome::Drafts(read) => view! { <Drafts read=read outcome=outcome/> }.into_any(),
        Outcome::Kept(told, job) => kept_view(told, job).into_any(),
    };
    view! { <div class="stack" aria-live="polite">{told}</div> }
}

fn mistakes_view(mistakes: Vec<String>) -> impl IntoView + use<> {
    let count = match mistakes.len() {
        1 => "One mistake".to_owned(),
        many => format!("{many} mistakes"),
    };
    let lines = mistakes.into_iter().map(|line| view! { <li class="said">{line}</li> }).collect_view();
    view! {
        <h2>{count}</h2>
        <p>"Nothing of what you chose was kept. Mend this and choose the files again."</p>
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
fn Drafts(read: Vec<NotesRead>, outcome: RwSignal<Outcome>) -> impl IntoView {
    let device = use_device();
    let job = read.first().map(|read| read.notes.context.key.clone()).unwrap_or_default();
    let new: usize = read.iter().map(|read| read.new).sum();
    let files = read.iter().map(file_view).collect_view();
    let heading = format!("{new} entries to enter into {job}");
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
    let ask = move || nobody().then(|| view! { <super::settings::Author/> });
    view! {
        <h2>{heading}</h2>
        <ul class="list">{files}</ul>
        {ask}
        <div class="row">
            <Key label="Enter them" tone=Tone::Main off=Signal::derive(move || new == 0 || nobody()) press=press/>
        </div>
    }
}

/// What one file would give: how many entries of which kinds, from when to when.
fn file_view(read: &NotesRead) -> impl IntoView + use<> {
    let told = drafts::told(read.new, read.known);
    let inside =
        drafts::inside(read.notes.drafted.iter().map(|draft| (draft.shaft.as_deref(), draft.kind())));
    let inside = inside.into_iter().map(|line| view! { <span class="small">{line}</span> }).collect_view();
    let left_out = read.left_out.iter().map(|line| view! { <span class="small soft">{line.clone()}</span> });
    view! {
        <li class="list-row">
            <span class="list-main">
                <span class="list-name">{read.notes.file.clone()}</span>
                <span>{told}</span>
                {inside}
                {left_out.collect_view()}
            </span>
        </li>
    }
}
