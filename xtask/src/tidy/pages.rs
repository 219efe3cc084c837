//! Every criterion has a page.
//!
//! An inspector who is told that something fails must be able to read what was measured, why it matters
//! and what to do. The page of a criterion is named by its id; its cases run as tests of `criteria`.

use super::tree::{Finding, Tree};

const FOLDER: &str = "criteria/";
const PAGES: &str = "criteria/pages/";

/// Criteria without a page, and pages without a criterion.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let files: Vec<_> = tree.under(FOLDER, ".toml").collect();
    if files.is_empty() {
        return vec![Finding::in_file(FOLDER, "there are no criteria")];
    }
    let pages: Vec<&str> = tree.under(PAGES, ".md").map(|file| file.path.as_str()).collect();
    let mut ids = Vec::new();
    let mut found = Vec::new();
    for file in files {
        for (line, id) in criterion_ids(&file.text) {
            if !pages.contains(&page(id).as_str()) {
                found.push(Finding::in_line(&file.path, line, format!("`{id}` has no page {}", page(id))));
            }
            ids.push(page(id));
        }
    }
    let lonely =
        pages.iter().filter(|path| !path.ends_with("README.md") && !ids.iter().any(|id| id == *path));
    found.extend(lonely.map(|path| Finding::in_file(path, "no criterion has this page")));
    found
}

/// Where the page of a criterion lies.
fn page(id: &str) -> String {
    format!("{PAGES}{id}.md")
}

/// The `id = "…"` lines inside `[[criterion]]` tables.
fn criterion_ids(text: &str) -> Vec<(usize, &str)> {
    let mut inside = false;
    let mut ids = Vec::new();
    for (number, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.starts_with('[') {
            inside = line.starts_with("[[criterion]]");
        }
        let value = line.strip_prefix("id").map(str::trim_start).and_then(|rest| rest.strip_prefix('='));
        if let Some(id) = value.filter(|_| inside).and_then(|rest| rest.split('"').nth(1)) {
            ids.push((number, id));
        }
    }
    ids
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(files: &[(&str, &str)], expected: &[&str]) {
        let found: Vec<String> = find(&Tree::of(files)).into_iter().map(|finding| finding.what).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn a_criterion_and_its_page_belong_together() {
        let set = ("criteria/example.toml", "[document]\nid = \"x\"\n\n[[criterion]]\nid = \"EX/1\"\n");
        check(&[], &["there are no criteria"]);
        check(&[set], &["`EX/1` has no page criteria/pages/EX/1.md"]);
        check(&[set, ("criteria/pages/EX/1.md", "")], &[]);
        check(
            &[set, ("criteria/pages/EX/1.md", ""), ("criteria/pages/EX/2.md", "")],
            &["no criterion has this page"],
        );
    }
}
