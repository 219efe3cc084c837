//! The names every block of notes may carry beside its fields: when, by whom, with what, called what.
//!
//! `date`, `at`, `noted`, `author`, `device`, `shaft`, `as`, `entry`. Where a kind has a field of such a
//! name, the field is written with an underscore behind it: `entry_`.

use crate::clock::{Clock, date_of};
use crate::context::{Context, Surroundings};
use crate::draft::Drafted;
use crate::label::{Labels, bare};
use crate::mistake::Wrong;
use crate::node::{Named, Node, Sort};
use crate::take::{Desk, Raw};
use crate::text::Lines;
use jiff::civil::Date;
use quantity::Moment;
use record::kinds::KindSpec;
use std::collections::BTreeMap;

/// The names that belong to a block and not to the fields of its kind.
pub(crate) const RESERVED: &[&str] = &["date", "at", "noted", "author", "device", "shaft", "as", "entry"];

/// A file on its way to drafts.
pub(crate) struct Reader<'a> {
    pub(crate) surroundings: &'a dyn Surroundings,
    pub(crate) lines: &'a Lines<'a>,
    pub(crate) labels: Labels,
    pub(crate) context: Context,
    /// Shafts this file plans, with their lines.
    pub(crate) planned: BTreeMap<String, usize>,
    pub(crate) drafted: Vec<Drafted>,
    pub(crate) raws: Vec<Raw>,
}

/// When, by whom and with what something was written, as far as it is said.
#[derive(Clone, Default)]
pub(crate) struct Head {
    pub(crate) date: Option<Date>,
    /// A date is written that is none; that has been told.
    pub(crate) date_wrong: bool,
    pub(crate) at: Option<Named>,
    pub(crate) noted: Option<Named>,
    pub(crate) author: Option<String>,
    pub(crate) device: Option<String>,
    pub(crate) label: Option<String>,
}

impl Head {
    /// The same, with what is blank taken from an outer block.
    pub(crate) fn within(self, outer: &Head) -> Self {
        Head {
            date: self.date.or(outer.date.filter(|_| !self.date_wrong)),
            date_wrong: self.date_wrong || (self.date.is_none() && outer.date_wrong),
            at: self.at,
            noted: self.noted.or_else(|| outer.noted.clone()),
            author: self.author.or_else(|| outer.author.clone()),
            device: self.device.or_else(|| outer.device.clone()),
            label: self.label,
        }
    }
}

impl Reader<'_> {
    pub(crate) fn wrong(&mut self, node: &Node, path: &str, wrong: Wrong) {
        self.raws.push(Raw::at(node, path, wrong));
    }

    /// Takes the head out of a block; what is left are its fields.
    pub(crate) fn head(&mut self, node: Node, names: &[&str]) -> (Head, Node) {
        let Node { span, sort: Sort::Group(fields) } = node else { return (Head::default(), node) };
        let (taken, rest): (Vec<Named>, Vec<Named>) =
            fields.into_iter().partition(|field| names.contains(&field.name.as_str()));
        let mut head = Head::default();
        for field in taken {
            match field.name.as_str() {
                "date" => {
                    head.date = self.date(&field.node);
                    head.date_wrong = head.date.is_none();
                }
                "at" => head.at = Some(field),
                "noted" => head.noted = Some(field),
                "author" => head.author = self.text(&field),
                "device" => head.device = self.text(&field),
                "as" => head.label = self.text(&field).map(|label| bare(&label).to_owned()),
                _ => {}
            }
        }
        (head, Node::group(span, rest))
    }

    /// A field that has to be a text.
    pub(crate) fn text(&mut self, field: &Named) -> Option<String> {
        match field.node.as_text() {
            Some(text) if !text.trim().is_empty() => Some(text.trim().to_owned()),
            Some(_) => None,
            None => {
                let wrong = Wrong::Sort { found: field.node.describe(), expected: "a text" };
                self.wrong(&field.node, &field.name, wrong);
                None
            }
        }
    }

    fn date(&mut self, node: &Node) -> Option<Date> {
        let found = node.as_text().unwrap_or(node.describe());
        let date = date_of(found);
        if date.is_none() {
            self.wrong(node, "date", Wrong::Date(found.to_owned()));
        }
        date
    }

    /// A time of a day.
    pub(crate) fn moment(&mut self, field: &Named, date: Option<Date>) -> Option<Moment> {
        let found = field.node.as_text().unwrap_or(field.node.describe()).to_owned();
        let read = Clock { zone: &self.context.zone, date }.read(&found);
        match read {
            Ok(moment) => Some(moment),
            // A date that is missing or wrong has been told already.
            Err(crate::TimeProblem::NoDate) => None,
            Err(problem) => {
                self.wrong(&field.node, &field.name, Wrong::Time { found, problem });
                None
            }
        }
    }

    /// Says that something every such block needs is blank.
    pub(crate) fn blank(&mut self, node: &Node, field: &str, of: &str, meaning: &'static str) {
        let wrong = Wrong::Blank { field: field.to_owned(), of: of.to_owned(), meaning };
        self.wrong(node, field, wrong);
    }

    /// Drafts an entry whose time may be left to its date: plans and papers.
    pub(crate) fn paper(&mut self, kind: &'static KindSpec, shaft: Option<String>, head: &Head, node: Node) {
        let observed = match (&head.at, head.date) {
            (Some(at), date) => self.moment(at, date),
            (None, Some(date)) => self.context.zone.start_of(date),
            (None, None) if head.date_wrong => None,
            (None, None) => {
                self.blank(&node, "date", kind.word, "the day it was written");
                None
            }
        };
        self.draft(kind, shaft, Seen { head, observed }, node);
    }

    /// Drafts an entry, or keeps every mistake in it.
    pub(crate) fn draft(
        &mut self,
        kind: &'static KindSpec,
        shaft: Option<String>,
        seen: Seen<'_>,
        node: Node,
    ) {
        let Seen { head, observed } = seen;
        let line = self.lines.line(node.span.start);
        let noted = head.noted.as_ref().map(|noted| self.moment(noted, head.date));
        if head.author.is_none() {
            self.blank(&node, "author", kind.word, "who wrote it");
        }
        // A missing date has been told; any day serves to find what else is wrong.
        let clock =
            Clock { zone: &self.context.zone, date: head.date.or_else(|| Some(Date::constant(2000, 1, 3))) };
        let (surroundings, labels) = (self.surroundings, &self.labels);
        let desk = Desk { clock, defaults: self.context.defaults, surroundings, labels, stored_cells: false };
        let said = desk.take(kind, node);
        if let Some(label) = &head.label {
            self.labels.written(label);
        }
        match (said, observed, head.author.clone(), noted) {
            (Err(raws), ..) => self.raws.extend(raws),
            (_, _, _, Some(None)) => {}
            (Ok(said), Some(observed_at), Some(author), noted) => self.drafted.push(Drafted {
                shaft,
                observed_at,
                noted_at: noted.flatten(),
                author,
                device: head.device.clone(),
                label: head.label.clone(),
                line,
                said,
            }),
            _ => {}
        }
    }
}

/// When something was seen, beside the head it stands under.
pub(crate) struct Seen<'h> {
    pub(crate) head: &'h Head,
    pub(crate) observed: Option<Moment>,
}
