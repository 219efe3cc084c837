//! The browser's clock and its timers.

use futures::future::select;
use std::pin::pin;
use std::time::Duration;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::JsFuture;

/// Milliseconds since 1970 on the clock of this device.
pub(super) fn now_ms() -> f64 {
    js_sys::Date::now()
}

/// Seconds since 1970 on the clock of this device.
pub(super) fn now_seconds() -> i64 {
    (now_ms() / 1000.0).floor() as i64
}

/// Seconds the clock of this device runs ahead of UTC.
pub(super) fn own_offset_seconds() -> i32 {
    // The browser says how far UTC is ahead of it, in minutes.
    (-js_sys::Date::new_0().get_timezone_offset() * 60.0) as i32
}

/// Waits.
pub(crate) async fn pause(milliseconds: u32) {
    let timer = js_sys::Promise::new(&mut |done, _| {
        let span = i32::try_from(milliseconds).unwrap_or(i32::MAX);
        if let Some(window) = web_sys::window() {
            // Without a timer the wait does not end, and nothing that follows it is done too early.
            window.set_timeout_with_callback_and_timeout_and_arguments_0(&done, span).ok();
        }
    });
    // A timer is never refused.
    JsFuture::from(timer).await.ok();
}

/// A screen that is not in front is drawn by nobody; the wait for it ends after this time.
const UNSEEN_MS: u32 = 250;

/// Waits until the browser has drawn what was changed before.
pub(super) async fn shown() {
    let drawn = js_sys::Promise::new(&mut |done, _| {
        if let Some(window) = web_sys::window() {
            window.request_animation_frame(&done).ok();
        }
    });
    // The frame is about to be drawn when the browser tells of it; the shortest timer comes after it.
    let frame = async {
        JsFuture::from(drawn).await.ok();
        pause(0).await;
    };
    select(pin!(frame), pin!(pause(UNSEEN_MS))).await;
}

/// Does something again and again, as long as the page lives.
pub(super) fn every(span: Duration, work: impl FnMut() + 'static) {
    let work = Closure::<dyn FnMut()>::new(work);
    let span = i32::try_from(span.as_millis()).unwrap_or(i32::MAX);
    if let Some(window) = web_sys::window() {
        let work = work.as_ref().unchecked_ref();
        window.set_interval_with_callback_and_timeout_and_arguments_0(work, span).ok();
    }
    work.forget();
}

/// Does something whenever the window hears of an event, as long as the page lives.
pub(super) fn on_window(event: &str, work: impl FnMut() + 'static) {
    let work = Closure::<dyn FnMut()>::new(work);
    if let Some(window) = web_sys::window() {
        window.add_event_listener_with_callback(event, work.as_ref().unchecked_ref()).ok();
    }
    work.forget();
}

/// The same for the document.
pub(super) fn on_document(event: &str, work: impl FnMut() + 'static) {
    let work = Closure::<dyn FnMut()>::new(work);
    if let Some(document) = web_sys::window().and_then(|window| window.document()) {
        document.add_event_listener_with_callback(event, work.as_ref().unchecked_ref()).ok();
    }
    work.forget();
}
