//! What a shaft lacks before it can be sealed.
//!
//! A seal says that nothing is missing and that those who answer for the shaft have signed. So the chains have to be
//! whole, no dispute, hold or question of a person may be open, and each signature has to come after what it speaks for: a person's own entries, and for
//! the engineer everybody's. Where no engineer has to sign, the last to sign speaks for all. Common practice, no source; a
//! job may name other parts with `seal_needs`.

use record::choices::Role;
use record::kinds::{Body, SealNeeds, Signed};
use record::{Alarm, Entry, EntryId, Held, Line, Log, Record};

/// One thing that is lacking.
#[derive(Debug, Clone, PartialEq)]
pub enum Lack {
    /// No entry is about this shaft.
    NoEntries,
    /// The chain of a device is not whole.
    Chain(Alarm),
    /// A dispute nobody closed, about this entry.
    Dispute(EntryId),
    /// This corrects an entry that is not here.
    Loose(EntryId),
    /// An entry of a newer version: what it says is not known here.
    Newer(EntryId),
    /// A hold nobody released, by its name.
    Held(String),
    /// What a person asked in this entry and nobody answered.
    NotAnswered(EntryId),
    /// Nobody signed for this part.
    NotSigned(Role),
    /// Somebody signed, and something was entered after it.
    SignedTooEarly {
        /// The part.
        role: Role,
        /// Who signed.
        name: String,
        /// The last entry after it.
        after: EntryId,
    },
}

/// Without an entry of the job that says otherwise.
const ORDINARY: [Role; 2] = [Role::Inspector, Role::Engineer];

/// The parts that have to sign.
pub fn needed(log: &Log<'_>) -> Vec<Role> {
    log.last::<SealNeeds>().map_or_else(|| ORDINARY.to_vec(), |(_, needs)| needs.roles.clone())
}

/// Everything a shaft lacks before it can be sealed.
pub fn lacks(record: &Record, shaft: &str) -> Vec<Lack> {
    let log = Log::of(record, Some(shaft), None);
    let about = |line: &&Line<'_>| line.entry.shaft.as_deref() == Some(shaft);
    if !log.lines.iter().any(|line| about(&line)) {
        return vec![Lack::NoEntries];
    }
    let mut lacks: Vec<Lack> = record.alarms().iter().cloned().map(Lack::Chain).collect();
    lacks.extend(log.disputes.iter().map(|dispute| Lack::Dispute(dispute.about)));
    lacks.extend(log.loose.iter().copied().map(Lack::Loose));
    lacks.extend(log.newer.iter().map(|newer| Lack::Newer(newer.id)));
    lacks.extend(log.open_holds().into_iter().map(|(_, placed)| Lack::Held(placed.hold.clone())));
    lacks.extend(log.unanswered().into_iter().map(|(line, _)| Lack::NotAnswered(line.entry.id)));
    lacks.extend(signatures_lacking(record, shaft, &log));
    lacks
}

/// The signatures a shaft lacks: of a part nobody signed for, or given before something was entered.
pub(crate) fn signatures_lacking(record: &Record, shaft: &str, log: &Log<'_>) -> Vec<Lack> {
    Signatures::of(record, shaft, log).lacks(&needed(log))
}

/// The signatures of a shaft, and what has to be signed for.
struct Signatures<'r> {
    /// The last of each part, in the order they were given.
    last: Vec<(&'r Entry, &'r Signed)>,
    /// Entries of the shaft that somebody has to sign for.
    entries: Vec<&'r Entry>,
}

impl<'r> Signatures<'r> {
    fn of(record: &'r Record, shaft: &str, log: &Log<'r>) -> Self {
        let of_shaft = |line: &Line<'r>| line.entry.shaft.as_deref() == Some(shaft);
        let mut last: Vec<(&Entry, &Signed)> = Vec::new();
        for (line, signed) in log.each::<Signed>().filter(|(line, _)| of_shaft(line)) {
            last.retain(|(_, other)| other.role != signed.role);
            last.push((line.entry, signed));
        }
        let known = record.entries().filter_map(|held| match held {
            Held::Known(entry) if record.home(held) == Some(shaft) => Some(entry),
            _ => None,
        });
        let entries = known.filter(|entry| !matches!(entry.body, Body::Signed(_) | Body::ShaftSealed(_)));
        Signatures { last, entries: entries.collect() }
    }

    fn lacks(&self, needed: &[Role]) -> Vec<Lack> {
        let last_needed = self.last.iter().rfind(|(_, signed)| needed.contains(&signed.role));
        let for_all = match needed.contains(&Role::Engineer) {
            true => Some(Role::Engineer),
            false => last_needed.map(|(_, signed)| signed.role),
        };
        needed.iter().filter_map(|role| self.lack(*role, Some(*role) == for_all)).collect()
    }

    fn lack(&self, role: Role, for_all: bool) -> Option<Lack> {
        let Some((entry, signed)) = self.last.iter().find(|(_, signed)| signed.role == role) else {
            return Some(Lack::NotSigned(role));
        };
        let answers_for = |other: &&&Entry| for_all || other.author == entry.author;
        let after = self.entries.iter().filter(answers_for).filter(|other| is_after(other, entry));
        let last = after.max_by_key(|entry| (entry.entered_at, entry.id))?;
        Some(Lack::SignedTooEarly { role, name: signed.name.clone(), after: last.id })
    }
}

/// On one device numbers tell what came after. A whole file of notes is entered in one moment: then it is told by when
/// things were seen.
fn is_after(entry: &Entry, signature: &Entry) -> bool {
    let times = |entry: &Entry| (entry.entered_at, entry.observed_at);
    match entry.device == signature.device {
        true => entry.seq > signature.seq,
        false => times(entry) > times(signature),
    }
}
