//! Every source key resolves, and every source is cited.
//!
//! A limit or a value without a paper behind it is a rumour. A key in square brackets leads to one row of
//! `docs/sources.md`; a row nobody cites is dead weight that looks like evidence.
//!
//! Words: *key* = capitals with at least one dash or digit, in square brackets; in data files also capitals
//! alone.

use super::tree::{Finding, Tree};
use std::collections::BTreeSet;

const TABLE: &str = "docs/sources.md";
/// How sure a row says it is, among other words.
const SURE: &[&str] = &["read", "from memory", "computed", "common practice"];

/// Keys without a row, rows without a citation, rows out of order, rows that do not say how sure they are.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let Some(table) = tree.text(TABLE) else {
        return vec![Finding::in_file(TABLE, "the table of sources is missing")];
    };
    let rows = rows(table);
    let known: BTreeSet<&str> = rows.iter().map(|row| row.key).collect();
    let mut found = unresolved(tree, &known);
    found.extend(dead(tree, &rows));
    found.extend(malformed(&rows));
    found
}

struct Row<'a> {
    line: usize,
    key: &'a str,
    sure: &'a str,
}

fn rows(table: &str) -> Vec<Row<'_>> {
    table.lines().enumerate().filter_map(|(line, text)| row_of(line, text)).collect()
}

fn row_of(line: usize, text: &str) -> Option<Row<'_>> {
    let key = text.strip_prefix("| [")?.split(']').next()?;
    let sure = text.trim_end().trim_end_matches('|').rsplit('|').next()?.trim();
    Some(Row { line, key, sure })
}

fn unresolved(tree: &Tree, known: &BTreeSet<&str>) -> Vec<Finding> {
    let places = [("crates/", ".rs"), ("criteria/", ".toml"), ("cases/", ".toml"), ("criteria/", ".md")];
    let files = places.iter().flat_map(|(begins, ends)| tree.under(begins, ends));
    let mut found = Vec::new();
    for file in files {
        for (line, text) in file.text.lines().enumerate() {
            let data = file.path.ends_with(".toml");
            let all = keys(text, data).into_iter().chain(quoted(text));
            for key in all.filter(|key| !known.contains(key)) {
                found.push(Finding::in_line(&file.path, line, format!("[{key}] has no row in {TABLE}")));
            }
        }
    }
    found
}

fn dead(tree: &Tree, rows: &[Row<'_>]) -> Vec<Finding> {
    let cited = |key: &str| {
        let mark = format!("[{key}]");
        let named = format!("\"{key}\"");
        tree.files
            .iter()
            .any(|file| file.path != TABLE && (file.text.contains(&mark) || file.text.contains(&named)))
    };
    let unused = rows.iter().filter(|row| !cited(row.key));
    unused.map(|row| Finding::in_line(TABLE, row.line, format!("nothing cites [{}]", row.key))).collect()
}

fn malformed(rows: &[Row<'_>]) -> Vec<Finding> {
    let unsure = rows.iter().filter(|row| !SURE.iter().any(|word| row.sure.to_lowercase().contains(word)));
    let mut found: Vec<Finding> = unsure
        .map(|row| {
            Finding::in_line(
                TABLE,
                row.line,
                format!("[{}]: the last column says one of: {}", row.key, SURE.join(", ")),
            )
        })
        .collect();
    for pair in rows.windows(2).filter(|pair| pair[0].key >= pair[1].key) {
        let what = format!("[{}] stands after [{}]: keys are sorted and unique", pair[1].key, pair[0].key);
        found.push(Finding::in_line(TABLE, pair[1].line, what));
    }
    found
}

/// The keys in a line. In data, a word in capitals is one too; in code it may be the name of a constant.
fn keys(line: &str, data: bool) -> Vec<&str> {
    let inside = line.split('[').skip(1).filter_map(|rest| rest.split_once(']')).map(|(inside, _)| inside);
    let capitals = |text: &str| text.len() >= 3 && text.chars().all(|c| c.is_ascii_uppercase());
    inside.filter(|text| is_key(text) || (data && capitals(text))).collect()
}

/// The key of a line `source = "KEY"`, as data files write it.
fn quoted(line: &str) -> Option<&str> {
    let value = line.trim().strip_prefix("source")?.trim_start().strip_prefix('=')?;
    value.split('"').nth(1).filter(|text| is_key(text))
}

fn is_key(text: &str) -> bool {
    let mut letters = text.chars();
    letters.next().is_some_and(|first| first.is_ascii_uppercase())
        && text.len() >= 3
        && text.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || "-./".contains(c))
        && text.chars().any(|c| c.is_ascii_digit() || c == '-')
        && !text.ends_with('-')
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &str = "| key | document | how sure |\n|---|---|---|\n";

    #[track_caller]
    fn check(table: &str, source: &str, expected: &[&str]) {
        let table = format!("{HEAD}{table}");
        let tree = Tree::of(&[(TABLE, &table), ("crates/calc/src/lib.rs", source)]);
        let found: Vec<String> = find(&tree).into_iter().map(|finding| finding.what).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn a_key_resolves_and_a_row_is_cited() {
        check("| [ACI-336.1] | paper | from memory |\n", "// See [ACI-336.1], 3.4.", &[]);
        check("", "// See [ACI-336.1], 3.4.", &["[ACI-336.1] has no row in docs/sources.md"]);
        check("| [ACI-336.1] | paper | read |\n", "", &["nothing cites [ACI-336.1]"]);
    }

    #[test]
    fn a_row_is_in_order_and_says_how_sure_it_is() {
        let rows = "| [B-2] | paper | read |\n| [A-1] | paper | surely |\n";
        check(
            rows,
            "[A-1] [B-2]",
            &[
                "[A-1]: the last column says one of: read, from memory, computed, common practice",
                "[A-1] stands after [B-2]: keys are sorted and unique",
            ],
        );
    }

    #[test]
    fn a_data_file_names_its_source_without_brackets() {
        assert_eq!(quoted("source    = \"EN-1536\""), Some("EN-1536"));
        assert_eq!(quoted("source    = \"the plans\""), None);
        assert_eq!(quoted("title = \"EN-1536\""), None);
    }

    #[test]
    fn what_is_no_key_is_left_alone() {
        let none: [&str; 0] = [];
        assert_eq!(keys("fn f<const N: usize>(a: [u8; N], i: [N]) -> [T] { a[N - 1] }", false), none);
        assert_eq!(keys("[`Length`] [Link](x.md) [SIZE]", false), none);
        assert_eq!(keys("source = \"[GEOMETRY] a circle\"", true), ["GEOMETRY"]);
        assert_eq!(keys("[NIST-SP-811] and [EC2]", false), ["NIST-SP-811", "EC2"]);
    }
}
