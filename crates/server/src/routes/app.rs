//! The app's files, and its addresses: a path that is no file opens the app, which knows its screens.

use crate::answer::not_found;
use crate::running::Shared;
use crate::site::AppFile;
use axum::body::Bytes;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use std::borrow::Cow;
use std::sync::Arc;

const INDEX: &str = "index.html";

/// Endings of files an app is made of. A job may be called `Lot.2`, so not every point makes a file.
const ENDINGS: &[&str] = &[
    "css",
    "gif",
    "html",
    "ico",
    "jpg",
    "jpeg",
    "js",
    "json",
    "map",
    "mjs",
    "php",
    "png",
    "svg",
    "ttf",
    "txt",
    "wasm",
    "webmanifest",
    "webp",
    "woff",
    "woff2",
    "xml",
];

/// A file of the app, or the app itself.
pub(crate) async fn file(
    State(shared): State<Arc<Shared>>,
    method: Method,
    uri: Uri,
    headers: HeaderMap,
) -> Response {
    if method != Method::GET && method != Method::HEAD && !is_ours(uri.path()) {
        return (StatusCode::METHOD_NOT_ALLOWED, [(header::ALLOW, "GET, HEAD")]).into_response();
    }
    let path = uri.path();
    if is_ours(path) {
        return not_found(path).into_response();
    }
    let file = shared.site.app.get(path.trim_start_matches('/'));
    let index = || shared.site.app.get(INDEX).filter(|_| is_screen(path));
    match file.or_else(index) {
        Some(file) => hand_out(file, &headers),
        None => not_found(path).into_response(),
    }
}

/// Whether a path is one of the interface, of the desk or of the people's pages, and so none of the app.
fn is_ours(path: &str) -> bool {
    [wire::http::PREFIX, "/desk", "/people"]
        .iter()
        .any(|own| path.strip_prefix(own).is_some_and(|rest| rest.is_empty() || rest.starts_with('/')))
}

/// Whether a path may be an address of a screen: no file by its ending, and nothing that climbs.
fn is_screen(path: &str) -> bool {
    let lower = path.to_ascii_lowercase();
    let climbs = lower.contains("..")
        || ["//", "\\", "%2e", "%2f", "%5c", "%00"].iter().any(|odd| lower.contains(odd));
    let last = lower.rsplit('/').next().unwrap_or_default();
    let ending = last.rsplit_once('.').map(|(_, ending)| ending);
    !climbs && !last.starts_with('.') && !ending.is_some_and(|ending| ENDINGS.contains(&ending))
}

fn hand_out(file: &AppFile, asked: &HeaderMap) -> Response {
    let takes = |name: &str| {
        let encodings = asked.get(header::ACCEPT_ENCODING).and_then(|value| value.to_str().ok());
        let mut each = encodings.unwrap_or_default().split(',').map(|one| one.trim());
        each.any(|one| {
            one == name || one.split_once(';').is_some_and(|(word, q)| word.trim() == name && !none(q))
        })
    };
    let packed = |name: &'static str, bytes: &Option<Cow<'static, [u8]>>| {
        bytes.clone().filter(|_| takes(name)).map(|bytes| (Some(name), bytes))
    };
    let (encoding, bytes) = packed("br", &file.brotli)
        .or_else(|| packed("gzip", &file.gzip))
        .unwrap_or_else(|| (None, file.bytes.clone()));
    let body = match bytes {
        Cow::Borrowed(bytes) => Bytes::from_static(bytes),
        Cow::Owned(bytes) => Bytes::from(bytes),
    };
    let mut response = body.into_response();
    let headers = response.headers_mut();
    let media = HeaderValue::from_str(&file.media);
    headers
        .insert(header::CONTENT_TYPE, media.unwrap_or(HeaderValue::from_static("application/octet-stream")));
    let keep = if file.immutable { "public, max-age=31536000, immutable" } else { "no-cache" };
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static(keep));
    headers.insert(header::VARY, HeaderValue::from_static("accept-encoding"));
    if let Some(encoding) = encoding {
        headers.insert(header::CONTENT_ENCODING, HeaderValue::from_static(encoding));
    }
    response
}

/// `q=0` means: not this one.
fn none(quality: &str) -> bool {
    let value = quality.trim().strip_prefix("q=").and_then(|value| value.parse::<f32>().ok());
    value.is_some_and(|value| value <= 0.0)
}

#[cfg(test)]
mod tests {
    use super::is_screen;

    #[track_caller]
    fn check(path: &str, expected: bool) {
        assert_eq!(is_screen(path), expected, "{path}");
    }

    #[test]
    fn a_screen_is_told_from_a_file() {
        check("/", true);
        check("/job/Creek~20Rd/shaft/S-1", true);
        check("/job/Lot.2/shaft/S.3", true);
        check("/pair", true);
        check("/app-4f1c.wasm", false);
        check("/favicon.ico", false);
        check("/wp-login.php", false);
        check("/.env", false);
    }

    #[test]
    fn what_climbs_is_no_screen() {
        check("/../record.sqlite", false);
        check("/..%2f..%2fetc/passwd", false);
        check("/%2e%2e/record", false);
        check("/job/..", false);
        check("//etc/passwd", false);
        check("/a\\b", false);
    }
}
