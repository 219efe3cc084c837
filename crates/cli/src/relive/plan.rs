//! Notes of a day that is over, as the entries that would have been written while it went on.
//!
//! Each device signs with its own key, in the order in which things were written down, and every entry is
//! entered at the moment it was written: a line that says it was noted at half past five comes at half past
//! five, and is as late as it was. The same notes and keys give the same entries, byte for byte, however
//! often and however fast they are lived through.
//!
//! Words: *step* = one entry and the moment it comes.
//! Never: use this machine's clock.

use crate::commands::enter::device_of;
use crate::commands::rehearse::written;
use crate::folder::{DESK, Folder};
use crate::problem::Problem;
use notes::{Drafted, Notes};
use quantity::Moment;
use record::{Entry, EntryId};
use rehearse::day::Campaign;
use std::collections::BTreeMap;
use wire::{Key, Pen, Times};

/// One entry and the moment it comes.
#[derive(Debug, Clone)]
pub(crate) struct Step {
    pub(crate) at: Moment,
    pub(crate) entry: Entry,
}

/// A line of notes that waits for its turn.
struct Waiting<'n> {
    /// Which file it is from: labels hold within a file.
    file: usize,
    draft: &'n Drafted,
    at: Moment,
}

/// Every line of the notes as an entry, in the order they come.
pub(crate) fn plan(folder: &Folder, all: &[Notes]) -> Result<Vec<Step>, Problem> {
    let job = all.first().map_or("", |notes| notes.context.key.as_str());
    let mut waiting: Vec<Waiting<'_>> = Vec::new();
    for (file, notes) in all.iter().enumerate() {
        waiting.extend(in_turn(file, notes));
    }
    // Lines of one moment stay in the order they were written in.
    waiting.sort_by_key(|line| line.at);
    let keys = keys(folder, &waiting)?;
    let mut pens: BTreeMap<&str, Pen<'_>> =
        keys.iter().map(|(name, key)| (name.as_str(), Pen::new(key, job, "", None))).collect();
    let mut labelled = BTreeMap::new();
    Ok(waiting.iter().map(|line| sign(line, &mut pens, &mut labelled)).collect())
}

/// The entries of a made-up job, in the order they come.
pub(crate) fn plan_made_up(folder: &Folder, campaign: &Campaign) -> Result<Vec<Step>, Problem> {
    let entries = written((&campaign.job, &campaign.said), &folder.key(DESK)?).into_iter();
    Ok(entries.map(|entry| Step { at: entry.entered_at, entry }).collect())
}

/// The lines of a file, each with the moment it comes: when it was written down, and never before a line it
/// speaks of.
fn in_turn<'n>(file: usize, notes: &'n Notes) -> Vec<Waiting<'n>> {
    let mut labelled: BTreeMap<&str, Moment> = BTreeMap::new();
    let line = |draft: &'n Drafted| {
        let written = written_at(draft);
        let spoken_of = draft.speaks_of().filter_map(|label| labelled.get(label).copied());
        let at = spoken_of.fold(written, Moment::max);
        labelled.extend(draft.label.as_deref().map(|label| (label, at)));
        Waiting { file, draft, at }
    };
    notes.drafted.iter().map(line).collect()
}

/// When a line was written down.
fn written_at(draft: &Drafted) -> Moment {
    draft.noted_at.unwrap_or(draft.observed_at)
}

fn sign<'n>(
    line: &Waiting<'n>,
    pens: &mut BTreeMap<&str, Pen<'_>>,
    labelled: &mut BTreeMap<(usize, &'n str), EntryId>,
) -> Step {
    let draft = line.draft;
    let body = draft.body(&|label| labelled.get(&(line.file, label)).copied());
    let body = body.expect("a line comes after those it speaks of");
    let pen = pens.get_mut(device_of(draft)).expect("every device of the notes has a pen");
    pen.author(&draft.author);
    let times = Times { observed_at: draft.observed_at, noted_at: None, entered_at: line.at };
    let entry = pen.write(draft.shaft.as_deref(), times, body);
    labelled.extend(draft.label.as_deref().map(|label| ((line.file, label), entry.id)));
    Step { at: line.at, entry }
}

/// The keys of every device the lines name.
fn keys(folder: &Folder, waiting: &[Waiting<'_>]) -> Result<BTreeMap<String, Key>, Problem> {
    let mut keys = BTreeMap::new();
    for line in waiting {
        let name = device_of(line.draft);
        if !keys.contains_key(name) {
            keys.insert(name.to_owned(), folder.key(name)?);
        }
    }
    Ok(keys)
}
