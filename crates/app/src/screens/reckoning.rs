//! Shaft by shaft: many shafts are reckoned in small turns, so that a finger on the screen never waits for all of them.
//!
//! After an entry only what it is about is reckoned again. A newer record makes what is under way stop.
//!
//! Words: *turn* = a few shafts, then the browser has its say.
//! Never: show what was reckoned of another record.

use crate::device::{Device, pause};
use leptos::prelude::*;
use record::Record;
use screen::live::{Reckoned, touched};
use std::sync::Arc;

/// Shafts in a turn.
const TURN: usize = 3;

/// How far it is: shafts done, and of how many.
pub(super) type Far = (usize, usize);

/// A record, and every shaft of it as it was reckoned.
#[derive(Clone)]
pub(super) struct Whole {
    pub(super) record: Arc<Record>,
    pub(super) shafts: Vec<Reckoned>,
}

impl Whole {
    /// Reckons a record, shaft by shaft; what is known of `before` and still holds is kept. `None`: `wanted` said no.
    pub(super) async fn of(
        (device, job): (Device, &str),
        record: Arc<Record>,
        before: Option<Whole>,
        turn: impl Fn(Far) -> bool,
    ) -> Option<Self> {
        let kept = Kept::of(before, &record);
        let names: Vec<String> = record.shafts().into_iter().map(str::to_owned).collect();
        let mut shafts = Vec::with_capacity(names.len());
        for (index, name) in names.iter().enumerate() {
            match kept.shaft(name) {
                Some(known) => shafts.push(known),
                None => {
                    shafts.push(Reckoned::of(&record, name, device.now(job)));
                    if index % TURN == TURN - 1 {
                        pause(0).await;
                    }
                }
            }
            if !turn((index + 1, names.len())) {
                return None;
            }
        }
        Some(Whole { record, shafts })
    }
}

/// What is known already.
struct Kept {
    shafts: Vec<Reckoned>,
}

impl Kept {
    fn of(before: Option<Whole>, record: &Record) -> Self {
        let still = before.and_then(|before| {
            let touched = touched(&before.record, record)?;
            Some(before.shafts.into_iter().filter(|one| !touched.contains(&one.row.name)).collect())
        });
        Kept { shafts: still.unwrap_or_default() }
    }

    fn shaft(&self, name: &str) -> Option<Reckoned> {
        self.shafts.iter().find(|one| one.row.name == name).cloned()
    }
}

/// Says how far it is.
#[component]
pub(super) fn FarView(
    /// How far; `None`: done.
    far: Signal<Option<Far>>,
) -> impl IntoView {
    let done = move || far.get().map_or(0, |(done, _)| done);
    let of = move || far.get().map_or(1, |(_, of)| of.max(1));
    let under_way = Memo::new(move |_| far.get().is_some_and(|(_, of)| of > TURN));
    let shown = move || {
        under_way.get().then(|| {
            view! {
                <p class="reckoning">
                    <progress max=of value=done aria-label="Shafts reckoned"></progress>
                    <span class="soft num">{move || format!("{} of {} shafts", done(), of())}</span>
                </p>
            }
        })
    };
    view! { {shown} }
}
