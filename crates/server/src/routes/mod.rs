//! Every route there is, with what it needs: `/healthz` and `/readyz`, the interface under `/api/v1`, the desk page under
//! `/desk`, the people's pages under `/people`. Everything else is the app.
//!
//! A route cannot be made without its need: `Row` has no other way in. docs/access.md is the same table for people.

mod app;
mod desk;
mod entries;
mod health;
mod hello;
mod jobs;
mod live;
mod pair;
mod papers;
mod people;
mod photos;

use crate::gate::{self, ANY, Need, SEALERS, WRITERS};
use crate::running::Shared;
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::handler::Handler;
use axum::middleware::from_fn_with_state;
use axum::routing::{MethodRouter, get, post, put};
use people::{aside, invited, manage, names, own, passkeys, sign_in, sign_ins};
pub(crate) use photos::no_photo;
use std::sync::Arc;

/// A route: how it is asked, what it needs, who answers.
struct Row {
    method: &'static str,
    path: &'static str,
    need: Need,
    answers: MethodRouter<Arc<Shared>>,
}

/// A route as it is declared, for whoever compares it with what is written about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Declared {
    /// `GET`, `POST` or `PUT`.
    pub method: &'static str,
    /// Its path, with `{names}` in it.
    pub path: &'static str,
    /// What it needs, in words.
    pub need: &'static str,
}

/// Every route there is.
pub fn declared() -> Vec<Declared> {
    rows().iter().map(|row| Declared { method: row.method, path: row.path, need: row.need.told() }).collect()
}

fn row<T: 'static, H: Handler<T, Arc<Shared>>>(asked: &'static str, need: Need, handler: H) -> Row {
    let (method, path) = asked.split_once(' ').unwrap_or(("GET", asked));
    let answers = match method {
        "POST" => post(handler),
        "PUT" => put(handler),
        _ => get(handler),
    };
    Row { method, path, need, answers }
}

fn rows() -> Vec<Row> {
    [watched(), interface(), desk_pages(), people_pages(), managing()].into_iter().flatten().collect()
}

fn watched() -> Vec<Row> {
    vec![
        row("GET /healthz", Need::NotEvenAName, health::alive),
        row("GET /readyz", Need::NotEvenAName, health::ready),
    ]
}

fn interface() -> Vec<Row> {
    vec![
        row("GET /api/v1/hello", Need::Nothing, hello::hello),
        row("POST /api/v1/pair", Need::Nothing, pair::pair),
        row("GET /api/v1/jobs", Need::Bring(ANY), jobs::jobs),
        row("GET /api/v1/entries", Need::Job(ANY), entries::pull),
        row("POST /api/v1/entries", Need::Bring(WRITERS), entries::push),
        row("POST /api/v1/photos/missing", Need::Bring(WRITERS), photos::missing),
        row("GET /api/v1/photos/{hash}", Need::File(ANY), photos::give),
        row("PUT /api/v1/photos/{hash}", Need::Bring(WRITERS), photos::take),
        row("GET /api/v1/live", Need::Anywhere(ANY), live::live),
        row("GET /api/v1/jobs/{job}/record.jsonl", Need::Job(ANY), papers::record),
        row("GET /api/v1/jobs/{job}/shafts/{shaft}/package.pdf", Need::Job(ANY), papers::package),
        row("GET /api/v1/jobs/{job}/shafts/{shaft}/log.csv", Need::Job(ANY), papers::log),
        row("POST /api/v1/jobs/{job}/shafts/{shaft}/seal", Need::Job(SEALERS), papers::seal),
        row("GET /api/v1/jobs/{job}/shafts/{shaft}/sealed.pdf", Need::Job(ANY), papers::sealed),
        row("GET /api/v1/jobs/{job}/shafts/{shaft}/sealed.tsr", Need::Job(ANY), papers::time_stamp),
        row("GET /api/v1/jobs/{job}/exports/{format}", Need::Job(ANY), papers::export),
    ]
}

fn desk_pages() -> Vec<Row> {
    vec![
        row("GET /desk", Need::Desk, desk::page),
        row("GET /desk/desk.css", Need::Desk, desk::style),
        row("POST /desk/codes", Need::Desk, desk::new_code),
        row("POST /desk/devices/{number}/let-go", Need::Desk, desk::let_go),
        row("GET /desk/jobs/{job}/aside", Need::Desk, aside::page),
        row("POST /desk/jobs/{job}/aside/let-in", Need::Desk, aside::let_in),
    ]
}

fn people_pages() -> Vec<Row> {
    vec![
        row("GET /people/people.css", Need::Nothing, people::style),
        row("GET /people/people.js", Need::Nothing, people::script),
        row("GET /people/sign-in", Need::Nothing, sign_in::page),
        row("POST /people/sign-in", Need::Nothing, sign_in::sign_in),
        row("POST /people/sign-in/passkey/begin", Need::Nothing, passkeys::ask_for_any),
        row("POST /people/sign-in/passkey", Need::Nothing, passkeys::sign_in),
        row("GET /people/invited", Need::Nothing, invited::page),
        row("POST /people/invited", Need::Nothing, invited::accept),
        row("GET /people", Need::Person, own::page),
        row("POST /people/sign-out", Need::Person, sign_in::sign_out),
        row("POST /people/codes", Need::Person, own::new_code),
        row("POST /people/devices/{number}/let-go", Need::Person, own::let_go),
        row("POST /people/password", Need::Person, own::change),
        row("POST /people/passkeys/new", Need::Person, passkeys::ask_for_new),
        row("POST /people/passkeys", Need::Person, passkeys::add),
        row("POST /people/passkeys/{number}/remove", Need::Person, passkeys::remove),
    ]
}

fn managing() -> Vec<Row> {
    vec![
        row("GET /people/jobs/{job}", Need::JobManager, manage::job),
        row("POST /people/jobs/{job}/give", Need::JobManager, manage::give_on_job),
        row("POST /people/jobs/{job}/take", Need::JobManager, manage::take_on_job),
        row("GET /people/jobs/{job}/aside", Need::JobManager, aside::page),
        row("POST /people/jobs/{job}/aside/let-in", Need::JobManager, aside::let_in),
        row("GET /people/office", Need::OfficeManager, manage::office),
        row("POST /people/office/give", Need::OfficeManager, manage::give_in_office),
        row("POST /people/office/names", Need::OfficeManager, names::give),
        row("POST /people/office/take", Need::OfficeManager, manage::take_in_office),
        row("POST /people/office/people/{number}/let-go", Need::OfficeManager, manage::let_go),
        row("POST /people/office/people/{number}/invite", Need::OfficeManager, manage::invite),
        row("POST /people/office/devices/{number}/let-go", Need::OfficeManager, manage::let_device_go),
        row("GET /people/office/sign-ins", Need::OfficeManager, sign_ins::page),
    ]
}

/// All routes, each behind its door.
pub(crate) fn all(shared: &Arc<Shared>) -> Router {
    let router = rows().into_iter().fold(Router::new(), |router, row| {
        let door = from_fn_with_state((Arc::clone(shared), row.need, row.path), gate::pass);
        router.route(row.path, row.answers.route_layer(door))
    });
    router
        .fallback(app::file)
        // Each body is measured where it is read.
        .layer(DefaultBodyLimit::disable())
        .with_state(Arc::clone(shared))
}
