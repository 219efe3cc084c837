//! A desk in memory, whose disk can be full and whose backup can be put in place.

use record::EntryId;
use std::collections::BTreeMap;
use sync::desk::{Offered, Shelf, Taken};
use wire::http::JobState;

/// The shelf takes nothing in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Full;

/// Entries in the order they arrived; the first has arrival 1.
#[derive(Debug, Clone, Default)]
pub struct MemoryShelf {
    lines: Vec<(String, String)>,
    ids: BTreeMap<EntryId, usize>,
    /// Nothing is taken in while this is so.
    pub full: bool,
}

impl MemoryShelf {
    /// How many entries there are.
    pub fn len(&self) -> usize {
        self.lines.len()
    }

    /// Whether an entry is there.
    pub fn has(&self, id: &EntryId) -> bool {
        self.ids.contains_key(id)
    }

    /// There are none.
    pub fn is_empty(&self) -> bool {
        self.lines.is_empty()
    }

    /// Every line, in the order of arrival.
    pub fn lines(&self) -> impl Iterator<Item = &str> {
        self.lines.iter().map(|(_, line)| line.as_str())
    }

    /// Puts back a backup that was made when there were so many entries.
    pub fn set_back(&mut self, entries: usize) {
        self.lines.truncate(entries);
        self.ids.retain(|_, place| *place < entries);
    }
}

impl Shelf for MemoryShelf {
    type Trouble = Full;

    fn keep(&mut self, entries: Vec<Offered>) -> Result<Vec<Taken>, Full> {
        if self.full {
            return Err(Full);
        }
        Ok(entries.into_iter().map(|offered| self.take(offered)).collect())
    }

    fn after(&mut self, job: &str, cursor: u64, limit: usize) -> Result<Vec<(u64, String)>, Full> {
        let numbered = self.lines.iter().enumerate().map(|(index, line)| (index as u64 + 1, line));
        let new = numbered.filter(|(arrival, (of, _))| *arrival > cursor && of == job);
        Ok(new.take(limit).map(|(arrival, (_, line))| (arrival, line.clone())).collect())
    }

    fn state(&mut self, job: &str) -> Result<JobState, Full> {
        let arrivals = self.lines.iter().zip(1..).filter(|((of, _), _)| of == job);
        let ids = self.ids.iter().filter(|(_, place)| self.lines[**place].0 == job);
        Ok(JobState {
            job: job.to_owned(),
            entries: arrivals.clone().count() as u64,
            cursor: arrivals.last().map_or(0, |(_, arrival)| arrival),
            sum: Some(ids.map(|(id, _)| *id).collect()),
        })
    }

    fn last(&mut self) -> Result<u64, Full> {
        Ok(self.lines.len() as u64)
    }
}

impl MemoryShelf {
    fn take(&mut self, offered: Offered) -> Taken {
        let id = offered.held.id();
        match self.ids.get(&id) {
            Some(place) if self.lines[*place].1 == offered.line => Taken::Known,
            Some(_) => Taken::SameId,
            None => {
                self.ids.insert(id, self.lines.len());
                self.lines.push((offered.held.job().to_owned(), offered.line));
                Taken::Stored
            }
        }
    }
}
