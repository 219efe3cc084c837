//! What a screen looks at: the job and shaft of its address, its record, and the moment.
//!
//! A clock on the screen runs every second; the reckoning behind it is made anew when the record changes and
//! every quarter of a minute of the site clock.
//!
//! Never: reckon for a figure alone; everything on a screen comes from one look.

use super::paths;
use crate::device::{Storage, use_device};
use leptos::prelude::*;
use quantity::Moment;
use record::Record;
use std::sync::Arc;

/// Seconds of the site clock between two looks at an unchanged record.
const EVERY: i64 = 15;

/// What a screen looks at.
#[derive(Clone, Copy)]
pub(super) struct Looking {
    /// The job of the address.
    pub(super) job: Memo<String>,
    /// The shaft of the address; empty on the screens of a job.
    pub(super) shaft: Memo<String>,
    /// Its record; `None` while it is being read from storage.
    pub(super) record: Signal<Option<Arc<Record>>>,
    turn: Memo<i64>,
}

impl Looking {
    /// What the address says.
    pub(super) fn here() -> Self {
        let device = use_device();
        let (job, shaft) = (paths::job_here(), paths::shaft_here());
        let turn = Memo::new(move |_| {
            device.tick().track();
            device.now(&job.get()).seconds().div_euclid(EVERY)
        });
        let record = Signal::derive(move || device.record(&job.get()).get());
        Looking { job, shaft, record, turn }
    }

    /// The site clock; whoever reads it looks again when the turn comes.
    pub(super) fn at(self) -> Moment {
        // Reading it and not only following it: a memo that nobody reads follows nothing itself.
        self.turn.get();
        self.now()
    }

    /// The site clock now, without following it.
    pub(super) fn now(self) -> Moment {
        use_device().now(&self.job.get_untracked())
    }

    /// Whether anything was written of the shaft of the address, once that can be said; true where it names none.
    pub(super) fn knows_shaft(self) -> Memo<Option<bool>> {
        Memo::new(move |_| {
            let (record, shaft) = (self.record.get()?, self.shaft.get());
            Some(shaft.is_empty() || record.shafts().contains(&shaft.as_str()))
        })
    }

    /// Whether the job is on this device, once that can be said.
    pub(super) fn is_here(self) -> Memo<Option<bool>> {
        let device = use_device();
        Memo::new(move |_| {
            if matches!(device.storage().get(), Storage::Opening) {
                return None;
            }
            let listed = device.jobs().read().iter().any(|card| card.name == self.job.get());
            let written = self.record.get().map(|record| !record.is_empty());
            if listed { Some(true) } else { written }
        })
    }
}

/// Shows a screen of a job, or says that the job is not here.
#[component]
pub(super) fn OfJob(
    /// What is looked at.
    looking: Looking,
    /// The screen.
    children: ChildrenFn,
) -> impl IntoView {
    let here = looking.is_here();
    let missing = Signal::derive(move || format!("The job {} is not on this device", looking.job.get()));
    let shaft = looking.knows_shaft();
    move || match here.get() {
        Some(true) if shaft.get() == Some(false) => {
            view! { <super::unknown::NoShaft looking=looking/> }.into_any()
        }
        None => view! { <section class="page"><p>"Reading the record …"</p></section> }.into_any(),
        Some(false) => view! { <super::unknown::NotHere what=missing/> }.into_any(),
        Some(true) => children().into_any(),
    }
}
