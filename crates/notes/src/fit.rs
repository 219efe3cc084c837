//! The short ways of writing, brought into the full one.
//!
//! Full: `points = [ { place = "center", depth = "42.6 ft" } ]`. Short: `points = ["42.6 ft"]`,
//! `points = "42.6 ft"`, `depth = "42.6 ft"`, `points = { center = "42.6 ft", north = "42.4 ft" }`.
//! Every short way follows from the declared fields alone, so a kind added later has them too.
//!
//! Never: drop or change what was written; what fits no short way stays as it is and is refused later.

use crate::block::RESERVED;
use crate::near::plain;
use crate::node::{Named, Node, Sort};
use record::field::{FieldSpec, Shape};
use record::kinds::kind_of;

/// A list of groups that one reading fills: exactly one field of the group is needed.
pub(crate) struct Readings {
    /// The fields of the group.
    pub(crate) fields: &'static [FieldSpec],
    /// The field that is needed.
    pub(crate) needed: &'static FieldSpec,
}

impl Readings {
    /// The readings a field holds, where it holds such a list.
    pub(crate) fn of(shape: Shape) -> Option<Self> {
        let Shape::List(item) = shape else { return None };
        let Shape::Group(fields) = item() else { return None };
        Readings::of_group(fields)
    }

    fn of_group(fields: &'static [FieldSpec]) -> Option<Self> {
        let mut needed = fields.iter().filter(|field| !field.may_be_blank);
        let first = needed.next()?;
        needed.next().is_none().then_some(Readings { fields, needed: first })
    }

    /// The field of the group whose words say where a reading was taken.
    pub(crate) fn place(&self) -> Option<(&'static FieldSpec, &'static [record::field::ChoiceSpec])> {
        self.fields.iter().find_map(|field| match (field.shape)() {
            Shape::Choice(words) => Some((field, words)),
            _ => None,
        })
    }

    fn item(&self, span: std::ops::Range<usize>, written: Node) -> Node {
        let named = Named { name: self.needed.name.to_owned(), at: written.span.clone(), node: written };
        Node::group(span, vec![named])
    }
}

/// Brings the fields of a kind or group into their full form.
pub(crate) fn fit_fields(node: Node, specs: &'static [FieldSpec]) -> Node {
    let Node { span, sort: Sort::Group(fields) } = node else { return node };
    let mut fields = fields;
    fields.iter_mut().for_each(|field| own_name(field, specs));
    let mut fields = gather(fields, specs, &span);
    for field in &mut fields {
        if let Some(spec) = specs.iter().find(|spec| spec.name == field.name) {
            let node = std::mem::replace(&mut field.node, Node::text(0..0, ""));
            field.node = fit(node, (spec.shape)());
        }
    }
    Node::group(span, fields)
}

/// `entry_` is the field `entry`: its name alone means something else on a line.
fn own_name(field: &mut Named, specs: &'static [FieldSpec]) {
    let known = |name: &str| specs.iter().any(|spec| spec.name == name);
    let own = field.name.strip_suffix('_').filter(|name| RESERVED.contains(name) && known(name));
    if let Some(own) = own.map(str::to_owned) {
        field.name = own;
    }
}

fn fit(node: Node, shape: Shape) -> Node {
    match shape {
        Shape::List(item) => fit_list(node, item()),
        Shape::Group(fields) => fit_group(node, fields),
        Shape::Body => fit_body(node),
        Shape::Flag => node,
        _ => match node.sort {
            Sort::Flag(flag) => Node::text(node.span, if flag { "true" } else { "false" }),
            _ => node,
        },
    }
}

fn fit_group(node: Node, fields: &'static [FieldSpec]) -> Node {
    match (&node.sort, Readings::of_group(fields)) {
        (Sort::Text(_), Some(readings)) => fit_fields(readings.item(node.span.clone(), node), fields),
        _ => fit_fields(node, fields),
    }
}

fn fit_list(node: Node, item: Shape) -> Node {
    let span = node.span.clone();
    let items = match node.sort {
        Sort::List(items) => items.into_iter().flat_map(|one| by_place(one, item)).collect(),
        Sort::Text(ref text) if text.trim().is_empty() => Vec::new(),
        _ => by_place(node, item),
    };
    Node::list(span, items.into_iter().map(|one| fit(one, item)).collect())
}

/// `{ center = "42.6", north = "42.4" }`: one reading a place.
fn by_place(node: Node, item: Shape) -> Vec<Node> {
    let Shape::Group(specs) = item else { return vec![node] };
    let readings = Readings::of_group(specs);
    let place = readings.as_ref().and_then(Readings::place);
    let (Some(readings), Some((place, words)), Sort::Group(fields)) = (readings, place, &node.sort) else {
        return vec![node];
    };
    let is_place = |field: &Named| words.iter().any(|word| word.word == plain(&field.name));
    let is_field = |field: &Named| specs.iter().any(|spec| spec.name == field.name);
    if !fields.iter().any(is_place) || fields.iter().any(is_field) {
        return vec![node];
    }
    let reading = |field: &Named| {
        let word = Node::text(field.at.clone(), plain(&field.name));
        let mut reading = readings.item(field.at.clone(), field.node.clone());
        if let Sort::Group(pieces) = &mut reading.sort {
            pieces.push(Named { name: place.name.to_owned(), at: field.at.clone(), node: word });
        }
        reading
    };
    fields.iter().map(reading).collect()
}

/// `depth = "42.6"` beside the other fields: the one reading of a list that is not written itself.
fn gather(fields: Vec<Named>, specs: &'static [FieldSpec], span: &std::ops::Range<usize>) -> Vec<Named> {
    let own = |name: &str| specs.iter().any(|spec| spec.name == name);
    let written = |name: &str| fields.iter().any(|field| field.name == name);
    let lists = specs.iter().filter_map(|spec| Some((spec, Readings::of((spec.shape)())?)));
    let mut open: Vec<(&FieldSpec, Readings)> = lists.filter(|(spec, _)| !written(spec.name)).collect();
    open.retain(|(_, readings)| written(readings.needed.name) && !own(readings.needed.name));
    let [(list, readings)] = open.as_slice() else { return fields };
    let belongs =
        |field: &Named| !own(&field.name) && readings.fields.iter().any(|spec| spec.name == field.name);
    let (inner, mut outer): (Vec<Named>, Vec<Named>) = fields.into_iter().partition(belongs);
    let at = inner.first().map_or(span.clone(), |field| field.at.clone());
    let item = Node::group(at.clone(), inner);
    outer.push(Named { name: list.name.to_owned(), at: at.clone(), node: Node::list(at, vec![item]) });
    outer
}

/// `{ entry = "tool_run", to = "4 ft" }` as the body of a correction.
fn fit_body(node: Node) -> Node {
    let Node { span, sort: Sort::Group(mut fields) } = node else { return node };
    let Some(at) = fields.iter().position(|field| field.name == "entry") else {
        return Node::group(span, fields);
    };
    let mut word = fields.remove(at);
    word.name = "kind".to_owned();
    let kind = word.node.as_text().map(plain).and_then(|word| kind_of(&word));
    if let (Some(kind), Sort::Text(text)) = (kind, &mut word.node.sort) {
        kind.word.clone_into(text);
    }
    let body = Node::group(span.clone(), fields);
    let body = kind.map_or_else(|| body.clone(), |kind| fit_fields(body.clone(), kind.fields));
    Node::group(span.clone(), vec![word, Named { name: "body".to_owned(), at: span, node: body }])
}
