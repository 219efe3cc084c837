//! Pairing: the code on the desk's screen makes this device known to it, once.

use super::ask::TextAsk;
use super::paths;
use super::shell::PageHead;
use super::way::use_way;
use crate::device::use_device;
use crate::widgets::{Key, NoticeCard, Tone};
use leptos::prelude::*;
use wording::Notice;

/// The code, and what the desk shall call this device.
#[component]
pub(super) fn Pair() -> impl IntoView {
    let device = use_device();
    let code = RwSignal::new(device.code_offered().get_untracked().unwrap_or_default());
    let name = RwSignal::new(device.paired().get_untracked().map(|pairing| pairing.name).unwrap_or_default());
    let (busy, refused) = (RwSignal::new(false), RwSignal::new(None::<Notice>));
    let way = use_way();
    let pair = move |()| {
        busy.set(true);
        refused.set(None);
        leptos::task::spawn_local(async move {
            let answer = device.pair(code.get_untracked().trim(), name.get_untracked().trim()).await;
            busy.set(false);
            match answer {
                Ok(()) => {
                    device.code_offered().set(None);
                    device.sync_now();
                    way.go(paths::JOBS);
                }
                Err(notice) => refused.set(Some(notice)),
            }
        });
    };
    let off = move || busy.get() || code.read().trim().is_empty() || name.read().trim().is_empty();
    let lacks = move || {
        let (code, name) = (code.read().trim().is_empty(), name.read().trim().is_empty());
        match (code, name) {
            (true, true) => "The code of the desk and a name of this device are still to be written.",
            (true, false) => "The code of the desk is still to be written.",
            (false, true) => "A name of this device is still to be written.",
            (false, false) => "",
        }
    };
    let label = move || if busy.get() { "Asking the desk …" } else { "Pair" }.to_owned();
    view! {
        <section class="page">
            <PageHead heading="Pair with a desk"/>
            <p class="lead">
                "On the computer at the desk, open the page Desk of Shaftbook. It shows a code for this device."
            </p>
            <TextAsk label="Code" hint="Eight letters and digits; it works once and for ten minutes." text=code/>
            <TextAsk label="Name of this device" hint="Such as Tablet 2, rig side. The desk lists it so." text=name/>
            {move || refused.get().map(|notice| view! { <NoticeCard notice=notice/> })}
            <div class="row">
                <Key label=Signal::derive(label) tone=Tone::Main off=Signal::derive(off) press=pair/>
                <p class="soft" role="status">{lacks}</p>
            </div>
        </section>
    }
}
