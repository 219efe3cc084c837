//! The limit in force beside the field it judges: `limit 7 to 9 in`, with its source.
//!
//! Whoever reads 10 in off the cone should not have to leaf through a specification to know. Which criteria apply
//! and what their limits come to is decided by `criteria` from what `assess` knows of the shaft; nothing is
//! compared here.
//!
//! Words: *itself* = the field holds the fact; *about* = the fact is worked out from the field.
//! Never: judge a reading; show a limit of another stage than the one that was chosen.

mod table;

use super::offer::Source;
use assess::{Rules, facts::NOT_MEASURED_YET, situation_of};
use criteria::{SetInForce, Situation, judge};
use record::kinds::KindSpec;
use std::collections::BTreeMap;
use table::{How, STAGES, TABLE};
use wording::{LimitBeside, Show, limit_beside, limit_hangs_on};

/// One limit beside one field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Beside {
    /// The fact it is about, without the stage where there is one for each.
    fact: &'static str,
    said: LimitBeside,
}

/// The limits beside the fields of a kind, by path without row numbers.
pub(super) fn beside(kind: &'static KindSpec, source: &Source<'_, '_>) -> BTreeMap<String, Vec<Beside>> {
    let rows = || TABLE.iter().filter(|row| row.0 == kind.word);
    let rules = rows().next().and_then(|_| Rules::of(source.whole).ok());
    let Some(rules) = rules else { return BTreeMap::new() };
    let situation = situation_of(source.log, &rules.set, source.at);
    let judged = Judged { set: &rules.set, situation: &situation, show: source.show };
    let mut all: BTreeMap<String, Vec<Beside>> = BTreeMap::new();
    for (_, path, fact, how) in rows() {
        all.entry((*path).to_owned()).or_default().extend(judged.limits(fact, *how));
    }
    all
}

/// What is said beside a field: that of the stage which was chosen, or of each while none is.
pub(super) fn said(all: Option<&Vec<Beside>>, stage: &str) -> Vec<LimitBeside> {
    let mut told: Vec<LimitBeside> = Vec::new();
    for one in all.into_iter().flatten() {
        let of_stage = STAGES.iter().find(|row| one.fact.ends_with(row.0));
        let said = match of_stage {
            Some((_, words, _)) if !stage.is_empty() && !words.contains(&stage) => continue,
            Some((_, _, when)) if stage.is_empty() => {
                LimitBeside { limit: format!("{}, {when}", one.said.limit), ..one.said.clone() }
            }
            _ => one.said.clone(),
        };
        if !told.contains(&said) {
            told.push(said);
        }
    }
    told
}

struct Judged<'j> {
    set: &'j SetInForce,
    situation: &'j Situation,
    show: &'j Show,
}

impl Judged<'_> {
    fn limits(&self, fact: &'static str, how: How) -> Vec<Beside> {
        if NOT_MEASURED_YET.iter().any(|row| row.0 == fact) {
            return Vec::new();
        }
        let found = self.set.criteria_for(fact, &self.situation.conditions);
        let applying = found.apply.into_iter().filter_map(|criterion| {
            let limits = judge(criterion, None, &self.situation.dimensions).limits;
            limit_beside(criterion, limits, how == How::Itself, self.show)
        });
        let unclear = found.unclear.iter().map(|(_, topics)| limit_hangs_on(topics));
        applying.chain(unclear).map(|said| Beside { fact, said }).collect()
    }
}
