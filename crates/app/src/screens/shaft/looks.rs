//! Two looks at a shaft: one at once, and one when that is on the screen.
//!
//! Whoever saves an entry wants depth, embedment and ratio back before the hand has left the key. The order and the
//! played rest of the day take longer than all of that together; they come a moment later, in their places.
//!
//! Never: show figures of two moments side by side; put an older look over a newer record.

use super::super::looking::Looking;
use super::section;
use crate::device::{Device, Work, timed, use_device};
use leptos::prelude::*;
use record::Record;
use screen::entry::EntryKey;
use screen::live::{Look, ShaftScreen};
use std::sync::Arc;
use std::time::Duration;

/// Everything the screen shows, from one look.
#[derive(Clone, PartialEq)]
pub(super) struct Whole {
    /// Figures, clocks, what calls, what to do next.
    pub(super) screen: Arc<ShaftScreen>,
    /// The drawn section.
    pub(super) section: Arc<String>,
    /// The keys of the stage.
    pub(super) keys: Vec<EntryKey>,
}

impl Whole {
    fn of(look: &Look<'_>) -> Self {
        Whole {
            screen: Arc::new(timed(Work::Words, || look.screen())),
            section: Arc::new(timed(Work::Drawing, || look.section(section::DRAWN))),
            keys: look.keys(),
        }
    }
}

/// A whole look, and the record it was of.
#[derive(Clone)]
struct Second {
    record: Arc<Record>,
    shaft: String,
    whole: Whole,
}

impl Second {
    fn is_of(&self, record: &Arc<Record>, shaft: &str) -> bool {
        Arc::ptr_eq(&self.record, record) && self.shaft == shaft
    }
}

/// The second look where there is one of this record, else the first.
pub(super) fn whole(looking: Looking) -> Memo<Option<Whole>> {
    let first = first(looking);
    let second = second(looking);
    Memo::new(move |_| {
        let (record, shaft) = (looking.record.get()?, looking.shaft.get());
        let done = second.with(|second| {
            let done = second.as_ref().filter(|second| second.is_of(&record, &shaft));
            done.map(|second| second.whole.clone())
        });
        done.or_else(|| first.get())
    })
}

/// What can be told at once, whenever the record changes.
fn first(looking: Looking) -> Memo<Option<Whole>> {
    Memo::new(move |_| {
        let record = looking.record.get()?;
        let (shaft, at) = (looking.shaft.get(), looking.now());
        Some(Whole::of(&timed(Work::Assessment, || Look::briefly(&record, &shaft, at))))
    })
}

/// Everything, after each change of the record and whenever the turn comes.
fn second(looking: Looking) -> RwSignal<Option<Second>> {
    let second = RwSignal::new(None);
    let asked = StoredValue::new(0_u32);
    let device = use_device();
    Effect::new(move |_| {
        looking.record.track();
        looking.shaft.track();
        looking.at();
        let turn = asked.try_update_value(|asked| {
            *asked = asked.wrapping_add(1);
            *asked
        });
        after_paint(move || {
            if asked.try_get_value() == turn {
                second.try_set(look_again(looking, device));
            }
        });
    });
    second
}

/// What is looked at by now; `None` once the screen is gone. No owner is there any more to ask for the device.
fn look_again(looking: Looking, device: Device) -> Option<Second> {
    let record = looking.record.try_get_untracked()??;
    let (job, shaft) = (looking.job.try_get_untracked()?, looking.shaft.try_get_untracked()?);
    let at = device.now(&job);
    let whole = timed(Work::SecondLook, || {
        let look = Look::at(&record, &shaft, at);
        Whole {
            screen: Arc::new(look.screen()),
            section: Arc::new(look.section(section::DRAWN)),
            keys: look.keys(),
        }
    });
    Some(Second { record, shaft, whole })
}

/// Does something when the screen shows what it should show now: one frame later, and after what that frame still
/// has to do.
fn after_paint(task: impl FnOnce() + 'static) {
    request_animation_frame(move || set_timeout(task, Duration::ZERO));
}
