//! The screens, one file each, and the way between them.
//!
//! Words: *screen* = what fills the tablet; *page* = a screen that is read from top to bottom.
//! Never: calculate; hold a figure that `screen` did not give.

pub(crate) mod paths;

mod shell;
mod unknown;

use crate::device::Device;
use leptos::prelude::*;
use leptos_router::components::{Route, Router, Routes};
use leptos_router::path;

/// The app.
#[component]
pub(crate) fn App() -> impl IntoView {
    Device::provide();
    view! {
        <Router>
            <shell::Shell>
                <Routes fallback=unknown::Unknown>
                    <Route path=path!("/") view=unknown::Unknown/>
                </Routes>
            </shell::Shell>
        </Router>
    }
}
