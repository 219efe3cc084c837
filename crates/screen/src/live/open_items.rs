//! The screen of open items: what waits for a person on every shaft of a job, whose move it is, and what is
//! lacking before a shaft can be sealed.
//!
//! Each item names the entries that would settle it, with what is known of them already, so that a decision is a
//! tap and a reason.
//!
//! Words: *mine* = it waits for the one who writes on this device, by name or by the part they play on the job.
//! Never: settle an item; hide one because it is not mine.

mod steps;

use super::looked::Looked;
use super::people::{PersonRow, people};
use assess::open_items::{OpenItem, WaitsFor, open_items as found};
use assess::ready::{Lack, lacks};
use quantity::{InOrder, Moment};
use record::Record;
use steps::{about, key, steps};
use wording::label;

/// What waits on a job.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct OpenItems {
    /// Shafts on which something waits, or which can be sealed or are.
    pub shafts: Vec<OpenShaft>,
    /// For whom how many items wait, the most first.
    pub whom: Vec<(String, usize)>,
    /// How many of them wait for the one who writes on this device.
    pub mine: usize,
}

/// What waits on a shaft.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenShaft {
    /// Its name.
    pub name: String,
    /// The stage of the work.
    pub stage: &'static str,
    /// What waits.
    pub rows: Vec<OpenRow>,
    /// When and by whom it was sealed, and what came after; empty where it is not.
    pub sealed: String,
    /// What else is lacking before it can be sealed: gaps in chains, entries of a newer version.
    pub lacks: Vec<String>,
    /// Nothing is lacking, and nothing of it is under a seal yet.
    pub ready: bool,
}

/// One open item.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OpenRow {
    /// Stable while it is about the same thing.
    pub id: String,
    /// Stable word of what waits: `finding`.
    pub word: &'static str,
    /// What is to be done: `To decide`.
    pub lead: &'static str,
    /// For whom: `the engineer (I. Vane)`.
    pub waits_for: String,
    /// It waits for the one who writes on this device.
    pub mine: bool,
    /// Since when; empty where that cannot be told.
    pub since: String,
    /// What happened.
    pub what: String,
    /// What it means for the record.
    pub meaning: String,
    /// What to do now.
    pub next: String,
    /// The entries that would settle it.
    pub steps: Vec<Step>,
    /// The entry it rests on: questions and comments are about it. Empty where there is none.
    pub about: String,
}

/// An entry that would settle something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Word of its kind.
    pub kind: &'static str,
    /// What stands on its key.
    pub label: String,
    /// Fields known already: name and text.
    pub known: Vec<(&'static str, String)>,
}

/// What waits on every shaft of a job, at a moment; `author` writes on this device.
pub fn open_items(record: &Record, at: Moment, author: &str) -> OpenItems {
    let whole = Looked::at(record, "", at);
    let by = By { people: people(&whole.log), author: author.trim() };
    let shafts = record.shafts().into_iter().map(|shaft| by.shaft(&Looked::at(record, shaft, at)));
    let shown = |shaft: &OpenShaft| !shaft.rows.is_empty() || !shaft.sealed.is_empty() || shaft.ready;
    let shafts: Vec<OpenShaft> = shafts.filter(shown).collect();
    let rows = || shafts.iter().flat_map(|shaft| &shaft.rows);
    let mut whom: Vec<(String, usize)> = Vec::new();
    for row in rows() {
        match whom.iter_mut().find(|(name, _)| *name == row.waits_for) {
            Some((_, count)) => *count += 1,
            None => whom.push((row.waits_for.clone(), 1)),
        }
    }
    whom.put_in_order_by_made_key(|(name, count)| (usize::MAX - count, name.clone()));
    OpenItems { whom, mine: rows().filter(|row| row.mine).count(), shafts }
}

/// For whom the items of a shaft wait, one for each.
pub(super) fn waits_for(looked: &Looked<'_>, people: &[PersonRow]) -> Vec<String> {
    let by = By { people: people.to_vec(), author: "" };
    by.shaft(looked).rows.into_iter().map(|row| row.waits_for).collect()
}

/// Who is asked, and who asks.
struct By<'a> {
    people: Vec<PersonRow>,
    author: &'a str,
}

impl By<'_> {
    fn shaft(&self, looked: &Looked<'_>) -> OpenShaft {
        let items = found(looked.record, looked.shaft, &looked.log, &looked.assessment);
        let rows: Vec<OpenRow> = items.iter().filter_map(|item| self.row(item, looked)).collect();
        let seals = wording::seals(looked.record, looked.shaft, &looked.log, &looked.show);
        let under_seal = seals.last().is_some_and(|seal| seal.later.is_empty());
        let lacking = lacks(looked.record, looked.shaft);
        let other = lacking.iter().filter(is_no_item);
        OpenShaft {
            name: looked.shaft.to_owned(),
            stage: looked.stage().label(),
            sealed: wording::sealed_sentence(&seals).unwrap_or_default(),
            lacks: other.map(|lack| wording::lack(lack, looked.record)).collect(),
            ready: lacking.is_empty() && rows.iter().all(|row| row.word == "odd") && !under_seal,
            rows,
        }
    }

    fn row(&self, item: &OpenItem, looked: &Looked<'_>) -> Option<OpenRow> {
        let text = wording::open_item(item, &looked.assessment, &looked.log, &looked.show)?;
        let about = about(&item.open, looked);
        Some(OpenRow {
            id: format!("{}:{}:{}", text.word, looked.shaft, key(&item.open, looked)),
            word: text.word,
            lead: text.lead,
            waits_for: self.whom(&item.waits_for, text.waits_for),
            mine: self.is_mine(&item.waits_for),
            since: item.since.map_or_else(String::new, |at| looked.show.clone().of_no_day().moment(at)),
            what: text.notice.what,
            meaning: text.notice.meaning,
            next: text.notice.next,
            steps: steps(&item.open, looked),
            about: about.map_or_else(String::new, |id| id.to_string()),
        })
    }

    /// A part with the names of those who play it on this job.
    fn whom(&self, whom: &WaitsFor, told: String) -> String {
        let WaitsFor::Part(role) = whom else { return told };
        let part = label::choice(role.word());
        let names: Vec<&str> =
            self.people.iter().filter(|one| one.role == part).map(|one| one.name.as_str()).collect();
        if names.is_empty() { told } else { format!("{told} ({})", names.join(", ")) }
    }

    fn is_mine(&self, whom: &WaitsFor) -> bool {
        match whom {
            WaitsFor::Person(name) => name == self.author,
            WaitsFor::Part(role) => {
                let part = label::choice(role.word());
                self.people.iter().any(|one| one.name == self.author && one.role == part)
            }
        }
    }
}

/// It stands in the way of a seal and is no open item.
fn is_no_item(lack: &&Lack) -> bool {
    matches!(lack, Lack::Chain(_) | Lack::Loose(_) | Lack::Newer(_))
}
