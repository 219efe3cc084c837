//! The office tells at once when an entry arrived there: server-sent events, while the tab is in front.

use super::Device;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{EventSource, MessageEvent};
use wire::http::{Arrived, PREFIX};

/// The name of the event.
const ARRIVED: &str = "arrived";

/// An open line to the office; dropped, it is closed.
pub(super) struct Live {
    source: EventSource,
    _hears: Closure<dyn FnMut(MessageEvent)>,
}

impl Live {
    /// Opens it.
    pub(super) fn open(device: Device) -> Option<Self> {
        let source = EventSource::new(&format!("{PREFIX}/live")).ok()?;
        let hears = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            let text = event.data().as_string().unwrap_or_default();
            if let Ok(arrived) = serde_json::from_str::<Arrived>(&text) {
                let carrier = device.carrier();
                carrier.arrived.borrow_mut().insert(arrived.job, arrived.cursor);
                carrier.wake();
            }
        });
        source.add_event_listener_with_callback(ARRIVED, hears.as_ref().unchecked_ref()).ok()?;
        Some(Live { source, _hears: hears })
    }

    /// It is open, or the browser is opening it again by itself.
    pub(super) fn is_open(&self) -> bool {
        self.source.ready_state() != EventSource::CLOSED
    }
}

impl Drop for Live {
    fn drop(&mut self) {
        self.source.close();
    }
}
