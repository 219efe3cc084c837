//! Who wrote, how much of it late, and how late.
//!
//! An entry that is written down hours after it was seen is worth less in ten years. This is for the one who plans who
//! stands where; it says nothing of how good a person's work is.
//!
//! Never: rank people by anything but what the record says of times.

use quantity::{InOrder, Moment, Span};
use record::log::LATE_AFTER_MINUTES;
use record::{Entry, EntryId, Held, Record};
use std::collections::BTreeMap;

/// What one person handed in.
#[derive(Debug, Clone, PartialEq)]
pub struct HandedIn {
    /// As the entries name the author.
    pub author: String,
    /// Entries.
    pub entries: usize,
    /// Half of them were written down sooner after they were seen, half later.
    pub median: Span,
    /// Entries written down late.
    pub late: Vec<EntryId>,
    /// The longest that one waited.
    pub longest: Span,
    /// When the last of them was seen.
    pub last: Moment,
}

/// Who wrote in these jobs by a time, the one with most late entries first.
pub fn people(jobs: &[&Record], at: Moment) -> Vec<HandedIn> {
    let mut by_author: BTreeMap<&str, Vec<&Entry>> = BTreeMap::new();
    let held = jobs.iter().flat_map(|record| record.entries());
    let known = held.filter_map(|held| match held {
        // What a program makes of what it did was seen and written by nobody.
        Held::Known(entry) if entry.observed_at <= at && !entry.body.kind().is_made() => Some(entry),
        _ => None,
    });
    known.for_each(|entry| by_author.entry(entry.author.trim()).or_default().push(entry));
    let mut told: Vec<HandedIn> =
        by_author.into_iter().filter_map(|(author, entries)| of_author(author, &entries)).collect();
    told.put_in_order_by_key(|one| std::cmp::Reverse(one.late.len()));
    told
}

fn of_author(author: &str, entries: &[&Entry]) -> Option<HandedIn> {
    let mut waited: Vec<f64> = entries.iter().map(|entry| waited(entry)).collect();
    waited.put_in_order_by(f64::total_cmp);
    let late = entries.iter().filter(|entry| LATE_AFTER_MINUTES < self::waited(entry));
    Some(HandedIn {
        author: author.to_owned(),
        entries: entries.len(),
        median: Span::minutes(*waited.get(waited.len() / 2)?),
        late: late.map(|entry| entry.id).collect(),
        longest: Span::minutes(*waited.last()?),
        last: entries.iter().map(|entry| entry.observed_at).max()?,
    })
}

/// Minutes from seeing to writing down; a clock that ran ahead makes no entry early.
fn waited(entry: &Entry) -> f64 {
    entry.noted_at.unwrap_or(entry.entered_at).minutes_since(entry.observed_at).max(0.0)
}
