//! Other tabs of the app on this device: what one keeps, the others read from the storage they share.
//!
//! Words: *news* = what another tab has to read again.
//! Never: carry an entry from tab to tab; only the storage says what is kept.

use super::Device;
use serde::{Deserialize, Serialize};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::spawn_local;
use web_sys::{BroadcastChannel, MessageEvent};

/// The name of the channel.
const CHANNEL: &str = "shaftbook";

/// What another tab has to read again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum News {
    /// Entries of a job.
    Entries {
        /// The job.
        job: String,
    },
    /// What waits, what was refused.
    Outbox,
    /// What a person set.
    Settings,
    /// The office that knows this device.
    Pairing,
}

impl Device {
    /// Begins to hear of other tabs.
    pub(super) fn start_tabs(self) {
        // A browser without the channel has its tabs read again when they come to the front.
        let Ok(channel) = BroadcastChannel::new(CHANNEL) else { return };
        let hears = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            let text = event.data().as_string().unwrap_or_default();
            if let Ok(news) = serde_json::from_str(&text) {
                spawn_local(self.read_news(news));
            }
        });
        channel.set_onmessage(Some(hears.as_ref().unchecked_ref()));
        hears.forget();
        self.inner().tabs.borrow_mut().replace(channel);
    }

    /// Tells the other tabs.
    pub(super) fn tell_tabs(self, news: &News) {
        let inner = self.inner();
        if let (Some(channel), Ok(text)) = (&*inner.tabs.borrow(), serde_json::to_string(news)) {
            channel.post_message(&text.into()).ok();
        }
    }

    async fn read_news(self, news: News) {
        let read = match news {
            News::Entries { job } => self.refresh_job(&job).await,
            News::Outbox => self.refresh_outbox().await,
            News::Settings => self.read_settings().await,
            News::Pairing => self.read_pairing().await,
        };
        if let Err(trouble) = read {
            self.tell_trouble(&trouble);
        }
    }

    /// Reads everything again that another tab may have changed while this one slept.
    pub(super) async fn refresh_all(self) {
        let mut jobs: Vec<String> = self.inner().shelves.borrow().keys().cloned().collect();
        jobs.retain(|job| !job.is_empty());
        for job in jobs {
            self.refresh_job(&job).await.ok();
        }
        self.refresh_jobs().await.ok();
        self.refresh_outbox().await.ok();
    }
}

/// Whether this tab is in front.
pub(super) fn is_in_front() -> bool {
    let document = web_sys::window().and_then(|window| window.document());
    document.is_some_and(|document| document.visibility_state() == web_sys::VisibilityState::Visible)
}
