//! Records as files: out to another device, and in from one, where there is no network at all.

use super::Added;
use super::Device;
use super::card::Card;
use super::database::{Durability, ENTRIES, JOBS, OUTBOX, Transaction, Trouble};
use super::notices::of_trouble;
use super::write::{put_entry, put_waiting};
use leptos::prelude::*;
use record::{Held, MergeError, Record};
use std::collections::BTreeMap;
use wire::WireError;
use wording::Notice;
use wording::device::{Told, told};

/// So many bad lines are named; the rest is counted.
const LINES_NAMED: usize = 5;

impl Device {
    /// The record of a job as the text of a file, one entry a line; empty while it is not read yet.
    pub(crate) fn lines_of(self, job: &str) -> String {
        let (shelf, _) = self.shelf(job);
        shelf.signal.get_untracked().map_or_else(String::new, |record| wire::write_lines(&record))
    }

    /// Hands a text to the browser to be saved as a file; `None` where the browser does not do it.
    pub(crate) fn save_as(self, name: &str, media: &str, text: &str) -> Option<()> {
        let options = web_sys::BlobPropertyBag::new();
        options.set_type(media);
        let parts = js_sys::Array::of1(&text.into());
        let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &options).ok()?;
        let url = web_sys::Url::create_object_url_with_blob(&blob).ok()?;
        let link = web_sys::window()?.document()?.create_element("a").ok()?;
        let link: web_sys::HtmlAnchorElement = wasm_bindgen::JsCast::dyn_into(link).ok()?;
        link.set_href(&url);
        link.set_download(name);
        link.click();
        wasm_bindgen_futures::spawn_local(async move {
            // The browser needs the address until it has begun to save.
            super::time::pause(60_000).await;
            web_sys::Url::revoke_object_url(&url).ok();
        });
        Some(())
    }

    /// Reads a file of signed entries in, of one job or of several: all of it or nothing. Every line is proved
    /// first; what is new is sent to the office too.
    ///
    /// # Errors
    /// A line is no entry or was altered; nothing was kept.
    pub(crate) async fn read_lines(self, text: String) -> Result<Added, Notice> {
        let all = wire::read_lines(&text).map_err(|faults| told(&faulty(&faults)))?;
        if all.is_empty() {
            return Err(told(&Told::FileEmpty));
        }
        let mut jobs: BTreeMap<String, Vec<Held>> = BTreeMap::new();
        for held in all {
            jobs.entry(held.job().to_owned()).or_default().push(held);
        }
        let (mut added, mut fresh) = (Added { new: 0, known: 0 }, BTreeMap::new());
        for (job, held) in jobs {
            let record = self.loaded(&job).await.map_err(|trouble| of_trouble(&trouble))?;
            let file = Record::of(held).map_err(|error| told(&same(&error)))?;
            record.merge(&file).map_err(|error| told(&same(&error)))?;
            let new: Vec<Held> =
                file.entries().filter(|held| record.get(&held.id()).is_none()).cloned().collect();
            added.new += new.len();
            added.known += file.len() - new.len();
            fresh.insert(job, new);
        }
        self.keep_read(&fresh).await.map_err(|trouble| of_trouble(&trouble))?;
        for (job, held) in fresh {
            self.kept(&job, held);
        }
        Ok(added)
    }

    async fn keep_read(self, fresh: &BTreeMap<String, Vec<Held>>) -> Result<(), Trouble> {
        let opened = self.opened().await?;
        let stores = &[ENTRIES, OUTBOX, JOBS];
        let transaction = Transaction::to_write(&opened.database, stores, Durability::Strict)?;
        for (job, held) in fresh {
            for (index, held) in held.iter().enumerate() {
                put_entry(&transaction, held, &wire::write(held))?;
                put_waiting(&transaction, held, index)?;
            }
            let card = transaction.get(JOBS, job).await?;
            if let Some(card) = Card::of_entries(held).or_else(|| card.is_none().then(Card::default)) {
                transaction.put(JOBS, job, &card.row())?;
            }
        }
        transaction.commit().await
    }
}

fn faulty(faults: &[WireError]) -> Told {
    let lines = faults.iter().take(LINES_NAMED).map(ToString::to_string).collect();
    Told::FileLines { lines, count: faults.len() }
}

fn same(error: &MergeError) -> Told {
    match error {
        MergeError::SameId(id) => Told::SameId { id: id.short() },
        MergeError::OtherJob { here, there } => Told::OtherJob { here: here.clone(), there: there.clone() },
    }
}
