//! What a finding is about, and what people decided about it.

use super::DispositionText;
use crate::entry::line_of;
use crate::label;
use crate::phrase::{capital, stop};
use crate::show::Show;
use assess::{Disposition, Subject};
use record::Log;

/// What a value belongs to; empty for the shaft.
pub(crate) fn subject(subject: &Subject, log: &Log<'_>, show: &Show) -> String {
    match subject {
        Subject::Shaft => String::new(),
        Subject::Test(id) => match line_of(*id, log) {
            Some(line) => format!("reading of {}", show.moment(line.at)),
            None => format!("reading {}", id.short()),
        },
        Subject::Load(ticket) => format!("load {ticket}"),
        Subject::Interval { lower, upper } => {
            format!("from {} to {}", show.elevation(*lower), show.elevation(*upper))
        }
        Subject::Lift(number) => format!("lift {number}"),
        Subject::Tube(tube) if tube == "all" => "all tubes".to_owned(),
        Subject::Tube(tube) => format!("tube {tube}"),
        Subject::Bolt(bolt) => format!("bolt {bolt}"),
    }
}

/// `Accepted by R. Vale, 14:22: sounded again after cleaning.`
pub(crate) fn disposition(disposition: &Disposition, show: &Show) -> DispositionText {
    let decision = disposition.decision.word();
    let said = capital(&label::choice(decision));
    let sentence =
        format!("{said} by {}, {}: {}", disposition.by, show.moment(disposition.at), disposition.reason);
    DispositionText { decision, sentence: stop(&sentence) }
}
