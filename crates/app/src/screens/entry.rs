//! The screen of an entry: stamped by the tap that opened it, filled in, saved with one big key.
//!
//! What is half written stays on the device with every change, so that a tab the browser kills, or a truck
//! that comes in between, costs nothing; the next time the same entry is opened it is offered again.
//!
//! Words: *begun* = what the screen starts from; *fresh* = a form stamped by the tap; *kept* = one that was
//! half filled in before.
//! Never: show an entry as saved that the device has not kept.

mod choose;
mod saving;
mod sheet;

pub(crate) use choose::ChooseScreen;
pub(crate) use saving::{go_to_concern, go_to_fault};
pub(crate) use sheet::Doubts;

use super::paths;
use super::shell::PageHead;
use super::unknown::NotHere;
use crate::device::use_device;
use crate::widgets::{Key, KeyGrid, Tone};
use leptos::prelude::*;
use leptos::task::spawn_local;
use quantity::Moment;
use record::Record;
use screen::entry::Form;
use sheet::Sheet;
use std::sync::Arc;

/// What an entry is about and of which kind it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct About {
    pub(super) job: String,
    pub(super) shaft: Option<String>,
    pub(super) kind: String,
    /// It was opened from the open items of the job.
    pub(super) from_open_items: bool,
}

impl About {
    /// The name a half-filled form is kept under.
    fn kept_as(&self) -> String {
        let shaft = self.shaft.as_ref().map(|shaft| paths::word(shaft)).unwrap_or_default();
        format!("{}/{shaft}/{}", paths::word(&self.job), self.kind)
    }

    /// Where a person comes from and goes back to.
    pub(super) fn home(&self) -> String {
        match &self.shaft {
            _ if self.from_open_items => paths::job_page(&self.job, paths::OPEN_ITEMS),
            Some(shaft) => paths::shaft(&self.job, shaft),
            None => paths::job(&self.job),
        }
    }
}

/// What the screen starts from.
#[derive(Debug, Clone)]
enum Begun {
    /// The record is being read.
    Waiting,
    /// The job is not on this device.
    NoJob,
    /// There is no such kind of entry.
    NoKind,
    /// A form to fill in; `again`: it was half filled in before and keeps its stamp.
    Form { form: Box<Form>, again: bool },
    /// One was half filled in before; a person says which.
    Which { fresh: Box<Form>, kept: Box<Form> },
}

/// The form of the kind, the shaft and the job in the address.
#[component]
pub(crate) fn EntryScreen() -> impl IntoView {
    let (job, shaft, kind) = (paths::job_here(), paths::shaft_here(), paths::kind_here());
    let about = Memo::new(move |_| About {
        job: job.get(),
        shaft: Some(shaft.get()).filter(|shaft| !shaft.is_empty()),
        kind: kind.get(),
        from_open_items: paths::from_open_items(),
    });
    view! { {move || view! { <Opening about=about.get()/> }} }
}

#[component]
fn Opening(about: About) -> impl IntoView {
    let device = use_device();
    let record = device.record(&about.job);
    // Without the record the clock of the job is not known yet.
    let tapped = record.with_untracked(Option::is_some).then(|| device.now(&about.job));
    // What a step on the shaft's screen knows already, such as the ticket of the load it is about.
    let known = paths::known();
    let begun = RwSignal::new(Begun::Waiting);
    let opened = about.clone();
    Effect::new(move |_| {
        let Some(record) = record.get() else { return };
        if !begun.with_untracked(|begun| matches!(begun, Begun::Waiting)) {
            return;
        }
        let (about, known) = (opened.clone(), known.clone());
        let stamp = tapped.unwrap_or_else(|| device.now(&about.job));
        spawn_local(async move {
            let kept = device.kept_form(&about.kept_as()).await;
            begun.try_set(match fresh(&about, &record, stamp) {
                Ok(fresh) => begin(with(fresh, &known), &record, kept),
                Err(none) => none,
            });
        });
    });
    let screen = move || match begun.get() {
        Begun::Waiting => view! { <p class="page soft" role="status">"Reading the record …"</p> }.into_any(),
        Begun::NoJob => {
            let what = format!("The job {} is not on this device", about.job);
            view! { <NotHere what=what/> }.into_any()
        }
        Begun::NoKind => view! { <NotHere what="There is no entry of this kind"/> }.into_any(),
        Begun::Form { form, again } => {
            view! { <Sheet about=about.clone() form=*form again=again/> }.into_any()
        }
        Begun::Which { fresh, kept } => {
            view! { <Which about=about.clone() fresh=*fresh kept=*kept begun=begun/> }.into_any()
        }
    };
    view! { {screen} }
}

/// The form stamped by the tap, or why there is none.
fn fresh(about: &About, record: &Arc<Record>, stamp: Moment) -> Result<Form, Begun> {
    if record.entries().next().is_none() {
        return Err(Begun::NoJob);
    }
    Form::new(&about.kind, record, about.shaft.as_deref(), stamp).ok_or(Begun::NoKind)
}

fn with(mut form: Form, known: &[(String, String)]) -> Form {
    known.iter().for_each(|(name, text)| form.set(name, text));
    form
}

fn begin(fresh: Form, record: &Arc<Record>, kept: Option<String>) -> Begun {
    let kept = kept.and_then(|text| Form::from_text(&text, record)).filter(|form| !form.is_blank());
    match kept {
        Some(kept) => Begun::Which { fresh: Box::new(fresh), kept: Box::new(kept) },
        None => Begun::Form { form: Box::new(fresh), again: false },
    }
}

/// Asks whether a half-filled form is taken up again.
#[component]
fn Which(about: About, fresh: Form, kept: Form, begun: RwSignal<Begun>) -> impl IntoView {
    let texts = kept.fields().into_iter().filter(|asked| !asked.text.trim().is_empty());
    let written = texts.map(|asked| {
        view! { <dt>{asked.label.clone()}</dt><dd class="written">{asked.shown().to_owned()}</dd> }
    });
    let written = written.collect_view();
    let again = format!("Go on with it, seen at {}", kept.at().clock());
    let anew = format!("Begin anew, seen at {}", fresh.at().clock());
    let heading = kept.title();
    let since =
        format!("Begun at {} on {} and not saved:", kept.at().clock(), wording::show::day_text(kept.at()));
    let take = move |form: Form, again| {
        Callback::new(move |()| begun.set(Begun::Form { form: Box::new(form.clone()), again }))
    };
    let device = use_device();
    let key = about.kept_as();
    let start = take(fresh, false);
    let drop = Callback::new(move |()| {
        let key = key.clone();
        spawn_local(async move { device.drop_form(&key).await });
        start.run(());
    });
    view! {
        <div class="page">
            <PageHead heading=heading/>
            <section class="card stack">
                <h2>"A form was left half filled in"</h2>
                <p>{since}</p>
                <dl class="pairs">{written}</dl>
                <KeyGrid name="Which one">
                    <Key label=again tone=Tone::Main press=take(kept, true)/>
                    <Key label=anew note="What was written before is given up" press=drop/>
                </KeyGrid>
            </section>
        </div>
    }
}
