//! What a table is made of: kinds, columns, and where the content of a column comes from.

use super::Source;
use crate::show::Show;
use quantity::Kind;
use record::Line;

/// A table with a row for each entry of some kinds, or for each item of a list in them.
pub(super) struct Spec {
    pub(super) id: &'static str,
    pub(super) title: &'static str,
    pub(super) note: &'static str,
    /// Words of the kinds.
    pub(super) kinds: &'static [&'static str],
    /// The list field that gets a row for each of its items; empty: a row for each entry.
    pub(super) items: &'static str,
    pub(super) columns: &'static [Col],
}

/// Where the content of a column comes from.
#[derive(Clone, Copy)]
pub(super) enum From {
    /// The time the entry was seen.
    Time,
    /// The author.
    By,
    /// The label of the kind.
    Kind,
    /// A field as typed.
    Field(&'static str),
    /// A field of the item as typed.
    Item(&'static str),
    /// The elevation that follows from a depth field.
    Level(&'static str),
    /// The elevation that follows from a depth field of the item.
    ItemLevel(&'static str),
    /// Made from the whole record.
    Made(fn(&Source<'_, '_>, &Line<'_>) -> Option<String>),
}

/// One column.
pub(super) struct Col {
    /// The heading; empty: the label of the field.
    pub(super) title: &'static str,
    pub(super) from: From,
    /// The unit in the head, for a column that is made.
    pub(super) unit: fn(&Show) -> &'static str,
    pub(super) numeric: bool,
    pub(super) weight: f64,
    pub(super) may_be_blank: bool,
}

const fn col(title: &'static str, from: From, weight: f64) -> Col {
    Col { title, from, unit: no_unit, numeric: false, weight, may_be_blank: false }
}

/// The time.
pub(super) const TIME: Col = col("Time", From::Time, 1.2);

/// The time under another heading.
pub(super) const fn time(title: &'static str) -> Col {
    col(title, From::Time, 1.0)
}

/// What the entry is.
pub(super) const WHAT: Col = col("What", From::Kind, 1.8);

/// Who wrote it.
pub(super) const BY: Col = Col { may_be_blank: true, ..col("Entered by", From::By, 1.2) };

/// A field in words.
pub(super) const fn words(name: &'static str, weight: f64) -> Col {
    col("", From::Field(name), weight)
}

/// A field in words that people often leave blank.
pub(super) const fn remark(name: &'static str, weight: f64) -> Col {
    Col { may_be_blank: true, ..col("", From::Field(name), weight) }
}

/// A field with a number.
pub(super) const fn number(name: &'static str) -> Col {
    Col { numeric: true, ..col("", From::Field(name), 1.0) }
}

/// A field with a number, under another heading.
pub(super) const fn titled(title: &'static str, name: &'static str) -> Col {
    Col { numeric: true, ..col(title, From::Field(name), 1.0) }
}

/// A field of the item in words.
pub(super) const fn item_words(name: &'static str) -> Col {
    col("", From::Item(name), 1.0)
}

/// A field of the item with a number.
pub(super) const fn item(name: &'static str) -> Col {
    Col { numeric: true, ..col("", From::Item(name), 1.0) }
}

/// The elevation of a depth field.
pub(super) const fn level(title: &'static str, name: &'static str) -> Col {
    Col { numeric: true, unit: length_unit, ..col(title, From::Level(name), 1.0) }
}

/// The elevation of a depth field of the item.
pub(super) const fn item_level(title: &'static str, name: &'static str) -> Col {
    Col { numeric: true, unit: length_unit, ..col(title, From::ItemLevel(name), 1.0) }
}

/// Made from the whole record.
pub(super) const fn made(
    title: &'static str,
    make: fn(&Source<'_, '_>, &Line<'_>) -> Option<String>,
    unit: fn(&Show) -> &'static str,
) -> Col {
    Col { numeric: true, unit, ..col(title, From::Made(make), 1.0) }
}

pub(super) fn no_unit(_: &Show) -> &'static str {
    ""
}

pub(super) fn length_unit(show: &Show) -> &'static str {
    show.length_unit()
}

pub(super) fn volume_unit(show: &Show) -> &'static str {
    show.unit(Kind::Volume).symbol
}
