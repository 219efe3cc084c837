//! News for open screens, as server-sent events.

use crate::answer::Refused;
use crate::door::Asker;
use crate::running::Shared;
use crate::tally;
use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use futures_util::stream::{self, Stream};
use futures_util::{StreamExt, future};
use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;
use tokio_stream::wrappers::errors::BroadcastStreamRecvError;
use tokio_stream::wrappers::{BroadcastStream, WatchStream};
use wire::http::Arrived;

/// How often a silent line is told that somebody is there, so that nothing in between closes it.
const SILENCE: Duration = Duration::from_secs(15);

/// How long a line stays open: whoever opens it again is looked at anew.
const WHOLE: Duration = Duration::from_secs(5 * 60);

/// `GET /live`. First every job as it is, then what arrives, of the jobs whoever asks has a role on.
pub(crate) async fn live(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    let open = shared.meter.line();
    // Listening begins before the first look, so that nothing falls between the two.
    let news = BroadcastStream::new(shared.news.listen());
    let first = stream::iter(everything(Arc::clone(&shared)).await);
    let stop = WatchStream::new(shared.stop.clone());
    let stopped = stop.filter(|stop| future::ready(*stop)).into_future();
    let mut changed = shared.changed.subscribe();
    let anew = async move {
        drop(tokio::time::timeout(WHOLE, changed.changed()).await);
    };
    let later = news.then(move |news| told(Arc::clone(&shared), news)).flat_map(stream::iter);
    let seen = move |arrived: &Arrived| future::ready(asker.sees(&arrived.job));
    let events = first.chain(later).filter(seen).take_until(stopped).take_until(Box::pin(anew));
    let events = events.map(move |arrived| {
        // Counted as long as the line lives.
        let _ = &open;
        event(arrived)
    });
    Ok(response(events))
}

fn response(events: impl Stream<Item = Result<Event, Infallible>> + Send + 'static) -> Response {
    Sse::new(events).keep_alive(KeepAlive::new().interval(SILENCE)).into_response()
}

async fn told(shared: Arc<Shared>, news: Result<Arrived, BroadcastStreamRecvError>) -> Vec<Arrived> {
    match news {
        Ok(news) => vec![news],
        // A screen that was too slow for the news looks at everything.
        Err(BroadcastStreamRecvError::Lagged(_)) => everything(shared).await,
    }
}

/// The last arrival of every job. A store that cannot be read has no news; who asks it is told why.
async fn everything(shared: Arc<Shared>) -> Vec<Arrived> {
    let jobs = shared.read(tally::jobs).await;
    let arrived = |job: wire::http::JobState| Arrived { job: job.job, cursor: job.cursor };
    jobs.map(|jobs| jobs.into_iter().map(arrived).collect()).unwrap_or_default()
}

fn event(arrived: Arrived) -> Result<Event, Infallible> {
    let data = serde_json::to_string(&arrived).unwrap_or_default();
    Ok(Event::default().event("arrived").data(data))
}
