//! Plausibility: which readings deserve a question.
//!
//! Every rule asks and none refuses: what was entered is kept. The ranges in here are not acceptance
//! limits; they say when a slip of the pen is more likely than the reading.

use crate::log::Log;
use crate::question::Question;

/// Every question a log raises, in the order of its lines.
pub fn questions(_log: &Log<'_>) -> Vec<Question> {
    Vec::new()
}
