//! What a shaft lacks before it can be sealed.
//!
//! A seal says that nothing is missing and that those who answer for the shaft have signed. So the chains have to be
//! whole, no dispute may be open, and each signature has to come after what it speaks for. Who observed signs after the
//! last observation; who decides signs last. Common practice, no source; a job may name other parts with `seal_needs`.

use record::choices::Role;
use record::kinds::{Body, SealNeeds, Signed};
use record::{Alarm, EntryId, Held, Line, Log, Record};

/// One thing that is lacking.
#[derive(Debug, Clone, PartialEq)]
pub enum Lack {
    /// No entry is about this shaft.
    NoEntries,
    /// The chain of a device is not whole.
    Chain(Alarm),
    /// A dispute nobody closed, about this entry.
    Dispute(EntryId),
    /// A correction of an entry that is not here.
    Loose(EntryId),
    /// An entry of a newer version: what it says is not known here.
    Newer(EntryId),
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
    let mut lacks: Vec<Lack> = record.alarms().into_iter().map(Lack::Chain).collect();
    lacks.extend(log.disputes.iter().map(|dispute| Lack::Dispute(dispute.about)));
    lacks.extend(log.loose.iter().copied().map(Lack::Loose));
    lacks.extend(log.newer.iter().map(|newer| Lack::Newer(newer.id)));
    lacks.extend(needed(&log).into_iter().filter_map(|role| signature_lack(record, shaft, &log, role)));
    lacks
}

fn signature_lack(record: &Record, shaft: &str, log: &Log<'_>, role: Role) -> Option<Lack> {
    let of_shaft = |line: &Line<'_>| line.entry.shaft.as_deref() == Some(shaft);
    let mut signed = log.each::<Signed>().filter(|(line, signed)| signed.role == role && of_shaft(line));
    let Some((line, signed)) = signed.next_back() else { return Some(Lack::NotSigned(role)) };
    let entered = line.entry.entered_at;
    let after = record.entries().filter_map(|held| match held {
        Held::Known(entry) if record.home(held) == Some(shaft) => Some(entry),
        _ => None,
    });
    let after = after.filter(|entry| entry.entered_at > entered && counts_against(role, &entry.body));
    let last = after.max_by_key(|entry| (entry.entered_at, entry.id))?;
    Some(Lack::SignedTooEarly { role, name: signed.name.clone(), after: last.id })
}

/// Whether an entry made after a signature has to be signed for anew.
fn counts_against(role: Role, body: &Body) -> bool {
    match body {
        Body::Signed(_) | Body::ShaftSealed(_) | Body::SealNeeds(_) => false,
        Body::FindingDisposed(_)
        | Body::HoldPlaced(_)
        | Body::HoldReleased(_)
        | Body::DisputeClosed(_)
        | Body::QuestionAnswered(_) => role == Role::Engineer,
        _ => true,
    }
}
