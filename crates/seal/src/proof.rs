//! Page and record held against each other.

use crate::cover::root_of;
use crate::error::{Fault, Unreadable};
use crate::paper::Paper;
use crate::{RECORD_FILE, SEAL_FILE};
use record::entry::FileHash;
use record::kinds::{Body, ShaftSealed};
use record::{Entry, Held, Record};

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
}

/// Holds the pages, the entries and the seal of a package against each other; every fault is told, not only the first.
///
/// # Errors
/// It is no sealed package, or cannot be read.
pub fn prove(bytes: &[u8]) -> Result<Proof, Unreadable> {
    let paper = Paper::read(bytes)?;
    let (record, seal) = match (&paper.record, &paper.seal) {
        (Some(record), Some(seal)) => (record, seal),
        (None, None) => return Err(Unreadable::NotSealed),
        (None, _) => return Err(Unreadable::FileMissing(RECORD_FILE)),
        (_, None) => return Err(Unreadable::FileMissing(SEAL_FILE)),
    };
    let mut faults = Vec::new();
    let record = record_of(record, &mut faults);
    let seal = seal_of(seal, &mut faults);
    if let Some(entry) = &seal
        && let Some(said) = sealed(entry)
    {
        faults.extend(page_faults(said, &paper));
        faults.extend(record.as_ref().into_iter().flat_map(|record| entry_faults(entry, said, record)));
    }
    Ok(Proof { seal, record, page_count: paper.page_count, faults })
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
    let mut faults = Vec::new();
    if said.page_count as usize != paper.page_count {
        faults.push(Fault::PageCount { sealed: said.page_count, found: paper.page_count });
    }
    if said.pages != paper.pages {
        faults.push(Fault::Pages { sealed: said.pages, found: paper.pages });
    }
    faults
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
    let found: FileHash = root_of(record);
    if said.root != found {
        faults.push(Fault::Root { sealed: said.root, found });
    }
    faults
}
