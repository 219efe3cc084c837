//! What a record will be once an entry is on the disk.
//!
//! The disk takes about as long as the reckoning. While it is asked, the record with the new entry is made and whoever
//! shows it may reckon; it is shown when the entry is kept, and thrown away where it was not kept or something else came
//! first.
//!
//! Never: let anybody see a record that is not on the disk.

use super::Device;
use super::shelf::Shelf;
use record::{Held, Record};
use std::rc::Rc;
use std::sync::Arc;

/// Is told the job, the shaft and the record that is to come.
pub(super) type Foresees = Rc<dyn Fn(&str, &str, &Arc<Record>)>;

/// A record to come.
pub(super) struct Foreseen {
    /// The record it grows from.
    from: Arc<Record>,
    /// What it will be.
    to: Arc<Record>,
    /// The entries that make it so.
    held: Vec<Held>,
}

impl Device {
    /// Somebody is to be told what a record will be, while the disk still keeps the entry that makes it so.
    pub(crate) fn on_foreseen(self, foresees: impl Fn(&str, &str, &Arc<Record>) + 'static) {
        *self.inner().foresees.borrow_mut() = Some(Rc::new(foresees));
    }

    /// Reckons ahead what entries of one shaft will mean.
    pub(super) fn foresee(self, job: &str, held: &[Held]) {
        let inner = self.inner();
        let foresees = inner.foresees.borrow().clone();
        let shelf = inner.shelves.borrow().get(job).cloned();
        let Some(((foresees, shelf), shaft)) = foresees.zip(shelf).zip(shaft_of(held)) else { return };
        if let Some(record) = shelf.foresee(held) {
            foresees(job, shaft, &record);
        }
    }
}

impl Shelf {
    /// Makes the record that is to come; `None` while the present one is still being read.
    fn foresee(&self, held: &[Held]) -> Option<Arc<Record>> {
        use leptos::prelude::GetUntracked;
        let from = self.signal.get_untracked()?;
        let to = merged(&from, held.to_vec())?;
        *self.foreseen.borrow_mut() = Some(Foreseen { from, to: Arc::clone(&to), held: held.to_vec() });
        Some(to)
    }

    /// The record with these entries: the one that was foreseen, where it grew from this and of these. `None` where they
    /// are of another job.
    pub(super) fn foreseen_or_merged(&self, from: &Arc<Record>, held: Vec<Held>) -> Option<Arc<Record>> {
        let foreseen = self.foreseen.borrow_mut().take();
        let same = foreseen.filter(|one| Arc::ptr_eq(&one.from, from) && one.held == held);
        // Ids were proved and the job is the same, so the union is possible.
        same.map(|one| one.to).or_else(|| merged(from, held))
    }
}

fn merged(from: &Record, held: Vec<Held>) -> Option<Arc<Record>> {
    Record::of(held).and_then(|more| from.merge(&more)).ok().map(Arc::new)
}

/// The one shaft the entries are of.
fn shaft_of(held: &[Held]) -> Option<&str> {
    let shaft = held.first()?.shaft()?;
    held.iter().all(|held| held.shaft() == Some(shaft)).then_some(shaft)
}
