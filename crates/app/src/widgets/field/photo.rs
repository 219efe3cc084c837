//! A photo from the camera, or a file of the device: kept by the hash of its bytes, then shown.

use super::frame::said;
use crate::device::use_device;
use crate::widgets::NoticeCard;
use crate::widgets::writing::{Writing, field_id};
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlInputElement;
use wording::Notice;

/// Takes a photo and keeps it on the device before its hash stands in the form.
#[component]
pub(super) fn Photo(
    /// The form.
    writing: Writing,
    /// Where.
    path: String,
) -> impl IntoView {
    let device = use_device();
    let hash = writing.text(&path);
    let failed: RwSignal<Option<Notice>> = RwSignal::new(None);
    let keeping = RwSignal::new(false);
    let shown = RwSignal::new(None::<String>);
    let (id, described) = (field_id(&path), said(&path));
    Effect::new(move |_| {
        let hash = hash.get();
        spawn_local(async move {
            let url = if hash.is_empty() { None } else { device.photo_url(&hash).await };
            shown.try_set(url);
        });
    });
    let path = StoredValue::new(path);
    let taken = move |event| {
        let input: HtmlInputElement = event_target(&event);
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        keeping.set(true);
        failed.set(None);
        spawn_local(async move {
            let buffer = JsFuture::from(file.array_buffer()).await;
            let bytes = buffer.map(|buffer| js_sys::Uint8Array::new(&buffer).to_vec()).unwrap_or_default();
            match device.keep_photo(bytes, file.type_()).await {
                Ok(hash) => writing.set(&path.get_value(), &hash),
                Err(notice) => failed.set(Some(notice)),
            }
            keeping.set(false);
            input.set_value("");
        });
    };
    let label = move || match (keeping.get(), hash.with(String::is_empty)) {
        (true, _) => "Keeping the photo …",
        (false, true) => "Take a photo",
        (false, false) => "Take another instead",
    };
    view! {
        <div class="photo">
            <span class="key photo-take">
                <span class="key-label" aria-hidden="true">{label}</span>
                <input type="file" accept="image/*" capture="environment" id=id aria-describedby=described
                    on:focus=move |_| writing.open.set(None) on:change=taken/>
            </span>
            {move || shown.get().map(|url| view! { <img src=url alt="The photo that was taken"/> })}
            {move || failed.get().map(|notice| view! { <NoticeCard notice=notice/> })}
        </div>
    }
}
