//! What a tablet holds: every id, and who stands at every place of every device's chain.

use record::{DeviceId, EntryId, Held};
use std::collections::{BTreeMap, BTreeSet};
use wire::http::IdSum;

/// The ids held here, their sum, and their places.
#[derive(Debug, Clone, Default)]
pub(crate) struct Known {
    ids: BTreeSet<EntryId>,
    sum: IdSum,
    places: BTreeMap<(DeviceId, u64), Vec<EntryId>>,
}

impl Known {
    /// Whether an entry is held.
    pub(crate) fn has(&self, id: &EntryId) -> bool {
        self.ids.contains(id)
    }

    /// How many are held.
    pub(crate) fn len(&self) -> usize {
        self.ids.len()
    }

    /// The sum of their ids.
    pub(crate) fn sum(&self) -> IdSum {
        self.sum
    }

    /// Holds one more. Everyone at its place, when it is not alone there; nothing for one that is held.
    pub(crate) fn add(&mut self, held: &Held) -> Option<Vec<EntryId>> {
        if !self.ids.insert(held.id()) {
            return None;
        }
        self.sum.flip(&held.id());
        let place = self.places.entry(held.place()).or_default();
        let before = place.partition_point(|id| *id < held.id());
        place.insert(before, held.id());
        (place.len() > 1).then(|| place.clone())
    }

    /// Every id, chain by chain, in the order of its numbers.
    pub(crate) fn in_order(&self) -> impl Iterator<Item = EntryId> + '_ {
        self.places.values().flatten().copied()
    }
}
