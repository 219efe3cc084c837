//! A day of notes: lines in the order of time.

use crate::block::{Head, Reader, Seen};
use crate::job::log_kind;
use crate::mistake::Wrong;
use crate::near::nearest;
use crate::node::{Named, Node, Sort};
use crate::notes::each;

const HEAD: &[&str] = &["date", "noted", "author", "device"];
const LINE_HEAD: &[&str] = &["at", "noted", "author", "as"];
const NAMES: &[&str] = &["date", "shaft", "author", "device", "noted", "log"];

impl Reader<'_> {
    /// Reads a `[[day]]`.
    pub(crate) fn day(&mut self, node: Node, outer: &Head) {
        let (head, rest) = self.head(node, HEAD);
        let head = head.within(outer);
        let Node { span, sort: Sort::Group(fields) } = rest else {
            let wrong = Wrong::Sort { found: rest.describe(), expected: "a group of fields" };
            return self.wrong(&rest, "day", wrong);
        };
        let block = Node::group(span, Vec::new());
        let (mut shaft, mut log) = (None, Vec::new());
        for field in fields {
            match field.name.as_str() {
                "shaft" => shaft = self.known_shaft(&field),
                "log" => log = each(field.node),
                _ => self.unknown_name(&field),
            }
        }
        if head.date.is_none() && !head.date_wrong {
            self.blank(&block, "date", "[[day]]", "the day of these lines, such as 2026-05-04");
        }
        if head.author.is_none() && !log.is_empty() {
            self.blank(&block, "author", "[[day]]", "who wrote these lines");
        }
        // What is blank on the day is told once, not again for every line.
        let author = head.author.clone().or_else(|| Some(String::new()));
        let head = Head { author, ..head };
        log.into_iter().for_each(|line| self.line(line, shaft.as_deref(), &head));
    }

    fn line(&mut self, node: Node, shaft: Option<&str>, day: &Head) {
        let Node { span, sort: Sort::Group(fields) } = node else {
            let wrong = Wrong::Sort {
                found: node.describe(),
                expected: "a line such as { at = \"07:10\", entry = \"tool_run\", to = \"4 ft\" }",
            };
            return self.wrong(&node, "log", wrong);
        };
        let block = Node::group(span.clone(), Vec::new());
        let (named, fields): (Vec<Named>, Vec<Named>) =
            fields.into_iter().partition(|field| matches!(field.name.as_str(), "entry" | "shaft"));
        let (head, rest) = self.head(Node::group(span, fields), LINE_HEAD);
        let head = head.within(day);
        let observed = match &head.at {
            Some(at) => self.moment(at, head.date),
            None => {
                self.blank(&block, "at", "a line of the log", "the time it was seen, such as 07:10");
                None
            }
        };
        let own = named.iter().find(|field| field.name == "shaft");
        let shaft = own.map_or(shaft.map(str::to_owned), |field| self.known_shaft(field));
        let Some(entry) = named.iter().find(|field| field.name == "entry") else {
            return self.blank(&block, "entry", "a line of the log", "the kind of entry, such as tool_run");
        };
        match log_kind(entry.node.as_text().unwrap_or_default()) {
            Ok(kind) => self.draft(kind, shaft, Seen { head: &head, observed }, rest),
            Err(wrong) => {
                head.label.iter().for_each(|label| self.labels.written(label));
                self.wrong(&entry.node, "entry", wrong);
            }
        }
    }

    fn known_shaft(&mut self, field: &Named) -> Option<String> {
        let found = self.text(field)?;
        if !self.context.shafts.contains(&found) {
            let planned: Vec<String> = self.context.shafts.iter().cloned().collect();
            let near = nearest(&found, planned.iter().map(String::as_str));
            self.wrong(&field.node, "shaft", Wrong::UnknownShaft { found: found.clone(), near, planned });
        }
        Some(found)
    }

    fn unknown_name(&mut self, field: &Named) {
        let all: Vec<String> = NAMES.iter().map(|name| (*name).to_owned()).collect();
        let near = nearest(&field.name, NAMES.iter().copied());
        let wrong = Wrong::UnknownName { found: field.name.clone(), within: "a [[day]]", near, all };
        self.wrong(&Node::text(field.at.clone(), ""), "", wrong);
    }
}
