//! What an answer changed, kept: rows of one transaction, then the record, the other tabs, the notices.

use super::Device;
use crate::device::RefusedEntry;
use crate::device::card::Card;
use crate::device::database::{
    CURSORS, Durability, ENTRIES, JOBS, OUTBOX, REFUSED, Row, Transaction, Trouble,
};
use crate::device::notices::of_refusal;
use crate::device::tabs::News;
use crate::device::write::{put_entry, put_waiting};
use record::{Held, Record};
use sync::{Doubt, Effect};
use wording::device::{Told, told};

const STORES: &[&str] = &[ENTRIES, OUTBOX, CURSORS, REFUSED, JOBS];

impl Device {
    /// Keeps the effects of one answer, all or none; `cursor` is how far the office was seen.
    pub(super) async fn keep_effects(
        self,
        job: &str,
        cursor: u64,
        effects: Vec<Effect>,
    ) -> Result<(), Trouble> {
        if effects.is_empty() {
            return Ok(());
        }
        let record = self.loaded(job).await?;
        let opened = self.opened().await?;
        let transaction = Transaction::to_write(&opened.database, STORES, Durability::Strict)?;
        let card = transaction.get(JOBS, job).await?;
        for effect in &effects {
            put_effect(&transaction, (job, &record), effect)?;
        }
        transaction.put(CURSORS, job, &Row::new().with("cursor", cursor as f64).into())?;
        let new = new_of(&effects);
        if let Some(card) = Card::of_entries(&new).or_else(|| card.is_none().then(Card::default)) {
            transaction.put(JOBS, job, &card.row())?;
        }
        transaction.commit().await?;
        self.tell_effects(job, effects);
        if !new.is_empty() {
            self.take_in(job, new);
        }
        self.tell_tabs(&News::Entries { job: job.to_owned() });
        self.refresh_counts().await;
        Ok(())
    }

    fn tell_effects(self, job: &str, effects: Vec<Effect>) {
        for effect in effects {
            let notice = match effect {
                Effect::Acknowledged { .. } | Effect::Keep { .. } => continue,
                Effect::Refused { refusal, .. } => of_refusal(&refusal),
                Effect::Cloned { device, seq, own, .. } => {
                    told(&Told::Cloned { device: device.short(), seq, own })
                }
                Effect::Doubted { doubt, .. } => {
                    let why = match doubt {
                        Doubt::Fault(fault) => fault.to_string(),
                        Doubt::OtherJob(other) => format!("it belongs to job {other}"),
                    };
                    told(&Told::DeskLineDoubted { job: job.to_owned(), why })
                }
                Effect::SetBack { offered } => told(&Told::DeskSetBack { job: job.to_owned(), offered }),
            };
            self.tell(notice);
        }
    }
}

fn new_of(effects: &[Effect]) -> Vec<Held> {
    let new = effects.iter().filter_map(|effect| match effect {
        Effect::Keep { entries, .. } => Some(entries),
        _ => None,
    });
    new.flatten().map(|arrived| arrived.held.clone()).collect()
}

fn put_effect(
    transaction: &Transaction,
    (job, record): (&str, &Record),
    effect: &Effect,
) -> Result<(), Trouble> {
    match effect {
        Effect::Acknowledged { ids } => {
            for id in ids {
                transaction.delete(OUTBOX, &id.to_string())?;
                transaction.delete(REFUSED, &id.to_string())?;
            }
        }
        Effect::Keep { entries, .. } => {
            for arrived in entries {
                put_entry(transaction, &arrived.held, &arrived.line)?;
            }
        }
        Effect::Refused { id, refusal } => {
            transaction.delete(OUTBOX, &id.to_string())?;
            let refused = RefusedEntry {
                id: id.to_string(),
                job: job.to_owned(),
                what: refusal.what.clone(),
                meaning: refusal.meaning.clone(),
                next: refusal.next.clone(),
            };
            let json = serde_json::to_string(&(refused, refusal)).unwrap_or_default();
            transaction.put(
                REFUSED,
                &id.to_string(),
                &Row::new().with("job", job).with("json", json).into(),
            )?;
        }
        Effect::SetBack { .. } => {
            for (index, held) in record.entries().enumerate() {
                put_waiting(transaction, held, index)?;
            }
        }
        Effect::Cloned { .. } | Effect::Doubted { .. } => {}
    }
    Ok(())
}
