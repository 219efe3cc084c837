//! The fold: what corrections and closings make of the entries of a log.
//!
//! A correction claims that an entry should have read otherwise, or not be there at all. It may itself be
//! corrected or struck out; what is left of the claims decides how the entry stands. One claim holds, two
//! are a dispute, and only a person closes a dispute.
//!
//! Words: *claim* = what a correction in force says about the entry at the root of its chain; *closing* =
//! an entry that closes a dispute.
//! Never: prefer one claim to another by time, device or author.

use super::{Dispute, Line, Log, Standing};
use crate::entry::{Entry, EntryId, Newer};
use crate::kinds::{Body, Correction, DisputeClosed};
use quantity::InOrder;
use std::collections::BTreeMap;

/// What a correction does to the entry at the root of its chain.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Effect {
    Replaces,
    Strikes,
    /// Somebody struck out a correction that somebody else replaced: one of them says the entry was right.
    LeavesAlone,
}

#[derive(Debug, Clone, Copy)]
struct Claim<'r> {
    by: &'r Entry,
    correction: &'r Correction,
    effect: Effect,
}

impl<'r> Claim<'r> {
    fn of(by: &'r Entry, correction: &'r Correction) -> Self {
        let effect = if correction.body.is_some() { Effect::Replaces } else { Effect::Strikes };
        Claim { by, correction, effect }
    }

    /// What a person names to keep it.
    fn candidate(&self, origin: EntryId) -> EntryId {
        if self.effect == Effect::LeavesAlone { origin } else { self.by.id }
    }
}

/// The closings in force, by the entry in dispute.
type Closings<'r> = BTreeMap<EntryId, Vec<&'r DisputeClosed>>;

/// The entries of a log and what refers to them, while it is made.
pub(super) struct Fold<'r> {
    entries: BTreeMap<EntryId, &'r Entry>,
    corrections: BTreeMap<EntryId, Vec<(&'r Entry, &'r Correction)>>,
}

impl<'r> Fold<'r> {
    pub(super) fn of(entries: Vec<&'r Entry>) -> Self {
        let mut fold = Fold { entries: BTreeMap::new(), corrections: BTreeMap::new() };
        for entry in entries {
            fold.entries.insert(entry.id, entry);
            if let Body::Correction(correction) = &entry.body {
                fold.corrections.entry(correction.replaces).or_default().push((entry, correction));
            }
        }
        fold
    }

    pub(super) fn log(self, newer: Vec<&'r Newer>) -> Log<'r> {
        let mut log = Log { newer, ..Log::default() };
        log.loose = self.loose();
        log.corrections = self.in_order_of_entry();
        let closings = self.closings();
        for entry in self.plain() {
            self.place(entry, &closings, &mut log);
        }
        log.lines.put_in_order_by_key(|line| line.order);
        log
    }

    /// Every entry that is no correction.
    fn plain(&self) -> impl Iterator<Item = &'r Entry> {
        self.entries.values().copied().filter(|entry| !matches!(entry.body, Body::Correction(_)))
    }

    fn in_order_of_entry(&self) -> Vec<&'r Entry> {
        let mut all: Vec<&'r Entry> = self.corrections.values().flatten().map(|(entry, _)| *entry).collect();
        all.put_in_order_by_key(|entry| (entry.entered_at.seconds(), entry.seq, entry.id));
        all
    }

    fn loose(&self) -> Vec<EntryId> {
        let missing = self.corrections.iter().filter(|(about, _)| !self.entries.contains_key(about));
        missing.flat_map(|(_, corrections)| corrections.iter().map(|(entry, _)| entry.id)).collect()
    }

    /// The claims about an entry that are in force, by id.
    ///
    /// Corrections of corrections form a tree; it is walked from the leaves to the root without recursion,
    /// so that a long chain in a hostile file cannot exhaust the stack.
    fn claims(&self, about: EntryId) -> Vec<Claim<'r>> {
        if !self.corrections.contains_key(&about) {
            return Vec::new();
        }
        let mut order = vec![about];
        let mut next = 0;
        while let Some(id) = order.get(next) {
            let corrections = self.corrections.get(id).into_iter().flatten();
            order.extend(corrections.map(|(entry, _)| entry.id).collect::<Vec<_>>());
            next += 1;
        }
        let mut known: BTreeMap<EntryId, Vec<Claim<'r>>> = BTreeMap::new();
        for id in order.into_iter().rev() {
            let mut claims = Vec::new();
            for (entry, correction) in self.corrections.get(&id).into_iter().flatten() {
                let above = known.remove(&entry.id).unwrap_or_default();
                claims.extend(handed_down(Claim::of(entry, correction), above));
            }
            claims.put_in_order_by_key(|claim| claim.by.id);
            known.insert(id, claims);
        }
        known.remove(&about).unwrap_or_default()
    }

    /// The closings in force. One that is itself in dispute counts once the closings that are not in
    /// dispute settle it.
    fn closings(&self) -> Closings<'r> {
        let first = self.closings_by(&Closings::new());
        self.closings_by(&first)
    }

    fn closings_by(&self, known: &Closings<'r>) -> Closings<'r> {
        let mut closings = Closings::new();
        for entry in self.plain() {
            let claims = settled(entry.id, self.claims(entry.id), known);
            let body = match claims.as_slice() {
                [] => Some(&entry.body),
                [only] => only.correction.body.as_deref(),
                _ => None,
            };
            if let Some(Body::DisputeClosed(closing)) = body {
                closings.entry(closing.about).or_default().push(closing);
            }
        }
        closings
    }

    /// Puts an entry and what became of it into the log.
    fn place(&self, entry: &'r Entry, closings: &Closings<'r>, log: &mut Log<'r>) {
        let claims = settled(entry.id, self.claims(entry.id), closings);
        let (standing, replaced) = match claims.as_slice() {
            [] => (Standing::Stands, Standing::Stands),
            [only] => (Standing::Struck { by: only.by.id }, Standing::Stands),
            _ => {
                log.disputes.push(dispute(entry.id, &claims));
                let disputed = Standing::Disputed { about: entry.id };
                (disputed.clone(), disputed)
            }
        };
        log.lines.push(origin_line(entry, standing));
        log.lines.extend(claims.iter().filter_map(|claim| replacing_line(entry, claim, &replaced)));
    }
}

/// What a correction passes on to the entry it corrects, given the claims about itself.
fn handed_down<'r>(own: Claim<'r>, above: Vec<Claim<'r>>) -> Vec<Claim<'r>> {
    if above.is_empty() {
        return vec![own];
    }
    if above.iter().all(|claim| claim.effect == Effect::Strikes) {
        return Vec::new();
    }
    let passed = |claim: Claim<'r>| match claim.effect {
        Effect::Replaces => claim,
        Effect::Strikes => Claim { effect: Effect::LeavesAlone, ..claim },
        Effect::LeavesAlone => own,
    };
    above.into_iter().map(passed).collect()
}

/// The claims that are left once people have agreed which one to keep.
fn settled<'r>(origin: EntryId, mut claims: Vec<Claim<'r>>, closings: &Closings<'r>) -> Vec<Claim<'r>> {
    let mut kept = closings.get(&origin).into_iter().flatten().map(|closing| closing.keeps);
    let Some(keeps) = kept.next().filter(|first| kept.all(|other| other == *first)) else { return claims };
    let named = |claim: &Claim<'_>| claim.candidate(origin) == keeps;
    if keeps == origin {
        claims.clear();
    } else if claims.iter().any(named) {
        claims.retain(named);
    }
    claims
}

fn dispute(about: EntryId, claims: &[Claim<'_>]) -> Dispute {
    let mut candidates: Vec<EntryId> = claims.iter().map(|claim| claim.candidate(about)).collect();
    candidates.put_in_order();
    candidates.dedup();
    Dispute { about, candidates }
}

fn origin_line(entry: &Entry, standing: Standing) -> Line<'_> {
    Line {
        entry,
        body: &entry.body,
        at: entry.observed_at,
        origin: entry.id,
        standing,
        reason: None,
        order: (entry.observed_at.seconds(), entry.seq, entry.id, 0),
    }
}

/// The line a claim writes in place of the entry; `None` where it only strikes.
fn replacing_line<'r>(entry: &'r Entry, claim: &Claim<'r>, standing: &Standing) -> Option<Line<'r>> {
    let body = claim.correction.body.as_deref().filter(|_| claim.effect == Effect::Replaces)?;
    let at = claim.correction.observed.unwrap_or(entry.observed_at);
    Some(Line {
        entry: claim.by,
        body,
        at,
        origin: entry.id,
        standing: standing.clone(),
        reason: Some(&claim.correction.reason),
        order: (at.seconds(), entry.seq, entry.id, 1),
    })
}
