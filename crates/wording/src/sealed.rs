//! Seals of a shaft in words, and what came after them.
//!
//! Never: whether a seal is right; that is proved by `shaftbook verify` and by nothing that is printed.

use crate::entry::entry_text;
use crate::show::Show;
use record::{Entry, Held, Log, Record, ShaftSeal};
use std::collections::BTreeSet;

/// A seal in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SealText {
    /// When, by whom, over what.
    pub what: String,
    /// Root of the tree over the sealed entries, in hexadecimal.
    pub root: String,
    /// What came after it and before the next seal, an entry each.
    pub later: Vec<String>,
}

/// Every seal of a shaft that stands in its log, oldest first.
pub fn seals(record: &Record, shaft: &str, log: &Log<'_>, show: &Show) -> Vec<SealText> {
    let all: Vec<ShaftSeal<'_>> =
        record.seals(shaft).into_iter().filter(|seal| is_in(log, &seal.entry.id)).collect();
    let later = |seal: &ShaftSeal<'_>| -> BTreeSet<record::EntryId> {
        record.supplement_of(shaft, *seal).entries.iter().map(|held| held.id()).collect()
    };
    let text = |(at, seal): (usize, &ShaftSeal<'_>)| {
        let after_next = all.get(at + 1).map(later).unwrap_or_default();
        let own = record.supplement_of(shaft, *seal).entries.into_iter();
        let own = own.filter(|held| !after_next.contains(&held.id()) && is_in(log, &held.id()));
        SealText {
            what: what(seal, show),
            root: seal.said.root.to_string(),
            later: own.map(|held| of(held, show)).collect(),
        }
    };
    all.iter().enumerate().map(text).collect()
}

/// The last seal in one sentence: whether anything came after it; `None`: the shaft is not sealed.
pub fn sealed_sentence(seals: &[SealText]) -> Option<String> {
    let last = seals.last()?;
    let after = match last.later.len() {
        0 => "nothing came after it".to_owned(),
        1 => "1 entry came after it and is a supplement, not under the seal".to_owned(),
        many => format!("{many} entries came after it and are a supplement, not under the seal"),
    };
    Some(format!("{}; {after}.", last.what.trim_end_matches('.')))
}

/// Whether the log, which may end earlier than the record, shows an entry.
fn is_in(log: &Log<'_>, id: &record::EntryId) -> bool {
    log.lines.iter().any(|line| line.entry.id == *id)
        || log.corrections.iter().any(|entry| entry.id == *id)
        || log.newer.iter().any(|newer| newer.id == *id)
}

fn what(seal: &ShaftSeal<'_>, show: &Show) -> String {
    let Entry { author, device, observed_at, .. } = seal.entry;
    let (at, count, key) = (show.moment(*observed_at), seal.said.entries, device.short());
    format!("Sealed {at} by {author} with the key {key}: {count} entries.")
}

fn of(held: &Held, show: &Show) -> String {
    match held {
        Held::Known(entry) => format!(
            "{}, {}, {}: {} ({})",
            show.moment(entry.observed_at),
            entry.author,
            crate::label::kind(entry.body.kind()).to_lowercase(),
            entry_text(&entry.body, show),
            entry.id.short()
        ),
        Held::Newer(newer) => format!("entry {} of a newer program", newer.id.short()),
    }
}
