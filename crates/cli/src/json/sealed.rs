//! Whether a shaft is sealed, and what came after.

use crate::view::View;
use record::Held;
use serde_json::{Value, json};

/// The last seal with what is not under it; null: the shaft is not sealed.
pub(super) fn sealed(view: &View<'_>) -> Value {
    let Some(supplement) = view.supplement() else { return Value::Null };
    let seal = supplement.seal;
    let later = supplement.entries.iter().map(|held: &&Held| held.id().to_string());
    json!({
        "entry": seal.entry.id.to_string(),
        "at": seal.entry.observed_at.to_string(),
        "by": seal.entry.author,
        "root": seal.said.root.to_string(),
        "entries": seal.said.entries,
        "supplement": later.collect::<Vec<_>>(),
    })
}
