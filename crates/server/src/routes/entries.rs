//! Entries come in and go out, as the lines they are.

use crate::answer::{Refused, json};
use crate::body::Incoming;
use crate::door::Paired;
use crate::running::{Shared, waiting};
use axum::body::Body;
use axum::extract::rejection::QueryRejection;
use axum::extract::{Query, State};
use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::{IntoResponse, Response};
use record::Held;
use serde::Deserialize;
use std::sync::Arc;
use store::{Kept, Line, Most, Page, Store};
use sync::desk::Taken;
use tokio::time::timeout;
use wire::http::{CURSOR_HEADER, Code, LineAnswer, MORE_HEADER, PULL_LINES_MAX, Pushed, Refusal};

/// Bytes of one page of lines.
const PAGE_BYTES: usize = 4 * 1024 * 1024;

/// An entry whose clock is further from the site's than this, either way, is told so.
const FAR_SECONDS: u64 = 24 * 60 * 60;

/// `POST /entries`.
pub(crate) async fn push(
    State(shared): State<Arc<Shared>>,
    _: Paired,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Refused> {
    let limits = &shared.site.limits;
    let room = kilobytes(&headers, limits.entries_bytes);
    let Ok(Ok(room)) = timeout(limits.patience, shared.room.acquire_many(room)).await else {
        let what = "More is coming in than the desk can hold.";
        return Err(Refused::new(Code::DESK_BUSY, what).after(limits.patience));
    };
    let bytes = Incoming::new(&headers, body, limits.entries_bytes, limits).await?.all().await?;
    let now = shared.site_time().seconds();
    let (lines, answers) = waiting(move || prove(&bytes, now)).await;
    let kept = if lines.is_empty() { Vec::new() } else { shared.writer.add(lines).await? };
    drop(room);
    let cursor = waiting(move || shared.readers.with(|store| shared.tally.last(store, ""))).await?.1;
    json(&Pushed { answers: told(answers, &kept), cursor })
}

/// Room for a body as large as it says it is, or as large as it may be. A small one waits for little room, so
/// that a few that come slowly do not keep everybody out.
fn kilobytes(headers: &HeaderMap, most: usize) -> u32 {
    let said = headers.get(header::CONTENT_LENGTH).and_then(|said| said.to_str().ok()?.parse::<usize>().ok());
    u32::try_from(said.unwrap_or(most).min(most) / 1024 + 1).unwrap_or(u32::MAX)
}

/// The good lines, and an answer a line. Bytes that are no text are one bad character of their line.
fn prove(bytes: &[u8], now: i64) -> (Vec<Line>, Vec<LineAnswer>) {
    let (offered, mut answers) = sync::desk::read(&String::from_utf8_lossy(bytes));
    let mut good = answers.iter_mut().filter(|answer| answer.refusal.is_none());
    let mut lines = Vec::with_capacity(offered.len());
    for offered in offered {
        if let Some(answer) = good.next() {
            answer.notice = far(&offered.held, now);
        }
        lines.push(Line::proved(&offered.held, offered.line));
    }
    (lines, answers)
}

/// What is told of an entry whose clock was far from the site's.
fn far(held: &Held, now: i64) -> Option<Refusal> {
    let Held::Known(entry) = held else { return None };
    let away = entry.entered_at.seconds().abs_diff(now);
    let what = || {
        let side = if entry.entered_at.seconds() < now { "behind" } else { "ahead of" };
        format!("The clock of the device showed {}, {} {side} the desk's.", entry.entered_at, days(away))
    };
    (away > FAR_SECONDS).then(|| Refusal::new(Code::CLOCK_FAR, what()))
}

fn days(seconds: u64) -> String {
    match seconds / 86_400 {
        1 => "1 day".to_owned(),
        days => format!("{days} days"),
    }
}

fn told(mut answers: Vec<LineAnswer>, kept: &[Kept]) -> Vec<LineAnswer> {
    let good = answers.iter_mut().filter(|answer| answer.refusal.is_none());
    for (answer, kept) in good.collect::<Vec<_>>().into_iter().zip(kept) {
        let taken = match kept {
            Kept::New(_) => Taken::Stored,
            Kept::Known(_) => Taken::Known,
            Kept::Contradicts => Taken::SameId,
        };
        sync::desk::answer(answer, taken);
    }
    answers
}

/// What a page is asked for by.
#[derive(Debug, Deserialize)]
pub(crate) struct Asked {
    job: String,
    #[serde(default)]
    after: u64,
    #[serde(default = "as_many_as_there_may_be")]
    limit: usize,
}

fn as_many_as_there_may_be() -> usize {
    PULL_LINES_MAX
}

/// `GET /entries`.
pub(crate) async fn pull(
    State(shared): State<Arc<Shared>>,
    _: Paired,
    asked: Result<Query<Asked>, QueryRejection>,
) -> Result<Response, Refused> {
    let Query(asked) = asked.map_err(|error| {
        let what = "The address asks for no page: `job` names a job, `after` and `limit` are whole numbers.";
        Refused::new(Code::MALFORMED, what).inside(error)
    })?;
    let page = waiting(move || shared.readers.with(|store| page(&shared, store, &asked))).await?;
    let mut response = page.lines.into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static("application/jsonl"));
    headers.insert(CURSOR_HEADER, HeaderValue::from(page.cursor));
    headers.insert(MORE_HEADER, HeaderValue::from_static(if page.more { "true" } else { "false" }));
    Ok(response)
}

fn page(shared: &Shared, store: &store::Sqlite, asked: &Asked) -> Result<Page, store::StoreError> {
    let after = i64::try_from(asked.after).unwrap_or(i64::MAX);
    let most = Most { lines: asked.limit.clamp(1, PULL_LINES_MAX), bytes: PAGE_BYTES };
    let mut page = store.after(&asked.job, after, most)?;
    if page.count == 0 {
        // A cursor beyond the last arrival shows its tablet that this store was set back.
        let (last, _) = shared.tally.last(store, &asked.job)?;
        page.cursor = after.min(i64::try_from(last).unwrap_or(i64::MAX));
    }
    Ok(page)
}
