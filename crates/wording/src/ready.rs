//! What a shaft lacks before it can be sealed, a sentence each.
//!
//! Never: say that a shaft is sound because nothing is lacking.

use crate::label;
use assess::ready::Lack;
use record::Record;
use record::choices::Role;

/// One thing that is lacking.
pub fn lack(lack: &Lack, record: &Record) -> String {
    let part = |role: &Role| label::choice(role.word()).to_lowercase();
    match lack {
        Lack::NoEntries => "No entry is about this shaft.".to_owned(),
        Lack::Chain(alarm) => crate::alarm(alarm, record).what,
        Lack::Dispute(about) => format!("The dispute about entry {} is not closed.", about.short()),
        Lack::Loose(id) => format!("Entry {} corrects an entry that is not here.", id.short()),
        Lack::Newer(id) => {
            format!("Entry {} was written by a newer program: update this one first.", id.short())
        }
        Lack::Held(hold) => format!("Nobody has released the hold “{hold}”."),
        Lack::NotAnswered(id) => format!("Nobody has answered the question in entry {}.", id.short()),
        Lack::NotSigned(role) => format!("Nobody has signed as {}.", part(role)),
        Lack::SignedTooEarly { role, name, after } => format!(
            "{name} signed as {} before entry {} was made, and has to sign again.",
            part(role),
            after.short()
        ),
    }
}
