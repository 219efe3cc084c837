//! A new version of the app: it lies ready beside the one in use until a person takes it.
//!
//! What was entered is in the database and has nothing to do with the version; still nothing is changed
//! while an entry is on its way to the disk.

use super::Device;
use super::time::{on_window, pause};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{CustomEvent, Window};

/// What `boot.js` says when a version lies ready.
const READY: &str = "shaftbook-version";
/// What `boot.js` is told when it is wanted.
const TAKE_OVER: &str = "shaftbook-take-over";
/// An entry that is being kept is waited for in steps of this span.
const STEP_MS: u32 = 50;

impl Device {
    /// Begins to hear of new versions; one may have come before the app was there.
    pub(super) fn start_versions(self) {
        on_window(READY, move || self.version_waits.set(true));
        let document = web_sys::window().and_then(|window| window.document());
        let root = document.and_then(|document| document.document_element());
        if root.is_some_and(|root| root.get_attribute("data-version").is_some()) {
            self.version_waits.set(true);
        }
    }

    /// Changes to the version of the app that lies ready; the page is loaded again once nothing is half saved.
    pub(crate) fn use_new_version(self) {
        spawn_local(async move {
            while self.inner().writing.get() > 0 {
                pause(STEP_MS).await;
            }
            let told = web_sys::window().map(|window| take_over(&window));
            debug_assert!(told.is_some(), "the app runs in a window");
        });
    }
}

fn take_over(window: &Window) {
    if let Ok(event) = CustomEvent::new(TAKE_OVER) {
        // An event that cannot be sent leaves the version where it is; the key can be tapped again.
        window.dispatch_event(&event).ok();
    }
}
