//! Reading what was sent: never more than allowed, never waiting for ever.

use crate::answer::Refused;
use crate::running::Shared;
use crate::site::Limits;
use axum::body::{Body, BodyDataStream, Bytes};
use axum::extract::{FromRequest, Request};
use axum::http::{HeaderMap, header};
use futures_util::StreamExt;
use serde::de::DeserializeOwned;
use std::sync::Arc;
use tokio::time::{Instant, timeout, timeout_at};
use wire::http::Code;

/// Characters a name may have that people give to something of theirs.
const NAME_MOST: usize = 60;

/// A name that somebody gave to a `thing` of theirs, such as a device.
pub(crate) fn name(thing: &str, typed: &str) -> Result<String, Refused> {
    let name = typed.trim();
    let fits = (1..=NAME_MOST).contains(&name.chars().count()) && !name.chars().any(char::is_control);
    let what = || format!("A {thing} needs a name of 1 to {NAME_MOST} characters.");
    if fits { Ok(name.to_owned()) } else { Err(Refused::new(Code::MALFORMED, what())) }
}

/// A body that is read piece by piece.
pub(crate) struct Incoming<'a> {
    stream: BodyDataStream,
    limits: &'a Limits,
    most: usize,
    read: usize,
    until: Instant,
}

impl<'a> Incoming<'a> {
    /// A body of `most` bytes at most. One that says itself that it is larger is refused before it is read.
    pub(crate) async fn new(
        headers: &HeaderMap,
        body: Body,
        most: usize,
        limits: &'a Limits,
    ) -> Result<Self, Refused> {
        let said: Option<usize> =
            headers.get(header::CONTENT_LENGTH).and_then(|value| value.to_str().ok()?.parse().ok());
        let until = Instant::now() + limits.body_time;
        let mut incoming = Incoming { stream: body.into_data_stream(), limits, most, read: 0, until };
        match said {
            Some(said) if said > most => Err(incoming.too_large().await),
            _ => Ok(incoming),
        }
    }

    /// The next piece; `None`: that was all.
    pub(crate) async fn next(&mut self) -> Result<Option<Bytes>, Refused> {
        let next = timeout(self.limits.patience, self.stream.next());
        let Ok(Ok(next)) = timeout_at(self.until, next).await else {
            let what = format!("{} bytes had come when the desk stopped waiting for more.", self.read);
            return Err(Refused::new(Code::TOO_SLOW, what));
        };
        let piece = next
            .transpose()
            .map_err(|error| Refused::new(Code::MALFORMED, "What was sent broke off.").inside(error))?;
        self.read += piece.as_ref().map_or(0, Bytes::len);
        if self.read > self.most { Err(self.too_large().await) } else { Ok(piece) }
    }

    /// Everything.
    pub(crate) async fn all(mut self) -> Result<Vec<u8>, Refused> {
        let mut all = Vec::new();
        while let Some(piece) = self.next().await? {
            all.extend_from_slice(&piece);
        }
        Ok(all)
    }

    async fn too_large(&mut self) -> Refused {
        drop_rest(&mut self.stream, 2 * self.most, self.limits).await;
        let what =
            format!("What was sent has more than {} bytes, the most that is taken in here.", self.most);
        Refused::new(Code::TOO_LARGE, what)
    }
}

/// Hears out somebody who was refused before anything they sent was read.
pub(crate) async fn hear_out(body: Body, limits: &Limits) {
    drop_rest(&mut body.into_data_stream(), limits.entries_bytes, limits).await;
}

/// The rest is read and dropped for a while: a connection closed in the middle of sending takes the answer with it on many
/// systems, and then nobody learns why.
async fn drop_rest(stream: &mut BodyDataStream, most: usize, limits: &Limits) {
    let until = Instant::now() + limits.patience;
    let mut dropped = 0;
    while dropped < most {
        match timeout_at(until, stream.next()).await {
            Ok(Some(Ok(piece))) => dropped += piece.len(),
            _ => break,
        }
    }
}

/// A small body of JSON.
pub(crate) async fn small<T: DeserializeOwned>(
    headers: &HeaderMap,
    body: Body,
    limits: &Limits,
) -> Result<T, Refused> {
    let bytes = Incoming::new(headers, body, limits.small_bytes, limits).await?.all().await?;
    serde_json::from_slice(&bytes)
        .map_err(|error| Refused::new(Code::MALFORMED, format!("The body is not as it should be: {error}.")))
}

/// Bytes of a form.
const FORM_BYTES: usize = 16 * 1024;

/// A form somebody sent, and where to.
pub(crate) struct Form<T> {
    /// Its fields.
    pub(crate) fields: T,
    /// The path it was sent to.
    pub(crate) path: String,
}

impl<T: DeserializeOwned> FromRequest<Arc<Shared>> for Form<T> {
    type Rejection = Refused;

    async fn from_request(request: Request, shared: &Arc<Shared>) -> Result<Self, Refused> {
        let (head, body) = request.into_parts();
        let limits = &shared.site.limits;
        let bytes = Incoming::new(&head.headers, body, FORM_BYTES, limits).await?.all().await?;
        // What was typed may be a password, so what is wrong with it is not repeated.
        let what = "The form is not as it should be: a field is missing.";
        let fields = serde_urlencoded::from_bytes(&bytes).map_err(|_| Refused::new(Code::MALFORMED, what))?;
        Ok(Form { fields, path: head.uri.path().to_owned() })
    }
}
