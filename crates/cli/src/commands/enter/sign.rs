//! Drafts become entries, each signed with the key of its device, in order, one chain a device.

use super::known::{self, Known};
use super::take::File;
use crate::folder::{DESK, Folder};
use crate::problem::Problem;
use notes::{Drafted, Notes};
use quantity::Moment;
use record::entry::FileHash;
use record::kinds::NotesRead;
use record::{Body, Entry, EntryId, Record};
use std::collections::{BTreeMap, BTreeSet};
use wire::{Key, Pen, Times};

/// What is ready to be kept.
pub(super) struct Signed {
    pub(super) entries: Vec<Entry>,
    /// Lines that are new.
    pub(super) new: usize,
    /// Lines that were in the record already.
    pub(super) known: usize,
}

/// Signs every draft that is not in the record. Each device ends its part of a file with an entry that names
/// the file, so that the record says later which lines came from it.
pub(super) fn sign(
    folder: &Folder,
    record: &Record,
    (files, all): (&[File], &[Notes]),
    now: Moment,
) -> Result<Signed, Problem> {
    let job = all.first().map_or_else(String::new, |notes| notes.context.key.clone());
    let keys = keys(folder, all)?;
    let pen = |(name, key): (&String, &'_ Key)| (name.clone(), record.head(&key.device()));
    let heads: BTreeMap<String, _> = keys.iter().map(pen).collect();
    let pens = keys.iter().map(|(name, key)| (name.as_str(), Pen::new(key, &job, "", heads[name])));
    let mut desk = Desk { pens: pens.collect(), known: Known::of(record), now, entries: Vec::new() };
    let mut signed = Signed { entries: Vec::new(), new: 0, known: 0 };
    for (file, notes) in files.iter().zip(all) {
        let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
        notes.write(|draft, body| match desk.write(draft, body) {
            (id, false) => {
                signed.known += 1;
                id
            }
            (id, true) => {
                signed.new += 1;
                *counts.entry(device_of(draft)).or_default() += 1;
                id
            }
        });
        counts.iter().for_each(|(device, count)| desk.end_of_file(file, device, *count));
        desk.known.next_file();
    }
    signed.entries = desk.entries;
    Ok(signed)
}

/// Counts what is new without a key.
pub(super) fn rehearse(record: &Record, all: &[Notes]) -> Signed {
    let mut known = Known::of(record);
    let mut signed = Signed { entries: Vec::new(), new: 0, known: 0 };
    for notes in all {
        notes.write(|draft, body| {
            let line = known::of_draft(draft, &body);
            if let Some(id) = known.find(&line) {
                signed.known += 1;
                return id;
            }
            signed.new += 1;
            // A number of its own stands in for the id that a signature would give.
            let mut id = [0; 32];
            id[..8].copy_from_slice(&(signed.new as u64).to_be_bytes());
            known.keep(line, EntryId(id));
            EntryId(id)
        });
        known.next_file();
    }
    signed
}

/// Where the notes are read in: the pens of the devices and what they have written.
struct Desk<'k> {
    pens: BTreeMap<&'k str, Pen<'k>>,
    known: Known,
    now: Moment,
    entries: Vec<Entry>,
}

impl<'k> Desk<'k> {
    fn pen(&mut self, device: &str) -> &mut Pen<'k> {
        self.pens.get_mut(device).expect("every device of the drafts has a pen")
    }

    /// The entry of a draft, and whether it is new.
    fn write(&mut self, draft: &Drafted, body: Body) -> (EntryId, bool) {
        let line = known::of_draft(draft, &body);
        if let Some(id) = self.known.find(&line) {
            return (id, false);
        }
        let noted_at = Some(draft.noted_at.unwrap_or(draft.observed_at));
        let times = Times { observed_at: draft.observed_at, noted_at, entered_at: self.now };
        let pen = self.pen(device_of(draft));
        pen.author(&draft.author);
        let entry = pen.write(draft.shaft.as_deref(), times, body);
        let id = entry.id;
        self.entries.push(entry);
        self.known.keep(line, id);
        (id, true)
    }

    fn end_of_file(&mut self, file: &File, device: &str, entries: u32) {
        let now = self.now;
        let hash = FileHash(wire::sha256(&file.bytes));
        let body = Body::NotesRead(NotesRead { name: file.name.clone(), file: hash, entries });
        let pen = self.pen(device);
        pen.author(DESK);
        let entry = pen.write(None, Times { observed_at: now, noted_at: None, entered_at: now }, body);
        self.entries.push(entry);
    }
}

/// The device a line was written on; the desk, where it names none.
pub(crate) fn device_of(draft: &Drafted) -> &str {
    draft.device.as_deref().unwrap_or(DESK)
}

/// The keys of every device the drafts name, and of the desk.
fn keys(folder: &Folder, all: &[Notes]) -> Result<BTreeMap<String, Key>, Problem> {
    let named = all.iter().flat_map(|notes| &notes.drafted).map(device_of);
    let names: BTreeSet<&str> = named.chain([DESK]).collect();
    names.into_iter().map(|name| Ok((name.to_owned(), folder.key(name)?))).collect()
}
