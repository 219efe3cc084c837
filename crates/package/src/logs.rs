//! The logs, as the report prints them: by part of the work, the papers of the job last.
//!
//! A log is read beside the others of its part, so single entries stand together in one table, what is the
//! same in every row stands once over it, and what was left blank is named once instead of row by row.
//!
//! Words: *part* = a part of the work, in the order it is done; *papers* = what the job has for all shafts.
//! Never: leave an entry out; a test looks for the id of each.

mod form;
mod marks;
mod papers;
mod parts;
mod points;
mod same;
mod single;
mod table;
mod times;
mod widths;

use crate::Source;
use report::LogTable;
use wording::Table;

/// The logs of the shaft, and the papers of its job.
pub(crate) struct Logs {
    pub(crate) logs: Vec<LogTable>,
    pub(crate) papers: Vec<LogTable>,
}

/// Logs that stand elsewhere in the package, every entry of them.
const ELSEWHERE: [&str; 3] = ["corrections", "disputes", "photo"];

pub(crate) fn tables(source: &Source<'_, '_>) -> Logs {
    let mut all = wording::tables(source.log, source.assessment, &source.show());
    all.retain(|table| !ELSEWHERE.contains(&table.id));
    let mut all: Vec<Table> = all.into_iter().map(points::across).collect();
    times::with_days(&mut all, source);
    let (papers, work): (Vec<Table>, Vec<Table>) = all.into_iter().partition(|t| parts::is_paper(t.id));
    Logs {
        logs: parts::WORK.iter().flat_map(|part| of_part(part, &work, source)).collect(),
        papers: of_tables(parts::PAPERS, papers::of_this_shaft(papers, source), source),
    }
}

fn of_part(part: &parts::Part, work: &[Table], source: &Source<'_, '_>) -> Vec<LogTable> {
    let mut mine: Vec<Table> =
        part.ids.iter().flat_map(|id| work.iter().filter(|table| table.id == *id)).cloned().collect();
    if part.takes_the_rest {
        mine.extend(work.iter().filter(|table| !parts::is_placed(table.id)).cloned());
    }
    of_tables(part.title, mine, source)
}

/// Single entries first, then each log on its own.
fn of_tables(part: &str, tables: Vec<Table>, source: &Source<'_, '_>) -> Vec<LogTable> {
    let (few, many): (Vec<Table>, Vec<Table>) = tables.into_iter().partition(single::is_single);
    let one = (!few.is_empty()).then(|| single::together(few, source));
    let rest = many.into_iter().map(|table| match form::is_form(&table) {
        true => form::of(table, source),
        false => table::of(table, source),
    });
    one.into_iter().chain(rest).map(|table| LogTable { part: part.to_owned(), ..table }).collect()
}
