//! One round: who is there, what does it hold, and for each job what is lacking on either side.

use super::live::Live;
use super::{Device, LOOK_MS, since_ms};
use crate::device::database::{CURSORS, OUTBOX, REFUSED, Transaction, Trouble, number, text};
use crate::device::network::{self, Ask, Body, Reply, in_address};
use crate::device::notices::of_refusal;
use crate::device::shelf::order_of;
use crate::device::tabs::is_in_front;
use crate::device::time::{now_ms, now_seconds};
use crate::device::{Link, Pairing, RefusedEntry};
use leptos::prelude::*;
use quantity::{Gather, InOrder};
use record::{DeviceId, EntryId, Record};
use std::collections::{BTreeMap, BTreeSet};
use sync::{Answer, Kept, Skew, Status, Tablet, What, wait_ms};
use wire::http::{CURSOR_HEADER, Hello, JobState, Jobs, MORE_HEADER, Pushed, Refusal};
use wording::device::{Told, told};

/// What the office holds is asked again after this time, unless somebody asks for it.
const HOLDS_MS: f64 = 30_000.0;
/// A page or a push may take this long on a poor connection.
const PATIENCE_MS: u32 = 60_000;

/// How a job came out of a round.
enum Came {
    InStep,
    Silent,
    NotPaired,
    PutOff(Refusal),
}

impl Device {
    /// One round; milliseconds until the next.
    pub(super) async fn round(self) -> Result<u32, Trouble> {
        let carrier = self.carrier();
        let mut desk = None;
        if carrier.whole.get() || carrier.failures.get() > 0 || since_ms(carrier.asked_ms.get()) > HOLDS_MS {
            let Some(hello) = self.hello().await else { return Ok(self.came(&Came::Silent)) };
            if !self.meet(&hello).await? {
                return Ok(LOOK_MS);
            }
            let Some(jobs) = jobs().await else { return Ok(self.came(&Came::Silent)) };
            carrier.asked_ms.set(now_ms());
            carrier.whole.set(false);
            desk = Some(jobs.jobs);
        } else if self.pairing.get_untracked().is_none() {
            return Ok(LOOK_MS);
        }
        let mut worst = Came::InStep;
        for job in self.jobs_to_visit(desk.as_deref()).await? {
            let state = desk.as_ref().map(|jobs| state_of(jobs, &job));
            match self.visit(&job, state.as_ref()).await? {
                Came::InStep => {}
                came @ (Came::Silent | Came::NotPaired) => return Ok(self.came(&came)),
                came => worst = came,
            }
        }
        if !self.send_photos().await? {
            worst = Came::Silent;
        }
        self.listen();
        Ok(self.came(&worst))
    }

    async fn hello(self) -> Option<Hello> {
        let left = now_seconds();
        let hello: Hello = network::fetch(&Ask::get("/hello")).await.ok()?.json()?;
        let skew = Skew::between(left, now_seconds(), hello.server_time.seconds());
        if let Some(skew) = skew.filter(|skew| skew.is_notable())
            && self.carrier().told.borrow_mut().insert("clock".to_owned())
        {
            self.tell(told(&Told::ClockOff { ahead: skew.ahead }));
        }
        Some(hello)
    }

    /// Follows the desk's clock, and sees whether it knows this device.
    async fn meet(self, hello: &Hello) -> Result<bool, Trouble> {
        self.follow(hello.clock.clone());
        match (hello.paired, self.pairing.get_untracked()) {
            (true, None) => {
                self.keep_pairing(Pairing { office: hello.office.clone(), name: String::new() }).await?;
            }
            (false, Some(_)) => {
                self.carrier().live.borrow_mut().take();
                self.link(Link::Refused(told(&Told::NotPaired)));
            }
            (_, None) => self.link(Link::NeverPaired),
            (true, Some(_)) => {}
        }
        Ok(hello.paired)
    }

    /// Jobs with something that waits, and jobs of which the office has something that was not seen.
    async fn jobs_to_visit(self, desk: Option<&[JobState]>) -> Result<BTreeSet<String>, Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_read(&opened.database, &[OUTBOX, CURSORS])?;
        let waiting = transaction.all(OUTBOX).await?;
        let mut jobs: BTreeSet<String> = waiting.iter().filter_map(|(_, row)| text(row, "job")).into_set();
        let cursors: BTreeMap<String, u64> = transaction
            .all(CURSORS)
            .await?
            .into_iter()
            .filter_map(|(job, row)| Some((job, number(&row, "cursor")? as u64)))
            .into_map();
        let seen = |job: &str| cursors.get(job).copied().unwrap_or(0);
        let tablets = self.carrier();
        let tablets = tablets.tablets.borrow();
        if let Some(desk) = desk {
            // A job that was visited before is compared whole; another one by its last entry.
            let compared = desk.iter().map(|state| &state.job).chain(cursors.keys());
            let differs =
                |job: &&String| state_of(desk, job).cursor != seen(job) || tablets.contains_key(*job);
            jobs.extend(compared.filter(differs).cloned());
        }
        let arrived = std::mem::take(&mut *self.carrier().arrived.borrow_mut());
        jobs.extend(arrived.into_iter().filter(|(job, cursor)| *cursor > seen(job)).map(|(job, _)| job));
        Ok(jobs)
    }

    /// Asks for one job until nothing is left to ask.
    async fn visit(self, job: &str, state: Option<&JobState>) -> Result<Came, Trouble> {
        let mut tablet = self.tablet(job).await?;
        match state {
            Some(state) => {
                let effects = tablet.desk_holds(state);
                self.keep_effects(job, tablet.kept().cursor, effects).await?;
            }
            None => tablet.look(),
        }
        while let Some(ask) = tablet.ask() {
            if tablet.waiting() > 0 {
                self.link(Link::Sending);
            }
            match self.ask(job, &ask.what).await? {
                None => tablet.lost(ask.number),
                Some(answer) => {
                    let effects = tablet.heard(ask.number, answer);
                    self.keep_effects(job, tablet.kept().cursor, effects).await?;
                }
            }
            if !matches!(tablet.status(), Status::InStep | Status::Behind { .. }) {
                break;
            }
        }
        let came = match tablet.status() {
            Status::InStep | Status::Behind { .. } => Came::InStep,
            Status::NoAnswer { .. } => Came::Silent,
            Status::PutOff { refusal, .. } => Came::PutOff(refusal),
            Status::NotPaired { .. } => Came::NotPaired,
        };
        if matches!(came, Came::InStep) {
            self.carrier().tablets.borrow_mut().insert(job.to_owned(), tablet);
        }
        Ok(came)
    }

    /// The tablet of a job: the one of the last round, where it still tells what is kept.
    async fn tablet(self, job: &str) -> Result<Tablet, Trouble> {
        let record = self.loaded(job).await?;
        let kept = self.kept_of(job).await?;
        let last = self.carrier().tablets.borrow_mut().remove(job);
        if let Some(last) = last.filter(|last| last.kept() == kept) {
            return Ok(last);
        }
        let opened = self.opened().await?;
        let tablet = Tablet::resume(job, opened.key(job).device(), kept, &record);
        if !tablet.missing().is_empty() {
            self.tell(told(&Told::EntriesGone { count: tablet.missing().len() }));
        }
        Ok(tablet)
    }

    async fn kept_of(self, job: &str) -> Result<Kept, Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_read(&opened.database, &[OUTBOX, CURSORS, REFUSED])?;
        let cursor = transaction.get(CURSORS, job).await?.and_then(|row| number(&row, "cursor"));
        let mut waiting = transaction.all(OUTBOX).await?;
        waiting.retain(|(_, row)| text(row, "job").as_deref() == Some(job));
        waiting.put_in_order_by(|(_, one), (_, other)| order_of(one).total_cmp(&order_of(other)));
        let refused = transaction.all(REFUSED).await?;
        let refusal = |(id, row): &(String, wasm_bindgen::JsValue)| {
            let (refused, refusal): (RefusedEntry, Refusal) =
                serde_json::from_str(&text(row, "json")?).ok()?;
            (refused.job == job).then_some((EntryId::from_hex(id)?, refusal))
        };
        Ok(Kept {
            cursor: cursor.unwrap_or(0.0) as u64,
            waiting: waiting.iter().filter_map(|(id, _)| EntryId::from_hex(id)).collect(),
            refused: refused.iter().filter_map(refusal).into_map(),
        })
    }

    /// Carries one question; `None`: no answer, or none that is one.
    async fn ask(self, job: &str, what: &What) -> Result<Option<Answer>, Trouble> {
        let record = self.loaded(job).await?;
        Ok(match what {
            What::Push { ids } => {
                let own = self.opened().await?.key(job).device();
                push(&record, ids, own).await
            }
            What::Pull { after, limit } => pull(job, *after, *limit).await,
        })
    }

    /// Says how the round came out; milliseconds until the next.
    fn came(self, came: &Came) -> u32 {
        let carrier = self.carrier();
        let now = self.now("");
        let failed = !matches!(came, Came::InStep);
        carrier.failures.set(if failed { carrier.failures.get().saturating_add(1) } else { 0 });
        if !matches!(came, Came::Silent) {
            carrier.silent_since.set(None);
        }
        match came {
            Came::InStep => self.link(Link::InStep { at: now }),
            Came::NotPaired => self.link(Link::Refused(told(&Told::NotPaired))),
            Came::PutOff(refusal) => self.link(Link::Refused(of_refusal(refusal))),
            Came::Silent if self.pairing.get_untracked().is_none() => {}
            Came::Silent => {
                let since = carrier.silent_since.get().unwrap_or(now);
                carrier.silent_since.set(Some(since));
                self.link(Link::NoConnection { since });
            }
        }
        if failed {
            // A part of the wait by chance, so that many tablets do not come all at once.
            let chance = (js_sys::Math::random() * f64::from(u32::MAX)) as u64;
            return u32::try_from(wait_ms(carrier.failures.get(), chance)).unwrap_or(LOOK_MS);
        }
        LOOK_MS
    }

    /// Says how it stands with the office.
    pub(in crate::device) fn link(self, link: Link) {
        if self.outbox.with_untracked(|outbox| outbox.link != link) {
            self.outbox.update(|outbox| outbox.link = link);
        }
    }

    /// Opens the line on which the office tells of arrivals, where it is not open.
    fn listen(self) {
        let carrier = self.carrier();
        let open = carrier.live.borrow().as_ref().is_some_and(Live::is_open);
        if !open && is_in_front() {
            *carrier.live.borrow_mut() = Live::open(self);
        }
    }
}

/// What the office holds of a job; nothing, where it does not name it.
fn state_of(desk: &[JobState], job: &str) -> JobState {
    let held = desk.iter().find(|state| state.job == job).cloned();
    held.unwrap_or_else(|| JobState { job: job.to_owned(), entries: 0, cursor: 0, sum: None })
}

async fn jobs() -> Option<Jobs> {
    network::fetch(&Ask::get("/jobs")).await.ok().filter(Reply::is_good)?.json()
}

/// What the office said, or its refusal; a refusal in another shape is no answer of a desk.
fn said(reply: &Reply, good: impl FnOnce(&Reply) -> Option<Answer>) -> Option<Answer> {
    if reply.is_good() { good(reply) } else { reply.json::<Refusal>().map(Answer::Refused) }
}

async fn push(record: &Record, ids: &[EntryId], own: DeviceId) -> Option<Answer> {
    let lines: String =
        ids.iter().filter_map(|id| record.get(id)).map(|held| wire::write(held) + "\n").collect();
    let ask = Ask::post("/entries", Body::Lines(lines, own)).patient(PATIENCE_MS);
    let reply = network::fetch(&ask).await.ok()?;
    said(&reply, |reply| reply.json::<Pushed>().map(Answer::Pushed))
}

async fn pull(job: &str, after: u64, limit: usize) -> Option<Answer> {
    let path = format!("/entries?job={}&after={after}&limit={limit}", in_address(job));
    let ask = Ask::get(&path).patient(PATIENCE_MS);
    let reply = network::fetch(&ask).await.ok()?;
    said(&reply, |reply| {
        let cursor = reply.header(CURSOR_HEADER)?.parse().ok()?;
        let more = reply.header(MORE_HEADER)?.parse().ok()?;
        let lines = reply.text()?.lines().filter(|line| !line.is_empty()).map(str::to_owned).collect();
        Some(Answer::Page { lines, cursor, more })
    })
}
