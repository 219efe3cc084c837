//! The records in memory: each job that was opened, whole, in step with what is kept.
//!
//! Reading trusts what is kept as far as its ids go: whatever came here was proved with its signature when
//! it came (docs/decisions/0011). A line that is damaged since is told, and left where it is.
//!
//! Words: *shelf* = the place of one job in memory.

use super::card::Card;
use super::database::{
    Durability, ENTRIES, JOBS, OUTBOX, PHOTOS_OUT, REFUSED, Transaction, Trouble, number, text,
};
use super::foreseen::Foreseen;
use super::{Device, JobCard, RefusedEntry};
use leptos::prelude::*;
use quantity::Moment;
use record::rehearsal::is_rehearsal_key;
use record::{EntryId, Held, Record};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;
use std::sync::Arc;
use wasm_bindgen::JsValue;
use wire::http::Refusal;
use wording::device::{Told, told};

/// One job in memory.
pub(super) struct Shelf {
    /// `None` until it is read.
    pub(super) signal: ArcRwSignal<Option<Arc<Record>>>,
    /// What was kept while it was being read.
    early: RefCell<Vec<Held>>,
    /// The record as it will be once what is being kept is on the disk.
    pub(super) foreseen: RefCell<Option<Foreseen>>,
    /// Readings wait for each other.
    reading: futures::lock::Mutex<()>,
}

impl Device {
    /// The shelf of a job, empty where it is new.
    pub(super) fn shelf(self, job: &str) -> (Rc<Shelf>, bool) {
        let inner = self.inner();
        let mut shelves = inner.shelves.borrow_mut();
        if let Some(shelf) = shelves.get(job) {
            return (Rc::clone(shelf), false);
        }
        let shelf = Rc::new(Shelf {
            signal: ArcRwSignal::new(None),
            early: RefCell::default(),
            foreseen: RefCell::default(),
            reading: futures::lock::Mutex::new(()),
        });
        shelves.insert(job.to_owned(), Rc::clone(&shelf));
        (shelf, true)
    }

    /// The record of a job, read from storage when that was not done yet.
    pub(super) async fn loaded(self, job: &str) -> Result<Arc<Record>, Trouble> {
        let (shelf, _) = self.shelf(job);
        let reading = shelf.reading.lock().await;
        if let Some(record) = shelf.signal.get_untracked() {
            return Ok(record);
        }
        let mut held = self.read_job(job).await?;
        held.append(&mut shelf.early.borrow_mut());
        let record = Arc::new(record_of(held));
        self.know(job, &record).await?;
        // Whoever has the record shows and stamps the time of the job.
        self.inner().clocks_known.clone().await.ok();
        shelf.signal.set(Some(Arc::clone(&record)));
        drop(reading);
        Ok(record)
    }

    /// The record of a job once it is read; `None` where that failed, which is told.
    pub(crate) async fn whole_record(self, job: &str) -> Option<Arc<Record>> {
        match self.loaded(job).await {
            Ok(record) => Some(record),
            Err(trouble) => {
                self.tell_trouble(&trouble);
                None
            }
        }
    }

    async fn read_job(self, job: &str) -> Result<Vec<Held>, Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_read(&opened.database, &[ENTRIES])?;
        let rows = transaction.of_job(ENTRIES, job).await?;
        Ok(self.held_of_rows(job, &rows))
    }

    fn held_of_rows(self, job: &str, rows: &[JsValue]) -> Vec<Held> {
        let read = |row: &JsValue| wire::read_kept(&text(row, "line")?).ok();
        let held: Vec<Held> = rows.iter().filter_map(read).collect();
        let count = rows.len() - held.len();
        if count > 0 {
            self.tell(told(&Told::LineDamaged { job: job.to_owned(), count }));
        }
        held
    }

    /// Learns title and zone of a job from its record; a correction of its opening may have changed them.
    async fn know(self, job: &str, record: &Record) -> Result<(), Trouble> {
        let Some(card) = Card::of_record(record) else { return Ok(()) };
        self.learn_card(job, &card);
        let opened = self.opened().await?;
        let transaction = Transaction::to_write(&opened.database, &[JOBS], Durability::Relaxed)?;
        if transaction.get(JOBS, job).await?.is_none_or(|row| Card::of_row(&row) != card) {
            transaction.put(JOBS, job, &card.row())?;
            transaction.commit().await?;
        }
        Ok(())
    }

    fn learn_card(self, job: &str, card: &Card) {
        if let Some(zone) = &card.zone {
            self.learn_zone(job, zone);
        }
    }

    /// Entries are kept: they stand in the record from now on.
    pub(super) fn take_in(self, job: &str, held: Vec<Held>) {
        if let Some(card) = Card::of_entries(&held) {
            self.learn_card(job, &card);
        }
        let inner = self.inner();
        let Some(shelf) = inner.shelves.borrow().get(job).cloned() else { return };
        let Some(record) = shelf.signal.get_untracked() else {
            shelf.early.borrow_mut().extend(held);
            return;
        };
        if let Some(record) = shelf.foreseen_or_merged(&record, held) {
            shelf.signal.set(Some(record));
        }
    }

    /// Reads what another tab kept of a job.
    pub(super) async fn refresh_job(self, job: &str) -> Result<(), Trouble> {
        let inner = self.inner();
        let shelf = inner.shelves.borrow().get(job).cloned();
        let record = shelf.and_then(|shelf| shelf.signal.get_untracked());
        if let Some(record) = record {
            let opened = self.opened().await?;
            let transaction = Transaction::to_read(&opened.database, &[ENTRIES])?;
            let lacks = |id: &String| EntryId::from_hex(id).is_some_and(|id| record.get(&id).is_none());
            let missing: Vec<String> =
                transaction.keys_of_job(ENTRIES, job).await?.into_iter().filter(lacks).collect();
            let mut rows = Vec::new();
            for id in &missing {
                rows.extend(transaction.get(ENTRIES, id).await?);
            }
            if !rows.is_empty() {
                self.take_in(job, self.held_of_rows(job, &rows));
            }
        }
        self.refresh_jobs().await?;
        self.refresh_outbox().await
    }

    /// The list of jobs as it is kept.
    pub(super) async fn refresh_jobs(self) -> Result<(), Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_read(&opened.database, &[JOBS, ENTRIES])?;
        let mut cards = Vec::new();
        for (name, row) in transaction.all(JOBS).await? {
            let card = Card::of_row(&row);
            self.learn_card(&name, &card);
            let entries = transaction.count_of_job(ENTRIES, &name).await?;
            let rehearsal = card.rehearsal || is_rehearsal_key(&name);
            cards.push(JobCard { name, title: card.title, entries, rehearsal });
        }
        if self.jobs.get_untracked() != cards {
            self.jobs.set(cards);
        }
        Ok(())
    }

    /// What waits, as it is kept.
    pub(super) async fn refresh_outbox(self) -> Result<(), Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_read(&opened.database, &[OUTBOX, REFUSED, PHOTOS_OUT])?;
        let waiting = transaction.count(OUTBOX).await?;
        let oldest = transaction.first(OUTBOX).await?;
        let refused: Vec<RefusedEntry> =
            transaction.all(REFUSED).await?.into_iter().filter_map(|(_, row)| refused_of(&row)).collect();
        let photos = transaction.count(PHOTOS_OUT).await?;
        let since = oldest.as_ref().and_then(|row| text(row, "entered"));
        self.outbox.update(|outbox| {
            outbox.counted = true;
            outbox.waiting = waiting;
            outbox.since = since.and_then(|entered| Moment::parse(&entered).ok());
            outbox.refused = refused.len();
            outbox.photos = photos;
        });
        if self.refused.get_untracked() != refused {
            self.refused.set(refused);
        }
        Ok(())
    }

    /// Entries were kept that wait for the office: their number is told at once, before anybody counts.
    pub(super) fn count_new(self, held: &[Held]) {
        let Some(first) = held.first() else { return };
        let entered = entered_at(first);
        self.outbox.update(|outbox| {
            outbox.waiting += held.len();
            outbox.since = outbox.since.or(Some(entered));
        });
    }

    /// Counts again, after something was kept.
    pub(super) async fn refresh_counts(self) {
        let counted = match self.refresh_jobs().await {
            Ok(()) => self.refresh_outbox().await,
            trouble => trouble,
        };
        if let Err(trouble) = counted {
            self.tell_trouble(&trouble);
        }
    }
}

/// A record of proved entries. One that belongs to another job cannot be among them: the store keeps them
/// by the job that stands in the entry.
fn record_of(held: Vec<Held>) -> Record {
    let mut seen = BTreeSet::new();
    let once = held.into_iter().filter(|held| seen.insert(held.id()));
    Record::of(once).unwrap_or_default()
}

fn refused_of(row: &JsValue) -> Option<RefusedEntry> {
    serde_json::from_str::<(RefusedEntry, Refusal)>(&text(row, "json")?).ok().map(|(refused, _)| refused)
}

/// When an entry was entered; of one of a newer version only the time it was seen is known.
pub(super) fn entered_at(held: &Held) -> Moment {
    match held {
        Held::Known(entry) => entry.entered_at,
        Held::Newer(newer) => newer.observed_at,
    }
}

/// The place of a row among those that wait.
pub(super) fn order_of(row: &JsValue) -> f64 {
    number(row, "order").unwrap_or(f64::MAX)
}
