//! A tablet's disk: what survives its being switched off. Written whole or not at all.

use record::{DeviceId, EntryId, Held, Record};
use std::collections::{BTreeMap, BTreeSet};
use sync::{Effect, Kept};

/// What a tablet keeps.
#[derive(Debug, Clone, Default)]
pub struct Disk {
    /// Every entry of the job, as the line it came in.
    pub lines: BTreeMap<EntryId, String>,
    /// The state of the sync, as text.
    pub kept: String,
    /// What the person at the tablet was told.
    pub told: Told,
}

/// What the person at a tablet was told.
#[derive(Debug, Clone, Default)]
pub struct Told {
    /// Entries shown as stored at the desk.
    pub acknowledged: BTreeSet<EntryId>,
    /// Entries shown as refused.
    pub refused: BTreeSet<EntryId>,
    /// Places with two entries.
    pub cloned: BTreeSet<(DeviceId, u64)>,
    /// One of them was of this tablet.
    pub own_cloned: bool,
    /// Lines of the desk that were not taken in.
    pub doubted: usize,
    /// How often the desk was found set back.
    pub set_back: usize,
}

impl Disk {
    /// The record it holds. Panics when a line on it is no entry of one record.
    #[track_caller]
    pub fn record(&self) -> Record {
        let held = self.lines.values().map(|line| wire::read(line).expect("a kept line is an entry"));
        Record::of(held).expect("the kept entries stand in one record")
    }

    /// The state of the sync.
    pub fn kept(&self) -> Kept {
        if self.kept.is_empty() { Kept::default() } else { Kept::of_text(&self.kept).expect("our own text") }
    }

    /// Keeps one entry and the state in one transaction.
    pub fn keep(&mut self, held: &Held, kept: &Kept) {
        self.lines.insert(held.id(), wire::write(held));
        self.kept = kept.to_text();
    }

    /// Keeps the effects of one answer and the state in one transaction.
    pub fn keep_effects(&mut self, effects: Vec<Effect>, kept: &Kept) {
        effects.into_iter().for_each(|effect| self.keep_effect(effect));
        self.kept = kept.to_text();
    }

    fn keep_effect(&mut self, effect: Effect) {
        match effect {
            Effect::Acknowledged { ids } => self.told.acknowledged.extend(ids),
            Effect::Keep { entries, .. } => {
                self.lines.extend(entries.into_iter().map(|arrived| (arrived.held.id(), arrived.line)));
            }
            Effect::Refused { id, .. } => drop(self.told.refused.insert(id)),
            Effect::Cloned { device, seq, own, .. } => {
                self.told.own_cloned |= own;
                self.told.cloned.insert((device, seq));
            }
            Effect::Doubted { .. } => self.told.doubted += 1,
            Effect::SetBack { .. } => self.told.set_back += 1,
        }
    }
}
