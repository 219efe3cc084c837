//! Settings: how this device shows, sounds and stores, who writes on it, and which desk knows it.

use super::ask::{ChoiceAsk, SwitchAsk, TextAsk};
use super::paths;
use super::shell::PageHead;
use crate::device::{Hand, Settings, Storage, Theme, use_device};
use crate::widgets::{KeyLink, Tone};
use leptos::prelude::*;

/// Everything that is set once a device.
#[component]
pub(super) fn SettingsScreen() -> impl IntoView {
    view! {
        <section class="page">
            <PageHead heading="Settings"/>
            <Author/>
            <Looks/>
            <Calls/>
            <Desk/>
            <Kept/>
            <p class="small soft">{concat!("Shaftbook ", env!("CARGO_PKG_VERSION"))}</p>
        </section>
    }
}

/// Who writes.
#[component]
pub(super) fn Author() -> impl IntoView {
    let author = use_device().author();
    view! {
        <section class="stack">
            <h2>"Who writes on this device"</h2>
            <TextAsk
                label="Your name, as it shall stand in the record"
                hint="It is written into every entry from now on; earlier entries keep their author."
                complete="name"
                text=author
            />
        </section>
    }
}

/// A part of the settings, changed in place.
fn change<T: 'static>(put: impl Fn(&mut Settings, T) + Send + Sync + 'static) -> Callback<T> {
    let settings = use_device().settings();
    Callback::new(move |value| settings.update(|settings| put(settings, value)))
}

#[component]
fn Looks() -> impl IntoView {
    let settings = use_device().settings();
    let themes = [(Theme::Sun, "Sunlight"), (Theme::Night, "Night"), (Theme::System, "As the device is set")];
    let hands = [(Hand::Right, "Right hand"), (Hand::Left, "Left hand")];
    view! {
        <section class="stack">
            <h2>"Screen"</h2>
            <ChoiceAsk
                label="Colors"
                choices=themes.map(|(theme, words)| (theme, words.to_owned())).to_vec()
                chosen=Signal::derive(move || settings.read().theme)
                choose=change(|settings, theme| settings.theme = theme)
            />
            <ChoiceAsk
                label="The hand that taps: keys stand on its side"
                choices=hands.map(|(hand, words)| (hand, words.to_owned())).to_vec()
                chosen=Signal::derive(move || settings.read().hand)
                choose=change(|settings, hand| settings.hand = hand)
            />
        </section>
    }
}

#[component]
fn Calls() -> impl IntoView {
    let settings = use_device().settings();
    view! {
        <section class="stack">
            <h2>"When something turns bad"</h2>
            <p class="soft">"The words on the screen always come. These come with them, where the device can."</p>
            <div class="choices">
                <SwitchAsk
                    label="A sound"
                    on=Signal::derive(move || settings.read().sound)
                    switch=change(|settings, on| settings.sound = on)
                />
                <SwitchAsk
                    label="A vibration"
                    on=Signal::derive(move || settings.read().vibrate)
                    switch=change(|settings, on| settings.vibrate = on)
                />
            </div>
        </section>
    }
}

#[component]
fn Desk() -> impl IntoView {
    let paired = use_device().paired();
    let told = move || match paired.get() {
        Some(pairing) => format!("{} knows this device as {}.", pairing.office, pairing.name),
        None => {
            "No desk knows this device. Entries stay here until it is paired or a file is saved.".to_owned()
        }
    };
    let key = move || match paired.get() {
        Some(_) => view! { <KeyLink to=paths::PAIR label="Pair with another desk" tone=Tone::Quiet/> },
        None => view! { <KeyLink to=paths::PAIR label="Pair with a desk" tone=Tone::Plain/> },
    };
    view! {
        <section class="stack">
            <h2>"Desk"</h2>
            <p>{told}</p>
            <div class="row">{key}</div>
        </section>
    }
}

#[component]
fn Kept() -> impl IntoView {
    let storage = use_device().storage();
    view! {
        <section class="stack">
            <h2>"How entries are kept here"</h2>
            <p>{move || storage_text(&storage.get())}</p>
        </section>
    }
}

/// How the browser keeps entries, in words.
pub(super) fn storage_text(storage: &Storage) -> String {
    match storage {
        Storage::Opening => "The storage is being opened.".to_owned(),
        Storage::Persistent => {
            "The browser keeps them until a person removes them, also when it is closed or the power fails."
                .to_owned()
        }
        Storage::MayBeCleared => {
            "They are kept, but the browser may clear them when the device runs full. Put \
                                  the app on the home screen, or save the record as a file every evening."
                .to_owned()
        }
        Storage::NotKept(notice) | Storage::Full(notice) => notice.paragraph(),
    }
}
