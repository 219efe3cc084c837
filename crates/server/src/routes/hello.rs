//! Who the office is, what time it has, and whether it knows who asks.

use crate::answer::{Refused, json};
use crate::door::Asker;
use crate::running::Shared;
use crate::time;
use axum::extract::State;
use axum::response::Response;
use std::sync::Arc;
use wire::http::Hello;

pub(crate) async fn hello(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    json(&Hello {
        office: shared.site.office.clone(),
        version: shared.site.version.clone(),
        server_time: time::now(),
        paired: asker.is_paired(),
        clock: shared.demo(),
    })
}
