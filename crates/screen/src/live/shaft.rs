//! The screen of a shaft: what stands where, which clocks run, what calls, what to do next.
//!
//! Words: *stage* decides which figures are big; everything else is there in every stage.
//! Never: show two moments at once.

use super::attention::{Attention, attention};
use super::big::Big;
use super::card::{self, Card};
use super::clock::Clock;
use super::counts::FindingCounts;
use super::doubts;
use super::drawing::{DrawingCard, drawings};
use super::figures;
use super::heading::{Heading, heading};
use super::job::alarm_card;
use super::looked::Looked;
use super::next::{Next, next};
use super::shape;
use super::sign::Sign;
use crate::entry::stage::Stage;
use figure::Size;
use quantity::{InOrder, Moment};
use record::Record;

/// A shaft at a moment, for one screen.
#[derive(Debug, Clone, PartialEq)]
pub struct ShaftScreen {
    /// The moment it shows, seconds since 1970.
    pub at: i64,
    /// The moment as people read it.
    pub moment: String,
    /// What stands over it.
    pub heading: Heading,
    /// The stage of the work.
    pub stage: Stage,
    /// The big figures of this stage.
    pub figures: Vec<Big>,
    /// The clocks that matter now, the most urgent first.
    pub clocks: Vec<Clock>,
    /// What calls for attention, the most urgent first.
    pub attention: Vec<Attention>,
    /// What to do next, in this order.
    pub next: Vec<Next>,
    /// How the shaft stands, in one or two sentences.
    pub verdict: String,
    /// How many findings stand how.
    pub counts: FindingCounts,
    /// Findings that fail, cannot be judged or were not measured, in the defined order: fails first. All of
    /// them, also those that meet, are told by `findings`.
    pub findings: Vec<Card>,
    /// Forecasts, the most urgent first.
    pub forecasts: Vec<Card>,
    /// Questions about what was written, open ones first.
    pub questions: Vec<Card>,
    /// What the formulas found odd.
    pub doubts: Vec<Card>,
    /// What shape the shaft probably has, an estimate; `None` before the first sounding of concrete, and at a brief
    /// look.
    pub shape: Option<wording::ShapeText>,
    /// What has to be said about the record itself: copied devices, disputes, holds, newer entries.
    pub record: Vec<Card>,
    /// Which drawings there are.
    pub drawings: Vec<DrawingCard>,
}

/// A shaft at a moment.
pub fn shaft(record: &Record, shaft: &str, at: Moment) -> ShaftScreen {
    of_looked(&Looked::at(record, shaft, at))
}

/// A shaft at a moment with one of its drawings, from one assessment; `None` when no drawing has that word.
pub fn shaft_drawn(
    record: &Record,
    shaft: &str,
    at: Moment,
    (word, size): (&str, Size),
) -> (ShaftScreen, Option<String>) {
    let looked = Looked::at(record, shaft, at);
    (of_looked(&looked), super::drawing::drawn(&looked, word, size))
}

/// Every finding of a shaft at a moment, in the defined order: fails first.
pub fn findings(record: &Record, shaft: &str, at: Moment) -> Vec<Card> {
    let looked = Looked::at(record, shaft, at);
    looked.assessment.findings.iter().map(|one| card::of_finding(one, &looked)).collect()
}

pub(crate) fn of_looked(looked: &Looked<'_>) -> ShaftScreen {
    let assessment = &looked.assessment;
    let stage = looked.stage();
    // Wording hundreds of findings that meet would take longer than the assessment, and nobody reads them
    // while concrete comes.
    let unsettled = assessment.findings.iter().filter(|one| Sign::of_finding(one) < Sign::Meets);
    let findings: Vec<Card> = unsettled.map(|one| card::of_finding(one, looked)).collect();
    let forecasts: Vec<Card> =
        assessment.forecasts.iter().map(|one| card::of_forecast(one, looked)).collect();
    let mut questions: Vec<Card> =
        assessment.questions.iter().map(|one| card::of_question(one, looked)).collect();
    questions.put_in_order_by_key(|card| !card.open);
    let shape = shape::text(looked);
    let mut doubts = doubts::doubts(looked);
    doubts.extend(shape.iter().flat_map(|text| shape::cards(text, looked)));
    let alarms = looked.record.alarms();
    let alarms = alarms.iter().map(|alarm| alarm_card(alarm, looked.record));
    let record: Vec<Card> = alarms.chain(doubts::about_record(looked)).collect();
    let all: Vec<&Card> =
        [&forecasts, &findings, &doubts, &record].into_iter().flat_map(|cards| cards.iter()).collect();
    ShaftScreen {
        at: looked.at.seconds(),
        moment: looked.show.moment(looked.at),
        heading: heading(looked),
        stage,
        figures: figures::figures(looked, stage),
        clocks: super::clock::clocks(looked),
        attention: attention(&all, looked.at.seconds()),
        next: next(looked, stage, shape.as_ref()),
        verdict: wording::verdict_sentence(&assessment.findings, looked.log.disputes.len()),
        drawings: drawings(looked),
        counts: FindingCounts::of(looked),
        findings,
        forecasts,
        questions,
        doubts,
        shape,
        record,
    }
}
