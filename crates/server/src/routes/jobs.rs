//! What there is of each job.

use crate::answer::{Refused, json};
use crate::door::Asker;
use crate::running::Shared;
use crate::tally;
use axum::extract::State;
use axum::response::Response;
use std::sync::Arc;
use wire::http::Jobs;

pub(crate) async fn jobs(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    let mut jobs = shared.read(tally::jobs).await?;
    jobs.retain(|job| asker.sees(&job.job));
    json(&Jobs { jobs })
}
