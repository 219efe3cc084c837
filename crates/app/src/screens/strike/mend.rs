//! An entry being made good: why, and what should have been written.

use super::super::entry::{Doubts, go_to_concern, go_to_fault};
use super::super::paths;
use super::super::shell::PageHead;
use super::super::way::use_way;
use crate::device::{Device, Pending, use_device};
use crate::widgets::{Fields, FormPad, Key, KeyGrid, NoticeCard, Saying, TimeStamp, Tone, Writing, field_id};
use leptos::prelude::*;
use leptos::task::spawn_local;
use quantity::Moment;
use record::Body;
use screen::entry::form::{Concern, FieldFault};
use screen::entry::strike::REASONS;
use screen::entry::{Strike, Trial};
use wording::Notice;

/// A correction while it is written.
#[derive(Clone, Copy)]
struct Mending {
    device: Device,
    job: StoredValue<String>,
    strike: StoredValue<Strike>,
    writing: Writing,
    at: RwSignal<Moment>,
    reason: RwSignal<String>,
    busy: RwSignal<bool>,
    failed: RwSignal<Option<Notice>>,
}

/// What is said once a correction is kept.
const STRUCK: &str = "Saved on this device: the entry is struck through and its reason stands beside it";

/// What becomes of the entry.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Wish {
    Replace,
    StrikeOut,
}

/// The correction of one entry.
#[component]
pub(super) fn Mend(
    /// The job it belongs to.
    job: String,
    /// The correction as it begins.
    strike: Strike,
) -> impl IntoView {
    let device = use_device();
    let mending = Mending {
        device,
        job: StoredValue::new(job.clone()),
        writing: Writing::new(strike.form.clone()),
        at: RwSignal::new(strike.form.at()),
        reason: RwSignal::new(String::new()),
        busy: RwSignal::new(false),
        failed: RwSignal::new(None),
        strike: StoredValue::new(strike.clone()),
    };
    take_up_again(mending, &strike);
    let now = Callback::new(move |()| mending.job.with_value(|job| device.now(job)));
    let go = go(mending);
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        go.run(Wish::Replace);
    };
    view! {
        <div class="page page-wide">
            <PageHead heading="Correct an entry"/>
            <section class="card">
                <p class="soft">{strike.what}</p>
                <p class="lead written">{strike.said}</p>
            </section>
            <form class="entry" novalidate on:submit=submit>
                <div class="entry-form">
                    <Reason mending=mending/>
                    <h2>"What should have been written"</h2>
                    <TimeStamp at=mending.at now=now late=String::new()/>
                    <Fields writing=mending.writing/>
                    <Doubts writing=mending.writing/>
                    <Unchanged writing=mending.writing/>
                    {move || mending.failed.get().map(|notice| view! { <NoticeCard notice=notice/> })}
                    <div class="entry-save">
                        <button type="submit" class="key key-main" disabled=mending.busy>
                            <span class="key-label">"Save the correction"</span>
                        </button>
                        <Key label="Strike it out, nothing in its place" tone=Tone::Grave off=mending.busy
                            press=move |()| go.run(Wish::StrikeOut)/>
                    </div>
                </div>
                <div class="entry-pad"><FormPad writing=mending.writing/></div>
            </form>
        </div>
    }
}

/// Why: in words, or one of those that people usually give.
#[component]
fn Reason(mending: Mending) -> impl IntoView {
    let fault = mending.writing.fault("reason");
    let id = field_id("reason");
    let wrong = move || {
        let fault = fault.get();
        (!fault.is_empty()).then(|| view! { <p class="field-fault" role="alert">{fault}</p> })
    };
    let give = move |reason: &str| {
        mending.reason.set(reason.to_owned());
        mending.writing.faults.update(|all| all.retain(|fault| fault.path != "reason"));
    };
    let key = move |reason: &'static str| view! { <Key label=reason press=move |()| give(reason)/> };
    view! {
        <div class="field">
            <label class="field-label" for=id.clone()>"Why"</label>
            <textarea class="field-input" id=id aria-describedby="why-said"
                aria-invalid=move || fault.with(|fault| !fault.is_empty()).to_string()
                prop:value=mending.reason on:focus=move |_| mending.writing.open.set(None)
                on:input=move |event| give(&event_target_value(&event))></textarea>
            <div id="why-said">{wrong}</div>
            <KeyGrid name="Usual reasons">{REASONS.iter().map(|reason| key(reason)).collect_view()}</KeyGrid>
        </div>
    }
}

/// Says so when nothing differs from what was written.
#[component]
fn Unchanged(writing: Writing) -> impl IntoView {
    let fault = writing.fault("body");
    view! { <p class="field-fault" role="status" id=field_id("body") tabindex="-1">{fault}</p> }
}

/// What was half written of a correction is kept like any form, and is there again.
fn take_up_again(mending: Mending, strike: &Strike) {
    let device = use_device();
    let key = StoredValue::new(format!("strike/{}", strike.replaces));
    let (form_key, reason_key) = (move || key.get_value(), move || format!("{}/why", key.get_value()));
    let ready = RwSignal::new(false);
    let record = device.record(&mending.job.get_value()).get_untracked();
    spawn_local(async move {
        let form = device.kept_form(&form_key()).await;
        let form = form.zip(record).and_then(|(text, record)| screen::entry::Form::from_text(&text, &record));
        if let Some(form) = form {
            mending.at.try_set(form.at());
            mending.writing.form.try_set(form);
        }
        if let Some(reason) = device.kept_form(&reason_key()).await {
            mending.reason.try_set(reason);
        }
        ready.try_set(true);
    });
    Effect::new(move |_| {
        let moment = mending.at.get();
        if mending.writing.form.with_untracked(|form| form.at() != moment) {
            mending.writing.form.update(|form| form.seen_at(moment));
        }
    });
    Effect::new(move |_| {
        let (form, reason) = (mending.writing.form.with(|form| form.to_text()), mending.reason.get());
        if ready.get_untracked() && !mending.busy.get_untracked() {
            spawn_local(async move {
                device.keep_form(&form_key(), &form).await;
                device.keep_form(&reason_key(), &reason).await;
            });
        }
    });
}

/// Makes the correction and keeps it.
fn go(mending: Mending) -> Callback<Wish> {
    let (device, saying) = (use_device(), use_context::<Saying>());
    let way = use_way();
    Callback::new(move |wish| {
        if mending.busy.get_untracked() {
            return;
        }
        mending.writing.open.set(None);
        let body = match body(mending, wish) {
            Ok(body) => body,
            Err(faults) => return go_to_fault(mending.writing, faults),
        };
        mending.writing.faults.set(Vec::new());
        if let Some(open) = asked(mending, wish).first() {
            return go_to_concern(mending.writing, open);
        }
        mending.busy.set(true);
        mending.failed.set(None);
        let (job, strike) = (mending.job.get_value(), mending.strike.get_value());
        let shaft = strike.form.shaft().map(str::to_owned);
        let home =
            shaft.as_ref().map_or_else(|| paths::job(&job), |shaft| paths::shaft_page(&job, shaft, "log"));
        let observed_at = device.now(&job);
        let pending = Pending { job, shaft, observed_at, noted_at: None, body };
        spawn_local(async move {
            match device.write(pending).await {
                Ok(_) => {
                    let key = format!("strike/{}", strike.replaces);
                    device.drop_form(&key).await;
                    device.drop_form(&format!("{key}/why")).await;
                    if let Some(saying) = saying {
                        saying.say(STRUCK);
                    }
                    way.go(&home);
                }
                Err(notice) => {
                    mending.failed.try_set(Some(notice));
                    mending.busy.try_set(false);
                }
            }
        });
    })
}

/// What looks odd about the entry in its new words, and nobody said yes to.
fn asked(mending: Mending, wish: Wish) -> Vec<Concern> {
    let job = mending.job.get_value();
    let device = mending.device;
    let record = device.record(&job).get_untracked().filter(|_| wish == Wish::Replace);
    let Some(record) = record else { return Vec::new() };
    let trial = Trial { record: &record, now: device.now(&job), device: None };
    mending.writing.concerns.set(strike(mending).questions(&trial));
    untrack(|| mending.writing.open_concerns())
}

fn body(mending: Mending, wish: Wish) -> Result<Body, Vec<FieldFault>> {
    let strike = strike(mending);
    match wish {
        Wish::Replace => strike.replace(),
        Wish::StrikeOut => strike.strike_out(),
    }
}

/// The correction as it stands on the screen.
fn strike(mending: Mending) -> Strike {
    let mut strike = mending.strike.get_value();
    let was = strike.form.at();
    strike.form = mending.writing.form.get_untracked();
    strike.reason = mending.reason.get_untracked();
    let at = mending.at.get_untracked();
    if at != was {
        strike.seen_at(at);
    }
    strike
}
