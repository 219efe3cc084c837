//! Reads one criterion.
//!
//! Never: fill in a key that is not there.

use super::{rule, when};
use crate::criterion::{Criterion, Sure};
use crate::facts::{self, Fact, Measure, Stage};
use crate::fields::Fields;
use crate::limit::Printed;

/// The criterion in a table; mistakes stay in the fields.
pub(super) fn read(fields: &mut Fields<'_, '_>) -> Option<Criterion> {
    let id = id(fields);
    let title = fields.required("title", "what the criterion is about, in a few words");
    let fact = fact(fields);
    stage(fields, fact);
    let measure = fact.map(|fact| fact.measure);
    let rule = rule::read(fields, measure);
    let accuracy = accuracy(fields, measure);
    let when = when::read(fields);
    let origin = origin(fields);
    let why = fields.required("why", "why it matters, in one sentence");
    let if_fails = fields.required("if_fails", "what is usually done when it fails");
    let holds = fields.flag("holds");
    let note = fields.text("note").map(str::to_owned);
    let Origin { sure, source, clause, verify } = origin?;
    Some(Criterion {
        id: id?.to_owned(),
        title: title?.to_owned(),
        fact: fact?,
        rule: rule?,
        when,
        accuracy,
        holds,
        sure,
        source,
        clause,
        verify,
        note,
        why: why?.to_owned(),
        if_fails: if_fails?.to_owned(),
        line: fields.line,
    })
}

fn id<'t>(fields: &mut Fields<'t, '_>) -> Option<&'t str> {
    let expected = "small letters, digits, `-`, `.` and one `/` after the name of the set";
    let id = fields.required("id", expected)?;
    let letters = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "-./".contains(c);
    if id.chars().all(letters) && id.matches('/').count() == 1 {
        return Some(id);
    }
    fields.wrong(fields.line_of("id"), "id", format!("\"{id}\""), expected);
    None
}

fn fact(fields: &mut Fields<'_, '_>) -> Option<&'static Fact> {
    let name = fields.required("measures", "the name of a fact")?;
    let fact = facts::named(name);
    if fact.is_none() {
        let hint = facts::nearest(name);
        let expected = hint.map_or("the name of a fact".to_owned(), |hint| format!("perhaps \"{hint}\""));
        fields.wrong(fields.line_of("measures"), "measures", format!("\"{name}\""), &expected);
    }
    fact
}

/// The stage is written for the reader of the file; it has to be the stage of the fact.
fn stage(fields: &mut Fields<'_, '_>, fact: Option<&Fact>) {
    let Some(word) = fields.required("stage", "the stage of the fact") else { return };
    let Some(fact) = fact else { return };
    if Stage::named(word) != Some(fact.stage) {
        let expected = format!("\"{}\", the stage of {}", fact.stage.word(), fact.name);
        fields.wrong(fields.line_of("stage"), "stage", format!("\"{word}\""), &expected);
    }
}

fn accuracy(fields: &mut Fields<'_, '_>, measure: Option<Measure>) -> Option<Printed> {
    let text = fields.text("accuracy")?;
    let unit = rule::unit(fields, measure?)?;
    let printed = Printed::parse(text, unit).filter(|printed| printed.size() > 0.into());
    if printed.is_none() {
        let expected = "a number above zero in the unit of the limit";
        fields.wrong(fields.line_of("accuracy"), "accuracy", format!("\"{text}\""), expected);
    }
    printed
}

/// Where a criterion comes from.
struct Origin {
    sure: Sure,
    source: Option<String>,
    clause: Option<String>,
    verify: Option<String>,
}

fn origin(fields: &mut Fields<'_, '_>) -> Option<Origin> {
    let word = fields.required("sure", "read, from_memory, common_practice or job");
    let mut text = |key| fields.text(key).map(str::to_owned);
    let (source, clause, verify) = (text("source"), text("clause"), text("verify"));
    let word = word?;
    let Some(sure) = Sure::named(word) else {
        let expected = "read, from_memory, common_practice or job";
        fields.wrong(fields.line_of("sure"), "sure", format!("\"{word}\""), expected);
        return None;
    };
    let mut needs = |there: bool, key: &str, expected: &str| {
        if !there && !fields.has(key) {
            fields.wrong(fields.line, key, "nothing".to_owned(), expected);
        }
    };
    if sure == Sure::Read || sure == Sure::FromMemory {
        needs(source.is_some(), "source", "the key of the document");
    }
    if sure == Sure::Read {
        needs(clause.is_some(), "clause", "the place in the document that was read");
    }
    if sure == Sure::FromMemory {
        needs(verify.is_some(), "verify", "what has to be verified before use");
    }
    Some(Origin { sure, source, clause, verify })
}
