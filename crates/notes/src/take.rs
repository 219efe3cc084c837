//! What is written of one entry into its body, or every mistake in it with its place.

use crate::clock::Clock;
use crate::context::{Found, Surroundings};
use crate::draft::{Said, Spot};
use crate::fit::fit_fields;
use crate::label::Labels;
use crate::locate::{Place, locate, shown_path};
use crate::mistake::Wrong;
use crate::near::nearest;
use crate::node::{Named, Node, Sort, to_group};
use quantity::Moment;
use record::entry::FileHash;
use record::field::{Defaults, Fault, FaultKind, FieldSpec, How, Shape, Typed};
use record::kinds::{KINDS, KindSpec};
use record::{Body, EntryId};
use std::ops::Range;

/// The longest text that a quantity, a time or a word can be.
const SHORT_MAX: usize = 200;

/// A mistake, with its place in the source text.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Raw {
    pub(crate) span: Range<usize>,
    pub(crate) path: String,
    pub(crate) wrong: Wrong,
}

impl Raw {
    pub(crate) fn at(node: &Node, path: &str, wrong: Wrong) -> Self {
        Raw { span: node.span.clone(), path: path.to_owned(), wrong }
    }
}

/// What an entry is read with.
pub(crate) struct Desk<'a> {
    pub(crate) clock: Clock<'a>,
    pub(crate) defaults: Defaults,
    pub(crate) surroundings: &'a dyn Surroundings,
    pub(crate) labels: &'a Labels,
    /// Cells may carry the braces of the stored form, as our own tables do.
    pub(crate) stored_cells: bool,
}

/// An entry under way: what is put in for a while, and what is wrong.
struct Taking<'a> {
    desk: &'a Desk<'a>,
    spots: Vec<(String, Spot)>,
    raws: Vec<Raw>,
}

impl Desk<'_> {
    /// The body of a kind, from the fields written.
    pub(crate) fn take(&self, kind: &'static KindSpec, node: Node) -> Result<Said, Vec<Raw>> {
        let mut node = fit_fields(node, kind.fields);
        let mut taking = Taking { desk: self, spots: Vec::new(), raws: Vec::new() };
        if kind.word == "criteria_chosen" {
            taking.criteria(&mut node);
        }
        taking.fields(&mut node, kind.fields, "");
        let Sort::Group(fields) = &node.sort else {
            taking.raws.push(Raw::at(&node, "", sort_of(&node, "a group of fields")));
            return Err(taking.raws);
        };
        let moment = |text: &str| -> Option<Moment> { self.clock.read(text).ok() };
        let typed = Typed { defaults: self.defaults, moment: &moment };
        match Body::from_group(kind.word, &to_group(fields), "", &How::Typed(&typed)) {
            Ok(body) if taking.raws.is_empty() => {
                Said::of(body, taking.spots).map_err(|faults| self.raws(kind, &node, faults))
            }
            Ok(_) => Err(taking.raws),
            Err(faults) => {
                taking.raws.extend(self.raws(kind, &node, faults));
                Err(taking.raws)
            }
        }
    }

    fn raws(&self, kind: &'static KindSpec, node: &Node, faults: Vec<Fault>) -> Vec<Raw> {
        faults.into_iter().map(|fault| self.raw(kind, node, fault)).collect()
    }

    /// A fault of the record's own reading, with its place in the file.
    fn raw(&self, kind: &'static KindSpec, node: &Node, fault: Fault) -> Raw {
        let place = locate(kind, node, &fault.path);
        let path = shown_path(&fault.path);
        let unknown = matches!(fault.kind, FaultKind::UnknownField(_));
        let span = if unknown { place.name.clone() } else { place.node.span.clone() };
        Raw { span, wrong: self.wrong(&place, &path, fault.kind), path }
    }

    fn wrong(&self, place: &Place<'_>, path: &str, kind: FaultKind) -> Wrong {
        match kind {
            FaultKind::Missing => Wrong::Blank {
                field: path.to_owned(),
                of: place.owner.clone(),
                meaning: place.spec.map_or("", |spec| spec.meaning),
            },
            FaultKind::UnknownField(fields) => unknown_field(path, &place.owner, fields),
            FaultKind::Sort { expected, .. } => Wrong::Sort { found: place.node.describe(), expected },
            FaultKind::Word { found, allowed } => {
                Wrong::Word { near: nearest(&found, allowed.iter().copied()), found, allowed }
            }
            FaultKind::Count(found) => Wrong::Count(found),
            FaultKind::Moment(found) => match self.clock.read(&found) {
                Err(problem) => Wrong::Time { found, problem },
                Ok(_) => Wrong::Time { found, problem: crate::TimeProblem::Form },
            },
            FaultKind::Hash(found) => Wrong::File(found),
            FaultKind::UnknownKind(found) => unknown_kind(&found),
            FaultKind::Quantity(misread) => Wrong::Quantity(misread),
        }
    }
}

impl Taking<'_> {
    /// A criteria set is chosen by its key; its file is looked up.
    fn criteria(&mut self, node: &mut Node) {
        let Some(set) = node.field("set").filter(|_| node.field("file").is_none()) else { return };
        let Some(key) = set.node.as_text().map(str::to_owned) else { return };
        let (span, at) = (set.node.span.clone(), set.at.clone());
        let named = |name: &str, text: String| Named {
            name: name.to_owned(),
            at: at.clone(),
            node: Node::text(span.clone(), text),
        };
        let found = self.desk.surroundings.criteria(&key);
        if found.is_none() {
            self.raws.push(Raw { span: span.clone(), path: "set".to_owned(), wrong: Wrong::Criteria(key) });
        }
        let file = found.as_ref().map_or(FileHash([0; 32]), |criteria| criteria.file);
        let Sort::Group(fields) = &mut node.sort else { return };
        fields.push(named("file", file.to_string()));
        fields.extend(found.and_then(|criteria| criteria.text).map(|text| named("text", text)));
    }

    fn fields(&mut self, node: &mut Node, specs: &'static [FieldSpec], path: &str) {
        let Sort::Group(fields) = &mut node.sort else { return };
        for field in fields {
            if let Some(spec) = specs.iter().find(|spec| spec.name == field.name) {
                let path =
                    if path.is_empty() { field.name.clone() } else { format!("{path}.{}", field.name) };
                self.shape(&mut field.node, (spec.shape)(), &path);
            }
        }
    }

    fn shape(&mut self, node: &mut Node, shape: Shape, path: &str) {
        match shape {
            Shape::List(item) => {
                if let Sort::List(items) = &mut node.sort {
                    let each = items.iter_mut().enumerate();
                    each.for_each(|(index, one)| self.shape(one, item(), &format!("{path}[{index}]")));
                }
            }
            Shape::Group(fields) => self.fields(node, fields, path),
            Shape::Body => self.body(node, path),
            Shape::Text | Shape::Flag => {}
            other => self.short(node, other, path),
        }
    }

    fn body(&mut self, node: &mut Node, path: &str) {
        let kind = node.field("kind").and_then(|word| word.node.as_text()).and_then(record::kinds::kind_of);
        let Sort::Group(fields) = &mut node.sort else { return };
        let body = fields.iter_mut().find(|field| field.name == "body");
        if let (Some(kind), Some(body)) = (kind, body) {
            self.fields(&mut body.node, kind.fields, &format!("{path}.body"));
        }
    }

    fn short(&mut self, node: &mut Node, shape: Shape, path: &str) {
        let Sort::Text(text) = &mut node.sort else { return };
        let characters = text.chars().count();
        if characters > SHORT_MAX {
            let span = node.span.clone();
            self.raws.push(Raw { span, path: shown_path(path), wrong: Wrong::Long { characters } });
            *text = stand_in(shape);
            return;
        }
        let put_right = match shape {
            _ if text.trim().is_empty() => return,
            Shape::Entry => self.entry(text, path),
            Shape::FileHash => self.file(text),
            Shape::Quantity(..) if self.desk.stored_cells && text.ends_with('}') => {
                self.spots.push((path.to_owned(), Spot::Stored(text.clone())));
                Ok(stand_in(shape))
            }
            _ => return,
        };
        *text = put_right.unwrap_or_else(|wrong| {
            self.raws.push(Raw { span: node.span.clone(), path: shown_path(path), wrong });
            stand_in(shape)
        });
    }

    fn entry(&mut self, text: &str, path: &str) -> Result<String, Wrong> {
        if text.trim().starts_with('#') {
            let label = self.desk.labels.check(text)?;
            self.spots.push((path.to_owned(), Spot::Label(label)));
            return Ok(stand_in(Shape::Entry));
        }
        match self.desk.surroundings.entry(text.trim()) {
            Found::One(id) => Ok(id.to_string()),
            Found::Several => Err(Wrong::EntryUnclear(text.to_owned())),
            Found::None => Err(Wrong::NoEntry(text.to_owned())),
        }
    }

    fn file(&self, text: &str) -> Result<String, Wrong> {
        if FileHash::from_hex(text).is_some() {
            return Ok(text.to_owned());
        }
        let found = self.desk.surroundings.file(text.trim());
        found.map(|hash| hash.to_string()).ok_or_else(|| Wrong::File(text.to_owned()))
    }
}

/// A text that reads well in a field, so that one mistake is not told twice.
fn stand_in(shape: Shape) -> String {
    match shape {
        Shape::Entry | Shape::FileHash => EntryId([0; 32]).to_string(),
        Shape::Quantity(kind, _) => kind.example().to_owned(),
        Shape::Choice(words) => words.first().map_or("", |word| word.word).to_owned(),
        Shape::Count => "0".to_owned(),
        Shape::Moment => "1970-01-01T00:00:00Z".to_owned(),
        _ => String::new(),
    }
}

fn sort_of(node: &Node, expected: &'static str) -> Wrong {
    Wrong::Sort { found: node.describe(), expected }
}

/// An unknown kind, with those nearest to it.
pub(crate) fn unknown_kind(found: &str) -> Wrong {
    Wrong::UnknownKind { found: found.to_owned(), near: nearest(found, KINDS.iter().map(|kind| kind.word)) }
}

fn unknown_field(path: &str, of: &str, fields: Vec<&'static str>) -> Wrong {
    let found = path.rsplit('.').next().unwrap_or(path).to_owned();
    let has = |kind: &&KindSpec| kind.fields.iter().any(|field| field.name == found);
    let elsewhere = KINDS.iter().filter(has).map(|kind| kind.word).take(4).collect();
    let near = nearest(&found, fields.iter().copied());
    Wrong::UnknownField { found, of: of.to_owned(), near, elsewhere, fields }
}
