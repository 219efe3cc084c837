//! A shaft of a file of notes: what it should be, part by part.

use crate::block::{Head, Reader};
use crate::fit::Readings;
use crate::mistake::Wrong;
use crate::node::{Named, Node, Sort};
use record::field::Shape;
use record::kinds::{Family, KindSpec, kind_of};

/// The short names of the parts of a plan.
pub(crate) const PARTS: &[(&str, &str)] = &[
    ("strata", "strata_expected"),
    ("casing", "casing_planned"),
    ("cage", "cage_planned"),
    ("anchors", "anchors_planned"),
    ("pour", "pour_planned"),
];

const HEAD: &[&str] = &["date", "at", "noted", "author", "device", "as"];
const ID_MAX: usize = 60;

fn part_kind(name: &str) -> Option<&'static KindSpec> {
    let word = PARTS.iter().find(|(short, _)| *short == name).map_or(name, |(_, word)| word);
    kind_of(word).filter(|kind| kind.family == Family::Plan && kind.word != "shaft_planned")
}

impl Reader<'_> {
    /// Reads a `[[shaft]]`.
    pub(crate) fn shaft(&mut self, node: Node, outer: &Head) {
        let (head, rest) = self.head(node, HEAD);
        let head = head.within(outer);
        let Node { span, sort: Sort::Group(fields) } = rest else {
            let wrong = Wrong::Sort { found: rest.describe(), expected: "a group of fields" };
            return self.wrong(&rest, "shaft", wrong);
        };
        let block = Node::group(span.clone(), Vec::new());
        let (ids, fields): (Vec<Named>, Vec<Named>) =
            fields.into_iter().partition(|field| field.name == "id");
        let (parts, own): (Vec<Named>, Vec<Named>) =
            fields.into_iter().partition(|field| part_kind(&field.name).is_some());
        let Some(id) = self.shaft_id(ids.first(), &block) else { return };
        let in_record = self.context.shafts.contains(&id) && !self.planned.contains_key(&id);
        if own.is_empty() && in_record && !parts.is_empty() {
            self.planned.insert(id.clone(), self.lines.line(span.start));
        } else {
            self.plan(&id, &head, Node::group(span, own), ids.first());
        }
        for part in parts {
            self.part(&id, &head, part);
        }
    }

    fn shaft_id(&mut self, id: Option<&Named>, block: &Node) -> Option<String> {
        let Some(id) = id else {
            self.blank(block, "id", "[[shaft]]", "the name of the shaft, as on the plans");
            return None;
        };
        let text = self.text(id)?;
        let characters = text.chars().count();
        if characters > ID_MAX {
            self.wrong(&id.node, "id", Wrong::Long { characters });
        }
        Some(text)
    }

    fn plan(&mut self, id: &str, head: &Head, node: Node, at: Option<&Named>) {
        let first = self.planned.get(id).copied();
        let in_record = self.context.shafts.contains(id) && !self.context.again;
        if first.is_some() || in_record {
            let place = at.map_or(node, |id| id.node.clone());
            return self.wrong(&place, "id", Wrong::ShaftTwice { id: id.to_owned(), first });
        }
        self.planned.insert(id.to_owned(), self.lines.line(node.span.start));
        self.context.shafts.insert(id.to_owned());
        let kind = kind_of("shaft_planned").expect("a shaft can be planned");
        self.paper(kind, Some(id.to_owned()), head, node);
    }

    fn part(&mut self, id: &str, outer: &Head, part: Named) {
        let Some(kind) = part_kind(&part.name) else { return };
        let node = match part.node {
            Node { span, sort: Sort::List(items) } => wrap(kind, Node::list(span, items)),
            other => other,
        };
        let (head, rest) = self.head(node, HEAD);
        self.paper(kind, Some(id.to_owned()), &head.within(&Head { label: None, ..outer.clone() }), rest);
    }
}

/// `[[shaft.strata]]`: the list stands for the one list of the kind.
fn wrap(kind: &'static KindSpec, list: Node) -> Node {
    let is_list = |shape: Shape| matches!(shape, Shape::List(_)) || Readings::of(shape).is_some();
    let mut lists = kind.fields.iter().filter(|field| is_list((field.shape)()));
    let (Some(only), None) = (lists.next(), lists.next()) else { return list };
    let span = list.span.clone();
    let named = Named { name: only.name.to_owned(), at: span.clone(), node: list };
    Node::group(span, vec![named])
}
