//! Every answer that is not what was asked for, in the one shape there is; and what stands on every answer.
//!
//! A handler says what is wrong; here it gets its words from the table of `wire::http`, the name of the
//! request, and the headers. What a library or a panic answered gets the same shape.
//!
//! Never: tell a person the inside of an error; leave the journal without it.

use crate::answered::{self, Answered, Way};
use crate::page;
use crate::running::Shared;
use crate::writer::NotWritten;
use axum::Router;
use axum::body::Body;
use axum::extract::Request;
use axum::http::{HeaderName, HeaderValue, Method, StatusCode, header};
use axum::response::{IntoResponse, Response};
use futures_util::FutureExt;
use std::convert::Infallible;
use std::panic::AssertUnwindSafe;
use std::sync::Arc;
use std::time::{Duration, Instant};
use store::StoreError;
use tower_service::Service;
use wire::http::{Code, Refusal};

/// Something that was not done.
#[derive(Debug, Clone)]
pub(crate) struct Refused {
    code: &'static Code,
    what: String,
    /// When to come again.
    wait: Option<Duration>,
    /// What only the journal is told.
    inside: Option<String>,
    /// A notice of its own words, in place of the table's.
    words: Option<(String, String)>,
}

impl Refused {
    /// Refused under a code; `what` names the thing and its value.
    pub(crate) fn new(code: &'static Code, what: impl Into<String>) -> Self {
        Refused { code, what: what.into(), wait: None, inside: None, words: None }
    }

    /// The same, to come again after a while.
    pub(crate) fn after(mut self, wait: Duration) -> Self {
        self.wait = Some(wait);
        self
    }

    /// The same, with what only the journal is told.
    pub(crate) fn inside(mut self, told: impl std::fmt::Display) -> Self {
        self.inside = Some(told.to_string());
        self
    }

    /// No paper could be made; the notice says why.
    pub(crate) fn paper(notice: wording::Notice) -> Self {
        let mut refused = Self::new(Code::PACKAGE_FAILED, notice.what);
        refused.words = Some((notice.meaning, notice.next));
        refused
    }

    /// One thing is damaged, and everything else goes on.
    fn altered(thing: String, error: &StoreError) -> Self {
        let mut refused = Self::new(Code::DESK_DAMAGED, format!("{thing} is no longer what it was."));
        let meaning =
            "It is not handed out. What comes in is kept as before, and every device keeps what it has.";
        refused.words = Some((meaning.to_owned(), Code::DESK_DAMAGED.next.to_owned()));
        refused.inside(error)
    }

    /// The word of its code.
    pub(crate) fn word(&self) -> &'static str {
        self.code.word
    }

    /// What only the journal is told.
    pub(crate) fn told_inside(&self) -> Option<&str> {
        self.inside.as_deref()
    }

    fn refusal(&self, request: &str) -> Refusal {
        let mut refusal = Refusal::new(self.code, self.what.clone()).of_request(request);
        if let Some((meaning, next)) = self.words.clone() {
            (refusal.meaning, refusal.next) = (meaning, next);
        }
        refusal
    }
}

impl From<StoreError> for Refused {
    fn from(error: StoreError) -> Self {
        Self::from(&error)
    }
}

impl From<&StoreError> for Refused {
    fn from(error: &StoreError) -> Self {
        let (code, what) = match error {
            StoreError::Busy => (Code::DESK_BUSY, "Another program holds the desk's database."),
            StoreError::Unreachable(_) => (Code::DESK_BUSY, "The desk's database does not answer."),
            StoreError::Full => (Code::DESK_FULL, "The desk's disk is full."),
            StoreError::Damaged(_) | StoreError::Foreign | StoreError::Version { .. } => {
                (Code::DESK_DAMAGED, "The desk's database is damaged.")
            }
            StoreError::Altered { arrival, .. } => {
                return Self::altered(format!("Entry {arrival} in the desk's database"), error);
            }
            StoreError::PhotoAltered(name) => {
                return Self::altered(format!("The desk's file of the photo {}", short(name)), error);
            }
            _ => (Code::INTERNAL, "The desk could not read or write what it keeps."),
        };
        Self::new(code, what).inside(error)
    }
}

/// The first eight digits of a hash: enough for people.
pub(crate) fn short(hash: &str) -> &str {
    hash.get(..8).unwrap_or(hash)
}

impl From<NotWritten> for Refused {
    fn from(error: NotWritten) -> Self {
        match error {
            NotWritten::Store(error) => Self::from(&*error),
            NotWritten::Busy => {
                let what = "More is waiting to be written than the desk can hold.";
                Self::new(Code::DESK_BUSY, what).after(Duration::from_secs(2))
            }
            NotWritten::Chance(_) => {
                Self::new(Code::INTERNAL, "The desk's machine gave no random bytes.").inside(error)
            }
            NotWritten::Stopping => Self::new(Code::DESK_BUSY, "The desk is being stopped."),
        }
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        let mut response = status(self.code).into_response();
        response.extensions_mut().insert(Arc::new(self));
        response
    }
}

fn status(code: &Code) -> StatusCode {
    StatusCode::from_u16(code.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR)
}

/// Answers a request: whatever happens inside, one shape, one set of headers.
pub(crate) async fn answer(
    shared: Arc<Shared>,
    mut routes: Router,
    mut request: Request,
) -> Result<Response, Infallible> {
    let (begun, way, asked) = (Instant::now(), Way::of(shared.request_name()), Asked::of(&request));
    request.extensions_mut().insert(way.clone());
    let done = AssertUnwindSafe(routes.call(request)).catch_unwind().await;
    let response = match done {
        Ok(Ok(response)) => response,
        Ok(Err(never)) => match never {},
        Err(_) => {
            let what = "The desk came upon something it was not made for.";
            Refused::new(Code::INTERNAL, what).inside("a panic; see standard error").into_response()
        }
    };
    let refused = is_refusal(&response).then(|| refused(&response, &asked));
    let mut response = match &refused {
        Some(refused) => shaped(&shared, (way.request(), &asked), refused, response),
        None => response,
    };
    headers(&mut response);
    let (status, took) = (response.status(), begun.elapsed());
    let refused = refused.as_deref();
    answered::note(&shared, &Answered { way: &way, method: &asked.method, status, took, refused });
    Ok(response)
}

/// What a refusal says of a request.
struct Asked {
    method: Method,
    path: String,
    /// A person's browser shows the answer.
    page: bool,
}

impl Asked {
    fn of(request: &Request) -> Self {
        // Without the question behind it, which may name a job and is not needed.
        let path: String = request.uri().path().chars().take(200).collect();
        let accepts = request.headers().get(header::ACCEPT).and_then(|value| value.to_str().ok());
        let ours = path.starts_with("/people") || path.starts_with("/desk");
        let page = ours && accepts.is_some_and(|accepts| accepts.contains("text/html"));
        Asked { method: request.method().clone(), path, page }
    }
}

fn is_refusal(response: &Response) -> bool {
    response.status().is_client_error() || response.status().is_server_error()
}

fn refused(response: &Response, asked: &Asked) -> Arc<Refused> {
    let refused = response.extensions().get::<Arc<Refused>>().cloned();
    refused.unwrap_or_else(|| Arc::new(of_a_library(response.status(), asked)))
}

fn shaped(shared: &Shared, (name, asked): (&str, &Asked), refused: &Refused, response: Response) -> Response {
    let refusal = refused.refusal(name);
    let (media, body) = if asked.page {
        ("text/html; charset=utf-8", page::refusal(&shared.site.office, &refusal))
    } else {
        ("application/json", serde_json::to_string(&refusal).unwrap_or_default())
    };
    let mut shaped = (status(refused.code), [(header::CONTENT_TYPE, media)], body).into_response();
    if let Some(wait) = refused.wait {
        let seconds = HeaderValue::from(wait.as_secs() + 1);
        shaped.headers_mut().insert(header::RETRY_AFTER, seconds);
    }
    if let Some(allow) = response.headers().get(header::ALLOW) {
        shaped.headers_mut().insert(header::ALLOW, allow.clone());
    }
    shaped
}

/// What a library answered by itself.
fn of_a_library(status: StatusCode, asked: &Asked) -> Refused {
    let Asked { method, path, .. } = asked;
    match status {
        StatusCode::METHOD_NOT_ALLOWED => {
            Refused::new(Code::WRONG_METHOD, format!("{method} is not done with {path}."))
        }
        StatusCode::NOT_FOUND => not_found(path),
        StatusCode::PAYLOAD_TOO_LARGE => Refused::new(Code::TOO_LARGE, "What was sent is too large."),
        StatusCode::REQUEST_TIMEOUT => Refused::new(Code::TOO_SLOW, "What was sent came too slowly."),
        status if status.is_client_error() => {
            Refused::new(Code::MALFORMED, format!("{method} {path} could not be understood."))
        }
        status => {
            let what = "The desk could not answer.";
            Refused::new(Code::INTERNAL, what).inside(format!("answered by a library with {status}"))
        }
    }
}

/// There is nothing at a path.
pub(crate) fn not_found(path: &str) -> Refused {
    Refused::new(Code::NOT_FOUND, format!("There is nothing at {path}."))
}

const POLICY: &str = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' blob: data:; connect-src 'self'; object-src 'none'; base-uri 'none'; \
    form-action 'self'; frame-ancestors 'none'";

/// What stands on every answer.
const HEADERS: &[(&str, &str)] = &[
    ("content-security-policy", POLICY),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "no-referrer"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
];

fn headers(response: &mut Response) {
    let headers = response.headers_mut();
    for (name, value) in HEADERS {
        headers.entry(HeaderName::from_static(name)).or_insert(HeaderValue::from_static(value));
    }
    if !headers.contains_key(header::CACHE_CONTROL) {
        headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
    }
}

/// A body of JSON.
pub(crate) fn json(value: &impl serde::Serialize) -> Result<Response, Refused> {
    let body = serde_json::to_string(value).map_err(|error| {
        Refused::new(Code::INTERNAL, "The desk could not write its answer.").inside(error)
    })?;
    Ok(([(header::CONTENT_TYPE, "application/json")], Body::from(body)).into_response())
}
