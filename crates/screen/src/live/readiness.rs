//! Whether a shaft is ready: what is there, what is missing, what does not meet, before the drill turns and
//! before concrete comes.
//!
//! Words: *ready* says what the record holds; it never says that work may go on, which people decide.
//! Never: count what was not measured as there.

use super::advice::{Advice, advice};
use super::card::{Card, Want, of_finding, want};
use super::doubts::ended;
use super::looked::{Looked, ids};
use super::sign::Sign;
use assess::Finding;
use criteria::Stage as Work;
use quantity::{InOrder, Moment};
use record::kinds::{CagePlanned, HoldPlaced, LineMadeUp, MixApproved, PourPlanned};
use record::{EntryId, Record};

/// Before what.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Before {
    /// Before the drill turns.
    Drilling,
    /// Before concrete comes.
    Concrete,
}

/// How an item stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ready {
    /// It is there and does not meet, and nobody decided about it.
    DoesNotMeet,
    /// It is not there, or cannot be judged yet.
    Missing,
    /// It is there; or it does not meet, and somebody decided about it or it was measured again and meets.
    There,
}

impl Ready {
    /// A stable word.
    pub fn word(self) -> &'static str {
        match self {
            Ready::DoesNotMeet => "does_not_meet",
            Ready::Missing => "missing",
            Ready::There => "there",
        }
    }
}

/// One item of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// Stable while it is about the same thing.
    pub id: String,
    /// How it stands.
    pub ready: Ready,
    /// What was found, where something was judged.
    pub sign: Option<Sign>,
    /// A few words.
    pub title: String,
    /// The whole in a sentence; may be empty.
    pub sentence: String,
    /// Where it is asked for; empty for what the program itself needs.
    pub source: String,
    /// Concrete waits until it is settled.
    pub holds: bool,
    /// Entries that would settle it.
    pub wants: Vec<Want>,
    /// Ids of the entries it rests on.
    pub evidence: Vec<String>,
}

/// The list of a shaft: what does not meet first, then what is missing, then what is there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Readiness {
    /// Before what.
    pub before: Before,
    /// In one sentence.
    pub sentence: String,
    /// Before the first concrete: what to order for the shaft, and how many trucks end it in time.
    pub ahead: Vec<String>,
    /// The items.
    pub items: Vec<Item>,
}

impl Readiness {
    /// How many items stand so.
    pub fn count(&self, ready: Ready) -> usize {
        self.items.iter().filter(|item| item.ready == ready).count()
    }
}

/// Whether a shaft is ready.
pub fn readiness(record: &Record, shaft: &str, at: Moment, before: Before) -> Readiness {
    let looked = Looked::at(record, shaft, at);
    let mut items = entries(&looked, before);
    items.extend(holds(&looked));
    let findings = looked.assessment.findings.iter().filter(|one| asked(one, before));
    items.extend(once(findings, &looked));
    items.put_in_order_by_key(|item| (item.ready, !item.holds));
    let begun = looked.assessment.picture.concrete_started().is_some();
    let ahead = if before == Before::Concrete && !begun { ahead(&looked) } else { Vec::new() };
    let mut readiness = Readiness { before, sentence: String::new(), ahead, items };
    readiness.sentence = sentence(&readiness);
    readiness
}

/// What to order, and how the pour will go; nothing of either that cannot be told.
fn ahead(looked: &Looked<'_>) -> Vec<String> {
    let order = looked.order().map(|order| wording::order(order, &looked.show));
    let order = order.map(|text| format!("{}. {}", text.sentence.trim_end_matches('.'), text.do_now));
    let rest = looked.rest_of_pour().map(|rest| wording::day(rest, &looked.show));
    let rest = rest.map(|text| format!("{} {}", text.sentence, text.do_now));
    order.into_iter().chain(rest).collect()
}

fn sentence(readiness: &Readiness) -> String {
    let what = match readiness.before {
        Before::Drilling => "Before drilling",
        Before::Concrete => "Before concrete",
    };
    let [bad, missing, there] =
        [Ready::DoesNotMeet, Ready::Missing, Ready::There].map(|one| readiness.count(one));
    match (bad, missing) {
        (0, 0) => format!("{what}: all {there} items are in the record. People decide whether work goes on."),
        _ => {
            let bad = counted(bad, "item does not meet", "items do not meet");
            let missing = counted(missing, "is missing", "are missing");
            let there = counted(there, "is there", "are there");
            format!("{what}: {bad}, {missing}, {there}.")
        }
    }
}

fn counted(count: usize, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}

/// Every finding that is not settled, and of those that are the last one of each criterion: twenty readings
/// that meet are one item.
fn once<'l>(findings: impl Iterator<Item = &'l Finding>, looked: &Looked<'_>) -> Vec<Item> {
    let (settled, rest): (Vec<&Finding>, Vec<&Finding>) =
        findings.partition(|one| ready(one, looked) == Ready::There);
    let mut last: Vec<&Finding> = Vec::new();
    for finding in settled {
        let same = |other: &&mut &Finding| criterion(other) == criterion(finding);
        match last.iter_mut().find(same) {
            Some(other) if other.at <= finding.at => *other = finding,
            Some(_) => {}
            None => last.push(finding),
        }
    }
    rest.into_iter().chain(last).map(|one| of(one, looked)).collect()
}

fn criterion(finding: &Finding) -> Option<&str> {
    finding.criterion.as_ref().map(|one| one.original.id.as_str())
}

/// A finding that has to be settled by then; what no limit is set for is not asked.
fn asked(finding: &Finding, before: Before) -> bool {
    let last = match before {
        Before::Drilling => Work::Before,
        Before::Concrete => Work::BeforeConcrete,
    };
    let stage = finding.fact.stage <= last;
    // A limit on waiting is met or broken by the first concrete: nothing can be entered for it before.
    let waiting = finding.fact.name.starts_with("time.");
    stage && !waiting && finding.criterion.is_some() && Sign::of_finding(finding) != Sign::NoLimitSet
}

fn of(finding: &Finding, looked: &Looked<'_>) -> Item {
    let card: Card = of_finding(finding, looked);
    let ready = ready(finding, looked);
    Item {
        id: card.id,
        ready,
        sign: card.sign,
        title: card.title,
        sentence: card.sentence,
        source: card.source,
        holds: card.holds,
        wants: if ready == Ready::DoesNotMeet { and_decide(card.wants) } else { card.wants },
        evidence: card.evidence,
    }
}

fn ready(finding: &Finding, looked: &Looked<'_>) -> Ready {
    let again = || matches!(advice(finding, looked), Advice::MeasuredAgain(_));
    match Sign::of_finding(finding) {
        Sign::Fails if finding.is_open() && !again() => Ready::DoesNotMeet,
        Sign::CannotSay | Sign::NotMeasured => Ready::Missing,
        _ => Ready::There,
    }
}

/// What fails is measured again, or decided.
fn and_decide(mut wants: Vec<Want>) -> Vec<Want> {
    wants.push(want("finding_disposed", &["criterion", "decision", "reason"]));
    wants
}

/// Entries the reckoning stands on, whatever the criteria ask.
fn entries(looked: &Looked<'_>, before: Before) -> Vec<Item> {
    let picture = &looked.assessment.picture;
    let log = &looked.log;
    let plan = picture.plan.as_ref().map(|plan| plan.entry);
    let mut all = vec![
        item("shaft_planned", "What the shaft should be", plan),
        item(
            "reference_set",
            "The point depths are measured from",
            picture.references.entries().last().copied(),
        ),
        item(
            "criteria_chosen",
            "The criteria of the job",
            log.last::<record::kinds::CriteriaChosen>().map(|(line, _)| line.entry.id),
        ),
    ];
    if before == Before::Concrete {
        let line = log.last::<LineMadeUp>().map(|(line, _)| line.entry.id);
        let cage = log.last::<CagePlanned>().map(|(line, _)| line.entry.id);
        let mix = picture.mix(log, None).and_then(|mix| {
            log.each::<MixApproved>()
                .find(|(_, other)| std::ptr::eq(*other, mix))
                .map(|(line, _)| line.entry.id)
        });
        let pour = log.last::<PourPlanned>().map(|(line, _)| line.entry.id);
        all.push(item("mix_approved", "The mix, with its trial and its least slump", mix));
        all.push(item("cage_planned", "What the cage should be", cage));
        all.push(item("line_made_up", "The line, piece by piece, and how deep its tip hangs", line));
        all.push(item("pour_planned", "How long the pour is to take", pour));
    }
    all
}

fn item(kind: &'static str, title: &str, entry: Option<EntryId>) -> Item {
    Item {
        id: format!("entry:{kind}"),
        ready: if entry.is_some() { Ready::There } else { Ready::Missing },
        sign: None,
        title: title.to_owned(),
        sentence: String::new(),
        source: String::new(),
        holds: false,
        wants: if entry.is_some() { Vec::new() } else { vec![want(kind, &[])] },
        evidence: entry.map_or_else(Vec::new, |entry| ids(&[entry])),
    }
}

/// Holds that were placed; one that was released is there.
fn holds(looked: &Looked<'_>) -> Vec<Item> {
    let item = |(line, placed): (&record::Line<'_>, &HoldPlaced)| {
        let by = looked.log.released(line, placed);
        let sentence = match by {
            Some((line, release)) => format!("Released by {}, {}.", release.by, looked.show.moment(line.at)),
            None => format!("{} Nobody has released it.", ended(&placed.reason)),
        };
        Item {
            id: format!("hold:{}", line.entry.id),
            ready: if by.is_some() { Ready::There } else { Ready::DoesNotMeet },
            sign: None,
            title: format!("Hold: {}", placed.hold),
            sentence,
            source: String::new(),
            holds: true,
            wants: if by.is_some() { Vec::new() } else { vec![want("hold_released", &["hold", "by"])] },
            evidence: ids(&[line.entry.id]),
        }
    };
    looked.log.each::<HoldPlaced>().map(item).collect()
}
