//! What is kept of a request once it is answered: a line of the journal, and a count.
//!
//! Words: *way* = the name of a request, and the route it turned out to take.

use crate::answer::Refused;
use crate::journal::{Happened, Level};
use crate::meter::Asked;
use crate::running::Shared;
use axum::http::{Method, StatusCode};
use std::sync::{Arc, OnceLock};
use std::time::Duration;

/// Where whatever has no route of its own goes: the files of the app.
const APP: &str = "app";

/// What travels with a request, so that it is known at the end.
#[derive(Debug, Clone)]
pub(crate) struct Way(Arc<(String, OnceLock<&'static str>)>);

impl Way {
    pub(crate) fn of(request: String) -> Self {
        Way(Arc::new((request, OnceLock::new())))
    }

    /// The name of the request.
    pub(crate) fn request(&self) -> &str {
        &self.0.0
    }

    /// It takes this route.
    pub(crate) fn takes(&self, route: &'static str) {
        // A request takes one route; a second one would be the same.
        let _ = self.0.1.set(route);
    }

    fn route(&self) -> &'static str {
        self.0.1.get().copied().unwrap_or(APP)
    }
}

/// A request that was answered.
pub(crate) struct Answered<'a> {
    pub(crate) way: &'a Way,
    pub(crate) method: &'a Method,
    pub(crate) status: StatusCode,
    pub(crate) took: Duration,
    pub(crate) refused: Option<&'a Refused>,
}

/// Counts it and writes it down.
pub(crate) fn note(shared: &Shared, answered: &Answered<'_>) {
    let asked = asked(answered);
    shared.meter.answered(&asked, answered.took);
    let refusal = answered.refused.map(Refused::word);
    refusal.iter().for_each(|word| shared.meter.refused(word));
    let inside = answered.refused.and_then(Refused::told_inside).map(str::to_owned);
    (shared.site.journal)(&Happened {
        level: level(answered.status, inside.is_some()),
        what: "request",
        request: Some(answered.way.request().to_owned()),
        method: Some(asked.method),
        route: Some(asked.route),
        status: Some(asked.status),
        ms: u64::try_from(answered.took.as_millis()).ok(),
        refusal,
        inside,
        ..Happened::default()
    });
}

fn asked(answered: &Answered<'_>) -> Asked {
    let Answered { way, method, status, .. } = answered;
    Asked { method: word(method), route: way.route(), status: status.as_u16() }
}

fn level(status: StatusCode, inside: bool) -> Level {
    match inside {
        _ if status.is_server_error() => Level::Error,
        true => Level::Warn,
        false => Level::Info,
    }
}

/// The methods of our routes; anybody can make up others, so those are one.
fn word(method: &Method) -> &'static str {
    match *method {
        Method::GET => "GET",
        Method::HEAD => "HEAD",
        Method::POST => "POST",
        Method::PUT => "PUT",
        _ => "other",
    }
}
