//! Every entry of a record as a Parquet file, for analysis: one row an entry, its line beside what it says of itself.
//!
//! Written by hand: one flat table of texts, whole numbers and moments is a page a column and a footer.
//!
//! Source: [PARQUET]; every file is read by a general library.
//! Never: leave an entry out; one of a newer version has its line, and blanks where it cannot be read.

mod column;
mod file;
mod thrift;

use crate::Job;
use column::{Column, Data};
use quantity::Moment;
use record::{Entry, Held, Log, Standing};
use std::collections::BTreeMap;

/// The table of entries. The same record gives the same bytes.
pub fn write(job: &Job<'_, '_>) -> Vec<u8> {
    let text = wire::write_lines(job.record);
    let mut held: Vec<&Held> = job.record.entries().collect();
    held.sort_by_key(|held| (held.place(), held.id()));
    let about = [("job", job.key().to_owned()), ("digest", job.digest()), ("as_of", job.as_of().to_string())];
    file::write(&columns(job, &held, &text), held.len(), &about, job.program)
}

fn columns(job: &Job<'_, '_>, held: &[&Held], text: &str) -> Vec<Column> {
    let standing = standing(job);
    let texts =
        |of: &dyn Fn(&Held) -> Option<String>| Data::Texts(held.iter().map(|held| of(held)).collect());
    let moments = |of: &dyn Fn(&Held) -> Option<Moment>| {
        Data::Moments(held.iter().map(|held| of(held).map(|at| at.seconds() * 1000)).collect())
    };
    let seq = |held: &&Held| i64::try_from(held.place().1).ok();
    vec![
        Column::needed("id", texts(&|held| Some(held.id().to_string()))),
        Column::needed("job", texts(&|held| Some(held.job().to_owned()))),
        Column::maybe("shaft", texts(&|held| held.shaft().map(str::to_owned))),
        Column::needed("device", texts(&|held| Some(held.place().0.to_string()))),
        Column::maybe("seq", Data::Whole(held.iter().map(seq).collect())),
        Column::maybe("prev", texts(&|held| held.prev().map(|id| id.to_string()))),
        Column::maybe("kind", texts(&|held| known(held).map(|entry| entry.body.kind().word.to_owned()))),
        Column::maybe("author", texts(&|held| known(held).map(|entry| entry.author.clone()))),
        Column::maybe("observed_at", moments(&|held| Some(observed(held)))),
        Column::maybe("noted_at", moments(&|held| known(held).and_then(|entry| entry.noted_at))),
        Column::maybe("entered_at", moments(&|held| known(held).map(|entry| entry.entered_at))),
        Column::maybe(
            "offset_s",
            Data::Whole(held.iter().map(|held| Some(observed(held).offset_seconds().into())).collect()),
        ),
        Column::maybe("standing", texts(&|held| standing.get(&held.id().to_string()).cloned())),
        Column::needed("line", Data::Texts(text.lines().map(|line| Some(line.to_owned())).collect())),
    ]
}

fn known(held: &Held) -> Option<&Entry> {
    match held {
        Held::Known(entry) => Some(entry),
        Held::Newer(_) => None,
    }
}

fn observed(held: &Held) -> Moment {
    match held {
        Held::Known(entry) => entry.observed_at,
        Held::Newer(newer) => newer.observed_at,
    }
}

/// How each entry stands in its log; one that stands in none, a correction that only strikes out, is left blank.
fn standing(job: &Job<'_, '_>) -> BTreeMap<String, String> {
    let logs = job.record.shafts().into_iter().map(Some).chain([None]);
    let lines = logs.flat_map(|shaft| {
        let log = Log::of(job.record, shaft, None);
        let each = log.lines.iter().map(|line| {
            let word = match line.standing {
                Standing::Stands => "stands",
                Standing::Struck { .. } => "struck",
                Standing::Disputed { .. } => "disputed",
            };
            (line.entry.id.to_string(), word.to_owned())
        });
        each.collect::<Vec<_>>()
    });
    lines.collect()
}
