//! Saving an entry: read, asked about, kept by the device, and only then said to be saved.

use super::super::way::{Way, use_way};
use super::About;
use super::sheet::{AUTHOR, DOUBTS};
use crate::device::{Device, Pending, use_device};
use crate::widgets::{Saying, Writing, element, field_id};
use leptos::prelude::*;
use leptos::task::spawn_local;
use quantity::Moment;
use record::{Body, EntryId, Log, plausible};
use screen::entry::form::{Concern, FieldFault};
use screen::entry::{Trial, strike};
use std::time::Duration;
use wording::Notice;

/// Who waits longer than this is told why.
const TOLD_AFTER: Duration = Duration::from_millis(200);
/// What an answer key of a question writes.
const AS_WRITTEN: &str = "Yes, as written.";

/// An entry on its way to be saved.
#[derive(Clone, Copy)]
pub(super) struct Saving {
    about: StoredValue<About>,
    /// The form.
    pub(super) writing: Writing,
    at: RwSignal<Moment>,
    /// The device is keeping it.
    busy: RwSignal<bool>,
    /// It takes so long that a person has to be told.
    pub(super) slow: RwSignal<bool>,
    /// It is being kept, or is: the half-filled form is not kept any more.
    pub(super) done: RwSignal<bool>,
    /// It was to be saved, and nobody has said yet who writes.
    pub(super) nobody: RwSignal<bool>,
    /// Why the device could not keep it.
    pub(super) failed: RwSignal<Option<Notice>>,
    device: Device,
    saying: Option<Saying>,
    way: Way,
}

impl Saving {
    /// For one form.
    pub(super) fn new(about: About, writing: Writing, at: RwSignal<Moment>) -> Saving {
        Saving {
            about: StoredValue::new(about),
            writing,
            at,
            busy: RwSignal::new(false),
            slow: RwSignal::new(false),
            done: RwSignal::new(false),
            nobody: RwSignal::new(false),
            failed: RwSignal::new(None),
            device: use_device(),
            saying: use_context(),
            way: use_way(),
        }
    }
}

/// Saves the form, or goes to what stands in its way.
pub(super) fn save(saving: Saving) {
    let Saving { writing, device, .. } = saving;
    if saving.busy.get_untracked() {
        return;
    }
    set_unless(writing.open, Option::is_none, None);
    let body = match writing.form.with_untracked(|form| form.body()) {
        Ok(body) => body,
        Err(faults) => return go_to_fault(writing, faults),
    };
    set_unless(writing.faults, Vec::is_empty, Vec::new());
    let nobody = device.author().with_untracked(|author| author.trim().is_empty());
    set_unless(saving.nobody, |before| *before == nobody, nobody);
    if nobody {
        return focus(AUTHOR);
    }
    ask(saving);
    if let Some(open) = untrack(|| writing.open_concerns()).into_iter().next() {
        return go_to_concern(writing, &open);
    }
    saving.busy.set(true);
    set_unless(saving.failed, Option::is_none, None);
    let tell = move || {
        if saving.busy.try_get_untracked() == Some(true) {
            saving.slow.try_set(true);
        }
    };
    set_timeout(tell, TOLD_AFTER);
    spawn_local(keep(saving, body));
}

/// Sets what is not so yet: the browser draws nothing anew for what stays as it is, and what it draws while an entry is on
/// its way to the disk keeps the answer waiting.
fn set_unless<T: Send + Sync + 'static>(signal: RwSignal<T>, is_so: impl FnOnce(&T) -> bool, value: T) {
    if !signal.with_untracked(is_so) {
        signal.set(value);
    }
}

/// Every question the entry would raise, now that it is about to stand.
fn ask(saving: Saving) {
    let job = saving.about.with_value(|about| about.job.clone());
    let Some(record) = saving.device.record(&job).get_untracked() else { return };
    let trial = Trial { record: &record, now: saving.device.now(&job), device: None };
    let asked = saving.writing.form.with_untracked(|form| form.questions(&trial));
    set_unless(saving.writing.concerns, |before| *before == asked, asked.clone());
}

async fn keep(saving: Saving, body: Body) {
    let about = saving.about.get_value();
    let observed_at = saving.at.get_untracked();
    let title = saving.writing.form.with_untracked(|form| form.title());
    let accepted = saving.writing.accepted.get_untracked();
    let (job, shaft) = (about.job.clone(), about.shaft.clone());
    let pending = Pending { job, shaft, observed_at, noted_at: None, body };
    // From here on the form is not kept again: it would come after the entry that was made of it.
    saving.done.try_set(true);
    match saving.device.write_of_form(pending, Some(about.kept_as())).await {
        Ok(id) => {
            answer(saving.device, &about, id, &accepted).await;
            if let Some(saying) = saving.saying {
                saying.say(format!("Saved on this device: {} {title}", observed_at.clock()));
            }
            // Who has left the form meanwhile stays where they are.
            saving.about.try_with_value(|about| saving.way.go(&about.home()));
        }
        Err(notice) => {
            saving.done.try_set(false);
            // What was typed while it was being saved is still to be kept.
            if let Some(text) = saving.writing.form.try_with_untracked(screen::entry::Form::to_text) {
                saving.device.keep_form(&about.kept_as(), &text).await;
            }
            saving.failed.try_set(Some(notice));
        }
    }
    saving.busy.try_set(false);
    saving.slow.try_set(false);
}

/// The answers a person gave before saving become entries too, now that there is an entry they are about.
async fn answer(device: Device, about: &About, id: EntryId, accepted: &[Concern]) {
    if accepted.is_empty() {
        return;
    }
    let Some(record) = device.record(&about.job).get_untracked() else { return };
    let answers: Vec<Body> = {
        let log = Log::of(&record, about.shaft.as_deref(), None);
        let asked = |found: &&record::Question| {
            let word = found.suspicion.word();
            let at =
                |one: &Concern, field: &str| one.field.as_deref().is_some_and(|path| path.ends_with(field));
            let field = found.suspicion.field();
            let of = |one: &Concern| one.word == word && field.is_none_or(|field| at(one, field));
            found.about == id && found.answer.is_none() && accepted.iter().any(of)
        };
        let questions = plausible::questions(&log);
        questions.iter().filter(asked).filter_map(|found| strike::answer(found, AS_WRITTEN).ok()).collect()
    };
    let observed_at = device.now(&about.job);
    let (job, shaft) = (&about.job, &about.shaft);
    let pending =
        |body| Pending { job: job.clone(), shaft: shaft.clone(), observed_at, noted_at: None, body };
    let pending: Vec<Pending> = answers.into_iter().map(pending).collect();
    if pending.is_empty() {
        return;
    }
    // The question is then asked again in the log, where it can be answered.
    if let Err(notice) = device.write_all(job, pending).await {
        device.notices().update(|notices| notices.push(notice));
    }
}

/// Shows what cannot be taken in and goes to the first of it.
pub(crate) fn go_to_fault(writing: Writing, faults: Vec<FieldFault>) {
    let first = faults.first().map(|fault| field_id(&fault.path));
    writing.faults.set(faults);
    request_animation_frame(move || {
        if let Some(first) = first {
            focus(&first);
        }
    });
}

/// Goes to the field a question is about.
pub(crate) fn go_to_concern(writing: Writing, concern: &Concern) {
    let field = concern.field.clone();
    let path = writing.fields.with_untracked(|all| {
        let of = |path: &str| path.rsplit('.').next() == field.as_deref();
        all.iter().find(|asked| of(&asked.path)).map(|asked| field_id(&asked.path))
    });
    request_animation_frame(move || focus(path.as_deref().unwrap_or(DOUBTS)));
}

fn focus(id: &str) {
    if let Some(found) = element(id) {
        let _ = found.focus();
    }
}
