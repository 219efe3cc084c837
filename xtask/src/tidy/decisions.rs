//! Every decision has a number of its own.
//!
//! A decision is cited by its number for years; two under one number, or one that the list does not
//! show, is as good as lost.

use super::tree::{Finding, Tree};

const FOLDER: &str = "docs/decisions/";
const INDEX: &str = "docs/decisions/README.md";

/// Records without a number, with a number taken twice, without a title, or missing in the list.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let records: Vec<_> = tree.under(FOLDER, ".md").filter(|file| file.path != INDEX).collect();
    let index = tree.text(INDEX).unwrap_or_default();
    let mut found = Vec::new();
    for (place, record) in records.iter().enumerate() {
        let name = &record.path[FOLDER.len()..];
        let number = number(name);
        let taken = records[..place].iter().any(|other| self::number(&other.path[FOLDER.len()..]) == number);
        let what = match number {
            None => Some("the name begins with four digits and a dash".to_owned()),
            Some(number) if taken => Some(format!("the number {number} is taken: use the next free one")),
            Some(number) if !record.text.starts_with(&format!("# {number}")) => {
                Some(format!("the first line is the title: `# {number} …`"))
            }
            Some(_) if !index.contains(name) => Some(format!("{INDEX} has no line for it")),
            Some(_) => None,
        };
        found.extend(what.map(|what| Finding::in_file(&record.path, what)));
    }
    found
}

fn number(name: &str) -> Option<&str> {
    let (number, _) = name.split_once('-')?;
    (number.len() == 4 && number.bytes().all(|byte| byte.is_ascii_digit())).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(records: &[(&str, &str)], expected: &[&str]) {
        let found: Vec<String> = find(&Tree::of(records)).into_iter().map(|finding| finding.what).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn numbers_are_unique_and_listed() {
        let index = (INDEX, "- [0001](0001-house.md)\n- [0001](0001-roof.md)");
        check(&[index, ("docs/decisions/0001-house.md", "# 0001 The house\n")], &[]);
        check(
            &[index, ("docs/decisions/house.md", "# The house\n")],
            &["the name begins with four digits and a dash"],
        );
        check(
            &[index, ("docs/decisions/0001-house.md", "The house\n")],
            &["the first line is the title: `# 0001 …`"],
        );
        check(
            &[("docs/decisions/0002-roof.md", "# 0002 The roof\n")],
            &["docs/decisions/README.md has no line for it"],
        );
        let twice = [
            index,
            ("docs/decisions/0001-house.md", "# 0001 A\n"),
            ("docs/decisions/0001-roof.md", "# 0001 B\n"),
        ];
        check(&twice, &["the number 0001 is taken: use the next free one"]);
    }
}
