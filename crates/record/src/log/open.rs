//! What somebody left open in a log: holds nobody released, questions of people nobody answered.
//!
//! Never: settle one because time went by.

use super::{Line, Log};
use crate::entry::EntryId;
use crate::kinds::{HoldPlaced, HoldReleased, QuestionAnswered, QuestionAsked};

/// What stands in an answer in the place of the word of a question, where a person asked.
pub const ASKED: &str = "asked";

impl<'r> Log<'r> {
    /// Holds that nobody released.
    pub fn open_holds(&self) -> Vec<(&Line<'r>, &'r HoldPlaced)> {
        self.each::<HoldPlaced>().filter(|(line, placed)| self.released(line, placed).is_none()).collect()
    }

    /// The release of a hold, at its time or later.
    pub fn released(&self, line: &Line<'r>, placed: &HoldPlaced) -> Option<(&Line<'r>, &'r HoldReleased)> {
        let mut all = self.each::<HoldReleased>();
        all.find(|(later, release)| release.hold.trim() == placed.hold.trim() && line.at <= later.at)
    }

    /// Questions of people that nobody answered.
    pub fn unanswered(&self) -> Vec<(&Line<'r>, &'r QuestionAsked)> {
        self.each::<QuestionAsked>().filter(|(line, _)| self.answer_of(line).is_none()).collect()
    }

    /// The last answer to what a person asked. It names the entry that asks: a correction keeps that name.
    pub fn answer_of(&self, asked: &Line<'r>) -> Option<(&Line<'r>, &'r QuestionAnswered)> {
        let names = |about: EntryId| about == asked.entry.id || about == asked.origin;
        let fits = |answer: &QuestionAnswered| answer.question == ASKED && names(answer.about);
        self.each::<QuestionAnswered>().rfind(|(_, answer)| fits(answer))
    }
}
