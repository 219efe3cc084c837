//! What the crew or the plant asks, with a key for each answer.
//!
//! Never: say which answer is wise.

use quantity::{Depth, Length};
use record::field::UnitSystem;
use rehearse::decision::{Answer, Question};
use wording::Show;

/// A question with its keys.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QuestionCard {
    /// What is asked.
    pub what: String,
    /// What an answer means, and what to look at before.
    pub hint: &'static str,
    /// The keys.
    pub keys: Vec<AnswerKey>,
}

/// A key that answers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AnswerKey {
    /// The answer.
    pub answer: Answer,
    /// What it says.
    pub label: String,
}

/// A question as a person is asked it, its figures as the job wants them.
pub fn question(question: &Question, show: &Show) -> QuestionCard {
    let keys =
        question.answers().into_iter().map(|answer| AnswerKey { answer, label: said(question, answer) });
    QuestionCard { what: what(question, show), hint: hint(question), keys: keys.collect() }
}

fn what(question: &Question, show: &Show) -> String {
    match question {
        Question::Concrete => "The crew is ready for concrete. Is the hole?".to_owned(),
        Question::Load { ticket } => format!("Load {ticket} stands at the chute. Does it go in?"),
        Question::Lift { pieces, tip_m } => {
            let (count, tip) = (counted(*pieces), depth(*tip_m, show));
            format!("The crew is about to take {count} off the tremie; its tip comes to {tip}.")
        }
        Question::Order { .. } => "Two loads are to come. How much is the last one to bring?".to_owned(),
    }
}

fn hint(question: &Question) -> &'static str {
    match question {
        Question::Concrete => {
            "Look at the fluid, the bottom and its sediment, and at what calls on the shaft’s screen."
        }
        Question::Load { .. } => "Look at its ticket and its slump.",
        Question::Lift { .. } => "Look at the embedment and the highest safe lift on the shaft’s screen.",
        Question::Order { .. } => {
            "Look at what is still to order on the shaft’s screen. The load before it is on its way already, full."
        }
    }
}

/// What an answer says, as on its key.
pub(super) fn said(question: &Question, answer: Answer) -> String {
    match (question, answer) {
        (Question::Order { system: UnitSystem::Metric }, Answer::Order(tenths)) => tenths_of(tenths, "m³"),
        (_, Answer::Order(tenths)) => tenths_of(tenths, "yd³"),
        (Question::Concrete, Answer::Not) => "Clean bottom and fluid first".to_owned(),
        (Question::Concrete, _) => "Let the concrete come".to_owned(),
        (Question::Load { .. }, Answer::Not) => "Send it away".to_owned(),
        (Question::Load { .. }, _) => "Let it go in".to_owned(),
        (Question::Lift { .. }, Answer::Not) => "Stop them".to_owned(),
        (Question::Lift { .. }, _) => "Let them".to_owned(),
        (Question::Order { .. }, _) => "A full truck".to_owned(),
    }
}

/// What was asked, in a few words.
pub(super) fn short(question: &Question, show: &Show) -> String {
    match question {
        Question::Concrete => "Concrete to come".to_owned(),
        Question::Load { ticket } => format!("Load {ticket}"),
        Question::Lift { pieces, tip_m } => {
            format!("Tremie up by {}, tip to {}", counted(*pieces), depth(*tip_m, show))
        }
        Question::Order { .. } => "The last truck".to_owned(),
    }
}

fn counted(pieces: usize) -> String {
    if pieces == 1 { "1 piece".to_owned() } else { format!("{pieces} pieces") }
}

fn depth(depth_m: f64, show: &Show) -> String {
    show.depth(Depth(Length::meters(depth_m)))
}

fn tenths_of(tenths: u32, unit: &str) -> String {
    format!("{:.1} {unit}", f64::from(tenths) / 10.0)
}
