//! Why a paper cannot be read, and why one that can be read proves nothing.

use record::EntryId;
use record::entry::FileHash;
use std::fmt;
use wire::WireError;

/// Why a file cannot be read as a sealed package.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unreadable {
    /// It is no PDF, or so damaged that its parts cannot be found.
    NoPdf,
    /// It is encrypted.
    Encrypted,
    /// Its pages or files are knotted deeper than any package.
    TooDeep,
    /// It holds no record and no seal: not a sealed package.
    NotSealed,
    /// One of the two files is missing in it.
    FileMissing(&'static str),
    /// A file in it is no text, or cannot be unpacked.
    FileDamaged(&'static str),
}

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unreadable::NoPdf => write!(f, "it is no PDF, or too damaged to be read"),
            Unreadable::Encrypted => write!(f, "it is encrypted"),
            Unreadable::TooDeep => write!(f, "its parts are knotted deeper than in any package"),
            Unreadable::NotSealed => write!(f, "it holds no record and no seal"),
            Unreadable::FileMissing(name) => write!(f, "the file {name} is missing inside it"),
            Unreadable::FileDamaged(name) => write!(f, "the file {name} inside it is damaged"),
        }
    }
}

impl std::error::Error for Unreadable {}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Line(error) => write!(f, "record inside, {error}"),
            Fault::Merge(error) => write!(f, "record inside: {error}"),
            Fault::Seal(Some(error)) => write!(f, "the seal inside is not what was signed: {error}"),
            Fault::Seal(None) => write!(f, "the seal inside is not one entry that seals a shaft"),
            Fault::OtherJob => write!(f, "seal and entries are of two jobs"),
            Fault::Count { sealed, found } => write!(f, "{sealed} entries were sealed, {found} are inside"),
            Fault::HeadMissing(id) => write!(f, "the sealed entry {} is not inside", id.short()),
            Fault::Root { sealed, found } => write!(
                f,
                "the entries inside are not the sealed ones: root {}, sealed {}",
                found.short(),
                sealed.short()
            ),
            Fault::PageCount { sealed, found } => write!(f, "{sealed} pages were sealed, {found} are there"),
            Fault::Pages { sealed, found } => write!(
                f,
                "the pages do not draw what was sealed: {}, sealed {}",
                found.short(),
                sealed.short()
            ),
        }
    }
}

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
        sealed: u32,
        /// In the file.
        found: usize,
    },
    /// The pages do not draw what was sealed.
    Pages {
        /// As sealed.
        sealed: FileHash,
        /// Of the pages in the file.
        found: FileHash,
    },
}
