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
use quantity::InOrder;

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

/// A finding that fails is urgent so long after it was measured; then it waits for a decision.
const FRESH_SECONDS: i64 = 30 * 60;

/// Everything that calls for attention: the most urgent first, then what happened last.
pub(crate) fn attention(cards: &[&Card], now: i64) -> Vec<Attention> {
    let with_time = cards.iter().filter_map(|card| Some((card.at, of_card(card, now)?)));
    let mut all: Vec<(Option<i64>, Attention)> = with_time.collect();
    all.put_in_order_by_key(|(at, one)| (one.haste, at.map_or(i64::MIN, |at| -at)));
    all.into_iter().map(|(_, one)| one).collect()
}

fn of_card(card: &Card, now: i64) -> Option<Attention> {
    let (haste, calls) = match (card.sort, card.haste, card.sign) {
        (CardSort::Forecast, Some(Haste::Now), _) => (Haste::Now, true),
        (CardSort::Forecast, Some(Haste::Soon), _) => (Haste::Soon, runs_out(&card.id)),
        // What was measured again since and meets waits for a decision, and calls nobody to the hole.
        (CardSort::Finding, _, Some(Sign::Fails)) if card.open && !card.measured_again => {
            (failed(card, now), true)
        }
        (CardSort::Doubt, ..) if is_about_the_pour(&card.id) && is_fresh(card, now) => (Haste::Soon, false),
        (CardSort::Record, ..) => {
            (Haste::Soon, ["dispute:", "alarm:cloned:", "hold:"].iter().any(|word| card.id.starts_with(word)))
        }
        _ => return None,
    };
    Some(Attention {
        id: attention_id(card, haste),
        card: card.id.clone(),
        haste,
        sign: card.sign,
        title: card.title.clone(),
        what: beside_title(card),
        do_now: card.next.clone(),
        calls,
        evidence: card.evidence.clone(),
    })
}

/// The sentence without the title it stands under.
fn beside_title(card: &Card) -> String {
    let rest = card.sentence.strip_prefix(&card.title).and_then(|rest| rest.strip_prefix(": "));
    rest.unwrap_or(&card.sentence).to_owned()
}

/// A forecast that gets worse is another thing; a finding that gets old stays the same.
fn attention_id(card: &Card, haste: Haste) -> String {
    match card.sort {
        CardSort::Forecast => format!("{}:{}", card.id, haste.word()),
        _ => card.id.clone(),
    }
}

fn failed(card: &Card, now: i64) -> Haste {
    if is_fresh(card, now) && !card.too_late { Haste::Now } else { Haste::Soon }
}

fn is_fresh(card: &Card, now: i64) -> bool {
    card.at.is_none_or(|at| now.saturating_sub(at) <= FRESH_SECONDS)
}

/// Forecasts that get close once. Embedment and head come close with every load and go again; they are
/// shown, and call when they are too small.
fn runs_out(id: &str) -> bool {
    ["slump_life", "time_limit", "fluid_test_due"].iter().any(|word| id.starts_with(word))
}

/// Doubts that concrete may hide behind. The others stand among the cards; where an interval took less, the criterion
/// about it calls.
fn is_about_the_pour(id: &str) -> bool {
    ["doubt:curve", "doubt:lift", "doubt:neck_possible"].iter().any(|word| id.starts_with(word))
}
