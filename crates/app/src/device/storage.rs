//! Whether the browser will keep what it was given, and how much room is left.

use super::time::every;
use super::{Device, Storage};
use js_sys::Promise;
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::StorageManager;
use wording::device::{Told, told};

/// From this share on the room is called nearly full.
const NEARLY_FULL_PERCENT: f64 = 90.0;
/// The room is measured this often.
const MEASURED_EVERY: Duration = Duration::from_secs(300);

impl Device {
    /// Asks the browser to keep everything until a person removes it, and measures the room from time to time.
    pub(super) async fn start_storage(self) {
        let persistent = persistent().await;
        self.storage.set(if persistent { Storage::Persistent } else { Storage::MayBeCleared });
        self.measure().await;
        every(MEASURED_EVERY, move || spawn_local(self.measure()));
    }

    /// Something was kept again after there had been no room: measures anew.
    pub(super) fn room_again(self) {
        if matches!(self.storage.get_untracked(), Storage::Full(_)) {
            spawn_local(async move {
                self.storage.set(if persistent().await {
                    Storage::Persistent
                } else {
                    Storage::MayBeCleared
                });
                self.measure().await;
            });
        }
    }

    async fn measure(self) {
        let Some(percent) = used_percent().await.filter(|percent| *percent >= NEARLY_FULL_PERCENT) else {
            return;
        };
        let percent = percent.round().clamp(0.0, 100.0) as u32;
        if matches!(self.storage.get_untracked(), Storage::Persistent | Storage::MayBeCleared) {
            self.storage.set(Storage::Full(told(&Told::NearlyFull { percent })));
        }
    }
}

/// The browser's storage manager; `None` where it has none, as over plain HTTP from another machine.
fn manager() -> Option<StorageManager> {
    let navigator = web_sys::window()?.navigator();
    let has = js_sys::Reflect::has(&navigator, &"storage".into()).unwrap_or(false);
    has.then(|| navigator.storage()).filter(|manager| JsValue::from(manager.clone()).is_object())
}

async fn answer(asked: Result<Promise, JsValue>) -> Option<JsValue> {
    JsFuture::from(asked.ok()?).await.ok()
}

async fn persistent() -> bool {
    let Some(manager) = manager() else { return false };
    let is_true = |value: Option<JsValue>| value.is_some_and(|value| value.is_truthy());
    is_true(answer(manager.persisted()).await) || is_true(answer(manager.persist()).await)
}

async fn used_percent() -> Option<f64> {
    let estimate = answer(manager()?.estimate()).await?;
    let number = |name: &str| js_sys::Reflect::get(&estimate, &name.into()).ok()?.as_f64();
    let (usage, quota) = (number("usage")?, number("quota")?);
    (quota > 0.0).then(|| usage / quota * 100.0)
}
