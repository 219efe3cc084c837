//! Field notes and spreadsheets, as people write them, into drafted entries; and logs out as tables.
//!
//! An inspector keeps a notebook or a spreadsheet; neither must be typed a second time. Text goes in, and
//! either every line of it comes out as a draft that waits for a signature, or every mistake in it comes
//! out with its place, what was found and what was expected, and nothing else does.
//!
//! Words: *notes* = a TOML file a person writes by hand; *table* = a CSV file; *draft* = an entry that has
//! no id and no signature yet; *label* = a name a line is given so that a later line can speak of it.
//! Never: read a file, a clock or a key; guess; give half of a file.

mod clock;
mod context;
mod draft;
mod fit;
mod label;
mod locate;
mod manual;
mod mistake;
mod near;
mod node;
mod sentence;
mod syntax;
mod take;
mod text;
mod zone;

mod block;
mod day;
mod job;
mod notes;
mod shaft;

pub mod table;

pub use clock::TimeProblem;
pub use context::{Context, Criteria, Found, Nothing, Surroundings, UnknownZone};
pub use draft::{Drafted, Notes, PassedOver, Unresolved};
pub use manual::{kinds_manual, tables_manual};
pub use mistake::{Mistake, Place, Wrong};
pub use notes::{read, read_all};
pub use zone::Zone;

/// A file as it came: its name for messages, and its bytes.
#[derive(Debug, Clone, Copy)]
pub struct Source<'a> {
    /// The name people know it by, without its folder.
    pub name: &'a str,
    /// Its bytes, whatever they are.
    pub bytes: &'a [u8],
}
