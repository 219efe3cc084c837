//! Photos: kept by the SHA-256 of their bytes, sent when there is a connection.
//!
//! An entry names a photo by its hash, so a photo that was exchanged for another is found out.

use super::database::{Durability, PHOTOS, PHOTOS_OUT, Row, Transaction, Trouble, bytes, bytes_of, text};
use super::network::{self, Ask, Body};
use super::notices::{of_refusal, of_trouble};
use super::tabs::News;
use super::time::now_ms;
use super::{Device, Storage};
use js_sys::Array;
use leptos::prelude::*;
use record::entry::FileHash;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use web_sys::{Blob, BlobPropertyBag, Url};
use wire::http::{Again, Hashes, Missing, Refusal};
use wording::Notice;
use wording::device::{Told, told};

/// The largest photo that is kept, bytes.
const PHOTO_MOST: usize = 20 * 1024 * 1024;
const MEGABYTE: usize = 1024 * 1024;
/// So many photos are asked about at once.
const ASKED_AT_ONCE: usize = 100;
/// A photo may take this long on a poor connection.
const PHOTO_PATIENCE_MS: u32 = 120_000;

impl Device {
    /// Keeps a photo; the name it is known by from then on is the SHA-256 of its bytes, in hexadecimal.
    ///
    /// # Errors
    /// It could not be kept.
    pub(crate) async fn keep_photo(self, photo: Vec<u8>, media: String) -> Result<String, Notice> {
        if photo.len() > PHOTO_MOST {
            let megabytes = photo.len().div_ceil(MEGABYTE);
            return Err(told(&Told::PhotoTooLarge { megabytes, most: PHOTO_MOST / MEGABYTE }));
        }
        let hash = FileHash(wire::sha256(&photo)).to_string();
        self.put_photo(&hash, &photo, &media).await.map_err(|trouble| {
            if trouble == Trouble::Full {
                self.storage.set(Storage::Full(of_trouble(&trouble)));
            }
            of_trouble(&trouble)
        })?;
        self.tell_tabs(&News::Outbox);
        self.refresh_counts().await;
        self.wake();
        Ok(hash)
    }

    async fn put_photo(self, hash: &str, photo: &[u8], media: &str) -> Result<(), Trouble> {
        let opened = self.opened().await?;
        let stores = &[PHOTOS, PHOTOS_OUT];
        let transaction = Transaction::to_write(&opened.database, stores, Durability::Strict)?;
        let row = Row::new().with("bytes", bytes(photo)).with("media", media).with("at", now_ms());
        transaction.put(PHOTOS, hash, &row.into())?;
        transaction.put(PHOTOS_OUT, hash, &Row::new().with("at", now_ms()).into())?;
        transaction.commit().await
    }

    async fn photo(self, hash: &str) -> Result<Option<JsValue>, Trouble> {
        let opened = self.opened().await?;
        Transaction::to_read(&opened.database, &[PHOTOS])?.get(PHOTOS, hash).await
    }

    /// An address of a photo that an image can show; `None` when it is neither here nor at the office. The same
    /// address is given each time, as long as the page lives.
    pub(crate) async fn photo_url(self, hash: &str) -> Option<String> {
        let inner = self.inner();
        if let Some(url) = inner.photo_urls.borrow().get(hash) {
            return Some(url.clone());
        }
        let here = self.photo(hash).await.ok().flatten();
        let here = here.and_then(|row| Some((bytes_of(&row)?, text(&row, "media")?)));
        let (photo, media) = match here {
            Some(here) => here,
            None => network::photo(hash).await?,
        };
        // What came under a hash must have it, whoever sent it.
        if FileHash(wire::sha256(&photo)).to_string() != hash {
            return None;
        }
        let options = BlobPropertyBag::new();
        options.set_type(&media);
        let blob =
            Blob::new_with_u8_array_sequence_and_options(&Array::of1(&bytes(&photo)), &options).ok()?;
        let url = Url::create_object_url_with_blob(&blob).ok()?;
        inner.photo_urls.borrow_mut().insert(hash.to_owned(), url.clone());
        Some(url)
    }

    /// Sends the photos the office has not acknowledged. `Ok(false)`: the office did not answer.
    pub(super) async fn send_photos(self) -> Result<bool, Trouble> {
        let opened = self.opened().await?;
        let waiting = Transaction::to_read(&opened.database, &[PHOTOS_OUT])?.keys(PHOTOS_OUT).await?;
        drop(opened);
        for hashes in waiting.chunks(ASKED_AT_ONCE) {
            let Some(missing) = missing_of(hashes).await else { return Ok(false) };
            for hash in hashes {
                if missing.contains(hash) && !self.send_photo(hash).await? {
                    return Ok(false);
                }
                self.photo_done(hash).await?;
            }
        }
        if !waiting.is_empty() {
            self.tell_tabs(&News::Outbox);
            self.refresh_outbox().await?;
        }
        Ok(true)
    }

    /// Sends one photo. `false`: try again later. One that the office will never take is told and let be; it
    /// stays here.
    async fn send_photo(self, hash: &str) -> Result<bool, Trouble> {
        let row = self.photo(hash).await?;
        let Some(photo) = row.as_ref().and_then(bytes_of) else { return Ok(true) };
        let path = format!("/photos/{hash}");
        let ask = Ask::put(&path, Body::Bytes(Rc::from(photo))).patient(PHOTO_PATIENCE_MS);
        let Ok(reply) = network::fetch(&ask).await else { return Ok(false) };
        if reply.is_good() {
            return Ok(true);
        }
        let Some(refusal) = reply.json::<Refusal>() else { return Ok(false) };
        let final_word = refusal.row().is_some_and(|row| matches!(row.again, Again::Never | Again::Smaller));
        if final_word {
            self.tell(of_refusal(&refusal));
        }
        Ok(final_word)
    }

    async fn photo_done(self, hash: &str) -> Result<(), Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_write(&opened.database, &[PHOTOS_OUT], Durability::Relaxed)?;
        transaction.delete(PHOTOS_OUT, hash)?;
        transaction.commit().await
    }
}

/// Which of these photos the office lacks; `None` when it did not say.
async fn missing_of(hashes: &[String]) -> Option<Vec<String>> {
    let asked = serde_json::to_string(&Hashes { hashes: hashes.to_vec() }).ok()?;
    let reply = network::fetch(&Ask::post("/photos/missing", Body::Json(asked))).await.ok()?;
    reply.is_good().then(|| reply.json::<Missing>()).flatten().map(|missing| missing.missing)
}
