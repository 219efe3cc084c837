//! Cards about doubts and about the record itself: odd curves, unexplained volumes, disputes, holds, questions of people, newer entries,
//! entries dated ahead, criteria that could not be used.
//!
//! Never: hide one because it is inconvenient.

use super::card::{Card, CardSort, want};
use super::looked::{Looked, ids};
use assess::doubt::{Doubt, Odd};
use record::Line;
use record::kinds::{HoldPlaced, QuestionAsked};
use record::log::ASKED;
use wording::Notice;

/// What the formulas found odd.
pub(crate) fn doubts(looked: &Looked<'_>) -> Vec<Card> {
    let issues = looked.assessment.issues.iter().enumerate();
    issues.filter_map(|(number, doubt)| of_doubt(number, doubt, looked)).collect()
}

fn of_doubt(number: usize, doubt: &Doubt, looked: &Looked<'_>) -> Option<Card> {
    let card = worded(number, doubt, looked)?;
    let told = doubt.evidence.iter().map(|id| wording::entry_reference(*id, &looked.log, &looked.show));
    let first = ids(&doubt.evidence).into_iter().next().unwrap_or_default();
    Some(Card {
        id: format!("doubt:{}:{number}:{first}", odd_word(&doubt.odd)),
        at: looked.last_of(&doubt.evidence),
        evidence: ids(&doubt.evidence),
        evidence_text: told.collect(),
        ..card
    })
}

/// What is odd, in words; `None` where the reckoning it is about is gone.
fn worded(number: usize, doubt: &Doubt, looked: &Looked<'_>) -> Option<Card> {
    if let Odd::LiftUnexplained { lift, .. } = &doubt.odd {
        return lift_card(*lift, looked);
    }
    let notice = wording::doubt(doubt, &looked.assessment, &looked.log, &looked.show)?;
    Some(Card::of_notice(CardSort::Doubt, format!("doubt:{number}"), notice))
}

fn lift_card(lift: usize, looked: &Looked<'_>) -> Option<Card> {
    let reckoned = looked.assessment.reckoning.lifts.get(lift.checked_sub(1)?)?;
    let text = wording::lift(lift, reckoned, &looked.log, &looked.show);
    let card = Card::plain(CardSort::Doubt, format!("doubt:lift:{lift}"), text.heading);
    Some(Card { sentence: text.sentence, next: text.do_now, ..card })
}

fn odd_word(odd: &Odd) -> &'static str {
    match odd {
        Odd::Curve(_) => "curve",
        Odd::SoundedDuringDischarge => "sounded_during_discharge",
        Odd::Slump(_) => "slump",
        Odd::SandAgainstDensity(_) => "sand_against_density",
        Odd::SandLeft(_) => "sand_left",
        Odd::LiftUnexplained { .. } => "lift",
        Odd::Runs(_) => "runs",
    }
}

/// A notice about the shaft.
pub(crate) fn notice(code: &'static str, what: &str, meaning: &str, next: &str) -> Notice {
    Notice { code, what: what.to_owned(), meaning: meaning.to_owned(), next: next.to_owned() }
}

/// What has to be said about the record: disputes, loose corrections, newer entries, entries dated ahead,
/// criteria that could not be used.
pub(crate) fn about_record(looked: &Looked<'_>) -> Vec<Card> {
    let (log, show) = (&looked.log, &looked.show);
    let card = |id: String, notice: Notice| Card::of_notice(CardSort::Record, id, notice);
    let disputes = log.disputes.iter().map(|dispute| Card {
        wants: vec![want("dispute_closed", &["about", "keeps", "reason"])],
        evidence: ids(&dispute.candidates),
        ..card(format!("dispute:{}", dispute.about), wording::dispute(dispute, log, show))
    });
    let loose = log.loose.iter().map(|id| card(format!("loose:{id}"), wording::loose(*id, log, show)));
    let newer = log.newer.iter().map(|one| card(format!("newer:{}", one.id), wording::newer(one, show)));
    let mut all: Vec<Card> = disputes.chain(loose).chain(newer).collect();
    all.extend(log.open_holds().into_iter().map(|(line, placed)| hold(line, placed, looked)));
    all.extend(log.unanswered().into_iter().map(|(line, question)| asked(line, question, looked)));
    all.extend(ahead(looked));
    all.extend(criteria(looked));
    all
}

fn hold(line: &Line<'_>, placed: &HoldPlaced, looked: &Looked<'_>) -> Card {
    let notice = wording::hold(line, placed, &looked.show);
    Card {
        at: Some(line.at.seconds()),
        holds: true,
        wants: vec![want("hold_released", &["hold", "by"])],
        evidence: ids(&[line.entry.id]),
        ..Card::of_notice(CardSort::Record, format!("hold:{}", line.entry.id), notice)
    }
}

/// What somebody asked about an entry. The first entry of its evidence is the one that asks: the answer names it.
fn asked(line: &Line<'_>, question: &QuestionAsked, looked: &Looked<'_>) -> Card {
    let notice = wording::asked(line, question, &looked.log, &looked.show);
    let about = looked.record.get(&question.about).map(|held| held.id());
    let evidence: Vec<_> = std::iter::once(line.entry.id).chain(about).collect();
    Card {
        at: Some(line.at.seconds()),
        wants: vec![want("question_answered", &["answer"])],
        criterion: ASKED.to_owned(),
        evidence: ids(&evidence),
        ..Card::of_notice(CardSort::Question, format!("asked:{}", line.entry.id), notice)
    }
}

/// A text as a sentence of its own.
pub(crate) fn ended(text: &str) -> String {
    let text = text.trim();
    if text.is_empty() || text.ends_with(['.', '!', '?']) { text.to_owned() } else { format!("{text}.") }
}

fn ahead(looked: &Looked<'_>) -> Option<Card> {
    let what = match looked.ahead() {
        0 => return None,
        1 => "One entry is dated later than this moment.".to_owned(),
        count => format!("{count} entries are dated later than this moment."),
    };
    let notice = notice(
        "dated_ahead",
        &what,
        "They are kept and count from their own time on; until then no figure here knows them.",
        "If the clock of a device is wrong, set it right and correct the times of those entries.",
    );
    Some(Card::of_notice(CardSort::Record, "dated_ahead".to_owned(), notice))
}

/// Why nothing is judged, and changes of limits that were refused.
fn criteria(looked: &Looked<'_>) -> Vec<Card> {
    let card = |id: String, title: &str, sentence: String| Card {
        sentence,
        ..Card::plain(CardSort::Record, id, title.to_owned())
    };
    let none = looked.no_rules.iter().map(|why| Card {
        wants: vec![want("criteria_chosen", &["set"])],
        ..card("no_criteria".to_owned(), "No criteria are in force", wording::no_rules(why))
    });
    let refused = looked.refused.iter().map(|one| Card {
        wants: vec![want("limit_changed", &["criterion", "limit", "reason"])],
        ..card(format!("refused:{}", one.criterion), "A change of a limit was refused", wording::refused(one))
    });
    none.chain(refused).collect()
}
