//! Which job names which file, so that a photo is given to nobody who may not read an entry that shows it.
//!
//! A hash in the body of an entry is a name of a file, whatever field it stands in.
//!
//! Never: interpret a body; take a name away, as no entry goes.

use crate::Kept;
use crate::error::StoreError;
use crate::line::Line;
use crate::sql::{Sql, each_numbered, rows};
use std::collections::BTreeSet;

/// Digits of a SHA-256.
const DIGITS: usize = 64;

/// The hashes in the body of a canonical line: every text of 64 small hexadecimal digits. Members stand in the order of their
/// names there, so the body lies between the author and the device.
fn hashes(line: &str) -> impl Iterator<Item = &str> {
    let from = line.find("\"body\":").unwrap_or(line.len());
    let to = line.rfind(",\"device\":\"").filter(|to| *to > from).unwrap_or(from);
    let digit = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
    // A text in quotes holds none that are not written as an escape.
    let texts = line[from..to].split('\"');
    texts.filter(move |text| text.len() == DIGITS && text.bytes().all(digit))
}

/// Keeps what new lines name.
pub(crate) fn name_files(sql: &dyn Sql, lines: &[Line], kept: &[Kept]) -> Result<(), StoreError> {
    let new = lines.iter().zip(kept).filter(|(_, kept)| matches!(kept, Kept::New(_)));
    let named: BTreeSet<(&str, &str)> =
        new.flat_map(|(line, _)| hashes(&line.text).map(|hash| (hash, line.job.as_str()))).collect();
    named.into_iter().try_for_each(|(hash, job)| keep(sql, hash, job))
}

fn keep(sql: &dyn Sql, hash: &str, job: &str) -> Result<(), StoreError> {
    let keep = "INSERT INTO named_file (hash, job) VALUES (?1, ?2) ON CONFLICT DO NOTHING";
    sql.run(keep, &[hash.into(), job.into()]).map(drop)
}

/// The jobs of which an entry names a file.
pub(crate) fn jobs_naming(sql: &dyn Sql, hash: &str) -> Result<Vec<String>, StoreError> {
    rows(sql, "SELECT job FROM named_file WHERE hash = ?1 ORDER BY job", &[hash.into()], |row| row.text(0))
}

/// Fills the table from the entries, for a database from before there was one. Lines are not proved here: a damaged one is told
/// when it is read, and shall not keep the office from opening.
pub(crate) fn fill(sql: &dyn Sql) -> Result<(), StoreError> {
    let question = "SELECT arrival, line, job FROM entry WHERE arrival > ?1 ORDER BY arrival LIMIT ?2";
    let mut named = BTreeSet::<(String, String)>::new();
    each_numbered(sql, question, &mut |row| {
        let (line, job) = (row.text(1)?, row.text(2)?);
        named.extend(hashes(&line).map(|hash| (hash.to_owned(), job.clone())));
        Ok(true)
    })?;
    named.iter().try_for_each(|(hash, job)| keep(sql, hash, job))
}

#[cfg(test)]
mod tests {
    use super::*;
    use record::Held;
    use testkit::{Tablet, body};

    #[track_caller]
    fn check(kind: &str, fields: &[(&str, &str)], expected: &[&str]) {
        let entry = Tablet::new(1).by("body\":,\"device\":\"").write("10:41", body(kind, fields));
        let line = Line::of(&Held::Known(entry));
        assert_eq!(hashes(&line.text).collect::<Vec<_>>(), expected, "{}", line.text);
    }

    #[test]
    fn a_line_names_the_files_of_its_body_and_not_its_own_hashes() {
        let (file, other) = ("0f".repeat(32), "ab".repeat(32));
        check("photo", &[("file", &file), ("caption", "the ticket")], &[&file]);
        check("remark", &[("text", "clear")], &[]);
        check("remark", &[("text", "\",\"device\":\"x")], &[]);
        // In a correction the file of what it puts in the place, and the entry it replaces.
        let fields = [
            ("replaces", other.as_str()),
            ("reason", "wrong"),
            ("body.kind", "photo"),
            ("body.body.file", file.as_str()),
            ("body.body.caption", "\\\" the right one"),
        ];
        check("correction", &fields, &[&file, &other]);
        check("remark", &[("text", &format!("see {file}"))], &[]);
    }
}
