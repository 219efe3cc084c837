//! Records to look at: the demo's field notes, signed here, and one entry of every kind.

use notes::{Criteria, Source, Surroundings};
use quantity::Moment;
use record::entry::FileHash;
use record::kinds::KINDS;
use record::{Held, Record};
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use testkit::{Tablet, full};
use wire::{Key, Pen, Times};

/// The folder of the notes, for files they name.
struct Folder(PathBuf);

impl Surroundings for Folder {
    fn file(&self, name: &str) -> Option<FileHash> {
        std::fs::read(self.0.join(name)).ok().map(|bytes| FileHash(wire::sha256(&bytes)))
    }

    fn criteria(&self, key: &str) -> Option<Criteria> {
        let (_, text) = criteria::SHIPPED.iter().find(|(id, _)| *id == key)?;
        Some(Criteria { file: FileHash(wire::sha256(text.as_bytes())), text: None })
    }
}

/// The record of a demo job.
pub(super) fn job(name: &str) -> Record {
    let folder = PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo")).join(name);
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(&folder).expect("the demo").map(|file| file.expect("a file").path()).collect();
    files.retain(|file| file.extension().is_some_and(|end| end == "toml"));
    files.sort();
    let texts: Vec<(String, Vec<u8>)> = files
        .iter()
        .map(|file| {
            (
                file.file_name().unwrap_or_default().to_string_lossy().into_owned(),
                std::fs::read(file).expect("a text"),
            )
        })
        .collect();
    let sources: Vec<Source<'_>> = texts.iter().map(|(name, bytes)| Source { name, bytes }).collect();
    let all =
        notes::read_all(&sources, None, &Folder(folder)).unwrap_or_else(|mistakes| panic!("{mistakes:?}"));
    signed(&all)
}

fn signed(all: &[notes::Notes]) -> Record {
    let device = |draft: &notes::Drafted| draft.device.clone().unwrap_or_default();
    let names: BTreeSet<String> = all.iter().flat_map(|notes| &notes.drafted).map(device).collect();
    let keys: BTreeMap<String, Key> =
        (1..).zip(names).map(|(number, name)| (name, Key::of_secret([number; 32]))).collect();
    let key = &all[0].context.key;
    let mut pens: BTreeMap<&String, Pen<'_>> =
        keys.iter().map(|(name, own)| (name, Pen::new(own, key, "", None))).collect();
    let mut entries = Vec::new();
    for notes in all {
        notes.write(|draft, body| {
            let pen = pens.get_mut(&device(draft)).expect("every device has a pen");
            pen.author(&draft.author);
            let seen = draft.observed_at;
            let times =
                Times { observed_at: seen, noted_at: draft.noted_at.or(Some(seen)), entered_at: evening() };
            let entry = pen.write(draft.shaft.as_deref(), times, body);
            let id = entry.id;
            entries.push(Held::Known(entry));
            id
        });
    }
    Record::of(entries).expect("the notes make a record")
}

fn evening() -> Moment {
    Moment::parse("2026-01-02T12:00:00Z").expect("a moment")
}

/// One entry of every kind with all its fields, and one more of each with another time.
pub(super) fn entries_of_every_kind() -> Record {
    let mut tablet = Tablet::new(1);
    let mut entries = Vec::new();
    for (minute, kind) in KINDS.iter().enumerate() {
        let clock = format!("{:02}:{:02}", 8 + minute / 60, minute % 60);
        entries.push(tablet.write(&clock, full(kind)));
    }
    testkit::record(&entries)
}
