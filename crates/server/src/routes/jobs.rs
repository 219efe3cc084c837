//! What there is of each job.

use crate::answer::{Refused, json};
use crate::door::Paired;
use crate::running::{Shared, waiting};
use axum::extract::State;
use axum::response::Response;
use std::sync::Arc;
use wire::http::Jobs;

pub(crate) async fn jobs(State(shared): State<Arc<Shared>>, _: Paired) -> Result<Response, Refused> {
    let jobs = waiting(move || shared.readers.with(|store| shared.tally.jobs(store))).await?;
    json(&Jobs { jobs })
}
