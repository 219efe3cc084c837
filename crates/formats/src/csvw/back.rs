//! The lines of a package back: what is a record is proved where records are, here only that nothing was touched on
//! the way.

use super::{ENTRIES, METADATA, SUMS};
use crate::hexadecimal;
use std::fmt;

/// Why nothing was taken from a package.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotTaken {
    /// A file that belongs to it is not there.
    Missing(String),
    /// A file is not what the check sums name.
    Altered(String),
    /// The list of check sums names no such file, or is no such list.
    Unnamed(String),
    /// A row of the entries cannot be read, counted from 1 below the headings.
    Row(usize),
    /// The id beside a line is not the id in it.
    Id(usize),
}

impl fmt::Display for NotTaken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotTaken::Missing(file) => write!(f, "{file} is missing"),
            NotTaken::Altered(file) => write!(f, "{file} is not what {SUMS} names: it was altered"),
            NotTaken::Unnamed(file) => write!(f, "{SUMS} names no {file}"),
            NotTaken::Row(row) => write!(f, "row {row} of {ENTRIES} cannot be read"),
            NotTaken::Id(row) => write!(f, "row {row} of {ENTRIES} holds another entry than its id names"),
        }
    }
}

/// The lines of the record in a package; `file` gives the bytes of a file by its name.
///
/// # Errors
/// When a file of the package is missing or altered, or a row is none.
pub fn lines(file: impl Fn(&str) -> Option<Vec<u8>>) -> Result<String, NotTaken> {
    let sums = file(SUMS).ok_or_else(|| NotTaken::Missing(SUMS.to_owned()))?;
    let sums = String::from_utf8_lossy(&sums).into_owned();
    let named: Vec<(&str, &str)> = sums.lines().filter_map(|line| line.split_once("  ")).collect();
    for needed in [ENTRIES, METADATA] {
        if !named.iter().any(|(_, name)| *name == needed) {
            return Err(NotTaken::Unnamed(needed.to_owned()));
        }
    }
    for (sum, name) in &named {
        let bytes = file(name).ok_or_else(|| NotTaken::Missing((*name).to_owned()))?;
        if hexadecimal(&wire::sha256(&bytes)) != *sum {
            return Err(NotTaken::Altered((*name).to_owned()));
        }
    }
    read(&file(ENTRIES).ok_or_else(|| NotTaken::Missing(ENTRIES.to_owned()))?)
}

/// The column `line` of the table of entries, a line each.
fn read(bytes: &[u8]) -> Result<String, NotTaken> {
    let mut reader = csv::ReaderBuilder::new().from_reader(bytes);
    let heads = reader.headers().map_err(|_| NotTaken::Row(0))?.clone();
    let place = |name: &str| heads.iter().position(|head| head == name).ok_or(NotTaken::Row(0));
    let (id, line) = (place("id")?, place("line")?);
    let mut text = String::new();
    for (row, record) in (1..).zip(reader.records()) {
        let record = record.map_err(|_| NotTaken::Row(row))?;
        let (id, line) = record.get(id).zip(record.get(line)).ok_or(NotTaken::Row(row))?;
        if line.contains(['\n', '\r']) {
            return Err(NotTaken::Row(row));
        }
        if !line.contains(&format!("\"id\":\"{id}\"")) {
            return Err(NotTaken::Id(row));
        }
        text.push_str(line);
        text.push('\n');
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    const LINE: &str = "{\"body\":{\"text\":\"a, \\\"b\\\"\"},\"id\":\"ab12\"}";

    fn package(table: &str) -> BTreeMap<String, Vec<u8>> {
        let mut files = BTreeMap::from([
            (ENTRIES.to_owned(), table.as_bytes().to_vec()),
            (METADATA.to_owned(), b"{}".to_vec()),
        ]);
        let sum =
            |(name, bytes): (&String, &Vec<u8>)| format!("{}  {name}\n", hexadecimal(&wire::sha256(bytes)));
        let sums: String = files.iter().map(sum).collect();
        files.insert(SUMS.to_owned(), sums.into_bytes());
        files
    }

    fn table(id: &str) -> String {
        format!("id,line\r\n{id},\"{}\"\r\n", LINE.replace('"', "\"\""))
    }

    #[track_caller]
    fn check(files: &BTreeMap<String, Vec<u8>>, expected: Result<String, NotTaken>) {
        assert_eq!(lines(|name| files.get(name).cloned()), expected);
    }

    #[test]
    fn the_lines_come_back_as_they_were() {
        check(&package(&table("ab12")), Ok(format!("{LINE}\n")));
    }

    #[test]
    fn what_was_touched_is_not_taken() {
        let whole = package(&table("ab12"));
        let mut one = whole.clone();
        one.insert(ENTRIES.to_owned(), table("ab13").into_bytes());
        check(&one, Err(NotTaken::Altered(ENTRIES.to_owned())));
        let mut one = whole.clone();
        one.remove(METADATA);
        check(&one, Err(NotTaken::Missing(METADATA.to_owned())));
        let mut one = whole.clone();
        one.remove(SUMS);
        check(&one, Err(NotTaken::Missing(SUMS.to_owned())));
        let mut one = whole;
        one.insert(SUMS.to_owned(), b"nothing".to_vec());
        check(&one, Err(NotTaken::Unnamed(ENTRIES.to_owned())));
        check(&package(&table("ab13")), Err(NotTaken::Id(1)));
        check(&package("id\r\nab12\r\n"), Err(NotTaken::Row(0)));
    }
}
