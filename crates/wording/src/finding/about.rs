//! What a finding is about, and what people decided about it.

use super::DispositionText;
use crate::entry::line_of;
use crate::label;
use crate::phrase::{capital, stop};
use crate::show::Show;
use assess::picture::References;
use assess::{Disposition, Finding, Subject};
use quantity::{Elevation, Moment};
use record::Log;

/// What a value belongs to; empty for the shaft.
pub(crate) fn subject(finding: &Finding, log: &Log<'_>, show: &Show) -> String {
    match &finding.subject {
        Subject::Shaft => String::new(),
        Subject::Test(id) => match line_of(*id, log) {
            Some(line) => format!("reading of {}", show.moment(line.at)),
            None => format!("reading {}", id.short()),
        },
        Subject::Load(ticket) => format!("load {ticket}"),
        Subject::Interval { lower, upper } => stretch(finding.at, (*upper, *lower), log, show),
        Subject::Lift(number) => format!("lift {number}"),
        Subject::Tube(tube) if tube == "all" => "all tubes".to_owned(),
        Subject::Tube(pair) if pair.contains('-') => format!("tubes {pair}"),
        Subject::Tube(tube) => format!("tube {tube}"),
        Subject::Bolt(bolt) => format!("bolt {bolt}"),
    }
}

/// Depths first, because those are on the tape: `from 8.6 ft to 20.0 ft deep (+91.4 ft to +80.0 ft)`. The
/// elevations alone where no reference is known.
fn stretch(at: Option<Moment>, (upper, lower): (Elevation, Elevation), log: &Log<'_>, show: &Show) -> String {
    let levels = format!("{} to {}", show.elevation(upper), show.elevation(lower));
    let at = at.or_else(|| log.lines.last().map(|line| line.at));
    let references = References::of_log(log);
    let depth = |level| at.and_then(|at| references.depth(level, at)).map(|depth| show.depth(depth));
    match (depth(upper), depth(lower)) {
        (Some(from), Some(to)) => format!("from {from} to {to} deep ({levels})"),
        _ => format!("from {levels}"),
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
