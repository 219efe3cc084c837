//! Meeting a desk that was set back, and a tablet without one.

use super::Tablet;
use crate::exchange::{FileFault, FileRead};
use crate::talk::{Arrived, Effect};
use wire::http::JobState;

impl Tablet {
    /// The desk told what it holds of this job (`GET /jobs`).
    ///
    /// A desk that lacks what was seen there was set back, as when a backup was put in place. What it had
    /// acknowledged is offered to it again: nothing acknowledged is lost as long as one tablet has it.
    pub fn desk_holds(&mut self, state: &JobState) -> Vec<Effect> {
        if state.job != self.job {
            return Vec::new();
        }
        if state.cursor < self.cursor {
            return self.set_back();
        }
        self.arrived(state.cursor);
        let seen_whole = state.cursor == self.cursor && !self.unseen && !self.behind;
        let quiet = self.waiting.is_empty() && self.open.is_none() && self.passed_over == 0;
        if seen_whole && quiet && self.differs(state) && self.compared.as_ref() != Some(state) {
            self.compared = Some(state.clone());
            return self.set_back();
        }
        Vec::new()
    }

    /// Whether the desk holds other entries than those held here and not refused.
    fn differs(&self, state: &JobState) -> bool {
        let ours = (self.known.len() - self.refused.len()) as u64;
        let mut sum = self.known.sum();
        self.refused.keys().for_each(|id| sum.flip(id));
        state.entries != ours || state.sum.is_some_and(|theirs| theirs != sum)
    }

    /// Everything held here is offered again, and the desk is seen from its beginning.
    pub(super) fn set_back(&mut self) -> Vec<Effect> {
        self.cursor = 0;
        self.valid_from = self.asked + 1;
        self.open = None;
        self.answered();
        (self.behind, self.unseen, self.put_off) = (true, true, false);
        self.waiting = self.known.in_order().filter(|id| !self.refused.contains_key(id)).collect();
        vec![Effect::SetBack { offered: self.waiting.len() }]
    }

    /// Reads a record file in: all of it or nothing. What is new waits for the desk.
    ///
    /// # Errors
    /// Lines that are no entries, entries of another job, or no entry at all.
    pub fn read_file(&mut self, text: &str) -> Result<FileRead, FileFault> {
        let all = wire::read_lines(text).map_err(FileFault::Lines)?;
        if all.is_empty() {
            return Err(FileFault::Empty);
        }
        if let Some(other) = all.iter().find(|held| held.job() != self.job) {
            return Err(FileFault::OtherJob { here: self.job.clone(), there: other.job().to_owned() });
        }
        let mut read = FileRead { new: Vec::new(), known: 0, effects: Vec::new() };
        for held in all {
            if self.known.has(&held.id()) {
                read.known += 1;
            } else {
                read.effects.extend(self.wrote(&held));
                let line = wire::write(&held);
                read.new.push(Arrived { held, line });
            }
        }
        Ok(read)
    }
}
