//! Figures for a monitor, on an address of their own: `GET /metrics`, and nothing else.
//!
//! They name no job, person or device, but they tell how much is going on; so they are no route of the office, which stands
//! open to a network, and are there only where somebody named an address for them.
//!
//! Never: be answered where the tablets are.

use crate::meter::Kept;
use crate::running::{Shared, waiting};
use axum::Router;
use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};
use store::{Database, Office, SetAside, Store, StoreError};
use tokio::net::TcpListener;
use tokio::time::timeout;

/// What a monitor knows the text by.
const MEDIA: &str = "application/openmetrics-text; version=1.0.0; charset=utf-8";

/// How long the database is waited for; the figures come without it then.
const PATIENCE: Duration = Duration::from_secs(3);

/// Answers until the server is to stop.
pub(crate) async fn serve(shared: Arc<Shared>, listener: TcpListener) {
    let mut stop = shared.stop.clone();
    let stopped = async move {
        // One that is gone has stopped too.
        drop(stop.wait_for(|stop| *stop).await);
    };
    let routes = Router::new().route("/metrics", get(figures)).with_state(shared);
    // It ends only when it was told to.
    drop(axum::serve(listener, routes).with_graceful_shutdown(stopped).await);
}

async fn figures(State(shared): State<Arc<Shared>>) -> Response {
    look(&shared).await;
    match shared.meter.text(Instant::now()) {
        Ok(text) => ([(header::CONTENT_TYPE, MEDIA)], text).into_response(),
        Err(error) => (StatusCode::INTERNAL_SERVER_ERROR, error.to_string()).into_response(),
    }
}

/// Asks the database and the disk. One look at a time: a monitor that asks again while the database hangs gets what is known.
async fn look(shared: &Arc<Shared>) {
    let Ok(turn) = Arc::clone(&shared.measuring).try_acquire_owned() else {
        return shared.meter.holds(None);
    };
    let looking = Arc::clone(shared);
    let look = waiting(move || {
        let kept = looking.readers.with(kept).ok();
        room(&looking.site.folder).into_iter().for_each(|bytes| looking.meter.has_room(bytes));
        drop(turn);
        kept
    });
    shared.meter.holds(timeout(PATIENCE, look).await.ok().flatten());
}

fn kept(store: &Database) -> Result<Kept, StoreError> {
    store.answers()?;
    let counts = store.counts()?;
    Ok(Kept {
        entries: counts.iter().map(|counted| counted.entries).sum(),
        jobs: counts.len() as u64,
        aside: store.aside_of_jobs()?.into_iter().map(|(_, aside)| aside).sum(),
        devices: store.devices()?.len() as u64,
        bytes: store.bytes()?,
    })
}

/// Bytes that are free on the disk of a folder; `None`: the system does not say.
#[cfg(unix)]
fn room(folder: &Path) -> Option<u64> {
    let disk = rustix::fs::statvfs(folder).ok()?;
    disk.f_bavail.checked_mul(disk.f_frsize)
}

#[cfg(not(unix))]
fn room(_: &Path) -> Option<u64> {
    None
}
