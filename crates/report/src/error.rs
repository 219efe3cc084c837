//! What can go wrong between an input and a PDF.
//!
//! A package is made in the evening with somebody waiting for it: the error names the drawing, table or text
//! that has to change, and says that the record itself is not touched by it.

use std::fmt;

/// Why there is no PDF. The record is not touched by any of these.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReportError {
    /// The job or the shaft has no name; every page has to carry both.
    Unnamed,
    /// A row has another number of cells than its table has columns.
    Cells {
        /// The title of the table.
        table: String,
        /// The row, counted from 1; zero stands for the line of totals.
        row: usize,
        /// The cells found.
        found: usize,
        /// The columns of the table.
        expected: usize,
    },
    /// A table has no column, or a column has a weight that is no share of a width.
    Columns {
        /// The title of the table.
        table: String,
    },
    /// A drawing is no SVG that can be read, or has no words for those who cannot see it.
    Drawing {
        /// The title of the drawing.
        title: String,
        /// What the reader of SVG said.
        why: String,
    },
    /// One of the fonts given is no font.
    Font {
        /// Which one, counted from 1.
        number: usize,
    },
    /// The pages could not be set.
    Layout {
        /// What typst said.
        messages: Vec<String>,
    },
    /// The pages could not be written as an archival PDF.
    Export {
        /// What typst said.
        messages: Vec<String>,
    },
}

impl fmt::Display for ReportError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unnamed => write!(f, "the job or the shaft has no name, and every page has to carry both"),
            Self::Cells { table, row: 0, found, expected } => {
                write!(f, "the totals of `{table}` have {found} cells where the table has {expected} columns")
            }
            Self::Cells { table, row, found, expected } => {
                write!(f, "row {row} of `{table}` has {found} cells where the table has {expected} columns")
            }
            Self::Columns { table } => {
                write!(f, "`{table}` has no columns, or one whose weight is not a number above zero")
            }
            Self::Drawing { title, why } => write!(f, "the drawing `{title}` cannot be placed: {why}"),
            Self::Font { number } => write!(f, "font number {number} of those given is no font"),
            Self::Layout { messages } => write!(f, "the pages could not be set: {}", messages.join("; ")),
            Self::Export { messages } => {
                write!(f, "the pages could not be written as an archival PDF: {}", messages.join("; "))
            }
        }
    }
}

impl std::error::Error for ReportError {}
