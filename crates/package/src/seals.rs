//! The seals of a shaft, as they are printed.

use crate::Source;
use report::ShaftSeal;
use wording::Show;

/// The seal that pages are made for, as far as it is known before they are drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sealing {
    /// Who seals.
    pub by: String,
    /// Root of the tree over the sealed entries, in hexadecimal.
    pub root: String,
    /// How many entries.
    pub entries: usize,
}

/// Every seal, and the one these pages are made for.
pub(crate) fn seals(source: &Source<'_, '_>) -> Vec<ShaftSeal> {
    let before = told(source).into_iter().map(|seal| ShaftSeal {
        what: seal.what,
        root: seal.root,
        later: seal.later,
    });
    let now = source.sealing.iter().map(|sealing| ShaftSeal {
        what: format!(
            "These pages are sealed {} by {}: {} entries, held as a file inside this one. “shaftbook verify” \
             proves with nothing but this file that pages and entries agree and that none is missing.",
            Show::of_log(source.log).moment(source.made),
            sealing.by,
            sealing.entries
        ),
        root: sealing.root.clone(),
        later: Vec::new(),
    });
    before.chain(now).collect()
}

/// Whether the shaft is sealed, for page one; empty: it is not.
pub(crate) fn in_one_sentence(source: &Source<'_, '_>) -> String {
    match &source.sealing {
        Some(sealing) => format!("Sealed with these pages by {}.", sealing.by),
        None => wording::sealed_sentence(&told(source)).unwrap_or_default(),
    }
}

fn told(source: &Source<'_, '_>) -> Vec<wording::SealText> {
    wording::seals(source.record, source.shaft, source.log, &Show::of_log(source.log))
}
