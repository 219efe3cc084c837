//! The screens, one file each, and the way between them.
//!
//! Words: *screen* = what fills the tablet; *page* = a screen that is read from top to bottom.
//! Never: calculate; hold a figure that `screen` did not give.

pub(crate) mod paths;
pub(crate) mod way;

mod ask;
mod begin;
mod card;
mod compare;
mod drawings;
mod entry;
mod files;
mod findings;
mod help;
mod job;
mod jobs;
mod limits;
mod log;
mod looking;
mod office;
mod open_items;
mod outbox;
mod pair;
mod parts;
mod people;
mod practice;
mod read;
mod ready;
mod reckoning;
mod schedule;
mod settings;
mod shaft;
mod shape;
mod sheet;
mod shell;
mod signs;
mod strike;
mod unknown;

use crate::device::Device;
use crate::widgets::{Press, Saying};
use leptos::prelude::*;
use parts::Part;
use way::{Screen, Way};

/// The app.
#[component]
pub(crate) fn App() -> impl IntoView {
    Device::provide();
    Saying::provide();
    shaft::LastLooks::provide();
    shaft::LookAhead::provide();
    Way::provide();
    // After the way: it hears of a click before anything may change under it.
    Press::provide();
    view! { <shell::Shell>{way::outlet(screen)}</shell::Shell> }
}

/// What stands on a screen.
fn screen(screen: Screen) -> AnyView {
    match screen {
        Screen::Jobs => view! { <jobs::Jobs/> }.into_any(),
        Screen::Office => view! { <parts::OfPart part=Part::Office/> }.into_any(),
        Screen::Begin => view! { <begin::Begin/> }.into_any(),
        Screen::Read => view! { <parts::OfPart part=Part::Read/> }.into_any(),
        Screen::Pair => view! { <pair::Pair/> }.into_any(),
        Screen::Outbox => view! { <outbox::OutboxScreen/> }.into_any(),
        Screen::Settings => view! { <settings::SettingsScreen/> }.into_any(),
        Screen::Help => view! { <help::Help/> }.into_any(),
        Screen::Practise => view! { <parts::OfPart part=Part::Practise/> }.into_any(),
        Screen::Hole => view! { <parts::OfPart part=Part::Hole/> }.into_any(),
        Screen::Debrief => view! { <parts::OfPart part=Part::Debrief/> }.into_any(),
        Screen::Job => view! { <job::Job/> }.into_any(),
        Screen::Compare => view! { <parts::OfPart part=Part::Compare/> }.into_any(),
        Screen::OpenItems => view! { <parts::OfPart part=Part::OpenItems/> }.into_any(),
        Screen::People => view! { <people::People/> }.into_any(),
        Screen::Limits => view! { <limits::LimitsScreen/> }.into_any(),
        Screen::Schedule => view! { <parts::OfPart part=Part::Schedule/> }.into_any(),
        Screen::Files => view! { <parts::OfPart part=Part::Files/> }.into_any(),
        Screen::Strike => view! { <strike::StrikeScreen/> }.into_any(),
        Screen::Shaft => view! { <shaft::Shaft/> }.into_any(),
        Screen::Drawings => view! { <drawings::Drawings/> }.into_any(),
        Screen::Findings => view! { <findings::Findings/> }.into_any(),
        Screen::Ready => view! { <ready::ReadyScreen/> }.into_any(),
        Screen::Log => view! { <log::LogScreen/> }.into_any(),
        Screen::Sheet => view! { <parts::OfPart part=Part::Sheet/> }.into_any(),
        Screen::Choose => view! { <entry::ChooseScreen/> }.into_any(),
        Screen::Entry => view! { <entry::EntryScreen/> }.into_any(),
        Screen::Unknown => view! { <unknown::Unknown/> }.into_any(),
    }
}
