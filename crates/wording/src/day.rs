//! The rest of the pour in words: how long it will take, how probable it is to end in time, how many trucks that needs.
//!
//! Words: *played* = the day was gone through so many times with durations as they may be.
//! Never: call a day safe; leave out how many days were played.

use crate::show::Show;
use assess::day::{LifeTold, NoDay, RestOfPour, TrucksFrom};
use calc::pour_day::{DayOutlook, Spread};

/// The rest of the pour, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayText {
    /// What it is about.
    pub heading: &'static str,
    /// The probability that is told first: `93 % with 4 trucks`.
    pub value: String,
    /// When it ends, in a few words.
    pub note: String,
    /// How many trucks would be enough: `5 trucks would do: 97 %`.
    pub trucks: String,
    /// The whole.
    pub sentence: String,
    /// What to do now.
    pub do_now: String,
    /// Fewer trucks run than are enough, or no number is.
    pub pressing: bool,
}

/// The rest of the pour as text.
pub fn day(rest: &RestOfPour, show: &Show) -> DayText {
    let (trucks, outlook) = told(rest);
    DayText {
        heading: "Will the pour end in time",
        value: value(rest, trucks, &chance(outlook.safe.value, rest, show)),
        note: short(rest, &outlook.finish, show),
        trucks: trucks_enough(rest, show),
        sentence: format!(
            "Played {} times{}: {}. Probability of {}: {}{}{}.{}",
            show.plain(f64::from(rest.days), 0),
            loads(rest),
            ends(rest, &outlook.finish, show),
            asked(rest, show),
            chance(outlook.safe.value, rest, show),
            with(rest, trucks),
            parts(rest, outlook, show),
            assumed(rest)
        ),
        do_now: do_now(rest, show),
        pressing: outlook.safe.value < assess::assumed::safe_from(),
    }
}

/// `93 % with 4 trucks`; once every load is on its way the number of trucks changes nothing any more.
fn value(rest: &RestOfPour, trucks: u32, chance: &str) -> String {
    match rest.loads_left {
        0 => chance.to_owned(),
        _ => format!("{chance} with {}", counted(trucks, "truck")),
    }
}

/// With the trucks that run; where that is not known, with the least number that is enough, else the most tried.
fn told(rest: &RestOfPour) -> (u32, &DayOutlook) {
    match &rest.running {
        Some((trucks, _, outlook)) => (*trucks, outlook),
        None => {
            let last = rest.tried.last().expect("one number of trucks at least was tried");
            (last.0, &last.1)
        }
    }
}

/// ` with 5 loads to come and 1 on its way or on site`.
fn loads(rest: &RestOfPour) -> String {
    match (rest.loads_left, rest.under_way) {
        (0, 0) => " with every load in".to_owned(),
        (left, 0) => format!(" with {} to come", counted(left, "load")),
        (0, under_way) => {
            format!(" with {} on its way or on site and none to come", counted(under_way, "load"))
        }
        (left, under_way) => {
            format!(" with {} to come and {under_way} on the way or on site", counted(left, "load"))
        }
    }
}

/// `everything in at about 12:35 (12:10 to 13:05 eight times in ten)`, or from the first batch.
fn ends(rest: &RestOfPour, finish: &Spread, show: &Show) -> String {
    let [early, half, late] = told_times(rest, finish, show);
    match rest.begun {
        true => format!("everything in at about {half} ({early} to {late} eight times in ten)"),
        false => {
            format!("everything in about {half} after the first batch ({early} to {late} eight times in ten)")
        }
    }
}

/// `ends about 12:35 (12:10 to 13:05)`, for a figure.
fn short(rest: &RestOfPour, finish: &Spread, show: &Show) -> String {
    let [early, half, late] = told_times(rest, finish, show);
    match rest.begun {
        true => format!("ends about {half} ({early} to {late})"),
        false => format!("takes about {half} ({early} to {late})"),
    }
}

/// Early, half and late: moments of the day, or spans after the first batch.
fn told_times(rest: &RestOfPour, finish: &Spread, show: &Show) -> [String; 3] {
    let spans = [finish.early, finish.half, finish.late].map(|one| one.value);
    match rest.begun {
        true => spans.map(|span| show.moment(rest.now.plus_seconds(span.to_seconds() as i64))),
        false => spans.map(|span| show.span(span)),
    }
}

/// ` with the 4 trucks of today`.
fn with(rest: &RestOfPour, trucks: u32) -> String {
    match &rest.running {
        _ if rest.loads_left == 0 => String::new(),
        Some((_, TrucksFrom::Named, _)) => format!(" with the {} of today", counted(trucks, "truck")),
        Some((_, TrucksFrom::Headway, _)) => {
            format!(" with {}, as many as keep the time between loads", counted(trucks, "truck"))
        }
        None => format!(" with {}", counted(trucks, "truck")),
    }
}

/// `ending within the slump life of its concrete, 4 h ± 12 min after the first batch, without a gap over 1 h`.
fn asked(rest: &RestOfPour, show: &Show) -> String {
    let life = rest.life.map(|life| {
        format!(
            "ending within the slump life of its concrete, {} after the first batch",
            life_text(life, show)
        )
    });
    let gap = rest.gap_limit.map(|gap| match rest.life {
        Some(_) => format!("without a gap over {}", show.span(gap)),
        None => format!("ending without a gap over {}", show.span(gap)),
    });
    life.into_iter().chain(gap).collect::<Vec<_>>().join(", ")
}

fn life_text(life: LifeTold, show: &Show) -> String {
    let span = show.span(life.life);
    match life {
        LifeTold { at_least: true, .. } => format!("{span} at least"),
        LifeTold { error, .. } if error.to_seconds() > 0.0 => format!("{span} ± {}", show.span(error)),
        LifeTold { .. } => span,
    }
}

/// The two probabilities, where both were asked.
fn parts(rest: &RestOfPour, outlook: &DayOutlook, show: &Show) -> String {
    let both = rest.life.is_some() && rest.gap_limit.is_some();
    let gap = format!("longest gap {} half of the times", show.span(outlook.longest_gap.half.value));
    match both {
        true => format!(
            " (in time {}, a longer gap {}; {gap})",
            chance(outlook.in_time.value, rest, show),
            chance(outlook.gap_over.value, rest, show)
        ),
        false => format!(" ({gap})"),
    }
}

fn assumed(rest: &RestOfPour) -> &'static str {
    match rest.assumed_round {
        true => " The road or the end of the work was not planned: usual times are assumed.",
        false => "",
    }
}

/// `5 trucks would do: 0.97`; empty where those that run are as many, or none would.
fn trucks_enough(rest: &RestOfPour, show: &Show) -> String {
    let more = rest.enough.filter(|enough| rest.loads_left > 0 && *enough > told(rest).0);
    let of = |wanted: u32| rest.tried.iter().find(|one| one.0 == wanted).map(|one| one.1.safe.value);
    let reached = more.and_then(|enough| Some((enough, of(enough)?)));
    reached.map_or_else(String::new, |(enough, safe)| {
        format!("{} would do: {}", counted(enough, "truck"), chance(safe, rest, show))
    })
}

fn do_now(rest: &RestOfPour, show: &Show) -> String {
    let (trucks, outlook) = told(rest);
    let of = |wanted: u32| rest.tried.iter().find(|one| one.0 == wanted).map_or(0.0, |one| one.1.safe.value);
    if rest.loads_left == 0 {
        return match outlook.safe.value >= assess::assumed::safe_from() {
            true => "Go on as planned, and look again after each lift.".to_owned(),
            false => LATE.to_owned(),
        };
    }
    match rest.enough {
        Some(enough) if rest.running.is_some() && enough > trucks => format!(
            "Ask for {}: with them the probability is {}. Look again after the next load.",
            counted(enough, "truck"),
            chance(of(enough), rest, show)
        ),
        Some(enough) => format!(
            "{} would do with a probability of {}. Look again after the next load.",
            counted(enough, "truck"),
            chance(of(enough), rest, show)
        ),
        None => {
            let (most, last) = rest.tried.last().map_or((0, 0.0), |one| (one.0, one.1.safe.value));
            let not = match most > trucks {
                true => format!(
                    "More trucks are not enough: with {most} the probability is {}.",
                    chance(last, rest, show)
                ),
                false => "More trucks bring nothing.".to_owned(),
            };
            format!("{not} {}", if life_is_doubtful(rest) { DOUBTFUL } else { LATE })
        }
    }
}

/// The life is known to a tenth of itself at best: a test says more than a truck.
fn life_is_doubtful(rest: &RestOfPour) -> bool {
    rest.life.is_some_and(|life| life.error.to_seconds() > 0.1 * life.life.to_seconds())
}

/// What helps when the life is not known well.
const DOUBTFUL: &str = "How long the concrete lives is not known well: test the slump of the next load, late if you can, and look again.";

/// What helps when trucks do not.
const LATE: &str =
    "Shorten what follows the last load, or ask the engineer, before the next load is batched.";

/// A share of days that were played; never told as 0 or 1, which so many days cannot show.
fn chance(share: f64, rest: &RestOfPour, show: &Show) -> String {
    let least = 0.01_f64.max(1.0 / f64::from(rest.days));
    let percent = |share: f64| format!("{} %", show.plain(100.0 * share, 0));
    match share {
        share if share < least => format!("under {}", percent(least)),
        share if share > 1.0 - least => format!("over {}", percent(1.0 - least)),
        share => percent(share),
    }
}

fn counted(count: u32, one: &str) -> String {
    format!("{count} {one}{}", if count == 1 { "" } else { "s" })
}

/// Why the rest of the pour is not played; `None` where nothing has to be said.
pub fn no_day(why: &NoDay) -> Option<String> {
    match why {
        // What cannot be ordered is said beside the order.
        NoDay::Over | NoDay::NotPlanned | NoDay::NoOrder(_) => None,
        NoDay::NoLimit => Some(
            "Whether the pour ends in time cannot be told: enter the mix with its slump trial and its least slump."
                .to_owned(),
        ),
        NoDay::Unplayable(error) => Some(format!(
            "Whether the pour ends in time cannot be told: {error}. The entries are kept; correct the times of the loads."
        )),
    }
}
