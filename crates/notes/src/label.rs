//! Labels: names given to lines so that later lines can speak of them.
//!
//! The id of an entry follows from its signature, which does not exist while notes are written. A line
//! says `as = "s3"`, a correction says `replaces = "#s3"`, and the id takes its place at the signing.

use crate::mistake::Wrong;
use crate::near::nearest;
use crate::node::{Node, Sort};
use crate::take::Raw;
use crate::text::Lines;
use std::collections::{BTreeMap, BTreeSet};

/// The labels of a file, and those whose line is drafted already.
#[derive(Default)]
pub(crate) struct Labels {
    lines: BTreeMap<String, usize>,
    written: BTreeSet<String>,
}

impl Labels {
    /// Every label of a file; one given twice is a mistake.
    pub(crate) fn of(root: &Node, lines: &Lines<'_>) -> (Self, Vec<Raw>) {
        let mut labels = Labels::default();
        let mut raws = Vec::new();
        labels.collect(root, lines, &mut raws);
        (labels, raws)
    }

    fn collect(&mut self, node: &Node, lines: &Lines<'_>, raws: &mut Vec<Raw>) {
        match &node.sort {
            Sort::List(items) => items.iter().for_each(|item| self.collect(item, lines, raws)),
            Sort::Group(fields) => {
                for field in fields {
                    match field.node.as_text() {
                        Some(label) if field.name == "as" => self.give(label, &field.node, lines, raws),
                        _ => self.collect(&field.node, lines, raws),
                    }
                }
            }
            Sort::Text(_) | Sort::Flag(_) => {}
        }
    }

    fn give(&mut self, label: &str, node: &Node, lines: &Lines<'_>, raws: &mut Vec<Raw>) {
        let label = bare(label);
        match self.lines.get(label) {
            Some(first) => {
                let wrong = Wrong::LabelTwice { label: label.to_owned(), first: *first };
                raws.push(Raw::at(node, "as", wrong));
            }
            None => {
                self.lines.insert(label.to_owned(), lines.line(node.span.start));
            }
        }
    }

    /// The line of this label is drafted: what follows may speak of it.
    pub(crate) fn written(&mut self, label: &str) {
        self.written.insert(bare(label).to_owned());
    }

    /// Whether a line may speak of a label now.
    pub(crate) fn check(&self, found: &str) -> Result<String, Wrong> {
        let label = bare(found);
        match self.lines.get(label) {
            _ if self.written.contains(label) => Ok(label.to_owned()),
            Some(line) => Err(Wrong::LabelLater { label: label.to_owned(), line: *line }),
            None => Err(Wrong::LabelUnknown {
                found: label.to_owned(),
                near: nearest(label, self.lines.keys().map(String::as_str)),
            }),
        }
    }
}

/// A label without its sign.
pub(crate) fn bare(label: &str) -> &str {
    label.trim().trim_start_matches('#').trim()
}
