//! Photos by the hash of their bytes: which are missing, in, and out.

use crate::answer::{Refused, json, short};
use crate::body::{self, Incoming};
use crate::running::{Shared, waiting};
use axum::body::Body;
use axum::extract::{Path, Request, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use record::entry::FileHash;
use std::path::{Path as FilePath, PathBuf};
use std::sync::Arc;
use store::StoreError;
use tokio::io::AsyncWriteExt;
use wire::http::{Code, Hashes, Missing};

/// `POST /photos/missing`.
pub(crate) async fn missing(
    State(shared): State<Arc<Shared>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Refused> {
    let asked: Hashes = body::small(&headers, body, &shared.site.limits).await?;
    let hashes = asked.hashes.iter().map(|text| named(text)).collect::<Result<Vec<_>, _>>()?;
    let missing = waiting(move || shared.photos.missing(&hashes)).await;
    json(&Missing { missing: missing.iter().map(ToString::to_string).collect() })
}

fn named(text: &str) -> Result<FileHash, Refused> {
    let what = "A photo is named by its SHA-256, 64 hexadecimal digits in small letters.";
    FileHash::from_hex(text).ok_or_else(|| Refused::new(Code::MALFORMED, what))
}

/// `PUT /photos/{hash}`.
pub(crate) async fn take(
    State(shared): State<Arc<Shared>>,
    Path(name): Path<String>,
    request: Request,
) -> Result<Response, Refused> {
    let hash = named(&name)?;
    let limits = &shared.site.limits;
    let (head, body) = request.into_parts();
    let incoming = Incoming::new(&head.headers, body, limits.photo_bytes, limits).await?;
    let part = Part(shared.photos.part(shared.number()));
    write(&part.0, incoming).await?;
    let photos = shared.photos.clone();
    match waiting(move || photos.keep(&part.0, &hash)).await {
        Ok(()) => Ok(StatusCode::NO_CONTENT.into_response()),
        Err(StoreError::PhotoDiffers(found)) => {
            let what = format!("The bytes have the hash {}, not {}.", short(&found), short(&name));
            Err(Refused::new(Code::BAD_HASH, what))
        }
        Err(error) => Err(error.into()),
    }
}

/// A photo on its way in; what is left of it goes when the request ends, however it ends.
struct Part(PathBuf);

impl Drop for Part {
    fn drop(&mut self) {
        // After it got its name there is none.
        drop(std::fs::remove_file(&self.0));
    }
}

async fn write(part: &FilePath, mut incoming: Incoming<'_>) -> Result<(), Refused> {
    let mut file = tokio::fs::File::create(part).await.map_err(StoreError::from)?;
    while let Some(piece) = incoming.next().await? {
        file.write_all(&piece).await.map_err(StoreError::from)?;
    }
    Ok(file.flush().await.map_err(StoreError::from)?)
}

/// `GET /photos/{hash}`.
pub(crate) async fn give(
    State(shared): State<Arc<Shared>>,
    Path(name): Path<String>,
) -> Result<Response, Refused> {
    let hash = named(&name)?;
    let found = waiting(move || shared.photos.read(&hash)).await?;
    let bytes = found.ok_or_else(|| no_photo(&name))?;
    let media = media(&bytes);
    let mut response = bytes.into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(media));
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("private, max-age=31536000, immutable"));
    Ok(response)
}

/// What is told of a photo that is not here, and of one that whoever asks may not see: the same.
pub(crate) fn no_photo(name: &str) -> Refused {
    Refused::new(Code::NOT_FOUND, format!("The desk holds no photo {}.", short(name)))
}

/// What a file begins with tells what it is; what is no picture is handed out as bytes nobody shows.
fn media(bytes: &[u8]) -> &'static str {
    match bytes {
        [0xff, 0xd8, 0xff, ..] => "image/jpeg",
        [0x89, b'P', b'N', b'G', ..] => "image/png",
        [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => "image/webp",
        [_, _, _, _, b'f', b't', b'y', b'p', b'h', b'e', b'i', ..] => "image/heic",
        [_, _, _, _, b'f', b't', b'y', b'p', b'a', b'v', b'i', b'f', ..] => "image/avif",
        _ => "application/octet-stream",
    }
}
