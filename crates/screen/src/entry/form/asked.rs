//! The fields of a form as a flat list: what a screen places, one below the other.
//!
//! Needed fields come first, then those that are usually written, then the rest; the fields of a group or
//! of the rows of a list follow their head.
//!
//! Never: hide a field that is needed.

use super::answers::Answers;
use super::{Form, usual};
use crate::entry::keypad::Keypad;
use crate::entry::limits;
use crate::entry::offer::Offer;
use quantity::InOrder;
use record::Log;
use record::field::{ChoiceSpec, FieldSpec, Shape};
use record::kinds::{KINDS, KindSpec, kind_of};
use wording::{LimitBeside, Show, entry_text, label};

/// When a field is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum When {
    /// The entry needs it.
    Needed,
    /// It is usually written.
    Usual,
    /// It waits behind "more".
    More,
}

/// One field as a screen places it.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// Where: `points[2].depth`.
    pub path: String,
    /// What it is called: `Depth`.
    pub label: String,
    /// What it means.
    pub hint: String,
    /// It may not be left blank (within a group or row: once the group or row is begun).
    pub required: bool,
    /// When it is asked for.
    pub when: When,
    /// How deep it is nested: 0 for a field of the entry itself.
    pub level: usize,
    /// What it asks for.
    pub ask: Ask,
    /// What is typed in it.
    pub text: String,
    /// What the plan says: `plan 48 in`.
    pub planned: Option<String>,
    /// The limits in force that judge it, each with its source.
    pub limits: Vec<LimitBeside>,
    /// A likely value, while nothing is written.
    pub offer: Option<Offer>,
}

/// What a field asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Ask {
    /// A quantity, with its keys.
    Quantity(Keypad),
    /// Words.
    Text,
    /// `yes` or `no`.
    Flag,
    /// A whole number, with its keys.
    Count(Keypad),
    /// A clock time, with its keys.
    Time(Keypad),
    /// One of a few words.
    Choice(Vec<ChoiceWord>),
    /// Another entry, by its id.
    Entry(Vec<Candidate>),
    /// A file, by its hash: a photo from the camera, or a document.
    File,
    /// The head of a list; its rows follow.
    List {
        /// How many rows follow.
        rows: usize,
        /// What one more is called: `Add point`.
        add: String,
    },
    /// The head of a row; its fields follow.
    Row {
        /// The list it belongs to.
        list: String,
        /// Its number there, from 0.
        row: usize,
    },
    /// The head of a group; its fields follow.
    Group,
}

/// One word of a choice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChoiceWord {
    /// What is set: `after_cage`.
    pub word: String,
    /// What stands on it: `after cage`.
    pub label: String,
    /// What it means.
    pub meaning: String,
}

impl Asked {
    /// What is written in it, in the words that stand on what was chosen.
    pub fn shown(&self) -> &str {
        let words = match &self.ask {
            Ask::Choice(words) => words.iter().find(|one| one.word == self.text).map(|one| &one.label),
            Ask::Entry(entries) => entries.iter().find(|one| one.id == self.text).map(|one| &one.text),
            _ => None,
        };
        words.unwrap_or(&self.text)
    }
}

/// An entry that may be named.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Candidate {
    /// What is set: its id.
    pub id: String,
    /// What stands on it: `10:41 Concrete sounded 42.6 ft center`.
    pub text: String,
}

/// Every field of a form, in the order it is asked for.
pub(super) fn fields(form: &Form) -> Vec<Asked> {
    let mut all = Vec::new();
    let word = form.kind.word;
    let mut fields: Vec<&FieldSpec> = form.kind.fields.iter().collect();
    fields.put_in_order_by_key(|field| (usual::when(word, field), usual::place(word, field.name)));
    for field in fields {
        let place = Place { path: field.name.to_owned(), level: 0, when: usual::when(word, field) };
        Flatten { form, all: &mut all }.field(field, &place);
    }
    all
}

/// Entries that another may speak of, the newest first; none where the kind speaks of none.
pub(super) fn candidates(kind: &KindSpec, log: &Log<'_>, show: &Show) -> Vec<Candidate> {
    if !kind.fields.iter().any(|field| matches!((field.shape)(), Shape::Entry)) {
        return Vec::new();
    }
    let text = |line: &record::Line<'_>| {
        let head = format!("{} {}", show.moment(line.at), label::kind(line.body.kind()));
        format!("{head}  {}", entry_text(line.body, show)).trim_end().to_owned()
    };
    let one = |line: &record::Line<'_>| Candidate { id: line.entry.id.to_string(), text: text(line) };
    log.lines.iter().rev().map(one).collect()
}

struct Place {
    path: String,
    level: usize,
    when: When,
}

impl Place {
    fn below(&self, name: &str) -> Place {
        Place { path: format!("{}.{name}", self.path), level: self.level + 1, when: self.when }
    }

    fn row(&self, row: usize) -> Place {
        Place { path: format!("{}[{row}]", self.path), level: self.level + 1, when: self.when }
    }
}

struct Flatten<'f> {
    form: &'f Form,
    all: &'f mut Vec<Asked>,
}

impl Flatten<'_> {
    fn field(&mut self, field: &FieldSpec, place: &Place) {
        let shape = (field.shape)();
        let words = Words { label: name(field, shape), hint: hint(field, shape) };
        if matches!(shape, Shape::Body) {
            return self.body(field, words, place);
        }
        self.push(ask(shape, field.name, self.form, &place.path), words, !field.may_be_blank, place);
        match shape {
            Shape::List(item) => self.rows(item(), field.name, place),
            Shape::Group(inner) => self.group(inner, place),
            _ => {}
        }
    }

    fn group(&mut self, fields: &[FieldSpec], place: &Place) {
        fields.iter().for_each(|field| self.field(field, &place.below(field.name)));
    }

    fn rows(&mut self, item: Shape, name: &str, place: &Place) {
        for row in 0..self.form.answers.rows(&place.path) {
            let at = place.row(row);
            let label = format!("{} {}", one_of(name), row + 1);
            let words = Words { label, hint: String::new() };
            match item {
                Shape::Group(fields) => {
                    let head = Ask::Row { list: place.path.clone(), row };
                    self.push(head, words, false, &at);
                    self.group(fields, &at);
                }
                shape => self.push(ask(shape, name, self.form, &at.path), words, false, &at),
            }
        }
    }

    /// What should have been written: a kind, and the fields of that kind.
    fn body(&mut self, field: &FieldSpec, words: Words, place: &Place) {
        let kind = place.below("kind");
        self.push(Ask::Choice(kind_words()), words, !field.may_be_blank, &kind);
        let Some(chosen) = kind_of(self.form.text(&kind.path)) else { return };
        let body = place.below("body");
        chosen.fields.iter().for_each(|field| self.field(field, &body.below(field.name)));
    }

    fn push(&mut self, ask: Ask, words: Words, required: bool, place: &Place) {
        let path = place.path.clone();
        // The head of a row says nothing that its list has not said.
        let head = matches!(ask, Ask::Row { .. });
        let beside = if head { None } else { self.form.beside.get(&pattern(&path)) };
        let limits = if head { Vec::new() } else { self.limits(&path) };
        self.all.push(Asked {
            label: words.label,
            hint: words.hint,
            required,
            when: place.when,
            level: place.level,
            ask,
            text: self.form.text(&path).to_owned(),
            planned: beside.cloned(),
            limits,
            offer: self.form.offer_at(&path).cloned(),
            path,
        });
    }
}

impl Flatten<'_> {
    fn limits(&self, path: &str) -> Vec<LimitBeside> {
        limits::said(self.form.limits.get(&pattern(path)), self.form.text("stage"))
    }
}

struct Words {
    label: String,
    hint: String,
}

/// What a field is called; that a file is known by its hash is for those who prove it.
fn name(field: &FieldSpec, shape: Shape) -> String {
    if matches!(shape, Shape::FileHash) { "Photo or file".to_owned() } else { label::field(field) }
}

/// What a field means. What the record says of a file is for those who prove it; a person picks one.
fn hint(field: &FieldSpec, shape: Shape) -> String {
    match shape {
        Shape::FileHash => {
            "From the camera, or a file of this device. It is kept here and sent when there is a connection."
                .to_owned()
        }
        // That words are in words needs no line of its own.
        _ => match field.meaning.trim() {
            "The words." | "In words." | "Readings." => String::new(),
            meaning => meaning.to_owned(),
        },
    }
}

fn ask(shape: Shape, name: &str, form: &Form, path: &str) -> Ask {
    let defaults = form.show.defaults();
    match shape {
        Shape::Text => Ask::Text,
        Shape::Flag => Ask::Flag,
        Shape::Count => Ask::Count(Keypad::count()),
        Shape::Moment => Ask::Time(Keypad::time()),
        Shape::Quantity(kind, scale) => Ask::Quantity(Keypad::of(kind, scale, defaults)),
        Shape::Choice(words) => Ask::Choice(choice_words(words)),
        Shape::Entry => Ask::Entry(form.candidates.clone()),
        Shape::FileHash => Ask::File,
        Shape::List(_) => {
            let add = format!("Add {}", one_of(name).to_lowercase());
            Ask::List { rows: form.answers.rows(path), add }
        }
        Shape::Group(_) | Shape::Body => Ask::Group,
    }
}

fn choice_words(words: &[ChoiceSpec]) -> Vec<ChoiceWord> {
    let one = |word: &ChoiceSpec| ChoiceWord {
        word: word.word.to_owned(),
        label: label::choice(word.word),
        meaning: word.meaning.trim().to_owned(),
    };
    words.iter().map(one).collect()
}

/// Every kind but a correction, which is never what should have been written, and those a program makes.
fn kind_words() -> Vec<ChoiceWord> {
    let one = |kind: &KindSpec| ChoiceWord {
        word: kind.word.to_owned(),
        label: label::kind(kind),
        meaning: kind.meaning.trim().to_owned(),
    };
    KINDS.iter().filter(|kind| kind.word != "correction" && !kind.is_made()).map(one).collect()
}

/// Lists whose item is not called by the name without its s.
const ONE_OF: &[(&str, &str)] = &[("bore", "Piece of the bore"), ("trial", "Trial reading")];

/// What one item of a list is called: `Point` of `points`.
fn one_of(list: &str) -> String {
    let named = ONE_OF.iter().find(|row| row.0 == list).map(|row| row.1.to_owned());
    named.unwrap_or_else(|| label::field_named(list.strip_suffix('s').unwrap_or(list)))
}

/// `points[2].depth` is `points.depth`: the same field in every row.
pub(super) fn pattern(path: &str) -> String {
    let mut text = String::with_capacity(path.len());
    let mut inside = false;
    for sign in path.chars() {
        match sign {
            '[' => inside = true,
            ']' => inside = false,
            sign if !inside => text.push(sign),
            _ => {}
        }
    }
    text
}

/// The field a path leads to.
pub(super) fn spec_at(
    fields: &'static [FieldSpec],
    path: &str,
    answers: &Answers,
) -> Option<&'static FieldSpec> {
    found(fields, path, answers, "").map(|(spec, _)| spec)
}

/// The shape a path leads to. The kind of the body in a correction is a choice without words of its own.
pub(super) fn shape_at(fields: &'static [FieldSpec], path: &str, answers: &Answers) -> Option<Shape> {
    found(fields, path, answers, "").map(|(_, shape)| shape)
}

fn found(
    fields: &'static [FieldSpec],
    path: &str,
    answers: &Answers,
    before: &str,
) -> Option<(&'static FieldSpec, Shape)> {
    let (step, rest) = path.split_once('.').map_or((path, None), |(step, rest)| (step, Some(rest)));
    let name = step.split('[').next().unwrap_or(step);
    let spec = fields.iter().find(|field| field.name == name)?;
    let shape = match (spec.shape)() {
        Shape::List(item) if step.contains('[') => item(),
        shape => shape,
    };
    let here = format!("{before}{step}");
    match (shape, rest) {
        (shape, None) => Some((spec, shape)),
        (Shape::Group(inner), Some(rest)) => found(inner, rest, answers, &format!("{here}.")),
        (Shape::Body, Some("kind")) => Some((spec, Shape::Choice(&[]))),
        (Shape::Body, Some(rest)) => {
            let chosen = kind_of(answers.text(&format!("{here}.kind")))?;
            found(chosen.fields, rest.strip_prefix("body.")?, answers, &format!("{here}.body."))
        }
        _ => None,
    }
}
