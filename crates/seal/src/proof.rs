//! Pages, entries and seal held against each other.

use crate::error::Unreadable;
use crate::fault::Fault;
use crate::graft::grafted;
use crate::paper::Paper;
use crate::tree;
use crate::{RECORD_FILE, SEAL_FILE};
use record::entry::FileHash;
use record::kinds::{Body, ShaftSealed};
use record::{Entry, Held, Record};

/// A package has one end of the draft and one behind the seal. Each that is tried costs a hash of the whole.
const ENDS_MOST: usize = 8;

/// What a sealed package proves.
#[derive(Debug, Clone)]
pub struct Proof {
    /// The entry that seals; `None`: it cannot be believed.
    pub seal: Option<Entry>,
    /// The entries inside, as far as they could be read as one record.
    pub record: Option<Record>,
    /// How many pages there are.
    pub page_count: usize,
    /// What does not hold; nothing: page and record agree, and nothing is missing.
    pub faults: Vec<Fault>,
}

impl Proof {
    /// What the seal says.
    pub fn sealed(&self) -> Option<&ShaftSealed> {
        self.seal.as_ref().and_then(sealed)
    }

    /// How many of the entries inside were written with the key that sealed.
    pub fn by_the_same_key(&self) -> usize {
        let (Some(seal), Some(record)) = (&self.seal, &self.record) else { return 0 };
        record.entries().filter(|held| held.place().0 == seal.device).count()
    }
}

/// Holds the pages, the entries and the seal of a package against each other; every fault is told, not only the first.
///
/// # Errors
/// It is no sealed package, or cannot be read.
pub fn prove(bytes: &[u8]) -> Result<Proof, Unreadable> {
    let paper = Paper::read(bytes)?;
    let (record, line) = match (&paper.record, &paper.seal) {
        (Some(record), Some(seal)) => (record, seal),
        (None, None) => return Err(Unreadable::NotSealed),
        (None, _) => return Err(Unreadable::FileMissing(RECORD_FILE)),
        (_, None) => return Err(Unreadable::FileMissing(SEAL_FILE)),
    };
    let mut faults = Vec::new();
    let record = record_of(record, &mut faults);
    let seal = seal_of(line, &mut faults);
    faults.extend(paper.others.iter().cloned().map(Fault::ForeignFile));
    if let Some((entry, said)) = seal.as_ref().and_then(|entry| Some((entry, sealed(entry)?))) {
        faults.extend(page_faults(said, &paper));
        faults.extend(record.as_ref().into_iter().flat_map(|record| entry_faults(entry, said, record)));
        let none_yet = faults.is_empty();
        faults.extend(byte_fault(said, bytes, line).filter(|fault| none_yet || *fault == Fault::Behind));
    }
    Ok(Proof { seal, record, page_count: paper.pages.len(), faults })
}

/// The root of the tree over the lines of a record, in order of id. [RFC-9162] 2.1.1.
pub fn root_of(record: &Record) -> FileHash {
    let lines: Vec<String> = record.entries().map(wire::write).collect();
    FileHash(tree::root(&lines.iter().map(String::as_bytes).collect::<Vec<_>>()))
}

fn sealed(entry: &Entry) -> Option<&ShaftSealed> {
    match &entry.body {
        Body::ShaftSealed(sealed) => Some(sealed),
        _ => None,
    }
}

fn record_of(text: &str, faults: &mut Vec<Fault>) -> Option<Record> {
    let read = match wire::read_lines(text) {
        Ok(held) => Record::of(held).map_err(|error| vec![Fault::Merge(error)]),
        Err(errors) => Err(errors.into_iter().map(Fault::Line).collect()),
    };
    read.map_err(|found| faults.extend(found)).ok()
}

fn seal_of(text: &str, faults: &mut Vec<Fault>) -> Option<Entry> {
    let read = match wire::read_lines(text) {
        Ok(mut held) if held.len() == 1 => match held.remove(0) {
            Held::Known(entry) if sealed(&entry).is_some() => Ok(entry),
            _ => Err(Fault::Seal(None)),
        },
        Ok(_) => Err(Fault::Seal(None)),
        Err(mut errors) => Err(Fault::Seal(Some(errors.remove(0)))),
    };
    read.map_err(|found| faults.push(found)).ok()
}

fn page_faults(said: &ShaftSealed, paper: &Paper) -> Vec<Fault> {
    let (sealed, found) = (said.pages.len(), paper.pages.len());
    let count = (sealed != found).then_some(Fault::PageCount { sealed, found });
    let other = |(at, page): (usize, &FileHash)| {
        let is = said.pages.iter().position(|sealed| sealed == page).map(|place| place + 1);
        (said.pages.get(at) != Some(page)).then_some(Fault::Page { number: at + 1, is })
    };
    count.into_iter().chain(paper.pages.iter().enumerate().filter_map(other)).collect()
}

fn entry_faults(entry: &Entry, said: &ShaftSealed, record: &Record) -> Vec<Fault> {
    let mut faults = Vec::new();
    if record.job() != Some(entry.job.as_str()) || entry.shaft.is_none() {
        faults.push(Fault::OtherJob);
    }
    if said.entries as usize != record.len() {
        faults.push(Fault::Count { sealed: said.entries as usize, found: record.len() });
    }
    let missing = said.heads.iter().filter(|id| record.get(id).is_none());
    faults.extend(missing.map(|id| Fault::HeadMissing(*id)));
    let found = root_of(record);
    if said.root != found {
        faults.push(Fault::Root { sealed: said.root, found });
    }
    faults
}

/// The whole file: the sealed bytes, behind them the seal, behind that nothing.
fn byte_fault(said: &ShaftSealed, bytes: &[u8], line: &str) -> Option<Fault> {
    let sealed = |draft: &&[u8]| FileHash(wire::sha256(draft)) == said.file;
    let Some(draft) = drafts(bytes).find(sealed) else { return Some(Fault::Bytes) };
    let whole = grafted(draft, line).unwrap_or_default();
    (whole != bytes).then_some(Fault::Behind)
}

/// What may be the draft: the file up to each of its first marks of an end.
fn drafts(bytes: &[u8]) -> impl Iterator<Item = &[u8]> {
    const END: &[u8] = b"%%EOF";
    let ends = bytes.windows(END.len()).enumerate().filter(|(_, window)| *window == END);
    ends.take(ENDS_MOST).map(|(at, _)| &bytes[..at + END.len()])
}
