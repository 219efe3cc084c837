//! What calls for attention: forecasts and findings that turned bad, disputes, copied devices.
//!
//! A device may ring or shake once when something turns bad; what rings twice for the same thing is
//! switched off by the third day.
//!
//! Words: *calls* = worth a sound where sound is allowed.
//! Never: make a sound; call twice for the same thing.

use super::card::{Card, CardSort};
use super::shaft::ShaftScreen;
use super::sign::{Haste, Sign};

/// One thing that calls for attention.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Attention {
    /// Stable while it is as bad as it is; changes when it gets worse.
    pub id: String,
    /// The card it comes from.
    pub card: String,
    /// How soon somebody has to act.
    pub haste: Haste,
    /// What was found, where something was judged.
    pub sign: Option<Sign>,
    /// A few words.
    pub title: String,
    /// What happened.
    pub what: String,
    /// What to do now.
    pub do_now: String,
    /// It is worth a sound.
    pub calls: bool,
    /// Ids of the entries behind it.
    pub evidence: Vec<String>,
}

/// What calls and did not call before: `before` holds the ids of the attention shown last.
///
/// A screen that is opened for the first time has nothing before it and should take all as known.
pub fn newly(before: &[String], screen: &ShaftScreen) -> Vec<Attention> {
    let new = |one: &&Attention| one.calls && !before.contains(&one.id);
    screen.attention.iter().filter(new).cloned().collect()
}

/// Everything that calls for attention, the most urgent first.
pub(crate) fn attention(cards: &[&Card]) -> Vec<Attention> {
    let mut all: Vec<Attention> = cards.iter().filter_map(|card| of_card(card)).collect();
    all.sort_by_key(|one| one.haste);
    all
}

fn of_card(card: &Card) -> Option<Attention> {
    let (haste, calls) = match (card.sort, card.haste, card.sign) {
        (CardSort::Forecast, Some(Haste::Now), _) => (Haste::Now, true),
        (CardSort::Forecast, Some(Haste::Soon), _) => (Haste::Soon, runs_out(&card.id)),
        (CardSort::Finding, _, Some(Sign::Fails)) if card.open => (Haste::Now, true),
        (CardSort::Doubt, ..) if !card.next.is_empty() => (Haste::Soon, false),
        (CardSort::Record, ..) => {
            (Haste::Soon, card.id.starts_with("dispute:") || card.id.starts_with("alarm:"))
        }
        _ => return None,
    };
    Some(Attention {
        id: format!("{}:{}", card.id, haste.word()),
        card: card.id.clone(),
        haste,
        sign: card.sign,
        title: card.title.clone(),
        what: card.sentence.clone(),
        do_now: card.next.clone(),
        calls,
        evidence: card.evidence.clone(),
    })
}

/// Forecasts that get close once. Embedment and head come close with every load and go again; they are
/// shown, and call when they are too small.
fn runs_out(id: &str) -> bool {
    ["slump_life", "time_limit", "fluid_test_due"].iter().any(|word| id.starts_with(word))
}
