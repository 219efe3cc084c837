//! What the plan says beside a field: `plan 48 in`.
//!
//! Who reads 47 in off a tool sees at once what it should have been, without leafing through drawings in
//! the wind. It stands beside and judges nothing. A value is told as it was written in the plan; only the
//! depth of a planned elevation is worked out, from the reference in force.
//!
//! Words: *beside* = shown next to the field, with where it comes from.
//! Never: compare; enter a value; tell a plan that was struck through.

mod cage;
mod materials;
mod shaft;

use super::offer::Source;
use assess::Picture;
use quantity::{Depth, Elevation, Entered, Moment, Quantity};
use record::Log;
use record::field::Shape;
use record::kinds::{KindSpec, LoadArrived, MixApproved};
use std::collections::BTreeMap;
use wording::Show;

/// What plans are read from.
pub(super) struct Plans<'p, 'r> {
    log: &'p Log<'r>,
    picture: Picture<'r>,
    show: &'p Show,
    at: Moment,
}

/// What a part of the plan says about a field of a kind.
type Table = fn(&Plans<'_, '_>, &str, &str) -> Option<String>;

/// Every table; the first that has a word for a field says it.
const TABLES: &[Table] = &[shaft::beside, cage::beside, materials::beside];

/// What the plan says about the fields of a kind, by path without row numbers.
pub(super) fn beside(kind: &'static KindSpec, source: &Source<'_, '_>) -> BTreeMap<String, String> {
    let picture = Picture::of(source.whole, source.at);
    let plans = Plans { log: source.whole, picture, show: source.show, at: source.at };
    let mut beside = BTreeMap::new();
    for path in paths(kind) {
        let said = TABLES.iter().find_map(|table| table(&plans, kind.word, &path));
        if let Some(text) = said {
            beside.insert(path, text);
        }
    }
    beside
}

/// The fields of a kind and of the rows of its lists.
fn paths(kind: &'static KindSpec) -> Vec<String> {
    let mut paths = Vec::new();
    for field in kind.fields {
        paths.push(field.name.to_owned());
        if let Shape::List(item) = (field.shape)()
            && let Shape::Group(inner) = item()
        {
            paths.extend(inner.iter().map(|inner| format!("{}.{}", field.name, inner.name)));
        }
    }
    paths
}

impl<'r> Plans<'_, 'r> {
    /// The mix of the load that came last, or of the plan.
    fn mix(&self) -> Option<&'r MixApproved> {
        let name = self.log.last::<LoadArrived>().and_then(|(_, load)| load.mix.as_deref());
        self.picture.mix(self.log, name)
    }

    /// The depth of a planned elevation below the reference in force: `plan tip 52.0 ft (+48.0 ft)`.
    fn level(&self, what: &str, level: &Entered<Elevation>) -> Option<String> {
        let level = level.value();
        let depth = self.depth(level)?;
        Some(format!("plan {what} {} ({})", self.show.depth(depth), self.show.elevation(level)))
    }

    fn depth(&self, level: Elevation) -> Option<Depth> {
        self.picture.references.depth(level, self.at)
    }
}

/// A planned value as it was written: `plan 48 in`.
fn plan<Q: Quantity>(entered: &Entered<Q>) -> String {
    format!("plan {}", entered.shown())
}

/// `limit 6 in to 9 in`, `limit at least 6 in`, `limit at most 9 in`.
fn between<Q: Quantity>(low: Option<&Entered<Q>>, high: Option<&Entered<Q>>) -> Option<String> {
    match (low, high) {
        (Some(low), Some(high)) => Some(format!("limit {} to {}", low.shown(), high.shown())),
        (Some(low), None) => Some(format!("limit at least {}", low.shown())),
        (None, Some(high)) => Some(format!("limit at most {}", high.shown())),
        (None, None) => None,
    }
}

/// Several values of one sort, each told once: `plan 48 in, 42 in`.
fn several(values: impl Iterator<Item = String>) -> Option<String> {
    let mut told: Vec<String> = Vec::new();
    for value in values {
        if !told.contains(&value) {
            told.push(value);
        }
    }
    (!told.is_empty()).then(|| format!("plan {}", told.join(", ")))
}
