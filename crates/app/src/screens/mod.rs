//! The screens, one file each, and the way between them.
//!
//! Words: *screen* = what fills the tablet; *page* = a screen that is read from top to bottom.
//! Never: calculate; hold a figure that `screen` did not give.

pub(crate) mod paths;

mod ask;
mod begin;
mod card;
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
mod outbox;
mod pair;
mod people;
mod read;
mod ready;
mod schedule;
mod settings;
mod shaft;
mod sheet;
mod shell;
mod signs;
mod strike;
mod unknown;

use crate::device::Device;
use crate::widgets::Saying;
use leptos::prelude::*;
use leptos_router::components::{Route, Router, Routes};
use leptos_router::path;

/// The app.
#[component]
pub(crate) fn App() -> impl IntoView {
    Device::provide();
    Saying::provide();
    shaft::LastLooks::provide();
    view! {
        <Router>
            <shell::Shell>
                <Routes fallback=unknown::Unknown>
                    <Route path=path!("/") view=jobs::Jobs/>
                    <Route path=path!("/begin") view=begin::Begin/>
                    <Route path=path!("/read") view=read::Read/>
                    <Route path=path!("/pair") view=pair::Pair/>
                    <Route path=path!("/outbox") view=outbox::OutboxScreen/>
                    <Route path=path!("/settings") view=settings::SettingsScreen/>
                    <Route path=path!("/help") view=help::Help/>
                    <Route path=path!("/job/:job") view=job::Job/>
                    <Route path=path!("/job/:job/people") view=people::People/>
                    <Route path=path!("/job/:job/limits") view=limits::LimitsScreen/>
                    <Route path=path!("/job/:job/schedule") view=schedule::ScheduleScreen/>
                    <Route path=path!("/job/:job/files") view=files::Files/>
                    <Route path=path!("/job/:job/enter") view=entry::ChooseScreen/>
                    <Route path=path!("/job/:job/enter/:kind") view=entry::EntryScreen/>
                    <Route path=path!("/job/:job/strike/:entry") view=strike::StrikeScreen/>
                    <Route path=path!("/job/:job/shaft/:shaft") view=shaft::Shaft/>
                    <Route path=path!("/job/:job/shaft/:shaft/drawings") view=drawings::Drawings/>
                    <Route path=path!("/job/:job/shaft/:shaft/findings") view=findings::Findings/>
                    <Route path=path!("/job/:job/shaft/:shaft/ready") view=ready::ReadyScreen/>
                    <Route path=path!("/job/:job/shaft/:shaft/log") view=log::LogScreen/>
                    <Route path=path!("/job/:job/shaft/:shaft/sheet") view=sheet::SheetScreen/>
                    <Route path=path!("/job/:job/shaft/:shaft/enter") view=entry::ChooseScreen/>
                    <Route path=path!("/job/:job/shaft/:shaft/enter/:kind") view=entry::EntryScreen/>
                </Routes>
            </shell::Shell>
        </Router>
    }
}
