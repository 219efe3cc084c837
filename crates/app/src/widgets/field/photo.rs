//! A photo from the camera, or a file of the device: kept by the hash of its bytes, then shown.

use super::frame::said;
use crate::device::use_device;
use crate::widgets::NoticeCard;
use crate::widgets::writing::{Writing, field_id};
use leptos::prelude::*;
use leptos::task::spawn_local;
use screen::entry::picture::is_picture;
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlInputElement;
use wording::Notice;
use wording::device::{Told, told};

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
    // Other kinds name documents too: a certificate, a calliper log.
    let pictures = writing.form.with_untracked(|form| form.word() == "photo");
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
            let kept = match pictures && !is_picture(&bytes) {
                true => Err(told(&Told::NoPicture { name: file.name() })),
                false => device.keep_photo(bytes, file.type_()).await,
            };
            match kept {
                Ok(hash) => writing.set(&path.get_value(), &hash),
                Err(notice) => failed.set(Some(notice)),
            }
            keeping.set(false);
            input.set_value("");
        });
    };
    let label = move || match (keeping.get(), hash.with(String::is_empty)) {
        (true, _) => "Keeping it …",
        (false, true) if pictures => "Take a photo",
        (false, true) => "Choose a file",
        (false, false) => "Take another instead",
    };
    let accept = pictures.then_some("image/*");
    let capture = pictures.then_some("environment");
    let file =
        move || (!pictures && !hash.with(String::is_empty)).then(|| view! { <p>"The file is kept."</p> });
    let picture = move || shown.get().filter(|_| pictures);
    view! {
        <div class="photo">
            <span class="key photo-take">
                <span class="key-label" aria-hidden="true">{label}</span>
                <input type="file" accept=accept capture=capture id=id aria-describedby=described
                    on:focus=move |_| writing.open.set(None) on:change=taken/>
            </span>
            {file}
            {move || picture().map(|url| view! { <img src=url alt="The photo that was taken"/> })}
            {move || failed.get().map(|notice| view! { <NoticeCard notice=notice/> })}
        </div>
    }
}
