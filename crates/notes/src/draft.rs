//! Drafted entries: everything a signature needs but the key, the clock and the place in a chain.
//!
//! Never: sign, number, order by anything but the order written.

use crate::context::Context;
use quantity::Moment;
use record::kinds::{KindSpec, kind_of};
use record::{Body, EntryId, Fault, How, Value};
use std::collections::BTreeMap;
use std::fmt;

/// What a file gave: every entry in it, in the order they are to be signed.
#[derive(Debug, Clone, PartialEq)]
pub struct Notes {
    /// Name of the file.
    pub file: String,
    /// The file opens the job: its first draft is `job_opened`.
    pub opens: bool,
    /// What the job supplies, with the shafts this file plans: for reading the next file.
    pub context: Context,
    /// The entries.
    pub drafted: Vec<Drafted>,
    /// Rows of a table that were left out because they say themselves that they do not stand.
    pub passed_over: Vec<PassedOver>,
}

/// A row of an exported table that is struck through or in dispute.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PassedOver {
    /// Line of the file.
    pub row: usize,
    /// How it stands, as written.
    pub standing: String,
}

/// An entry that waits for its signature.
#[derive(Debug, Clone, PartialEq)]
pub struct Drafted {
    /// The shaft it is about; `None`: the whole job.
    pub shaft: Option<String>,
    /// When it was seen.
    pub observed_at: Moment,
    /// When it was written down, where that was later.
    pub noted_at: Option<Moment>,
    /// Who wrote it.
    pub author: String,
    /// The device or notebook it comes from; `None`: the one that reads the file in.
    pub device: Option<String>,
    /// The name later lines speak of it by.
    pub label: Option<String>,
    /// The line of the file it begins in, from 1.
    pub line: usize,
    pub(crate) said: Said,
}

/// What a draft says: at once, or once the ids it speaks of are known.
#[derive(Debug, Clone, PartialEq)]
#[allow(clippy::large_enum_variant, reason = "almost every one is a body")]
pub(crate) enum Said {
    Body(Body),
    Later { word: &'static str, group: BTreeMap<String, Value>, labels: Vec<(String, String)> },
}

/// What stands at a path in place of what is put in for a while.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Spot {
    Label(String),
    Stored(String),
}

/// A label whose entry has no id yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unresolved {
    /// The label.
    pub label: String,
}

impl fmt::Display for Unresolved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the line labelled `{}` is not signed yet", self.label)
    }
}

impl std::error::Error for Unresolved {}

impl Said {
    /// A body with its spots filled in, as far as they can be now.
    pub(crate) fn of(body: Body, spots: Vec<(String, Spot)>) -> Result<Self, Vec<Fault>> {
        if spots.is_empty() {
            return Ok(Said::Body(body));
        }
        let (word, mut group, mut labels) = (body.kind().word, body.to_group(), Vec::new());
        for (path, spot) in spots {
            match spot {
                Spot::Label(label) => labels.push((path, label)),
                Spot::Stored(text) => put(&mut group, &path, text),
            }
        }
        let body = Body::from_group(word, &group, "", &How::Stored)?;
        Ok(if labels.is_empty() { Said::Body(body) } else { Said::Later { word, group, labels } })
    }
}

impl Drafted {
    /// The kind of entry it is.
    pub fn kind(&self) -> &'static KindSpec {
        match &self.said {
            Said::Body(body) => body.kind(),
            Said::Later { word, .. } => kind_of(word).expect("a draft is of a known kind"),
        }
    }

    /// The labels it speaks of.
    pub fn speaks_of(&self) -> impl Iterator<Item = &str> {
        let labels = match &self.said {
            Said::Body(_) => &[][..],
            Said::Later { labels, .. } => labels,
        };
        labels.iter().map(|(_, label)| label.as_str())
    }

    /// What it says, with the ids of the entries it speaks of by label.
    ///
    /// # Errors
    /// The first label `id_of` does not know.
    pub fn body(&self, id_of: &dyn Fn(&str) -> Option<EntryId>) -> Result<Body, Unresolved> {
        match &self.said {
            Said::Body(body) => Ok(body.clone()),
            Said::Later { word, group, labels } => {
                let mut group = group.clone();
                for (path, label) in labels {
                    let id = id_of(label).ok_or_else(|| Unresolved { label: label.clone() })?;
                    put(&mut group, path, id.to_string());
                }
                let body = Body::from_group(word, &group, "", &How::Stored);
                Ok(body.expect("the same body was read with another id in the same place"))
            }
        }
    }
}

impl Notes {
    /// Hands every draft with its body to `write`, in order, and gives back the ids `write` gave.
    ///
    /// Labels are resolved on the way: a line only ever speaks of lines written before it.
    pub fn write<'n>(&'n self, mut write: impl FnMut(&'n Drafted, Body) -> EntryId) -> Vec<EntryId> {
        let mut labelled: BTreeMap<&str, EntryId> = BTreeMap::new();
        let mut ids = Vec::with_capacity(self.drafted.len());
        for drafted in &self.drafted {
            let body = drafted.body(&|label| labelled.get(label).copied());
            let id = write(drafted, body.expect("labels were checked when the file was read"));
            labelled.extend(drafted.label.as_deref().map(|label| (label, id)));
            ids.push(id);
        }
        ids
    }
}

/// Puts a text at a path of a tree, where there is something.
fn put(group: &mut BTreeMap<String, Value>, path: &str, text: String) {
    let (first, rest) = path.split_once('.').unwrap_or((path, ""));
    let (name, index) = first.split_once('[').unwrap_or((first, ""));
    let place = match (group.get_mut(name), index.trim_end_matches(']').parse::<usize>()) {
        (Some(Value::List(items)), Ok(index)) => items.get_mut(index),
        (value, _) => value,
    };
    match place {
        Some(Value::Group(inner)) if !rest.is_empty() => put(inner, rest, text),
        Some(place) => *place = Value::Text(text),
        None => {}
    }
}
