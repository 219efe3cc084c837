//! A card: one finding, forecast, question or doubt with everything a person needs to act on it.
//!
//! Words: *want* = the entry that would settle it.
//! Never: stand without what to do, or without saying where a limit comes from.

use super::advice::{Advice, advice};
use super::looked::{Looked, ids};
use super::order::still_out;
use super::sign::{Haste, Sign};
use assess::{Finding, Forecast, Outlook, Subject};
use record::Question;

/// What a card is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CardSort {
    /// A verdict.
    Finding,
    /// What will happen next if nothing changes.
    Forecast,
    /// Something written looks odd, and the one who wrote it is asked.
    Question,
    /// Readings that cannot both be right, or need a second look.
    Doubt,
    /// Something about the record itself: a dispute, an entry of a newer version, a copied device.
    Record,
}

/// An entry that would settle something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Want {
    /// Word of its kind: `sediment_measured`.
    pub kind: &'static str,
    /// Its kind as people read it: `Sediment measured`.
    pub label: String,
    /// Names of the fields that have to be filled in; empty where the entry alone is enough.
    pub fields: Vec<&'static str>,
}

/// One card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Card {
    /// Stable while it is about the same thing.
    pub id: String,
    /// What it is about.
    pub sort: CardSort,
    /// What was found, where something was judged.
    pub sign: Option<Sign>,
    /// How soon, where something is coming.
    pub haste: Option<Haste>,
    /// A few words.
    pub title: String,
    /// The value; empty where there is none.
    pub value: String,
    /// The limit in force; empty where none is set.
    pub limit: String,
    /// The whole in one or a few sentences.
    pub sentence: String,
    /// What to do now, or what is usually done; may be empty.
    pub next: String,
    /// Document and clause, and how far the limit can be relied on; empty where no limit is set.
    pub source: String,
    /// Why it matters; may be empty.
    pub why: String,
    /// When it was measured or seen, seconds since 1970; `None` where it was not, or is about no time.
    pub at: Option<i64>,
    /// The stage of the work; empty where it belongs to none.
    pub stage: &'static str,
    /// Concrete waits until this is settled.
    pub holds: bool,
    /// Somebody still has to decide or answer.
    pub open: bool,
    /// It fails, and the same thing was measured again since and meets.
    pub measured_again: bool,
    /// It fails, and nothing can be done about it any more but to decide.
    pub too_late: bool,
    /// What was decided or answered, with who and when.
    pub decided: Vec<String>,
    /// Entries that would settle it.
    pub wants: Vec<Want>,
    /// Id of the criterion, for a decision about it; empty where there is none.
    pub criterion: String,
    /// Ids of the entries it rests on.
    pub evidence: Vec<String>,
    /// The same entries as people read them.
    pub evidence_text: Vec<String>,
}

impl Card {
    /// A card that holds nothing but what it is about.
    pub(crate) fn plain(sort: CardSort, id: String, title: String) -> Self {
        Card {
            id,
            sort,
            sign: None,
            haste: None,
            title,
            value: String::new(),
            limit: String::new(),
            sentence: String::new(),
            next: String::new(),
            source: String::new(),
            why: String::new(),
            at: None,
            stage: "",
            holds: false,
            open: true,
            measured_again: false,
            too_late: false,
            decided: Vec::new(),
            wants: Vec::new(),
            criterion: String::new(),
            evidence: Vec::new(),
            evidence_text: Vec::new(),
        }
    }

    /// A card that says what a notice says.
    pub(crate) fn of_notice(sort: CardSort, id: String, notice: wording::Notice) -> Self {
        let title = notice.what;
        Card { sentence: notice.meaning, next: notice.next, ..Card::plain(sort, id, title) }
    }
}

/// The card of a finding.
pub(crate) fn of_finding(finding: &Finding, looked: &Looked<'_>) -> Card {
    let text = wording::finding(finding, &looked.log, &looked.show);
    let sign = Sign::of_finding(finding);
    let source = [text.source, text.sure_note].into_iter().filter(|part| !part.is_empty());
    let advice = if finding.is_open() { advice(finding, looked) } else { Advice::Holds };
    Card {
        sign: Some(sign),
        value: text.value,
        limit: text.limit,
        sentence: text.sentence,
        next: advice.told(&text.if_fails, looked),
        measured_again: matches!(advice, Advice::MeasuredAgain(_)),
        too_late: advice == Advice::TooLate,
        source: source.collect::<Vec<_>>().join("; "),
        why: text.why,
        at: finding.at.map(quantity::Moment::seconds).or_else(|| looked.last_of(&finding.evidence)),
        stage: text.stage,
        holds: text.holds,
        open: finding.is_open() || matches!(sign, Sign::NotMeasured | Sign::CannotSay),
        decided: text.dispositions.into_iter().map(|one| one.sentence).collect(),
        wants: if sign == Sign::Meets { Vec::new() } else { wants(finding) },
        criterion: text.criterion,
        evidence: ids(&finding.evidence),
        evidence_text: text.evidence,
        ..Card::plain(CardSort::Finding, finding_id(finding), text.heading)
    }
}

/// The entries that settle what a finding measures.
pub(crate) fn wants(finding: &Finding) -> Vec<Want> {
    wording::wanted(finding.fact).iter().map(|wanted| want(wanted.kind, wanted.fields)).collect()
}

/// An entry of a kind with its fields.
pub(crate) fn want(kind: &'static str, fields: &[&'static str]) -> Want {
    Want { kind, label: kind_label(kind), fields: fields.to_vec() }
}

/// A kind as people read it.
pub(crate) fn kind_label(word: &str) -> String {
    record::kinds::kind_of(word).map_or_else(|| word.to_owned(), wording::label::kind)
}

/// Stable while it is about the same criterion and the same thing.
pub(crate) fn finding_id(finding: &Finding) -> String {
    let criterion = finding.criterion.as_ref().map_or(finding.fact.name, |one| one.original.id.as_str());
    let subject = match &finding.subject {
        Subject::Shaft => String::new(),
        Subject::Test(entry) => format!(":{entry}"),
        Subject::Load(name) | Subject::Tube(name) | Subject::Bolt(name) => format!(":{name}"),
        Subject::Interval { lower, upper } => {
            format!(":{}..{}", lower.0.to_nanometers(), upper.0.to_nanometers())
        }
        Subject::Lift(number) => format!(":{number}"),
    };
    format!("finding:{criterion}{subject}")
}

/// The card of a forecast.
pub(crate) fn of_forecast(forecast: &Forecast, looked: &Looked<'_>) -> Card {
    let text = forecast_text(forecast, looked);
    Card {
        haste: Some(Haste::of(forecast.urgency)),
        sentence: text.sentence,
        next: text.do_now,
        wants: forecast_want(&forecast.outlook).into_iter().map(|kind| want(kind, &[])).collect(),
        at: looked.last_of(&forecast.evidence),
        evidence: ids(&forecast.evidence),
        evidence_text: text.evidence,
        ..Card::plain(CardSort::Forecast, forecast_id(&forecast.outlook), text.heading)
    }
}

/// A forecast in words; for what is still needed the order with its service level, and what was ordered already is said beside what is still to order.
pub(crate) fn forecast_text(forecast: &Forecast, looked: &Looked<'_>) -> wording::ForecastText {
    let mut text = wording::forecast(forecast, &looked.log, &looked.show);
    let Outlook::StillToOrder { .. } = forecast.outlook else { return text };
    let order = match looked.estimates_wait {
        true => Some(wording::order_waits()),
        false => looked.order().map(|order| wording::order(order, &looked.show)),
    };
    if let Some(order) = order {
        (text.heading, text.sentence, text.do_now) = (order.heading.to_owned(), order.sentence, order.do_now);
    }
    if let Some(order) = still_out(looked) {
        text.do_now = format!("{} Already out: {order}.", text.do_now);
    }
    text
}

/// Stable while it is about the same line, load, casing or limit.
pub(crate) fn forecast_id(outlook: &Outlook) -> String {
    let word = wording::words::outlook(outlook);
    match outlook {
        Outlook::Embedment { line: thing, .. }
        | Outlook::SlumpLife { ticket: thing, .. }
        | Outlook::HeadAtNextLift { casing: thing, .. } => format!("{word}:{thing}"),
        Outlook::TimeLimit { fact, ticket, .. } => {
            format!("{word}:{fact}:{}", ticket.as_deref().unwrap_or_default())
        }
        Outlook::FluidTestDue { .. } | Outlook::Gap { .. } | Outlook::StillToOrder { .. } => word.to_owned(),
    }
}

/// The entry in which what a forecast asks for would be written down.
pub(crate) fn forecast_want(outlook: &Outlook) -> Option<&'static str> {
    match outlook {
        Outlook::Embedment { .. } | Outlook::HeadAtNextLift { .. } => Some("concrete_sounded"),
        Outlook::SlumpLife { .. } => Some("concrete_test"),
        Outlook::FluidTestDue { .. } => Some("fluid_test"),
        Outlook::Gap { .. } => Some("interruption"),
        Outlook::StillToOrder { .. } => Some("concrete_ordered"),
        Outlook::TimeLimit { ticket: Some(_), .. } => Some("discharge_started"),
        Outlook::TimeLimit { .. } => None,
    }
}

/// The card of a question.
pub(crate) fn of_question(question: &Question, looked: &Looked<'_>) -> Card {
    let notice = wording::question(question, &looked.show, &looked.log);
    let word = question.suspicion.word();
    let field = question.suspicion.field().map_or_else(String::new, |field| format!(":{field}"));
    let id = format!("question:{word}{field}:{}", question.about);
    Card {
        open: question.answer.is_none(),
        decided: question.answer.iter().map(|(_, answer)| answer.clone()).collect(),
        wants: vec![want("question_answered", &["about", "question", "answer"])],
        criterion: word.to_owned(),
        evidence: ids(&[question.about]),
        evidence_text: vec![wording::entry_reference(question.about, &looked.log, &looked.show)],
        ..Card::of_notice(CardSort::Question, id, notice)
    }
}
