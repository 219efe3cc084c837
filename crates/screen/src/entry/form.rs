//! The form of an entry: what it asks, what was typed so far, and the body it gives.
//!
//! The form of any kind follows from the declared fields of the record, so a kind added later has one at
//! once. It asks first for what the entry needs and what is usually written; the rest waits behind "more".
//! What the plan says and what was written last time stand beside, and are never entered by themselves.
//!
//! Words: *path* = where a field stands: `points[2].depth`; *offer* = a likely value, taken with one tap;
//! *row* = one item of a list.
//! Never: enter a value nobody typed or tapped; write the entry.

mod answers;
mod asked;
mod fill;
mod kept;
mod rows;
mod trial;
mod usual;

pub use asked::{Ask, Asked, Candidate, ChoiceWord, When};
pub(super) use fill::typed;
pub use trial::{Concern, Trial};

use super::echo::{self, Echo};
use super::offer::{self, Offer, Source};
use super::time::Clock;
use super::{limits, plan, sentence};
use answers::Answers;
use quantity::Moment;
use record::field::{FieldSpec, How, Shape, Typed};
use record::kinds::{KindSpec, kind_of};
use record::{Body, Log, Record};
use std::collections::BTreeMap;
use wording::{Show, label};

/// A field that cannot be taken in as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldFault {
    /// Where.
    pub path: String,
    /// What the field is called.
    pub label: String,
    /// What was found and what was expected.
    pub sentence: String,
}

/// An entry half written.
#[derive(Debug, Clone)]
pub struct Form {
    kind: &'static KindSpec,
    shaft: Option<String>,
    at: Moment,
    show: Show,
    beside: BTreeMap<String, String>,
    limits: BTreeMap<String, Vec<limits::Beside>>,
    offers: BTreeMap<String, Offer>,
    candidates: Vec<Candidate>,
    answers: Answers,
}

impl Form {
    /// The form of a kind, for what is seen at a moment; `None` when there is no such kind.
    ///
    /// `shaft: None` is about the whole job.
    pub fn new(word: &str, record: &Record, shaft: Option<&str>, at: Moment) -> Option<Form> {
        let kind = kind_of(word)?;
        let whole = Log::of(record, shaft, None);
        let so_far = Log::of(record, shaft, Some(at));
        let show = Show::of_log(&whole).on_day_of(at);
        let source = Source { log: &so_far, whole: &whole, at, show: &show };
        let mut form = Form {
            kind,
            shaft: shaft.map(str::to_owned),
            at,
            beside: plan::beside(kind, &source),
            limits: limits::beside(kind, &source),
            offers: offer::offers(kind, &source),
            candidates: asked::candidates(kind, &whole, &show),
            answers: Answers::default(),
            show,
        };
        form.open_lists();
        Some(form)
    }

    /// The form of an entry that was written, as a correction begins: every field as it was typed.
    pub fn of_body(body: &Body, record: &Record, shaft: Option<&str>, at: Moment) -> Form {
        let mut form = Form::new(body.kind().word, record, shaft, at).expect("a body is of a known kind");
        let clock = form.clock("");
        form.answers = fill::answers(body, form.show.defaults(), clock);
        form.open_lists();
        form
    }

    /// The word of its kind.
    pub fn word(&self) -> &'static str {
        self.kind.word
    }

    /// What the entry is called: `Tool run`.
    pub fn title(&self) -> String {
        label::kind(self.kind)
    }

    /// What the entry says, in one sentence.
    pub fn meaning(&self) -> &'static str {
        self.kind.meaning.trim()
    }

    /// The shaft it is about; `None`: the whole job.
    pub fn shaft(&self) -> Option<&str> {
        self.shaft.as_deref()
    }

    /// When what it says was seen.
    pub fn at(&self) -> Moment {
        self.at
    }

    /// Sets back or on when it was seen; what was typed stays.
    pub fn seen_at(&mut self, at: Moment) {
        self.at = at;
    }

    /// How the job prints.
    pub fn show(&self) -> &Show {
        &self.show
    }

    /// Every field in the order it is asked for: needed ones, usual ones, then those behind "more".
    pub fn fields(&self) -> Vec<Asked> {
        asked::fields(self)
    }

    /// The text in a field; empty where nothing is written.
    pub fn text(&self, path: &str) -> &str {
        self.answers.text(path)
    }

    /// Writes a text into a field; an empty one clears it.
    pub fn set(&mut self, path: &str, text: &str) {
        self.answers.set(path, text);
        // Another kind of body has other fields.
        if matches!(self.shape_at(path), Some(Shape::Choice(&[]))) {
            self.answers.clear_below(&path.replace(".kind", ".body"));
        }
    }

    /// Writes a text into a field and makes the rows its path speaks of.
    pub fn set_in_row(&mut self, path: &str, text: &str) {
        self.answers.make_rows(path);
        self.set(path, text);
    }

    /// Whether a field holds a quantity.
    pub fn is_quantity(&self, path: &str) -> bool {
        matches!(self.shape_at(path), Some(Shape::Quantity(..)))
    }

    /// Adds a row to a list.
    pub fn add(&mut self, path: &str) {
        self.answers.add_row(path);
    }

    /// Takes a row out of a list; those after it move up.
    pub fn remove(&mut self, path: &str, row: usize) {
        self.answers.remove_row(path, row);
    }

    /// Takes what is offered for a field: the tap that makes it the person's own.
    pub fn take(&mut self, path: &str) {
        let Some(offer) = self.offer_at(path).cloned() else { return };
        for (path, text) in &offer.fills {
            self.answers.make_rows(path);
            self.answers.set(path, text);
        }
    }

    /// How the text in a field was understood.
    pub fn echo(&self, path: &str) -> Echo {
        let text = self.text(path);
        match self.shape_at(path) {
            Some(Shape::Quantity(kind, scale)) => echo::quantity(text, kind, scale, &self.show),
            Some(Shape::Count) => echo::count(text),
            Some(Shape::Moment) => echo::time(text, &self.clock(path)),
            _ if text.trim().is_empty() => Echo::Empty,
            _ => Echo::Understood { text: text.trim().to_owned(), also: None },
        }
    }

    /// Nothing was typed or tapped yet.
    pub fn is_blank(&self) -> bool {
        self.answers.is_blank()
    }

    /// What the entry would say.
    ///
    /// # Errors
    /// Every field that is needed and blank, or cannot be read.
    pub fn body(&self) -> Result<Body, Vec<FieldFault>> {
        let (tree, rows) = rows::tree(self);
        let read = |text: &str| Moment::parse(text).ok();
        let typed = Typed { defaults: self.show.defaults(), moment: &read };
        let taken = Body::from_group(self.kind.word, &tree, "", &How::Typed(&typed));
        taken.map_err(|faults| faults.iter().map(|fault| self.fault(fault, &rows)).collect())
    }

    fn fault(&self, fault: &record::Fault, rows: &rows::Kept) -> FieldFault {
        let path = rows.as_shown(&fault.path);
        let name = path.rsplit('.').next().unwrap_or_default();
        let label = self.spec_at(&path).map_or_else(|| label::field_named(name), label::field);
        FieldFault { label, sentence: sentence::fault(fault), path }
    }

    /// The clock of a field.
    fn clock(&self, path: &str) -> Clock {
        Clock { now: self.at, ahead: path.ends_with("due") }
    }

    /// What is offered for a field that is still blank.
    fn offer_at(&self, path: &str) -> Option<&Offer> {
        self.offers.get(path).filter(|_| self.answers.is_blank_below(path))
    }

    /// A list that is usually written begins with one row.
    fn open_lists(&mut self) {
        for field in self.kind.fields {
            let list = matches!((field.shape)(), Shape::List(_));
            if list && usual::is_usual(self.kind.word, field.name) && self.answers.rows(field.name) == 0 {
                self.answers.add_row(field.name);
            }
        }
    }

    fn shape_at(&self, path: &str) -> Option<Shape> {
        asked::shape_at(self.kind.fields, path, &self.answers)
    }

    fn spec_at(&self, path: &str) -> Option<&'static FieldSpec> {
        asked::spec_at(self.kind.fields, path, &self.answers)
    }
}
