//! A running clock: what it counts, towards or from which moment, and when it becomes urgent.
//!
//! Between two assessments a screen only counts; when the haste changes by time alone, the clock says so
//! itself, so that a screen never has to know a limit.
//!
//! Units: whole seconds since 1970, UTC.
//! Never: stop at zero: an overrun is counted on.

use super::card::forecast_id;
use super::looked::{Looked, ids};
use super::sign::Haste;
use assess::picture::Load;
use assess::{Forecast, Outlook};
use quantity::{InOrder, Moment};
use record::kinds::FluidTest;
use wording::Show;

/// So long before a limit a clock becomes urgent; the forecasts warn by the same time.
const SOON_SECONDS: i64 = 30 * 60;

/// Where a clock counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Counts {
    /// Down to a moment, then on as overrun.
    DownTo(i64),
    /// Up from a moment.
    UpFrom(i64),
}

/// One running clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clock {
    /// Stable while it is about the same thing: `slump_life:4411`.
    pub id: String,
    /// What runs: `Slump life of load 4411`.
    pub label: String,
    /// Towards or from which moment.
    pub counts: Counts,
    /// That moment as people read it: `14:05`, with its error where it has one.
    pub moment: String,
    /// The limit behind it; empty where none is set.
    pub limit: String,
    /// Haste at the moment looked at.
    pub haste: Haste,
    /// When the haste changes by time alone, in order of time.
    pub turns: Vec<(i64, Haste)>,
    /// The whole in a sentence or two.
    pub sentence: String,
    /// What to do now.
    pub do_now: String,
    /// Ids of the entries behind it.
    pub evidence: Vec<String>,
}

/// A clock as it reads at a moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Face {
    /// `24 min 07 s`, `1 h 25 min`.
    pub text: String,
    /// `left`, `over` or `since then`.
    pub word: &'static str,
    /// How soon somebody has to act.
    pub haste: Haste,
}

impl Clock {
    /// How the clock reads at a moment.
    pub fn reads(&self, now: i64) -> Face {
        let (seconds, word) = match self.counts {
            Counts::DownTo(end) if end >= now => (end.saturating_sub(now), "left"),
            Counts::DownTo(end) => (now.saturating_sub(end), "over"),
            Counts::UpFrom(start) => (now.saturating_sub(start).max(0), "since then"),
        };
        Face { text: running(seconds), word, haste: self.haste_at(now) }
    }

    fn moment_seconds(&self) -> i64 {
        let (Counts::DownTo(at) | Counts::UpFrom(at)) = self.counts;
        at
    }

    /// The haste by then: that of the last turn that has passed, never less urgent than it was.
    fn haste_at(&self, now: i64) -> Haste {
        let passed = self.turns.iter().filter(|(at, _)| *at <= now).map(|(_, haste)| *haste);
        passed.chain([self.haste]).min().unwrap_or(self.haste)
    }
}

/// Seconds as a clock shows them while they run.
fn running(seconds: i64) -> String {
    let (days, hours) = (seconds / 86_400, seconds / 3600 % 24);
    let (minutes, seconds_left) = (seconds / 60 % 60, seconds % 60);
    match (days, hours) {
        (0, 0) => format!("{minutes} min {seconds_left:02} s"),
        (0, hours) => format!("{hours} h {minutes:02} min"),
        (days, hours) => format!("{days} d {hours} h"),
    }
}

/// Every clock that matters now, the most urgent first.
pub(crate) fn clocks(looked: &Looked<'_>) -> Vec<Clock> {
    let forecasts = looked.assessment.forecasts.iter();
    let mut all: Vec<Clock> = forecasts.filter_map(|forecast| of_forecast(forecast, looked)).collect();
    all.extend(
        looked
            .assessment
            .picture
            .loads
            .iter()
            .filter(|load| load.open())
            .filter_map(|load| going_in(load, looked)),
    );
    all.extend(since_fluid_test(looked));
    all.put_in_order_by_key(|clock| (clock.haste, clock.moment_seconds()));
    all
}

/// A forecast that is about time.
fn of_forecast(forecast: &Forecast, looked: &Looked<'_>) -> Option<Clock> {
    let show = &looked.show;
    let (counts, moment) = counted(&forecast.outlook, show)?;
    let text = wording::forecast(forecast, &looked.log, show);
    Some(Clock {
        id: forecast_id(&forecast.outlook),
        label: label(&forecast.outlook).unwrap_or(text.heading),
        counts,
        moment,
        limit: limit(&forecast.outlook, show),
        haste: Haste::of(forecast.urgency),
        turns: turns(&forecast.outlook),
        sentence: text.sentence,
        do_now: text.do_now,
        evidence: ids(&forecast.evidence),
    })
}

/// What is counted, and the moment as people read it.
fn counted(outlook: &Outlook, show: &Show) -> Option<(Counts, String)> {
    Some(match outlook {
        Outlook::SlumpLife { ends, error, .. } => {
            let known = error.to_seconds() <= 0.0;
            let error = if known { String::new() } else { format!(" ± {}", show.span(*error)) };
            (Counts::DownTo(ends.seconds()), format!("{}{error}", show.moment(*ends)))
        }
        Outlook::FluidTestDue { at: ends, .. } | Outlook::TimeLimit { ends, .. } => {
            (Counts::DownTo(ends.seconds()), show.moment(*ends))
        }
        Outlook::Gap { since, .. } => (Counts::UpFrom(since.seconds()), show.moment(*since)),
        Outlook::Embedment { .. } | Outlook::HeadAtNextLift { .. } | Outlook::StillToOrder { .. } => {
            return None;
        }
    })
}

/// When the haste changes by time alone.
fn turns(outlook: &Outlook) -> Vec<(i64, Haste)> {
    let end = match outlook {
        Outlook::SlumpLife { ends, .. }
        | Outlook::FluidTestDue { at: ends, .. }
        | Outlook::TimeLimit { ends, .. } => Some(ends.seconds()),
        Outlook::Gap { since, allowed, .. } => allowed.map(|span| since.seconds() + span.to_seconds() as i64),
        _ => None,
    };
    end.map_or_else(Vec::new, |end| vec![(end.saturating_sub(SOON_SECONDS), Haste::Soon), (end, Haste::Now)])
}

/// A label that says what runs, where the heading of the forecast alone would not.
fn label(outlook: &Outlook) -> Option<String> {
    let Outlook::TimeLimit { fact, ticket, .. } = outlook else { return None };
    let what = match *fact {
        "concrete.batch_to_discharge" => "to be in",
        "time.open_hole" => "Hole open",
        "time.wall_exposure" => "Fluid on the wall",
        "time.bottom_to_concrete" => "From bottom to concrete",
        "time.cleaning_to_concrete" => "From cleaning to concrete",
        "time.accepted_to_concrete" => "From acceptance to concrete",
        _ => return None,
    };
    Some(match ticket {
        Some(ticket) => format!("Load {ticket} {what}"),
        None => what.to_owned(),
    })
}

/// The limit of time, where the forecast carries it.
fn limit(outlook: &Outlook, show: &Show) -> String {
    match outlook {
        Outlook::Gap { allowed: Some(span), .. } => format!("{} allowed", show.span(*span)),
        Outlook::Gap { allowed: None, .. } => "no limit is set".to_owned(),
        Outlook::SlumpLife { planned_end: Some(end), .. } => {
            format!("work planned until {}", show.moment(*end))
        }
        _ => String::new(),
    }
}

/// A load that is going in.
fn going_in(load: &Load<'_>, looked: &Looked<'_>) -> Option<Clock> {
    let since = load.started?;
    let sentence = format!("Load {} is going in since {}.", load.ticket, looked.show.moment(since));
    let do_now = format!("Enter when load {} is in, then sound.", load.ticket);
    let clock = up(
        format!("going_in:{}", load.ticket),
        format!("Load {} going in", load.ticket),
        since,
        &looked.show,
    );
    Some(Clock { sentence, do_now, evidence: ids(&load.entries), ..clock })
}

/// Time since the last fluid test, where no limit of time is set that would count down to the next.
fn since_fluid_test(looked: &Looked<'_>) -> Option<Clock> {
    let due = |forecast: &Forecast| matches!(forecast.outlook, Outlook::FluidTestDue { .. });
    let waiting = looked.assessment.picture.concrete_started().is_none();
    if !waiting || looked.assessment.forecasts.iter().any(due) {
        return None;
    }
    let (line, _) = looked.log.last::<FluidTest>()?;
    let clock =
        up("since_fluid_test".to_owned(), "Since the last fluid test".to_owned(), line.at, &looked.show);
    let sentence = format!("The fluid was last tested at {}.", looked.show.moment(line.at));
    Some(Clock { limit: "no limit is set".to_owned(), sentence, evidence: ids(&[line.entry.id]), ..clock })
}

/// A clock that counts up and hurries nobody.
fn up(id: String, label: String, since: Moment, show: &Show) -> Clock {
    Clock {
        id,
        label,
        counts: Counts::UpFrom(since.seconds()),
        moment: show.moment(since),
        limit: String::new(),
        haste: Haste::Later,
        turns: Vec::new(),
        sentence: String::new(),
        do_now: String::new(),
        evidence: Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clock(counts: Counts) -> Clock {
        Clock {
            id: String::new(),
            label: String::new(),
            counts,
            moment: String::new(),
            limit: String::new(),
            haste: Haste::Later,
            turns: vec![(8_200, Haste::Soon), (10_000, Haste::Now)],
            sentence: String::new(),
            do_now: String::new(),
            evidence: Vec::new(),
        }
    }

    #[track_caller]
    fn check(counts: Counts, now: i64, expected: (&str, &str, Haste)) {
        let face = clock(counts).reads(now);
        assert_eq!((face.text.as_str(), face.word, face.haste), expected);
    }

    #[test]
    fn a_clock_counts_down_and_then_on_as_overrun() {
        let down = Counts::DownTo(10_000);
        check(down, 10_000 - 5_100, ("1 h 25 min", "left", Haste::Later));
        check(down, 10_000 - 1_447, ("24 min 07 s", "left", Haste::Soon));
        check(down, 10_000, ("0 min 00 s", "left", Haste::Now));
        check(down, 10_061, ("1 min 01 s", "over", Haste::Now));
        check(down, 10_000 + 183_600, ("2 d 3 h", "over", Haste::Now));
    }

    #[test]
    fn a_clock_counts_up_and_never_below_zero() {
        check(Counts::UpFrom(4_000), 4_000 + 65, ("1 min 05 s", "since then", Haste::Later));
        check(Counts::UpFrom(4_000), 3_000, ("0 min 00 s", "since then", Haste::Later));
    }
}
