//! From the path of a fault to the place it was written at.

use crate::node::Node;
use record::field::{FieldSpec, Shape};
use record::kinds::{KindSpec, kind_of};
use std::ops::Range;

/// Where a path leads, as far as something is written there.
pub(crate) struct Place<'n> {
    /// The innermost thing written on the way.
    pub(crate) node: &'n Node,
    /// Where its name stands.
    pub(crate) name: Range<usize>,
    /// What the last field of the path belongs to.
    pub(crate) owner: String,
    /// The last field of the path.
    pub(crate) spec: Option<&'static FieldSpec>,
}

enum Step<'p> {
    Name(&'p str),
    Index(usize),
}

/// `points[2].depth` as three steps.
fn steps(path: &str) -> Vec<Step<'_>> {
    let mut steps = Vec::new();
    for piece in path.split('.').filter(|piece| !piece.is_empty()) {
        let mut parts = piece.split('[');
        steps.extend(parts.next().map(Step::Name));
        steps.extend(parts.filter_map(|part| part.trim_end_matches(']').parse().ok().map(Step::Index)));
    }
    steps
}

/// Follows a path as the record writes it, counted from 0.
pub(crate) fn locate<'n>(kind: &'static KindSpec, node: &'n Node, path: &str) -> Place<'n> {
    let mut place = Place { node, name: node.span.clone(), owner: kind.word.to_owned(), spec: None };
    let mut shape = Some(Shape::Group(kind.fields));
    let mut word = kind.word;
    let mut written = true;
    for step in steps(path) {
        let child = match step {
            Step::Index(index) => {
                shape =
                    shape.and_then(|shape| if let Shape::List(item) = shape { Some(item()) } else { None });
                place.node.item(index)
            }
            Step::Name(name) => {
                let field = place.node.field(name).filter(|_| written);
                place.name = field.map_or(place.name, |field| field.at.clone());
                if let (Some(Shape::Body), "body") = (shape, name) {
                    word = body_kind(place.node).map_or(word, |kind| kind.word);
                    shape = body_kind(place.node).map(|kind| Shape::Group(kind.fields));
                    word.clone_into(&mut place.owner);
                    place.spec = None;
                } else if let (Some(Shape::Body), _) = (shape, name) {
                    (place.spec, shape) = (None, None);
                } else {
                    shape = enter(&mut place, shape, name, word);
                }
                field.map(|field| &field.node)
            }
        };
        written = written && child.is_some();
        place.node = child.filter(|_| written).unwrap_or(place.node);
    }
    place
}

/// Goes into a field: what it belongs to, what it is, and what it holds.
fn enter(place: &mut Place<'_>, shape: Option<Shape>, name: &str, word: &str) -> Option<Shape> {
    if let Some(outer) = place.spec {
        place.owner = format!("{} of {word}", outer.name);
    }
    let Some(Shape::Group(fields)) = shape else { return None };
    let spec = fields.iter().find(|spec| spec.name == name);
    let inner = spec.map(|spec| (spec.shape)());
    let holds_fields = matches!(inner, Some(Shape::Group(_) | Shape::List(_) | Shape::Body));
    place.spec = spec.or(place.spec.filter(|_| holds_fields));
    inner
}

fn body_kind(node: &Node) -> Option<&'static KindSpec> {
    kind_of(node.field("kind")?.node.as_text()?)
}

/// A path as people count and write it: from 1, and without the inner names of a correction.
pub(crate) fn shown_path(path: &str) -> String {
    let path = path.replace("body.body.", "body.").replace("body.kind", "body.entry");
    let mut shown = String::with_capacity(path.len());
    for (at, piece) in path.split('[').enumerate() {
        match piece.split_once(']') {
            Some((index, rest)) if at > 0 => {
                let index: usize = index.parse().unwrap_or_default();
                shown.push_str(&format!("[{}]{rest}", index + 1));
            }
            _ => shown.push_str(piece),
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_shown_from_one() {
        assert_eq!(shown_path("points[0].depth"), "points[1].depth");
        assert_eq!(shown_path("body.body.points[1]"), "body.points[2]");
        assert_eq!(shown_path("body.kind"), "body.entry");
        assert_eq!(shown_path("to"), "to");
    }
}
