//! The pages of a sealed set, as anybody who has the set can draw them.

use super::refused::{gone, unproved};
use crate::commands::package::{failed, source};
use crate::problem::Problem;
use crate::view::View;
use package::{Sealing, Source};
use quantity::Moment;
use record::entry::FileHash;
use record::kinds::{Body, ShaftSealed};
use record::{Entry, Held, Record};
use report::{Attachment, Fonts, Paper};
use seal::{PLACE_HELD, RECORD_FILE, SEAL_FILE};

/// The program that draws the pages; another version may draw them otherwise.
pub(crate) const PROGRAM: &str = concat!("shaftbook ", env!("CARGO_PKG_VERSION"));

/// What a draft is made of.
pub(super) struct Draft<'a> {
    /// The entries to be sealed.
    pub(super) set: &'a Record,
    pub(super) made: Moment,
    /// Who seals.
    pub(super) by: &'a str,
    pub(super) paper: Paper,
}

impl Draft<'_> {
    /// The pages, with the entries inside and a place for the seal.
    pub(super) fn drawn(&self, view: &View<'_>, fonts: &Fonts) -> Result<Vec<u8>, Problem> {
        let root = seal::root_of(self.set).to_string();
        let sealing = Some(Sealing { by: self.by.to_owned(), root, entries: self.set.len() });
        let source = Source { sealing, ..source(self.set, view, self.made, self.paper) };
        let files = [
            Attachment {
                name: RECORD_FILE,
                media: "application/jsonl",
                what: "The sealed entries, one a line, each with its signature",
                bytes: wire::write_lines(self.set).into_bytes(),
            },
            Attachment {
                name: SEAL_FILE,
                media: "application/jsonl",
                what: "The entry that seals them",
                bytes: PLACE_HELD.as_bytes().to_vec(),
            },
        ];
        let pdf = report::sealed_package(&package::shaft(&source), &files, fonts);
        pdf.map(|pdf| pdf.bytes).map_err(|error| failed(&error))
    }

    /// What the seal says of entries and pages.
    pub(super) fn sealed(&self, drawn: &[u8]) -> Result<ShaftSealed, Problem> {
        let paper = seal::Paper::read(drawn).map_err(|error| unproved(&error.to_string()))?;
        let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        Ok(ShaftSealed {
            root: seal::root_of(self.set),
            entries: count(self.set.len()),
            heads: self.set.heads(),
            file: FileHash(wire::sha256(drawn)),
            pages: paper.pages,
            paper: paper_word(self.paper).to_owned(),
            program: PROGRAM.to_owned(),
        })
    }
}

/// The package: the draft with the seal put in behind it.
pub(super) fn with_seal(drawn: &[u8], entry: &Entry) -> Result<Vec<u8>, Problem> {
    let line = wire::write(&Held::Known(entry.clone())) + "\n";
    seal::grafted(drawn, &line).map_err(|error| unproved(&error.to_string()))
}

/// The package of a seal that stands, drawn again from what it covers.
pub(crate) fn made_again(record: &Record, entry: &Entry, fonts: &Fonts) -> Result<Vec<u8>, Problem> {
    let (Some(shaft), Body::ShaftSealed(said)) = (entry.shaft.as_deref(), &entry.body) else {
        return Err(gone(0));
    };
    let set = record.sealed_set(shaft, said).map_err(|missing| gone(missing.len()))?;
    let paper = if said.paper == paper_word(Paper::Letter) { Paper::Letter } else { Paper::A4 };
    let draft = Draft { set: &set, made: entry.observed_at, by: &entry.author, paper };
    with_seal(&draft.drawn(&View::at(&set, shaft, None), fonts)?, entry)
}

fn paper_word(paper: Paper) -> &'static str {
    match paper {
        Paper::Letter => "letter",
        Paper::A4 => "a4",
    }
}
