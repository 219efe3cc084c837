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
use quantity::Moment;
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
    /// The drawn section; `None`: it is drawn once the figures are on the screen.
    pub(super) section: Option<Arc<String>>,
    /// The keys of the stage.
    pub(super) keys: Vec<EntryKey>,
}

/// A whole look, and the record it was of.
#[derive(Clone)]
struct Taken {
    record: Arc<Record>,
    shaft: String,
    whole: Whole,
}

impl Taken {
    fn is_of(&self, record: &Arc<Record>, shaft: &str) -> bool {
        Arc::ptr_eq(&self.record, record) && self.shaft == shaft
    }
}

/// The first look at a record that is to come, taken while the disk keeps the entry that makes it so. It is shown only
/// when a screen looks at that very record.
#[derive(Clone, Copy)]
pub(in crate::screens) struct LookAhead(StoredValue<Option<Taken>>);

impl LookAhead {
    /// Looks ahead from now on.
    pub(in crate::screens) fn provide() {
        let (device, ahead) = (use_device(), LookAhead(StoredValue::new(None)));
        provide_context(ahead);
        device.on_foreseen(move |job, shaft, record| {
            let whole = briefly(record, shaft, device.now(job));
            ahead.0.set_value(Some(Taken { record: Arc::clone(record), shaft: shaft.to_owned(), whole }));
        });
    }

    /// The look at this record, where it was taken ahead; it is needed once.
    fn take(self, record: &Arc<Record>, shaft: &str) -> Option<Whole> {
        let taken = self.0.try_update_value(Option::take).flatten();
        taken.filter(|taken| taken.is_of(record, shaft)).map(|taken| taken.whole)
    }
}

fn briefly(record: &Record, shaft: &str, at: Moment) -> Whole {
    let look = timed(Work::Assessment, || Look::briefly(record, shaft, at));
    Whole { screen: Arc::new(timed(Work::Words, || look.screen())), section: None, keys: look.keys() }
}

/// The section as of the first look. It takes as long as the figures and is wanted after them; a look holds the record only
/// while it lasts, so there is another one.
pub(super) fn section_briefly(looking: Looking, device: Device) -> Option<String> {
    let record = looking.record.try_get_untracked()??;
    let (job, shaft) = (looking.job.try_get_untracked()?, looking.shaft.try_get_untracked()?);
    let look = Look::briefly(&record, &shaft, device.now(&job));
    Some(timed(Work::Drawing, || look.section(section::DRAWN)))
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
    let ahead: LookAhead = expect_context();
    Memo::new(move |_| {
        let record = looking.record.get()?;
        let shaft = looking.shaft.get();
        Some(ahead.take(&record, &shaft).unwrap_or_else(|| briefly(&record, &shaft, looking.now())))
    })
}

/// Everything, after each change of the record and whenever the turn comes.
fn second(looking: Looking) -> RwSignal<Option<Taken>> {
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
        let look = move || {
            if asked.try_get_value() == turn {
                second.try_set(look_again(looking, device));
            }
        };
        // The figures are painted first, then the section of the first look.
        after_paint(move || after_paint(look));
    });
    second
}

/// What is looked at by now; `None` once the screen is gone. No owner is there any more to ask for the device.
fn look_again(looking: Looking, device: Device) -> Option<Taken> {
    let record = looking.record.try_get_untracked()??;
    let (job, shaft) = (looking.job.try_get_untracked()?, looking.shaft.try_get_untracked()?);
    let at = device.now(&job);
    let whole = timed(Work::SecondLook, || {
        let look = Look::at(&record, &shaft, at);
        Whole {
            screen: Arc::new(look.screen()),
            section: Some(Arc::new(look.section(section::DRAWN))),
            keys: look.keys(),
        }
    });
    Some(Taken { record, shaft, whole })
}

/// Does something when the screen shows what it should show now: one frame later, and after what that frame still
/// has to do.
pub(super) fn after_paint(task: impl FnOnce() + 'static) {
    request_animation_frame(move || set_timeout(task, Duration::ZERO));
}
