//! Offers: the value a field likely gets, taken with one tap.
//!
//! The next truck brings the same mix from the same plant, the next run begins where the last one ended.
//! Typing that again in gloves costs the minute in which the concrete rises; entering it unseen would
//! put words into somebody's mouth. So it is shown, with where it comes from, and waits for the tap.
//!
//! Never: be entered by itself.

mod last;
mod pour;
mod reading;

use quantity::Moment;
use record::Log;
use record::field::{FieldSpec, Shape};
use record::kinds::KindSpec;
use std::collections::BTreeMap;
use wording::{Show, label};

/// A likely value of a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// What stands on the key: `C-4000`.
    pub text: String,
    /// Where it comes from: `as at 10:41`, `from the plan`.
    pub why: String,
    /// What the tap sets: paths and texts.
    pub fills: Vec<(String, String)>,
}

impl Offer {
    /// One value for one field.
    pub(super) fn one(path: &str, text: impl Into<String>, why: impl Into<String>) -> Offer {
        let text = text.into();
        Offer { fills: vec![(path.to_owned(), text.clone())], text, why: why.into() }
    }
}

/// What offers are made from.
pub(super) struct Source<'s, 'r> {
    /// The log up to the time of the form.
    pub(super) log: &'s Log<'r>,
    /// The whole log: a plan counts whenever it was written.
    pub(super) whole: &'s Log<'r>,
    /// The time of the form.
    pub(super) at: Moment,
    /// How the job prints.
    pub(super) show: &'s Show,
}

/// The offers of a form, by path.
pub(super) fn offers(kind: &'static KindSpec, source: &Source<'_, '_>) -> BTreeMap<String, Offer> {
    let mut offers = BTreeMap::new();
    for field in kind.fields {
        if let Some(mut offer) = offer(kind.word, field, source) {
            // The key says what stands on the choice beside it.
            if matches!((field.shape)(), Shape::Choice(_)) {
                offer.text = label::choice(&offer.text);
            }
            offers.insert(field.name.to_owned(), offer);
        }
    }
    offers
}

/// The offer of the first maker that has one: what the day says before what was last written.
fn offer(kind: &str, field: &FieldSpec, source: &Source<'_, '_>) -> Option<Offer> {
    pour::offer(kind, field.name, source)
        .or_else(|| reading::offer(kind, field.name, source))
        .or_else(|| last::offer(kind, field, source))
}
