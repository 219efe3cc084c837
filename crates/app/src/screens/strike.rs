//! The screen on which an entry is corrected: replaced by what should have been written, or struck through.
//!
//! Nothing is erased. The old entry stays, struck through, with the reason beside it.
//!
//! Never: change an entry; take a correction without its reason.

mod mend;

use super::paths;
use super::unknown::NotHere;
use crate::device::use_device;
use leptos::prelude::*;
use mend::Mend;
use record::{EntryId, Held, Record};
use screen::entry::Strike;

/// Why an entry cannot be corrected.
const NOT_POSSIBLE: &str =
    "This entry cannot be corrected: it is not here, was struck through already, or is in dispute";

/// The entry in the address, to be made good.
#[component]
pub(crate) fn StrikeScreen() -> impl IntoView {
    let (job, entry) = (paths::job_here(), paths::entry_here());
    let screen = move || {
        let (job, entry) = (job.get(), entry.get());
        let record = use_device().record(&job);
        // What arrives meanwhile must not take the form from under the hand.
        let found = Memo::new(move |before: Option<&Option<Found>>| {
            before
                .cloned()
                .flatten()
                .or_else(|| record.with(|record| record.as_deref().map(|all| find(all, &entry))))
        });
        move || match found.get() {
            None => view! { <p class="page soft" role="status">"Reading the record …"</p> }.into_any(),
            Some(Found(None)) => view! { <NotHere what=NOT_POSSIBLE/> }.into_any(),
            Some(Found(Some(strike))) => view! { <Mend job=job.clone() strike=*strike/> }.into_any(),
        }
    };
    view! { {screen} }
}

/// The correction as it begins; `None` when the entry cannot be corrected.
#[derive(Debug, Clone)]
struct Found(Option<Box<Strike>>);

impl PartialEq for Found {
    /// It is found once and then stays.
    fn eq(&self, other: &Self) -> bool {
        self.0.is_some() == other.0.is_some()
    }
}

fn find(record: &Record, id: &str) -> Found {
    let begin = || {
        let id = EntryId::from_hex(id)?;
        let held: &Held = record.entries().find(|held| held.id() == id)?;
        Strike::of(record, held.shaft(), id).map(Box::new)
    };
    Found(begin())
}
