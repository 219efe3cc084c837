//! A link between documents leads somewhere.
//!
//! The documents are a newcomer's first day; a dead link there costs more than one in code.

use super::tree::{Finding, Tree};

/// Relative links in Markdown whose target is neither a file nor a folder of the tree.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let mut found = Vec::new();
    for file in tree.under("", ".md") {
        for (line, text) in file.text.lines().enumerate() {
            let dead = targets(text).into_iter().filter(|target| !leads(tree, &file.path, target));
            found.extend(
                dead.map(|target| Finding::in_line(&file.path, line, format!("`{target}` leads nowhere"))),
            );
        }
    }
    found
}

/// The targets of `[text](target)` that are paths, without what follows `#`.
fn targets(line: &str) -> Vec<&str> {
    let all = line.split("](").skip(1).filter_map(|rest| rest.split_once(')')).map(|(target, _)| target);
    let paths =
        all.filter(|target| !target.contains("://") && !target.starts_with('#') && !target.contains(' '));
    paths
        .map(|target| target.split('#').next().unwrap_or(target))
        .filter(|target| !target.is_empty())
        .collect()
}

fn leads(tree: &Tree, from: &str, target: &str) -> bool {
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in target.trim_end_matches('/').split('/') {
        match part {
            "." => {}
            ".." => {
                parts.pop();
            }
            name => parts.push(name),
        }
    }
    let path = parts.join("/");
    let folder = format!("{path}/");
    path.is_empty() || tree.files.iter().any(|file| file.path == path || file.path.starts_with(&folder))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(line: &str, found: usize) {
        let tree = Tree::of(&[("docs/a.md", line), ("docs/deep/b.md", ""), ("README.md", "")]);
        assert_eq!(find(&tree).len(), found, "{line}");
    }

    #[test]
    fn relative_links_are_followed() {
        check(
            "[b](deep/b.md) [top](../README.md#map) [folder](deep/) [here](#x) [web](https://example.org/x)",
            0,
        );
        check("[gone](deep/c.md)", 1);
        check("[gone](../docs/deep/c.md) and [gone](nothing.md)", 2);
    }
}
