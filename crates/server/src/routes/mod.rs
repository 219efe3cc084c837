//! Every path there is. The interface stands under `/api/v1`, the desk page under `/desk`, and everything
//! else is the app.

mod app;
mod desk;
mod entries;
mod hello;
mod jobs;
mod live;
mod pair;
mod papers;
mod photos;

use crate::running::Shared;
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};
use std::sync::Arc;

/// All routes.
pub(crate) fn all(shared: &Arc<Shared>) -> Router {
    let interface = Router::new()
        .route("/hello", get(hello::hello))
        .route("/pair", post(pair::pair))
        .route("/jobs", get(jobs::jobs))
        .route("/entries", get(entries::pull).post(entries::push))
        .route("/photos/missing", post(photos::missing))
        .route("/photos/{hash}", get(photos::give).put(photos::take))
        .route("/live", get(live::live))
        .route("/jobs/{job}/record.jsonl", get(papers::record))
        .route("/jobs/{job}/shafts/{shaft}/package.pdf", get(papers::package))
        .route("/jobs/{job}/shafts/{shaft}/log.csv", get(papers::log))
        .fallback(app::nothing);
    let desk = Router::new()
        .route("/", get(desk::page))
        .route("/desk.css", get(desk::style))
        .route("/codes", post(desk::new_code))
        .route("/devices/{number}/let-go", post(desk::let_go))
        .fallback(app::nothing);
    Router::new()
        .nest(wire::http::PREFIX, interface)
        .nest("/desk", desk)
        .fallback(app::file)
        // Each body is measured where it is read.
        .layer(DefaultBodyLimit::disable())
        .with_state(Arc::clone(shared))
}
