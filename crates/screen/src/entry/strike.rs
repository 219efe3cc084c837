//! Making good what was written: correct, strike out, settle a dispute, answer, release, decide.
//!
//! Nothing is erased. A correction names the entry, says why, and carries what should have been written;
//! the old one stays, struck through. Each of these is an entry like any other and needs its reason.
//!
//! Words: *replace* = struck through with something in its place; *strike out* = struck through alone.
//! Never: change an entry, settle a dispute without a person.

use super::form::{Concern, FieldFault, Form, Trial};
use quantity::Moment;
use record::choices::Decision;
use record::kinds::{Correction, DisputeClosed, FindingDisposed, HoldReleased, QuestionAnswered};
use record::{Body, Dispute, Entry, EntryId, Line, Log, Question, Record, Standing};
use wording::{Show, entry_reference, entry_text, label};

/// The correction of an entry, half written.
#[derive(Debug, Clone)]
pub struct Strike {
    /// The entry that is struck through: the one that counts now, where it was corrected before.
    pub replaces: EntryId,
    /// What is struck, in words: `10:41 Concrete sounded (a1b2c3d4)`.
    pub what: String,
    /// What it said.
    pub said: String,
    /// The form with what was written in it, to be mended.
    pub form: Form,
    /// When it was seen, where the time was wrong.
    pub observed: Option<Moment>,
    /// Why.
    pub reason: String,
    before: Body,
}

/// Reasons people give, each one tap; the words may be changed.
pub const REASONS: &[&str] =
    &["slip of the finger", "wrong unit", "read again", "wrong load", "wrong time", "entered twice"];

impl Strike {
    /// Begins to correct an entry; `None` when it is not in the record, was struck through already, or is
    /// in dispute (that is settled, not corrected).
    pub fn of(record: &Record, shaft: Option<&str>, entry: EntryId) -> Option<Strike> {
        let log = Log::of(record, shaft, None);
        let line = log.lines.iter().find(|line| line.entry.id == entry && line.stands())?;
        let show = Show::of_log(&log);
        Some(Strike {
            replaces: entry,
            what: entry_reference(entry, &log, &show),
            said: entry_text(line.body, &show),
            form: Form::of_body(line.body, record, line.entry.shaft.as_deref().or(shaft), line.at),
            observed: None,
            reason: String::new(),
            before: line.body.clone(),
        })
    }

    /// Sets another time at which it was seen.
    pub fn seen_at(&mut self, at: Moment) {
        self.observed = Some(at);
        self.form.seen_at(at);
    }

    /// The correction that puts the mended form in the place of the entry.
    ///
    /// # Errors
    /// No reason, nothing that differs, and every field that cannot be read.
    pub fn replace(&self) -> Result<Body, Vec<FieldFault>> {
        let mut faults = self.unreasoned();
        let body = self.form.body().map_err(|more| faults.extend(more)).ok();
        if body.as_ref() == Some(&self.before) && self.observed.is_none() {
            faults.push(fault(
                "body",
                "Nothing differs from what was written. To take it back, strike it out.",
            ));
        }
        match body.filter(|_| faults.is_empty()) {
            Some(body) => Ok(self.correction(Some(body))),
            None => Err(faults),
        }
    }

    /// The correction that strikes the entry out with nothing in its place.
    ///
    /// # Errors
    /// No reason.
    pub fn strike_out(&self) -> Result<Body, Vec<FieldFault>> {
        let faults = self.unreasoned();
        if faults.is_empty() { Ok(self.correction(None)) } else { Err(faults) }
    }

    /// What looks odd about the entry as mended, the old one being struck; none while it cannot be read.
    pub fn questions(&self, trial: &Trial<'_>) -> Vec<Concern> {
        let Ok(body) = self.form.body() else { return Vec::new() };
        self.form.concerns(self.correction(Some(body)), trial)
    }

    fn unreasoned(&self) -> Vec<FieldFault> {
        let blank = self.reason.trim().is_empty();
        blank
            .then(|| fault("reason", "Say why; the reason stands beside the struck entry."))
            .into_iter()
            .collect()
    }

    fn correction(&self, body: Option<Body>) -> Body {
        let observed = self.observed.filter(|_| body.is_some());
        let reason = self.reason.trim().to_owned();
        Correction { replaces: self.replaces, reason, observed, body: body.map(Box::new) }.into()
    }
}

/// A dispute as a person settles it: each candidate, and what it says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settle {
    /// The entry in dispute.
    pub about: EntryId,
    /// What it is about, in words.
    pub what: String,
    /// The versions; one of them stands in the end.
    pub versions: Vec<Version>,
}

/// One version of an entry in dispute.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Version {
    /// What is named to keep it.
    pub keeps: EntryId,
    /// What it says; a strike without a replacement says so.
    pub text: String,
    /// Who wrote it, and why.
    pub by: String,
}

/// Every dispute of a log that nobody has settled.
pub fn disputes(log: &Log<'_>, show: &Show) -> Vec<Settle> {
    log.disputes.iter().map(|dispute| settle(dispute, log, show)).collect()
}

fn settle(dispute: &Dispute, log: &Log<'_>, show: &Show) -> Settle {
    // The entry as it stood is always one of the choices.
    let mut ids = dispute.candidates.clone();
    if !ids.contains(&dispute.about) {
        ids.insert(0, dispute.about);
    }
    Settle {
        about: dispute.about,
        what: entry_reference(dispute.about, log, show),
        versions: ids.into_iter().map(|keeps| version(keeps, log, show)).collect(),
    }
}

fn version(keeps: EntryId, log: &Log<'_>, show: &Show) -> Version {
    let correction = log.corrections.iter().find(|entry| entry.id == keeps);
    let line = log.lines.iter().find(|line| line.entry.id == keeps);
    let text = match line {
        Some(line) => format!("{} {}", label::kind(line.body.kind()), entry_text(line.body, show)),
        None => "Struck out, with nothing in its place".to_owned(),
    };
    let by = match (correction, line) {
        (Some(entry), _) => corrected_by(entry, show),
        (None, Some(line)) => format!("{}, {}, as first written", line.entry.author, show.moment(line.at)),
        (None, None) => "not in this record".to_owned(),
    };
    Version { keeps, text: text.trim().to_owned(), by }
}

fn corrected_by(entry: &Entry, show: &Show) -> String {
    let reason = match &entry.body {
        Body::Correction(correction) => correction.reason.as_str(),
        _ => "",
    };
    format!("{}, {}: {reason}", entry.author, show.moment(entry.entered_at))
}

/// Closes a dispute: that version stands.
///
/// # Errors
/// No reason.
pub fn keep(about: EntryId, keeps: EntryId, reason: &str, by: &str) -> Result<Body, Vec<FieldFault>> {
    let reason = needed("reason", reason, "Say why this version stands.")?;
    Ok(DisputeClosed { about, keeps, reason, by: filled(by) }.into())
}

/// Answers a question of the tool about an entry.
///
/// # Errors
/// No answer.
pub fn answer(question: &Question, answer: &str) -> Result<Body, Vec<FieldFault>> {
    let answer = needed("answer", answer, "Write the answer; it stands beside the question.")?;
    let word = question.suspicion.word();
    let question_word = match question.suspicion.field() {
        Some(field) => format!("{word}.{field}"),
        None => word.to_owned(),
    };
    Ok(QuestionAnswered { about: question.about, question: question_word, answer }.into())
}

/// Holds that nobody has released, the oldest first.
pub fn holds<'l>(log: &'l Log<'_>) -> Vec<(&'l str, Moment)> {
    log.open_holds().into_iter().map(|(line, placed)| (placed.hold.as_str(), line.at)).collect()
}

/// Releases a hold.
///
/// # Errors
/// Nobody who released it.
pub fn release(hold: &str, by: &str) -> Result<Body, Vec<FieldFault>> {
    let by = needed("by", by, "Say who released it.")?;
    Ok(HoldReleased { hold: hold.to_owned(), by }.into())
}

/// What was decided about a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Decide {
    /// Id of the criterion.
    pub criterion: String,
    /// The entry the finding rests on, where it is one.
    pub about: Option<EntryId>,
    /// What was decided.
    pub decision: Decision,
    /// Why, or how.
    pub reason: String,
    /// Who decided.
    pub by: String,
}

impl Decide {
    /// The entry that says so.
    ///
    /// # Errors
    /// No reason.
    pub fn body(&self) -> Result<Body, Vec<FieldFault>> {
        let reason = needed("reason", &self.reason, "Say why, or how it was made good.")?;
        let (criterion, by) = (self.criterion.clone(), filled(&self.by));
        Ok(FindingDisposed { criterion, about: self.about, decision: self.decision, reason, by }.into())
    }
}

/// Whether an entry may be corrected as it stands, and why not.
pub fn may_correct(line: &Line<'_>) -> Result<(), &'static str> {
    match line.standing {
        Standing::Stands => Ok(()),
        Standing::Struck { .. } => Err("It is struck through already; correct the one in its place."),
        Standing::Disputed { .. } => Err("It is in dispute; settle the dispute first."),
    }
}

fn needed(path: &str, text: &str, sentence: &str) -> Result<String, Vec<FieldFault>> {
    filled(text).ok_or_else(|| vec![fault(path, sentence)])
}

fn filled(text: &str) -> Option<String> {
    Some(text.trim().to_owned()).filter(|text| !text.is_empty())
}

fn fault(path: &str, sentence: &str) -> FieldFault {
    FieldFault { path: path.to_owned(), label: label::field_named(path), sentence: sentence.to_owned() }
}
