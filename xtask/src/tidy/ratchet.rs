//! The list of exceptions to the size limits; it only gets shorter.
//!
//! A row states an exact size. What has grown fails; what has shrunk fails too, until the row says so,
//! and so no exception ever grows back unseen.

use super::size::{Measure, Measured};
use super::tree::{Finding, Tree};

/// Where the rows stand: `measure path name size`, one a line; `#` begins a comment.
pub(crate) const LIST: &str = "xtask/ratchet.txt";
/// As many rows as the list may hold. Lower it whenever a row goes; never raise it.
const ROWS_AT_MOST: usize = 0;

/// The rows of the list, as they stand.
pub(crate) fn rows(tree: &Tree) -> Vec<&str> {
    numbered(tree.text(LIST).unwrap_or_default()).into_iter().map(|(_, row)| row).collect()
}

fn numbered(list: &str) -> Vec<(usize, &str)> {
    let lines = list.lines().enumerate();
    lines.filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#')).collect()
}

/// What is over a limit and not listed, and rows that are not exact.
pub(crate) fn compare(list: &str, over: &[Measured]) -> Vec<Finding> {
    let rows = numbered(list);
    let listed: Vec<String> = over.iter().map(row).collect();
    let unlisted = over.iter().filter(|one| !rows.iter().any(|(_, line)| *line == row(one)));
    let mut found: Vec<Finding> = unlisted.map(too_big).collect();
    let stale = rows.iter().filter(|(_, line)| !listed.iter().any(|one| one == line));
    found.extend(stale.map(|(number, line)| {
        Finding::in_line(
            LIST,
            *number,
            format!("`{line}` is no longer so: take the row out, or write its new, smaller size"),
        )
    }));
    if rows.len() > ROWS_AT_MOST {
        let what = format!("{} rows, at most {ROWS_AT_MOST} are allowed", rows.len());
        found.push(Finding::in_file(LIST, what));
    }
    found
}

fn row(one: &Measured) -> String {
    format!("{} {} {} {}", one.measure.word(), one.path, one.name, one.size)
}

fn too_big(one: &Measured) -> Finding {
    let limit = one.measure.limit();
    let what = match one.measure {
        Measure::File => format!("{} lines without tests, the limit is {limit}: split it by topic", one.size),
        Measure::Function => {
            format!("`{}` has {} lines, the limit is {limit}: give its parts names", one.name, one.size)
        }
        Measure::Parameters => {
            format!(
                "`{}` has {} parameters, the limit is {limit}: make them a named struct",
                one.name, one.size
            )
        }
    };
    Finding::in_file(&one.path, what)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn long(size: usize) -> Measured {
        Measured { measure: Measure::Function, path: "a.rs".into(), name: "f".into(), size }
    }

    #[track_caller]
    fn check(list: &str, over: &[Measured], expected: &[&str]) {
        let found: Vec<String> = compare(list, over).into_iter().map(|finding| finding.what).collect();
        assert_eq!(found, expected);
    }

    const ROWS: &str = "1 rows, at most 0 are allowed";

    #[test]
    fn what_is_too_big_is_found_and_a_row_that_is_not_exact_too() {
        check("# nothing\n", &[], &[]);
        check("", &[long(80)], &["`f` has 80 lines, the limit is 70: give its parts names"]);
        check("function a.rs f 80\n", &[long(80)], &[ROWS]);
        check(
            "function a.rs f 80\n",
            &[],
            &["`function a.rs f 80` is no longer so: take the row out, or write its new, smaller size", ROWS],
        );
        check(
            "function a.rs f 80\n",
            &[long(81)],
            &[
                "`f` has 81 lines, the limit is 70: give its parts names",
                "`function a.rs f 80` is no longer so: take the row out, or write its new, smaller size",
                ROWS,
            ],
        );
    }
}
