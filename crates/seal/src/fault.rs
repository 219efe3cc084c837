//! Why a paper that can be read proves nothing.

use record::EntryId;
use record::entry::FileHash;
use std::fmt;
use wire::WireError;

/// Something about a sealed package does not hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// A line of the record inside is not what its device signed.
    Line(WireError),
    /// The record inside cannot be one record.
    Merge(record::MergeError),
    /// The seal inside is not one entry that seals a shaft, as its device signed it.
    Seal(Option<WireError>),
    /// The seal is of another job, or of no shaft.
    OtherJob,
    /// There are fewer or more entries than were sealed.
    Count {
        /// As sealed.
        sealed: usize,
        /// In the file.
        found: usize,
    },
    /// The last entry of a device, as sealed, is not there.
    HeadMissing(EntryId),
    /// The entries are not the ones that were sealed.
    Root {
        /// As sealed.
        sealed: FileHash,
        /// Of the entries in the file.
        found: FileHash,
    },
    /// There are fewer or more pages than were sealed.
    PageCount {
        /// As sealed.
        sealed: usize,
        /// In the file.
        found: usize,
    },
    /// A page does not draw what was sealed in its place.
    Page {
        /// Its number, from 1.
        number: usize,
        /// The number of the sealed page it is; `None`: of none.
        is: Option<usize>,
    },
    /// A file inside that was not sealed.
    ForeignFile(String),
    /// Bytes differ that draw nothing and hold no entry: marks for readers, dates, the way the parts lie.
    Bytes,
    /// Something was put in behind the seal.
    Behind,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Line(error) => write!(f, "in the record inside, {error}"),
            Fault::Merge(error) => write!(f, "in the record inside, {error}"),
            Fault::Seal(Some(error)) => write!(f, "the seal inside is not what was signed: {error}"),
            Fault::Seal(None) => write!(f, "the seal inside is not one entry that seals a shaft"),
            Fault::OtherJob => write!(f, "seal and entries are of two jobs"),
            Fault::HeadMissing(id) => write!(f, "the sealed entry {} is not inside", id.short()),
            Fault::ForeignFile(name) => write!(f, "the file {name:?} inside was not sealed"),
            Fault::Bytes => write!(
                f,
                "pages and entries are the sealed ones, but the file around them is not, byte for byte"
            ),
            Fault::Behind => write!(f, "something was put into the file after it was sealed"),
            _ => self.about_counts(f),
        }
    }
}

impl Fault {
    fn about_counts(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Count { sealed, found } => write!(f, "{sealed} entries were sealed, {found} are inside"),
            Fault::Root { sealed, found } => write!(
                f,
                "the entries inside are not the sealed ones: their root is {}, sealed was {}",
                found.short(),
                sealed.short()
            ),
            Fault::PageCount { sealed, found } => write!(f, "{sealed} pages were sealed, {found} are there"),
            Fault::Page { number, is: Some(is) } => write!(f, "page {number} is the one sealed as page {is}"),
            Fault::Page { number, is: None } => write!(f, "page {number} does not draw what was sealed"),
            _ => Ok(()),
        }
    }
}
