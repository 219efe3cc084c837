//! Help: how to begin, how entries are kept, how to read the signs, and the cautions.
//!
//! Short enough to be read standing.

use super::paths;
use super::shell::PageHead;
use crate::widgets::{MarkBadge, Sign};
use leptos::prelude::*;

/// What each sign means.
const SIGNS: &[(Sign, &str)] = &[
    (Sign::Meets, "Measured, and inside its limit."),
    (Sign::Fails, "Measured, and outside its limit. Somebody has to decide; the decision is an entry."),
    (Sign::NotMeasured, "A limit asks for it and nothing was measured. That is not a pass."),
    (Sign::NoLimit, "Nothing to compare it with in the criteria of this job. That is not a pass either."),
    (Sign::Doubtful, "Entries in dispute, or readings that cannot both be right."),
    (Sign::Now, "Act at once."),
    (Sign::Soon, "Act within the half hour, or with the next move."),
    (Sign::Later, "Comes later; it is in sight."),
    (Sign::Late, "Entered well after it was seen. It says so wherever it is shown."),
];

/// How the app keeps, in sentences that stand each for itself.
const KEPT: &[&str] = &[
    "An entry is shown as saved when the browser has written it to the device. It needs no connection.",
    "Entries wait in the outbox until a desk has confirmed that it stored them. Nothing is removed here then.",
    "An entry is never altered. What was wrong is struck through, with a reason, and stays readable.",
    "Two corrections of one entry are a dispute: both are shown until a person closes it with an entry.",
    "The record of a job can be saved as a file at any time, and read in on another device.",
];

/// How to begin, from nothing to the first entry.
const BEGIN: &[&str] = &[
    "Write your name, then begin a job, read its file, or pair with the desk that has it.",
    "Give the job its criteria, mixes and fluid. Without criteria nothing is judged.",
    "Add its shafts: paste the schedule from a spreadsheet, or plan one by one.",
    "Open a shaft. The keys of the stage stand there, the likely next one first. One tap stamps the time.",
];

/// The help.
#[component]
pub(super) fn Help() -> impl IntoView {
    let lines =
        |all: &'static [&'static str]| all.iter().map(|line| view! { <li>{*line}</li> }).collect_view();
    view! {
        <section class="page">
            <PageHead heading="Help and cautions"/>
            <section class="stack">
                <h2>"How to begin"</h2>
                <ol class="lines">{lines(BEGIN)}</ol>
                <div class="row"><a class="button" href=paths::JOBS>"Go to the jobs"</a></div>
            </section>
            <section class="stack">
                <h2>"How entries are kept"</h2>
                <ul class="lines">{lines(KEPT)}</ul>
            </section>
            <Signs/>
            <Cautions/>
        </section>
    }
}

#[component]
fn Signs() -> impl IntoView {
    let rows = SIGNS.iter().map(|(sign, means)| {
        view! {
            <div class="sign-row">
                <dt><MarkBadge sign=*sign/></dt>
                <dd>{*means}</dd>
            </div>
        }
    });
    view! {
        <section class="stack">
            <h2>"How to read the signs"</h2>
            <dl class="signs">{rows.collect_view()}</dl>
        </section>
    }
}

/// The cautions every package carries.
#[component]
pub(super) fn Cautions() -> impl IntoView {
    let rows = wording::cautions().iter().map(|caution| {
        view! {
            <div class="caution">
                <h3>{caution.danger}</h3>
                <p>{caution.text}</p>
            </div>
        }
    });
    view! {
        <section class="stack">
            <h2>"Cautions"</h2>
            <div class="cautions">{rows.collect_view()}</div>
        </section>
    }
}
