//! A record as a file: JSON Lines, one entry a line, ordered by device and number.

use crate::canonical::digest_of_ids;
use crate::error::WireError;
use crate::v1;
use quantity::InOrder;
use record::{Held, Record};

/// Every entry of a record, one a line, each line ended. The same record gives the same bytes.
pub fn write_lines(record: &Record) -> String {
    let mut held: Vec<&Held> = record.entries().collect();
    held.put_in_order_by_key(|held| (held.place(), held.id()));
    held.into_iter().map(|held| v1::write(held) + "\n").collect()
}

/// Reads every line; blank lines are passed over.
///
/// # Errors
/// All the lines that are no entries. Nothing is half read: the entries of a file with a fault are not given.
pub fn read_lines(text: &str) -> Result<Vec<Held>, Vec<WireError>> {
    let (mut reader, mut held) = (v1::Reader::default(), Vec::new());
    let mut errors = Vec::new();
    for (index, line) in text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty()) {
        match reader.read(line) {
            Ok(entry) => held.push(entry),
            Err(fault) => errors.push(WireError { line: index + 1, fault }),
        }
    }
    if errors.is_empty() { Ok(held) } else { Err(errors) }
}

/// The digest of a record.
pub fn digest(record: &Record) -> [u8; 32] {
    digest_of_ids(record.entries().map(Held::id))
}
