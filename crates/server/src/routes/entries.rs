//! Entries come in and go out, as the lines they are.

use crate::answer::{Refused, json};
use crate::body::Incoming;
use crate::door::Asker;
use crate::gate::writes;
use crate::running::{Shared, waiting};
use crate::says::{self, Overstep, Target, decides_about, oversteps};
use crate::{tally, time};
use axum::body::Body;
use axum::extract::rejection::QueryRejection;
use axum::extract::{Query, State};
use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::{IntoResponse, Response};
use quantity::Moment;
use record::{DeviceId, EntryId, Held};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::{Arc, PoisonError};
use store::{Kept, Known, Line, Most, Page, Role, SetAside, Store};
use sync::desk::{Offered, Taken};
use tokio::time::timeout;
use wire::http::{
    CURSOR_HEADER, Code, LineAnswer, MORE_HEADER, OWN_KEY_HEADER, PULL_LINES_MAX, Pushed, Refusal,
    State as LineState,
};

/// Bytes of one page of lines.
const PAGE_BYTES: usize = 4 * 1024 * 1024;

/// Keys of devices remembered.
const OWN_KEYS: usize = 10_000;

/// An entry whose clock is further from the site's than this, either way, is told so.
const FAR_SECONDS: u64 = 24 * 60 * 60;

/// `POST /entries`.
pub(crate) async fn push(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
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
    let clocks = Arc::clone(&shared);
    let (offered, mut answers) = waiting(move || prove(&bytes, |job| clocks.site_time(job))).await;
    owns(&shared, &asker, &headers).await?;
    let sorted = sorted(&shared, &asker, offered, &mut answers).await?;
    let kept = if sorted.keep.is_empty() { Vec::new() } else { shared.writer.add(sorted.keep).await? };
    answered(&mut answers, &sorted.kept_at, &kept);
    for (device, lines, places) in sorted.aside {
        set_aside(&shared, (device, lines), &places, &mut answers).await?;
    }
    for (place, overstep) in sorted.overstepped {
        told_why(&mut answers[place], &asker, &overstep);
    }
    drop(room);
    shared.meter.brought(&answers);
    let cursor = shared.read(tally::last).await?;
    json(&Pushed { answers, cursor })
}

/// What becomes of the lines of a delivery, each with its place among the answers.
#[derive(Default)]
struct Sorted {
    keep: Vec<Line>,
    kept_at: Vec<usize>,
    /// By the device under which they are set aside.
    aside: Vec<(i64, Vec<Line>, Vec<usize>)>,
    /// Those of them that say what another would have to say.
    overstepped: Vec<(usize, Overstep)>,
}

impl Sorted {
    fn set_aside(&mut self, device: i64, line: Line, place: usize) {
        match self.aside.iter_mut().find(|(number, ..)| *number == device) {
            Some((_, lines, places)) => {
                lines.push(line);
                places.push(place);
            }
            None => self.aside.push((device, vec![line], vec![place])),
        }
    }
}

/// Each proved line goes into the record, is set aside, or is refused for want of a role.
async fn sorted(
    shared: &Arc<Shared>,
    asker: &Asker,
    offered: Vec<Offered>,
    answers: &mut [LineAnswer],
) -> Result<Sorted, Refused> {
    let owners = owners_gone(shared, &offered).await?;
    let struck = words_struck(shared, asker, &offered).await?;
    let places: Vec<usize> = (0..answers.len()).filter(|at| answers[*at].refusal.is_none()).collect();
    let people: Vec<&Known> = asker.people().collect();
    let mut sorted = Sorted::default();
    for ((place, offered), (owner, struck)) in
        places.into_iter().zip(offered).zip(owners.into_iter().zip(struck))
    {
        let of_gone = asker.gone_device().map(|device| device.number).or(owner);
        let allowed = of_gone.is_some() || writes(asker, offered.held.job(), kind(&offered.held));
        let judged = asker.peopled && of_gone.is_none();
        let overstep = if judged { oversteps(&people, &offered.held, &struck) } else { None };
        let line = Line::proved(&offered.held, offered.line);
        match (of_gone, overstep) {
            _ if !allowed => refuse(&mut answers[place], asker, line.job()),
            (Some(device), _) => sorted.set_aside(device, line, place),
            (None, Some(overstep)) => match asker.device.as_ref() {
                Some((device, _)) => {
                    sorted.set_aside(device.number, line, place);
                    sorted.overstepped.push((place, overstep));
                }
                None => refuse(&mut answers[place], asker, line.job()),
            },
            (None, None) => {
                sorted.keep.push(line);
                sorted.kept_at.push(place);
            }
        }
    }
    Ok(sorted)
}

fn kind(held: &Held) -> Option<&'static str> {
    match held {
        Held::Known(entry) => Some(entry.body.kind().word),
        Held::Newer(_) => None,
    }
}

fn refuse(answer: &mut LineAnswer, asker: &Asker, job: &str) {
    let name = asker.name().unwrap_or("This device");
    let what = format!("{name} has no role on the job `{job}` that allows this entry.");
    answer.state = LineState::Refused;
    answer.refusal = Some(Refusal::new(Code::NO_ROLE, what));
}

/// Why a line is set aside that is for another to say; one that is in the record already stays there.
fn told_why(answer: &mut LineAnswer, asker: &Asker, overstep: &Overstep) {
    if answer.state == LineState::Refused {
        let name = asker.people().next().map_or_else(|| "nobody".to_owned(), |known| known.person.known_as());
        let what = match overstep {
            Overstep::Role => {
                format!("{name} has no role on the job that lets them say this: it is for another to say.")
            }
            Overstep::Name(typed) => format!(
                "It stands in the name of {typed}, and this device is that of {name}. A manager of the office writes \
                 down which name {name} signs with."
            ),
            Overstep::Struck => {
                format!(
                    "It strikes through what another said, and {name} has no role on the job that lets them."
                )
            }
        };
        answer.refusal = Some(Refusal::new(Code::SET_ASIDE, what));
    }
}

/// Of each line the roles of the words it strikes through or decides about. What it is about may come in the same delivery, in
/// whatever order, or be here already; what is neither cannot be judged.
async fn words_struck(
    shared: &Arc<Shared>,
    asker: &Asker,
    offered: &[Offered],
) -> Result<Vec<Vec<&'static [Role]>>, Refused> {
    let decides = |offered: &Offered| matches!(&offered.held, Held::Known(entry) if decides_about(&entry.body).is_some());
    if !asker.peopled || !offered.iter().any(decides) {
        return Ok(vec![Vec::new(); offered.len()]);
    }
    let all: Vec<Held> = offered.iter().map(|offered| offered.held.clone()).collect();
    let asked = move |store: &store::Database| {
        let here: BTreeMap<EntryId, Target> = all.iter().map(|held| (held.id(), Target::of(held))).collect();
        let find = |id: EntryId| match here.get(&id) {
            Some(target) => Ok(Some(*target)),
            None => Ok(store.entry(&id.to_string())?.map(|held| Target::of(&held))),
        };
        all.iter().map(|held| says::struck(held, find)).collect()
    };
    Ok(shared.read(asked).await?)
}

/// The device under which each line has to be set aside, because it was let go and signed it, or because the line is aside
/// already: pairing a device again lets nothing in by itself. Nothing: it may go into the record.
async fn owners_gone(shared: &Arc<Shared>, offered: &[Offered]) -> Result<Vec<Option<i64>>, Refused> {
    let named = |offered: &Offered| (offered.held.id().to_string(), offered.held.place().0.to_string());
    let named: Vec<(String, String)> = offered.iter().map(named).collect();
    let asked = move |store: &store::Database| {
        let mut keys = BTreeMap::new();
        let mut owners = Vec::with_capacity(named.len());
        for (id, key) in named {
            if !keys.contains_key(&key) {
                keys.insert(key.clone(), store.gone_owner(&key)?);
            }
            let of_key = keys.get(&key).copied().flatten();
            owners.push(of_key.map_or_else(|| store.aside_under(&id), |owner| Ok(Some(owner)))?);
        }
        Ok(owners)
    };
    Ok(shared.read(asked).await?)
}

/// Keeps which key the device calls its own, once.
async fn owns(shared: &Shared, asker: &Asker, headers: &HeaderMap) -> Result<(), Refused> {
    let key = headers.get(OWN_KEY_HEADER).and_then(|key| DeviceId::from_hex(key.to_str().ok()?));
    let device = asker.device.as_ref().map(|(device, _)| device.number);
    let Some((key, device)) = key.map(|key| key.to_string()).zip(device) else { return Ok(()) };
    let new = |shared: &Shared, key: &str| {
        let mut own = shared.own_keys.lock().unwrap_or_else(PoisonError::into_inner);
        if own.len() > OWN_KEYS {
            own.clear();
        }
        own.insert((key.to_owned(), device))
    };
    if new(shared, &key) {
        shared.writer.ask(move |store| store.own_key(&key, device)).await?;
    }
    Ok(())
}

async fn set_aside(
    shared: &Shared,
    (device, lines): (i64, Vec<Line>),
    places: &[usize],
    answers: &mut [LineAnswer],
) -> Result<(), Refused> {
    let now = time::now().seconds();
    let put = shared.writer.ask(move |store| store.set_aside(&lines, device, now)).await?;
    for (place, put) in places.iter().zip(put) {
        match put {
            Some(kept) => sync::desk::answer(&mut answers[*place], taken(kept)),
            None => {
                let what =
                    "The device that wrote or brought this entry was let go, or it was set aside before.";
                answers[*place].state = LineState::Refused;
                answers[*place].refusal = Some(Refusal::new(Code::SET_ASIDE, what));
            }
        }
    }
    Ok(())
}

/// Room for a body as large as it says it is, or as large as it may be. A small one waits for little room, so
/// that a few that come slowly do not keep everybody out.
fn kilobytes(headers: &HeaderMap, most: usize) -> u32 {
    let said = headers.get(header::CONTENT_LENGTH).and_then(|said| said.to_str().ok()?.parse::<usize>().ok());
    u32::try_from(said.unwrap_or(most).min(most) / 1024 + 1).unwrap_or(u32::MAX)
}

/// The good lines, and an answer a line. Bytes that are no text are one bad character of their line.
fn prove(bytes: &[u8], now: impl Fn(&str) -> Moment) -> (Vec<Offered>, Vec<LineAnswer>) {
    let (offered, mut answers) = sync::desk::read(&String::from_utf8_lossy(bytes));
    let good = answers.iter_mut().filter(|answer| answer.refusal.is_none());
    for (offered, answer) in offered.iter().zip(good) {
        answer.notice = far(&offered.held, &now);
    }
    (offered, answers)
}

/// What is told of an entry whose clock was far from the site's.
fn far(held: &Held, now: impl Fn(&str) -> Moment) -> Option<Refusal> {
    let Held::Known(entry) = held else { return None };
    let now = now(&entry.job).seconds();
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

fn taken(kept: Kept) -> Taken {
    match kept {
        Kept::New(_) => Taken::Stored,
        Kept::Known(_) => Taken::Known,
        Kept::Contradicts => Taken::SameId,
    }
}

fn answered(answers: &mut [LineAnswer], places: &[usize], kept: &[Kept]) {
    for (place, kept) in places.iter().zip(kept) {
        sync::desk::answer(&mut answers[*place], taken(*kept));
    }
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
    asked: Result<Query<Asked>, QueryRejection>,
) -> Result<Response, Refused> {
    let Query(asked) = asked.map_err(|error| {
        let what = "The address asks for no page: `job` names a job, `after` and `limit` are whole numbers.";
        Refused::new(Code::MALFORMED, what).inside(error)
    })?;
    let page = shared.read(move |store| page(store, &asked)).await?;
    let mut response = page.lines.into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static("application/jsonl"));
    headers.insert(CURSOR_HEADER, HeaderValue::from(page.cursor));
    headers.insert(MORE_HEADER, HeaderValue::from_static(if page.more { "true" } else { "false" }));
    Ok(response)
}

fn page(store: &store::Database, asked: &Asked) -> Result<Page, store::StoreError> {
    let after = i64::try_from(asked.after).unwrap_or(i64::MAX);
    let most = Most { lines: asked.limit.clamp(1, PULL_LINES_MAX), bytes: PAGE_BYTES };
    let mut page = store.after(&asked.job, after, most)?;
    if page.count == 0 {
        // A cursor beyond the last arrival shows its tablet that this store was set back.
        let last = tally::last_of(store, &asked.job)?;
        page.cursor = after.min(i64::try_from(last).unwrap_or(i64::MAX));
    }
    Ok(page)
}
