//! A job as CSV with what every column means beside it (CSVW), and check sums over all of it.
//!
//! `entries.csv` holds every entry as the line it was signed as, with what it says of itself beside it; from these lines
//! the record comes back byte for byte. The other tables are readings of it. `csv-metadata.json` says what each column
//! holds; `SHA256SUMS` is what `sha256sum --check` reads.
//!
//! Units: SI, in the name of the column; moments with the offset of the site.
//! Source: [CSVW], [RFC-4180].
//! Never: take a line back that is not named by the check sums.

mod back;
mod metadata;
mod tables;

use crate::{Job, hexadecimal};

pub use back::{NotTaken, lines};

/// The name of the file that says what the columns hold.
pub const METADATA: &str = "csv-metadata.json";
/// The name of the table of entries.
pub const ENTRIES: &str = "entries.csv";
/// The name of the file of check sums.
pub const SUMS: &str = "SHA256SUMS";

/// The package as one file: a ZIP of its files.
pub fn packed(job: &Job<'_, '_>) -> Vec<u8> {
    crate::packed::zip(&write(job))
}

/// The files of the package by their names. The same record gives the same bytes.
pub fn write(job: &Job<'_, '_>) -> Vec<(String, Vec<u8>)> {
    let tables = tables::all(job);
    let mut files: Vec<(String, Vec<u8>)> =
        tables.iter().map(|table| (table.file.to_owned(), table.csv().into_bytes())).collect();
    files.push((METADATA.to_owned(), metadata::text(job, &tables).into_bytes()));
    let sum = |(name, bytes): &(String, Vec<u8>)| format!("{}  {name}\n", hexadecimal(&wire::sha256(bytes)));
    let sums: String = files.iter().map(sum).collect();
    files.push((SUMS.to_owned(), sums.into_bytes()));
    files
}
