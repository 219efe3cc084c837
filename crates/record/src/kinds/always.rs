//! Entries that may be made at any time: remarks, corrections, answers, decisions, signatures.

use super::Body;
use crate::choices::*;
use crate::declare::kinds;
use crate::entry::{EntryId, FileHash};
use quantity::{Depth, Entered, Moment, Temperature};

kinds! { Always:
    /// In words.
    Remark = "remark" {
        /// The words.
        text: String,
    }
    /// The weather.
    Weather = "weather" {
        /// Air temperature.
        temperature: Option<Entered<Temperature>>,
        /// In words.
        text: Option<String>,
    }
    /// A photo or another file.
    Photo = "photo" {
        /// SHA-256 of the file.
        file: FileHash,
        /// What it shows.
        caption: String,
        /// Depth it shows.
        depth: Option<Entered<Depth>>,
    }
    /// An entry is struck through and, where a body is given, replaced.
    Correction = "correction" {
        /// The entry it replaces.
        replaces: EntryId,
        /// Why.
        reason: String,
        /// When it was observed, where the time was wrong.
        observed: Option<Moment>,
        /// What should have been written; blank: struck through only.
        body: Option<Box<Body>>,
    }
    /// A dispute is closed by a person.
    DisputeClosed = "dispute_closed" {
        /// The entry in dispute.
        about: EntryId,
        /// The candidate that stands.
        keeps: EntryId,
        /// Why.
        reason: String,
        /// Who decided.
        by: Option<String>,
    }
    /// Somebody asks the one who wrote an entry about it.
    QuestionAsked = "question_asked" {
        /// The entry it is about.
        about: EntryId,
        /// What is asked.
        question: String,
        /// Who is to answer, where it is not the one who wrote the entry.
        to: Option<String>,
    }
    /// A question of the tool, or of a person, is answered.
    QuestionAnswered = "question_answered" {
        /// The entry it was about; where a person asked, the entry that asks.
        about: EntryId,
        /// The word of the question, as in value_unusual; of one field alone: value_unusual.ph; of a person: asked.
        question: String,
        /// The answer.
        answer: String,
    }
    /// Somebody says something about an entry and alters nothing.
    Comment = "comment" {
        /// The entry it is about.
        about: EntryId,
        /// The words.
        text: String,
    }
    /// A decision about a finding.
    FindingDisposed = "finding_disposed" {
        /// Id of the criterion.
        criterion: String,
        /// The entry the finding rests on, where it is one.
        about: Option<EntryId>,
        /// What was decided.
        decision: Decision,
        /// Why, or how.
        reason: String,
        /// Who decided.
        by: Option<String>,
    }
    /// Somebody was told: unexpected ground, a finding, a stop.
    NoticeGiven = "notice_given" {
        /// Whom.
        to: String,
        /// About what.
        about: String,
        /// How: by phone, letter, at the hole.
        how: Option<String>,
        /// The entry it is about, where it is one.
        entry: Option<EntryId>,
    }
    /// Something the papers ask for does not apply here: shown as such instead of as a blank.
    NotApplicable = "not_applicable" {
        /// What.
        what: String,
        /// Why.
        reason: String,
    }
    /// Work may not go on until somebody says so.
    HoldPlaced = "hold_placed" {
        /// What is held.
        hold: String,
        /// Why.
        reason: String,
    }
    /// Work may go on.
    HoldReleased = "hold_released" {
        /// What was held.
        hold: String,
        /// By whom.
        by: String,
    }
    /// A person signs what is written so far.
    Signed = "signed" {
        /// Name.
        name: String,
        /// The part they play.
        role: Role,
        /// What they say by it.
        statement: Option<String>,
    }
    /// A shaft is sealed: what is named here can no longer be altered, only supplemented. A program makes it.
    ShaftSealed = "shaft_sealed" {
        /// Root of the tree of hashes over the sealed entries, in order of id.
        root: FileHash,
        /// How many entries.
        entries: u32,
        /// The last sealed entry of each device.
        heads: Vec<EntryId>,
        /// SHA-256 of the package up to where this entry was put into it.
        file: FileHash,
        /// SHA-256 over what each page draws, in order.
        pages: Vec<FileHash>,
        /// The paper the pages are for: letter or a4.
        paper: String,
        /// The program that drew the pages, with its version.
        program: String,
    }
}
