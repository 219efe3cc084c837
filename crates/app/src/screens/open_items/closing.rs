//! The end of a shaft: what else is lacking, the seal, the sealed package.
//!
//! Never: say that a shaft is sealed before its seal is in the record.

use crate::device::{Link, use_device};
use crate::screens::paths;
use crate::widgets::{Key, NoticeCard, Tone};
use leptos::prelude::*;
use leptos::task::spawn_local;
use screen::live::OpenShaft;
use wording::Notice;

/// What stands under the items of a shaft.
#[component]
pub(super) fn Closing(shaft: OpenShaft, job: String) -> impl IntoView {
    let lacks = shaft.lacks.iter().map(|lack| view! { <li>{lack.clone()}</li> }).collect_view();
    let lacks = (!shaft.lacks.is_empty()).then(|| {
        view! { <p>"Also in the way of a seal:"</p><ul class="lines">{lacks}</ul> }
    });
    let sealed = (!shaft.sealed.is_empty()).then(|| {
        view! { <Sealed told=shaft.sealed.clone() job=job.clone() shaft=shaft.name.clone()/> }
    });
    let seal = shaft.ready.then(|| view! { <Seal job=job shaft=shaft.name/> });
    view! { {lacks}{sealed}{seal} }
}

/// When and by whom it was sealed, and the package while the desk is in reach.
#[component]
fn Sealed(told: String, job: String, shaft: String) -> impl IntoView {
    let device = use_device();
    let to = paths::at_desk(&job, &shaft, "sealed.pdf");
    let package = move || {
        let near = matches!(device.outbox().get().link, Link::InStep { .. } | Link::Sending);
        near.then(
            || view! { <a class="button main" rel="external" href=to.clone()>"Sealed package (PDF)"</a> },
        )
    };
    view! {
        <div class="open-sealed">
            <p>{told}</p>
            <div class="keys-row no-print">{package}</div>
        </div>
    }
}

/// Nothing is lacking: the key that has the desk seal it.
#[component]
fn Seal(job: String, shaft: String) -> impl IntoView {
    let device = use_device();
    let (busy, refused) = (RwSignal::new(false), RwSignal::new(None::<Notice>));
    let place = StoredValue::new((job, shaft));
    let press = move |()| {
        busy.set(true);
        refused.set(None);
        spawn_local(async move {
            let (job, shaft) = place.get_value();
            let outcome = device.seal(&job, &shaft).await;
            busy.try_set(false);
            refused.try_set(outcome.err());
        });
    };
    let known = move || device.paired().get().is_some();
    let key = move || {
        known().then(|| {
            let label = Signal::derive(move || if busy.get() { "Sealing …" } else { "Seal the shaft" }.to_owned());
            view! {
                <Key label=label note="What comes later is a supplement" tone=Tone::Main off=busy press=press/>
            }
        })
    };
    let alone = move || {
        (!known()).then_some(
            "The desk seals: pair this device, or use shaftbook seal on the machine of the office.",
        )
    };
    view! {
        <div class="open-sealed">
            <p>"Everybody who has to sign has signed, and nothing is open."</p>
            <div class="keys-row no-print">{key}</div>
            <p class="soft">{alone}</p>
            {move || refused.get().map(|notice| view! { <NoticeCard notice=notice/> })}
        </div>
    }
}
