//! Why a paper cannot be read as a sealed package.

use std::fmt;

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
    /// There is more than one file of this name in it.
    FileTwice(&'static str),
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
            Unreadable::FileTwice(name) => write!(f, "there are two files {name} inside it"),
            Unreadable::FileDamaged(name) => write!(f, "the file {name} inside it is damaged"),
        }
    }
}

impl std::error::Error for Unreadable {}
