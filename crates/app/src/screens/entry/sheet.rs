//! The form on the screen: the time, the fields, what looks odd, the one big key.

use super::About;
use super::saving::{Saving, save};
use crate::device::use_device;
use crate::screens::practice::BesideThere;
use crate::screens::shell::PageHead;
use crate::screens::way::use_way;
use crate::widgets::{Fields, FormPad, NoticeCard, Question, TimeStamp, Writing, element, field_id};
use leptos::ev::{KeyboardEvent, SubmitEvent};
use leptos::prelude::*;
use leptos::task::spawn_local;
use quantity::Moment;
use screen::entry::form::{Ask, When};
use screen::entry::{Form, Trial, late};

/// A form to fill in and save.
#[component]
pub(super) fn Sheet(
    /// What it is about.
    about: About,
    /// The form it begins with.
    form: Form,
    /// It was half filled in before: its stamp stays.
    again: bool,
) -> impl IntoView {
    let device = use_device();
    // A backtick is for those who read the code.
    let (heading, meaning) = (form.title(), form.meaning().replace('`', ""));
    let (at, stamped) = (RwSignal::new(form.at()), RwSignal::new(form.at()));
    let writing = Writing::new(form);
    let saving = Saving::new(about.clone(), writing, at);
    let job = StoredValue::new(about.job.clone());
    let now = Callback::new(move |()| job.with_value(|job| device.now(job)));
    if !again {
        stamp_by_the_site_clock((at, stamped), job, now);
    }
    keep(about.clone(), writing, at, saving);
    look_over(writing, &about, now);
    begin_in_first_field(writing);
    let submit = move |event: SubmitEvent| {
        event.prevent_default();
        save(saving);
    };
    view! {
        <div class="page page-wide">
            <PageHead heading=heading/>
            <p class="soft">{meaning}</p>
            <BesideThere/>
            <form class="entry" novalidate on:submit=submit on:keydown=back_with_escape(writing, about.home())>
                <div class="entry-form">
                    <TimeStamp at=at now=now late=late_sentence((at, stamped), now, writing)/>
                    <Author/>
                    <Fields writing=writing/>
                    <Doubts writing=writing/>
                    {move || saving.failed.get().map(|notice| view! { <NoticeCard notice=notice/> })}
                    <SaveKey saving=saving/>
                </div>
                <div class="entry-pad"><FormPad writing=writing/></div>
            </form>
        </div>
    }
}

/// The one big key, and what stands in its way.
#[component]
fn SaveKey(saving: Saving) -> impl IntoView {
    let label = move || if saving.slow.get() { "Saving …" } else { "Save" };
    let count = move || saving.writing.faults.with(Vec::len);
    let author = use_device().author();
    let nobody = move || saving.nobody.get() && author.read().trim().is_empty();
    let wrong = move || match count() {
        0 if nobody() => {
            "Not saved yet: first write your name above. It stands under every entry.".to_owned()
        }
        0 => String::new(),
        1 => "One field cannot be taken in yet.".to_owned(),
        more => format!("{more} fields cannot be taken in yet."),
    };
    view! {
        <div class="entry-save">
            <p class="field-fault entry-wrong" role="status">{wrong}</p>
            <button type="submit" class="key key-main" disabled=saving.slow>
                <span class="key-label">{label}</span>
            </button>
        </div>
    }
}

/// Who writes, asked for as long as it is not known.
#[component]
fn Author() -> impl IntoView {
    let author = use_device().author();
    // Asked until the form is left, so that the field does not vanish with the first letter.
    let asked = author.with_untracked(|author| author.trim().is_empty());
    asked.then(|| {
        view! {
            <div class="field">
                <label class="field-label" for=AUTHOR>"Who writes?"</label>
                <input type="text" class="field-input" id=AUTHOR autocomplete="name"
                    aria-describedby="author-said" prop:value=move || author.get_untracked()
                    on:change=move |event| author.set(event_target_value(&event).trim().to_owned())/>
                <p class="field-hint" id="author-said">
                    "Your name stands under every entry you make on this device."
                </p>
            </div>
        }
    })
}

/// The id of the field for the author.
pub(super) const AUTHOR: &str = "author";
/// The id of the questions that belong to no single field.
pub(super) const DOUBTS: &str = "doubts";

/// What looks odd about the entry as a whole; questions about one field stand beside it.
#[component]
pub(crate) fn Doubts(
    /// The form.
    writing: Writing,
) -> impl IntoView {
    let placed = move |field: &str| {
        writing.fields.with(|all| all.iter().any(|asked| asked.path.rsplit('.').next() == Some(field)))
    };
    let doubts = move || {
        let concerns = writing.open_concerns().into_iter();
        let homeless = concerns.filter(|one| !one.field.as_deref().is_some_and(placed));
        homeless.map(|one| view! { <Question writing=writing concern=one at=None/> }).collect_view()
    };
    view! { <div id=DOUBTS class="stack" tabindex="-1">{doubts}</div> }
}

/// Keeps the form on the device with every change, until it is saved.
fn keep(about: About, writing: Writing, at: RwSignal<Moment>, saving: Saving) {
    let device = use_device();
    Effect::new(move |_| {
        let moment = at.get();
        if writing.form.with_untracked(|form| form.at() != moment) {
            writing.form.update(|form| form.seen_at(moment));
        }
    });
    Effect::new(move |before: Option<String>| {
        let text = writing.form.with(Form::to_text);
        let changed = before.is_some_and(|before| before != text);
        if changed && !saving.done.get_untracked() {
            let (key, text) = (about.kept_as(), text.clone());
            let blank = writing.form.with_untracked(Form::is_blank);
            spawn_local(async move {
                match blank {
                    true => device.drop_form(&key).await,
                    false => device.keep_form(&key, &text).await,
                }
            });
        }
        text
    });
}

/// The desk may tell of the clock of a demonstration a moment later than the form is there; a stamp that nobody has changed
/// is taken anew by that clock.
fn stamp_by_the_site_clock(
    (at, stamped): (RwSignal<Moment>, RwSignal<Moment>),
    job: StoredValue<String>,
    now: Callback<(), Moment>,
) {
    let clocks = use_device().made_up_clocks();
    Effect::new(move |before: Option<bool>| {
        let told = clocks.with(|clocks| job.with_value(|job| clocks.contains_key(job)));
        if before.is_some_and(|before| before != told) && at.get_untracked() == stamped.get_untracked() {
            let stamp = now.run(());
            stamped.set(stamp);
            at.set(stamp);
        }
        told
    });
}

/// Looks for what is odd whenever a field was left. That nothing was read yet is asked only on saving.
fn look_over(writing: Writing, about: &About, now: Callback<(), Moment>) {
    let record = use_device().record(&about.job);
    Effect::new(move |_| {
        if writing.left.get() == 0 {
            return;
        }
        let Some(record) = record.get_untracked() else { return };
        let trial = Trial { record: &record, now: now.run(()), device: None };
        let mut found = writing.form.with_untracked(|form| form.questions(&trial));
        found.retain(|one| one.word != "nothing_read");
        writing.concerns.set(found);
    });
}

/// The first field has the focus at once where the pad writes it; a keyboard is not pushed up unasked.
fn begin_in_first_field(writing: Writing) {
    let first =
        writing.fields.with_untracked(|all| all.iter().find(|asked| asked.when != When::More).cloned());
    let Some(first) = first.filter(|asked| asked.text.is_empty() && asked.offer.is_none()) else { return };
    if matches!(first.ask, Ask::Quantity(_) | Ask::Count(_)) {
        request_animation_frame(move || {
            if let Some(field) = element(&field_id(&first.path)) {
                let _ = field.focus();
            }
        });
    }
}

/// Esc puts the pad away, then leaves; what was written stays kept.
fn back_with_escape(writing: Writing, home: String) -> impl Fn(KeyboardEvent) + Clone + 'static {
    let way = use_way();
    move |event| {
        if event.key() != "Escape" {
            return;
        }
        event.prevent_default();
        match writing.open.get_untracked() {
            Some(_) => writing.close_pad(),
            None => way.go(&home),
        }
    }
}

/// What a time that was set back says; nothing while it is the time of the tap.
fn late_sentence(
    (at, stamped): (RwSignal<Moment>, RwSignal<Moment>),
    now: Callback<(), Moment>,
    writing: Writing,
) -> Signal<String> {
    let tick = use_device().tick();
    Signal::derive(move || {
        tick.track();
        let seen = writing.form.with_untracked(|form| late::seen(at.get(), now.run(()), form.show()));
        let said = seen.late || seen.ahead || at.get() != stamped.get();
        if said { seen.sentence } else { String::new() }
    })
}
