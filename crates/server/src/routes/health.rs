//! Whether the office is alive, and whether it can take entries in: for programs that watch it or stand before it.
//!
//! Never: say anything of a job, a person or a device; ask who asks.

use crate::answer::Refused;
use crate::running::Shared;
use axum::extract::State;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use std::sync::Arc;

/// `GET /healthz`. Whoever hears nothing starts the program again.
pub(crate) async fn alive() -> Response {
    said("alive\n")
}

/// `GET /readyz`. Whoever is refused sends devices elsewhere, or waits.
pub(crate) async fn ready(State(shared): State<Arc<Shared>>) -> Result<Response, Refused> {
    shared.health.ready(&shared).await.map(|()| said("ready\n"))
}

fn said(text: &'static str) -> Response {
    ([(header::CONTENT_TYPE, "text/plain; charset=utf-8")], text).into_response()
}
