//! A mistake in a file: where it is, what was found, what was expected. Data only.
//!
//! Every mistake of every file is given in one go, so that a person corrects a file once and not twenty
//! times; the sentence is made in `sentence`.

use crate::clock::TimeProblem;
use quantity::Misread;

/// A mistake in a file of notes or a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Mistake {
    /// Name of the file.
    pub file: String,
    /// Where in it.
    pub place: Place,
    /// Which field: `points[2].depth`, counted from 1; empty where it is no field.
    pub path: String,
    /// What is wrong.
    pub wrong: Wrong,
}

/// A place in a file; every number counts from 1.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// The file as a whole.
    File,
    /// A place in a text.
    Text {
        /// Line.
        line: usize,
        /// Character in that line.
        column: usize,
    },
    /// A cell of a table.
    Cell {
        /// Line of the file the row begins in.
        row: usize,
        /// Number of the column.
        column: usize,
        /// Its heading as written.
        heading: String,
    },
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum Wrong {
    /// The bytes are not UTF-8.
    NotUtf8 {
        /// The first byte that is not.
        byte: u8,
    },
    /// The bytes look like UTF-16.
    Utf16,
    /// Nothing is written in it.
    Empty,
    /// The file is not TOML here.
    Syntax {
        /// What the reader of TOML says.
        says: String,
        /// How it is put right, where that is known.
        hint: Option<&'static str>,
    },
    /// No job is open and the file opens none.
    NoJob,
    /// The job is open already.
    OpenAlready,
    /// The file is for another job.
    OtherJob {
        /// The key as written.
        found: String,
        /// The key of the open job.
        open: String,
    },
    /// Not a key of small letters, digits and hyphens.
    Key(String),
    /// The key of a rehearsal for a job that does not say it is one.
    RehearsalKey(String),
    /// No table or key of this name has a place here.
    UnknownName {
        /// As found.
        found: String,
        /// Where: `the file`, `[job]`.
        within: &'static str,
        /// The names nearest to it.
        near: Vec<String>,
        /// Every name, where they are few.
        all: Vec<String>,
    },
    /// It is needed and blank.
    Blank {
        /// The field.
        field: String,
        /// What needs it.
        of: String,
        /// What the field means.
        meaning: &'static str,
    },
    /// The kind has no such field.
    UnknownField {
        /// As found.
        found: String,
        /// The kind or group.
        of: String,
        /// The fields nearest to it.
        near: Vec<String>,
        /// Kinds that have a field of that name.
        elsewhere: Vec<&'static str>,
        /// Every field of this one.
        fields: Vec<&'static str>,
    },
    /// Another sort of thing was found.
    Sort {
        /// What was found.
        found: &'static str,
        /// What was expected.
        expected: &'static str,
    },
    /// Not one of the words.
    Word {
        /// As found.
        found: String,
        /// The words nearest to it.
        near: Vec<String>,
        /// The words there are.
        allowed: Vec<&'static str>,
    },
    /// Not a whole number.
    Count(String),
    /// Not a moment.
    Time {
        /// As found.
        found: String,
        /// Why.
        problem: TimeProblem,
    },
    /// Not a date.
    Date(String),
    /// Neither a file beside the notes nor a hash.
    File(String),
    /// No criteria set of this key.
    Criteria(String),
    /// No such time zone.
    Zone {
        /// As found.
        found: String,
        /// The zones nearest to it.
        near: Vec<String>,
    },
    /// A quantity that cannot be read.
    Quantity(Box<Misread>),
    /// Far longer than anything this field holds.
    Long {
        /// How many characters.
        characters: usize,
    },
    /// No such kind of entry.
    UnknownKind {
        /// As found.
        found: String,
        /// The kinds nearest to it.
        near: Vec<String>,
    },
    /// A kind that has its own place in the file.
    KindElsewhere {
        /// The kind.
        word: &'static str,
        /// Where it is written.
        place: &'static str,
    },
    /// A shaft that is not planned.
    UnknownShaft {
        /// As found.
        found: String,
        /// The shafts nearest to it.
        near: Vec<String>,
        /// The shafts there are.
        planned: Vec<String>,
    },
    /// A shaft planned a second time.
    ShaftTwice {
        /// Its id.
        id: String,
        /// Line of the first; `None`: in the record.
        first: Option<usize>,
    },
    /// A label given a second time.
    LabelTwice {
        /// The label.
        label: String,
        /// Line of the first.
        first: usize,
    },
    /// A label that no line has.
    LabelUnknown {
        /// As found.
        found: String,
        /// The labels nearest to it.
        near: Vec<String>,
    },
    /// A label of a line further down.
    LabelLater {
        /// The label.
        label: String,
        /// Its line.
        line: usize,
    },
    /// Not an entry of the record.
    NoEntry(String),
    /// More than one entry of the record begins so.
    EntryUnclear(String),
    /// A heading no column of this table has.
    UnknownHeading {
        /// As found.
        found: String,
        /// The table.
        table: String,
        /// The headings nearest to it.
        near: Vec<String>,
    },
    /// Two columns mean the same field.
    HeadingTwice {
        /// The field.
        field: String,
    },
    /// The headings fit none of the tables.
    NoTable,
    /// A row with more cells than headings.
    CellsBeyond {
        /// How many headings there are.
        headings: usize,
    },
    /// A quote that is not closed before the end of the file.
    QuoteOpen,
    /// An index above what a row can hold.
    IndexHigh,
}
