//! The moment a person means with `--at` or `--from`.
//!
//! Standing at 10:40 in the pour means 10:40 on the clock on site, whatever clock this machine has and
//! whatever offset the last entry was written with.

use crate::problem::{MISUNDERSTOOD, Problem};
use notes::{TimeProblem, Zone};
use quantity::Moment;
use record::Log;
use record::kinds::{DischargeEnded, JobOpened};

/// How moments are written.
const FORMS: &str = "Write 10:40, 2026-05-04 10:40, \"10:40 pm\" or RFC 3339.";

/// The moment a person meant: full, or a clock time on the day of the pour, in the zone of the job. `option`
/// is how they asked, for the message.
pub(crate) fn moment_of(
    log: &Log<'_>,
    text: Option<&str>,
    option: &'static str,
) -> Result<Option<Moment>, Problem> {
    let Some(text) = text else { return Ok(None) };
    let Some(zone) = zone(log) else {
        return Moment::parse(text).map(Some).map_err(|_| {
            let next = "Write it in full, with its offset: 2026-05-04T10:40:00-06:00.";
            misunderstood((option, text), "the record names no job with a time zone", next)
        });
    };
    let day = day(log, &zone);
    zone.read(text, day.as_deref()).map(Some).map_err(|problem| wrong((option, text), &problem))
}

fn zone(log: &Log<'_>) -> Option<Zone> {
    let (_, job) = log.last::<JobOpened>()?;
    Zone::named(&job.time_zone).ok()
}

/// The day a clock time without a date means: that of the last concrete, else of the last thing seen at
/// this shaft.
fn day(log: &Log<'_>, zone: &Zone) -> Option<String> {
    let poured = log.last::<DischargeEnded>().map(|(line, _)| line.at);
    let own = log.lines.iter().filter(|line| line.entry.shaft.is_some()).map(|line| line.at).max();
    zone.day_of(poured.or(own).or(log.end())?)
}

fn wrong(text: (&str, &str), problem: &TimeProblem) -> Problem {
    match problem {
        TimeProblem::Form => misunderstood(text, "it is not written like one", FORMS),
        TimeProblem::NoDate => misunderstood(text, "nothing was seen yet that would give it a day", FORMS),
        TimeProblem::Early { local } => {
            let why = format!("{local} lies before 2000, where the table of the clocks begins");
            misunderstood(text, &why, "Write the offset behind it, such as -06:00.")
        }
        TimeProblem::Skipped { local } => {
            let why = format!("the clocks were put forward over {local}");
            misunderstood(text, &why, "Choose a time before or after.")
        }
        TimeProblem::Twice { local, first, second } => {
            let why = format!("{local} happened twice that night");
            misunderstood(text, &why, &format!("Write the offset behind it: {first} or {second}."))
        }
        TimeProblem::Offset { written, there } => {
            let why = format!("the offset {written} was not in force on the job; {there} was");
            misunderstood(text, &why, FORMS)
        }
    }
}

fn misunderstood((option, text): (&str, &str), why: &str, next: &str) -> Problem {
    let what = format!("{option}: `{text}` is no moment: {why}.");
    Problem::new(what, "No other moment was taken in its place.", next).exit(MISUNDERSTOOD)
}
