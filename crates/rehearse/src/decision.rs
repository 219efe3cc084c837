//! What somebody at the hole is asked on a made-up day, what they answer, and what would have been wise.
//!
//! The day is made anew with every answer. What came before a question stays to the last letter, so whoever
//! answers never sees the past change.
//!
//! Words: *question* = what the crew or the plant wants to know; *wise* = the answer of somebody who knows
//! the truth.
//! Never: show what is wise before the end.

use quantity::Moment;
use record::field::UnitSystem;

use crate::site::Site;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// The crew is ready for concrete. `Not`: clean the bottom and the fluid first.
    Concrete,
    /// A load is there. `Not`: it is sent away.
    Load {
        /// Its ticket.
        ticket: String,
    },
    /// The crew is about to take pieces of the tremie off. `Not`: it stays where it is.
    Lift {
        /// How many.
        pieces: usize,
        /// Depth of the tip afterwards, in metres below the reference.
        tip_m: f64,
    },
    /// The plant asks how much the last truck is to bring. Answered with `Order`.
    Order {
        /// The units of the day.
        system: UnitSystem,
    },
}

/// What is answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// As the crew would do it by itself.
    GoOn,
    /// Not so.
    Not,
    /// The last truck brings so many tenths of a cubic yard, or of a cubic metre where the day is metric.
    Order(u32),
}

/// One question of the day.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// Since when it is asked.
    pub at: Moment,
    /// Until when the crew waits; then nothing goes on without an answer.
    pub until: Moment,
    /// What is asked.
    pub question: Question,
    /// What was answered; `None`: nothing yet, and the day goes on as the crew would do it.
    pub answer: Option<Answer>,
    /// The answer of somebody who knows the truth.
    pub wise: Answer,
}

impl Ask {
    /// Answered, and not wisely. An order that was larger than it had to be is not held against anybody.
    pub fn is_unwise(&self) -> bool {
        match (self.answer, self.wise) {
            (None, _) => false,
            (Some(Answer::Order(ordered)), Answer::Order(needed)) => ordered < needed,
            (Some(answer), wise) => answer != wise,
        }
    }
}

impl Question {
    /// Every answer there is to it.
    pub fn answers(&self) -> Vec<Answer> {
        match self {
            Question::Order { system } => Site::of(*system).orders.map(Answer::Order).to_vec(),
            _ => vec![Answer::GoOn, Answer::Not],
        }
    }
}

impl Answer {
    /// Its word: `go`, `not`, `order-40`.
    pub fn word(self) -> String {
        match self {
            Answer::GoOn => "go".to_owned(),
            Answer::Not => "not".to_owned(),
            Answer::Order(tenths) => format!("order-{tenths}"),
        }
    }

    /// The answer of a word; `None` when there is none.
    pub fn of_word(word: &str) -> Option<Self> {
        match word {
            "go" => Some(Answer::GoOn),
            "not" => Some(Answer::Not),
            order => order.strip_prefix("order-")?.parse().ok().map(Answer::Order),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_answer_is_kept_as_a_word_and_read_again() {
        let orders = [UnitSystem::Us, UnitSystem::Metric].map(|system| Question::Order { system }.answers());
        assert_eq!(orders.iter().map(Vec::len).collect::<Vec<_>>(), [5, 5]);
        for answer in [Answer::GoOn, Answer::Not].into_iter().chain(orders.into_iter().flatten()) {
            assert_eq!(Answer::of_word(&answer.word()), Some(answer));
        }
        assert_eq!(["perhaps", "order-", "order-x"].map(Answer::of_word), [None; 3]);
    }
}
