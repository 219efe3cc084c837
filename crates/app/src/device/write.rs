//! Signing and keeping: the one way an entry leaves a screen.
//!
//! The last entry of this device is read inside the same transaction that keeps the next, so two tabs that
//! write at once come one after the other and never under one number.
//!
//! Never: give an id back before the browser said that the transaction is complete.

use super::card::Card;
use super::database::{
    Durability, ENTRIES, FORMS, HEADS, JOBS, OUTBOX, Row, Transaction, Trouble, number, text,
};
use super::notices::of_trouble;
use super::practice::kept_as;
use super::shelf::entered_at;
use super::tabs::News;
use super::time::{now_ms, shown};
use super::{Device, Pending, Storage};
use futures::future::join3;
use leptos::prelude::*;
use record::kinds::JobOpened;
use record::{Body, Entry, EntryId, Held};
use wasm_bindgen_futures::spawn_local;
use wire::{Pen, Times};
use wording::Notice;
use wording::device::{Told, told};

/// The stores a new entry touches.
const TOUCHED: &[&str] = &[ENTRIES, OUTBOX, HEADS, JOBS, FORMS];

/// Longest name of a job, characters. It stands in every entry.
const JOB_NAME_MOST: usize = 40;

impl Device {
    /// Signs and keeps an entry. When this gives its id, it is on the disk.
    ///
    /// # Errors
    /// It could not be kept; the form must keep what was entered.
    pub(crate) async fn write(self, pending: Pending) -> Result<EntryId, Notice> {
        self.write_of_form(pending, None).await
    }

    /// The same for an entry that was filled in: its half-filled form goes in the moment the entry is kept, so
    /// that neither is ever there with the other. `form` is the key it was kept under.
    ///
    /// # Errors
    /// It could not be kept; the form is kept still.
    pub(crate) async fn write_of_form(
        self,
        pending: Pending,
        form: Option<String>,
    ) -> Result<EntryId, Notice> {
        let job = pending.job.clone();
        let entries = self.sign_pending(&job, vec![pending], form).await?;
        Ok(entries[0].id)
    }

    /// Signs and keeps entries of one job: all or none.
    ///
    /// # Errors
    /// They could not be kept; none of them is.
    pub(crate) async fn write_all(self, job: &str, pending: Vec<Pending>) -> Result<usize, Notice> {
        if let Some(other) = pending.iter().find(|pending| pending.job != job) {
            return Err(told(&Told::OtherJob { here: job.to_owned(), there: other.job.clone() }));
        }
        Ok(self.sign_pending(job, pending, None).await?.len())
    }

    /// Opens a job on this device.
    ///
    /// # Errors
    /// The name is taken or not one; it could not be kept.
    pub(crate) async fn begin_job(self, job: &str, opened: JobOpened) -> Result<EntryId, Notice> {
        if !is_job_name(job) {
            return Err(told(&Told::JobName { found: job.to_owned() }));
        }
        if self.jobs.get_untracked().iter().any(|card| card.name == job) {
            return Err(told(&Told::JobTaken { job: job.to_owned() }));
        }
        self.learn_zone(job, &opened.time_zone);
        let observed_at = self.now(job);
        let body = Body::JobOpened(opened);
        self.write(Pending { job: job.to_owned(), shaft: None, observed_at, noted_at: None, body }).await
    }

    async fn sign_pending(
        self,
        job: &str,
        pending: Vec<Pending>,
        form: Option<String>,
    ) -> Result<Vec<Entry>, Notice> {
        let author = self.author.get_untracked().trim().to_owned();
        if author.is_empty() {
            return Err(told(&Told::NobodyNamed));
        }
        let entered_at = self.now(job);
        let under = Under { author: &author, form: form.as_deref() };
        self.sign(job, under, move |pen| {
            let sign = |pending: Pending| {
                let Pending { observed_at, noted_at, .. } = pending;
                pen.write(pending.shaft.as_deref(), Times { observed_at, noted_at, entered_at }, pending.body)
            };
            pending.into_iter().map(sign).collect()
        })
        .await
    }

    /// Signs what `write` writes with the pen of this device, and keeps it: all or none.
    pub(super) async fn sign(
        self,
        job: &str,
        under: Under<'_>,
        write: impl FnOnce(&mut Pen<'_>) -> Vec<Entry>,
    ) -> Result<Vec<Entry>, Notice> {
        let inner = self.inner();
        inner.writing.set(inner.writing.get() + 1);
        let kept = self.keep(job, under, write).await;
        inner.writing.set(inner.writing.get() - 1);
        match kept {
            Ok(entries) => {
                self.room_again();
                self.kept(job, entries.iter().cloned().map(Held::Known).collect());
                Ok(entries)
            }
            Err(trouble) => {
                if trouble == Trouble::Full {
                    self.storage.set(Storage::Full(of_trouble(&trouble)));
                }
                Err(of_trouble(&trouble))
            }
        }
    }

    async fn keep(
        self,
        job: &str,
        under: Under<'_>,
        write: impl FnOnce(&mut Pen<'_>) -> Vec<Entry>,
    ) -> Result<Vec<Entry>, Trouble> {
        let opened = self.opened().await?;
        let key = opened.key(job);
        let transaction = Transaction::to_write(&opened.database, TOUCHED, Durability::Strict)?;
        let practice = kept_as(job);
        let (card, kept) = (transaction.get(JOBS, job), transaction.get(FORMS, &practice));
        let (head, card, practice) = join3(head(&transaction, job), card, kept).await;
        let (head, card) = (head?, card?);
        // A practice stays on this device.
        let travels = practice?.is_none();
        let mut pen = Pen::new(&key, job, under.author, head);
        let entries = write(&mut pen);
        let held: Vec<Held> = entries.iter().cloned().map(Held::Known).collect();
        for (index, held) in held.iter().enumerate() {
            put_entry(&transaction, held, &wire::write(held))?;
            if travels {
                put_waiting(&transaction, held, index)?;
            }
        }
        if let Some(last) = entries.last() {
            put_head(&transaction, job, last)?;
        }
        let opening = Card::of_entries(&held);
        if let Some(card) = opening.or_else(|| card.is_none().then(Card::default)) {
            transaction.put(JOBS, job, &card.row())?;
        }
        if let Some(form) = under.form {
            transaction.delete(FORMS, form)?;
        }
        transaction.commit_while(|| self.foresee(job, &held)).await?;
        Ok(entries)
    }

    /// Entries are on the disk: the record, the other tabs and the office hear of them.
    ///
    /// The screen comes first: counting what is kept and carrying it wait until it has shown what the entry means.
    pub(super) fn kept(self, job: &str, held: Vec<Held>) {
        // What is practised does not wait for the office.
        if self.practice_now(job).is_none() {
            self.count_new(&held);
        }
        self.take_in(job, held);
        self.tell_tabs(&News::Entries { job: job.to_owned() });
        spawn_local(async move {
            shown().await;
            self.refresh_counts().await;
            self.wake();
        });
    }
}

/// Under which name entries are signed, and of which half-filled form they are made.
#[derive(Clone, Copy)]
pub(super) struct Under<'a> {
    pub(super) author: &'a str,
    pub(super) form: Option<&'a str>,
}

/// The last entry this device wrote in a job.
async fn head(transaction: &Transaction, job: &str) -> Result<Option<(u64, EntryId)>, Trouble> {
    let Some(row) = transaction.get(HEADS, job).await? else { return Ok(None) };
    let head = number(&row, "seq").zip(text(&row, "id").and_then(|id| EntryId::from_hex(&id)));
    // A head that cannot be read must not begin the chain anew.
    let (seq, id) = head.ok_or_else(|| Trouble::Other(format!("the last entry of {job} is damaged")))?;
    Ok(Some((seq as u64, id)))
}

fn put_head(transaction: &Transaction, job: &str, last: &Entry) -> Result<(), Trouble> {
    let row = Row::new().with("seq", last.seq as f64).with("id", last.id.to_string());
    transaction.put(HEADS, job, &row.into())
}

/// Puts an entry to those that are kept.
pub(super) fn put_entry(transaction: &Transaction, held: &Held, line: &str) -> Result<(), Trouble> {
    let row = Row::new().with("job", held.job()).with("line", line).with("arrival", now_ms());
    transaction.put(ENTRIES, &held.id().to_string(), &row.into())
}

/// Puts an entry to those that wait for the office, in the order they came.
pub(super) fn put_waiting(transaction: &Transaction, held: &Held, index: usize) -> Result<(), Trouble> {
    let entered = entered_at(held);
    // Thousandths of a millisecond: room for the entries of one transaction between two moments.
    let order = now_ms().floor() * 1000.0 + index as f64;
    let row = Row::new().with("job", held.job()).with("order", order).with("entered", entered.to_string());
    transaction.put(OUTBOX, &held.id().to_string(), &row.into())
}

/// Small letters, digits and hyphens, as in field notes.
fn is_job_name(name: &str) -> bool {
    let allowed = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    (1..=JOB_NAME_MOST).contains(&name.len()) && name.bytes().all(allowed)
}
