//! The estimated shape of the shaft on a screen: what stands out among the cards, what could hide in one sentence, and
//! the next sounding that would help most as a step.
//!
//! An estimate calls nobody and is never judged; it stands beside the readings, with its band.
//!
//! Never: leave out that it is an estimate; ask for a sounding that would change nothing.

use super::card::{Card, CardSort, kind_label};
use super::looked::{Looked, ids};
use super::next::Next;
use super::sign::Haste;
use wording::{Notice, ShapeText};

/// The words of the shape; `None` before the first sounding, and as long as it is not estimated.
pub(crate) fn text(looked: &Looked<'_>) -> Option<ShapeText> {
    Some(wording::shape(looked.shape()?, &looked.assessment, &looked.show))
}

/// Stretches that stand out, and readings the estimate believes less.
pub(crate) fn cards(text: &ShapeText, looked: &Looked<'_>) -> Vec<Card> {
    let told = text.told.iter().map(|told| Notice {
        code: told.word,
        what: told.title.clone(),
        meaning: told.sentence.clone(),
        next: told.do_now.to_owned(),
    });
    let all = told.chain(text.doubts.iter().cloned()).enumerate();
    all.map(|(number, notice)| card(number, notice, looked)).collect()
}

fn card(number: usize, notice: Notice, looked: &Looked<'_>) -> Card {
    let last = looked.assessment.picture.concrete.last();
    Card {
        at: last.map(|level| level.at.seconds()),
        evidence: last.map_or_else(Vec::new, |level| ids(&[level.entry])),
        ..Card::of_notice(CardSort::Doubt, format!("doubt:{}:{number}", notice.code), notice)
    }
}

/// Where one more sounding would help most; empty when the pour is over or it would change nothing.
pub(crate) fn step(text: Option<&ShapeText>) -> Option<Next> {
    let why = text.map(|text| &text.next).filter(|next| !next.is_empty())?;
    Some(Next {
        id: "shape:sound".to_owned(),
        kind: "concrete_sounded",
        label: kind_label("concrete_sounded"),
        what: "Sound once within the next load.".to_owned(),
        why: why.clone(),
        haste: Haste::Later,
        holds: false,
        known: Vec::new(),
    })
}
