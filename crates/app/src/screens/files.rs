//! The files of a job: the signed record saved to carry elsewhere, what the desk makes for other programs, and files read
//! into it.

use super::looking::{Looking, OfJob};
use super::read::Reader;
use super::shell::PageHead;
use crate::device::{Device, Link, use_device};
use crate::widgets::{Key, Tone};
use leptos::prelude::*;

/// Save and read.
#[component]
pub(super) fn Files() -> impl IntoView {
    let looking = Looking::here();
    view! {
        <OfJob looking=looking>
            <section class="page form">
                <PageHead heading="Files of this job"/>
                <Save looking=looking/>
                <Formats looking=looking/>
                <section class="stack">
                    <h2>"Read a file into this job"</h2>
                    <Reader job=looking.job/>
                </section>
            </section>
        </OfJob>
    }
}

#[component]
fn Save(looking: Looking) -> impl IntoView {
    let device = use_device();
    let count = move || looking.record.get().map(|record| format!("{} entries, each signed.", record.len()));
    view! {
        <section class="stack">
            <h2>"Save the record"</h2>
            <p>
                "One entry a line, signed: anyone can prove it, any device can read it in, and nothing is doubled "
                "by reading it twice."
            </p>
            <p class="soft">{count}</p>
            <div class="row">
                <Key
                    label="Save the record as a file"
                    tone=Tone::Main
                    press=move |()| save(device, &looking.job.get_untracked())
                />
            </div>
        </section>
    }
}

/// The formats other programs read, as the desk calls them, and what each is for.
const FORMATS: &[(&str, &str)] = &[
    ("xlsx", "Workbook (XLSX)"),
    ("ifc", "Building model (IFC 4.3)"),
    ("ifc4", "Building model (IFC 4)"),
    ("ags", "Ground data (AGS 4)"),
    ("csvw", "Tables with their meaning (CSVW)"),
    ("geojson", "Map (GeoJSON)"),
    ("parquet", "Every entry (Parquet)"),
];

/// What only the desk makes; nothing while it is out of reach.
#[component]
fn Formats(looking: Looking) -> impl IntoView {
    let device = use_device();
    let links = move || {
        let job = looking.job.get();
        let link = |(word, name): &(&str, &'static str)| {
            let to = super::paths::export_at_desk(&job, word);
            view! { <a class="button" rel="external" href=to>{*name}</a> }
        };
        FORMATS.iter().map(link).collect_view()
    };
    let near = Memo::new(move |_| matches!(device.outbox().get().link, Link::InStep { .. } | Link::Sending));
    let section = move || {
        near.get().then(|| {
            view! {
                <section class="stack">
                    <h2>"Formats other programs read"</h2>
                    <p class="soft">"Made by the desk of what it has."</p>
                    <div class="keys">{links}</div>
                </section>
            }
        })
    };
    view! { {section} }
}

/// Hands the record of a job to the browser as a file.
pub(super) fn save(device: Device, job: &str) {
    let name = format!("{}.jsonl", super::paths::word(job));
    if device.save_as(&name, "application/jsonl", &device.lines_of(job)).is_none() {
        leptos::logging::warn!("this browser saves no files");
    }
}
