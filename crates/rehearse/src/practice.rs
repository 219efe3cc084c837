//! A trainee's practice: the last look at the bottom and the pour of a made-up day play, the trainee reads,
//! decides and writes, and at the end the truth is laid beside the record.
//!
//! Plain data without a clock: whoever shows it says which moment of the day it is, and gets what can be seen
//! then. What the trainee writes goes into the record of the rehearsal as any entry does; what the tool warned
//! of is told by whoever runs it.
//!
//! Words: *offer* = something that can be read now: a tape let down, a ticket handed over, a sample; *hold* =
//! the moment at which nothing goes on without an answer; *debrief* = the comparison at the end; *sign* = a
//! fact by which the tool can show the trouble.
//! Never: show the truth before the end; fill in a reading nobody took.

mod debrief;
mod dial;

pub use debrief::{Debrief, Missed, ReadingTold, StretchTold, TroubleTold, Warning, debrief, unwritten};

use quantity::Moment;
use record::Body;

use crate::day::{Chosen, Day, Said, Unmade, Which};
use crate::decision::{Answer, Ask};

/// Places the tape can be let down at: the word of the record, in the order of [`Practice::dial`].
pub const PLACES: [&str; 2] = ["center", "outside"];

/// A day that is being played.
#[derive(Debug, Clone, PartialEq)]
pub struct Practice {
    day: Day,
    begins: Moment,
    ends: Moment,
}

/// What can be read.
#[derive(Debug, Clone, PartialEq)]
pub enum Sight {
    /// A tape on the concrete: let it down with [`Practice::dial`].
    Tape,
    /// A paper that comes with a load: its fields as printed on it.
    Ticket(Body),
    /// A sample with its readings: slump, temperature, the fluid's properties, bottom and sediment.
    Sample(Body),
    /// Something that can be seen without an instrument, told as it would be written.
    Seen(Body),
}

/// Something that can be read now.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// Its number in the day; the same offer keeps it.
    pub number: usize,
    /// Since when it can be read.
    pub since: Moment,
    /// Until when.
    pub until: Moment,
    /// What it is.
    pub sight: Sight,
}

/// Minutes for which something can be read after it is there.
const OPEN_MINUTES: i64 = 20;

impl Practice {
    /// The practice of a day, as far as it was decided.
    ///
    /// # Errors
    /// As for [`Day::of`].
    pub fn of(which: Which, chosen: Option<&Chosen>, answers: &[Answer]) -> Result<Self, Unmade> {
        Day::decided(which, chosen, answers).map(Practice::of_day)
    }

    /// A day from the cage in the hole until the concrete is left to cure.
    pub fn of_day(day: Day) -> Self {
        let at =
            |is: fn(&Body) -> bool| day.said.iter().find(|said| is(&said.body)).map(|said| said.observed_at);
        let nothing = Moment::at(0, 0);
        let first = day.said.first().map_or(nothing, |said| said.observed_at);
        let last = day.said.last().map_or(nothing, |said| said.observed_at);
        let begins = at(|body| matches!(body, Body::CageSet(_))).unwrap_or(first).plus_seconds(60);
        let ends = at(|body| matches!(body, Body::Curing(_))).unwrap_or(last);
        Practice { day, begins, ends }
    }

    /// The day that is played.
    pub fn day(&self) -> &Day {
        &self.day
    }

    /// When it begins.
    pub fn begins(&self) -> Moment {
        self.begins
    }

    /// When nothing more happens.
    pub fn ends(&self) -> Moment {
        self.ends
    }

    /// What was written before the practice begins: plan, hole and cage. It is the trainee's to look at.
    pub fn given(&self) -> impl Iterator<Item = &Said> {
        self.day.said.iter().take_while(|said| said.observed_at.seconds() < self.begins.seconds())
    }

    /// What can be read at a moment, in the order it came.
    pub fn offers(&self, at: Moment) -> Vec<Offer> {
        let open =
            |offer: &Offer| offer.since.seconds() <= at.seconds() && at.seconds() < offer.until.seconds();
        self.all_offers().filter(open).collect()
    }

    /// Everything that can be read during the practice.
    pub fn all_offers(&self) -> impl Iterator<Item = Offer> + '_ {
        let played = |(_, said): &(usize, &Said)| said.observed_at.seconds() >= self.begins.seconds();
        self.day.said.iter().enumerate().filter(played).filter_map(|(number, said)| {
            let since = known_at(said);
            let until = since.plus_seconds(60 * OPEN_MINUTES);
            Some(Offer { number, since, until, sight: sight(&said.body)? })
        })
    }

    /// What is asked at a moment and not answered yet.
    pub fn asked(&self, at: Moment) -> Option<&Ask> {
        self.open().filter(|ask| ask.at.seconds() <= at.seconds())
    }

    /// The moment at which nothing goes on without an answer; the end where everything is answered.
    pub fn hold(&self) -> Moment {
        self.open().map_or(self.ends, |ask| ask.until)
    }

    /// The next moment at which there is something new to read or to answer, and never later than the hold.
    pub fn next(&self, after: Moment) -> Moment {
        let news = self.all_offers().map(|offer| offer.since).chain(self.open().map(|ask| ask.at));
        let later = news.filter(|at| at.seconds() > after.seconds()).min_by_key(|at| at.seconds());
        later.unwrap_or(self.ends).min(self.hold())
    }

    /// It is over: nothing more happens.
    pub fn is_over(&self, at: Moment) -> bool {
        self.open().is_none() && self.ends.seconds() <= at.seconds()
    }

    /// What the tape shows when it is let down at a moment at one of [`PLACES`], in metres below the reference:
    /// the depth of the concrete with the error of the tape and of the hand, to its marks. A second look at the
    /// same moment shows the same. `None` before the first concrete is in.
    pub fn dial(&self, at: Moment, place: usize) -> Option<f64> {
        dial::read_m(&self.day, at, place)
    }

    /// The question the day waits for.
    fn open(&self) -> Option<&Ask> {
        self.day.asks.iter().find(|ask| ask.answer.is_none())
    }
}

/// When somebody at the hole knows it: what lasts is told when it is over.
fn known_at(said: &Said) -> Moment {
    let until = match &said.body {
        Body::Interruption(stop) => stop.until,
        Body::Cleaning(cleaning) => cleaning.until,
        _ => None,
    };
    until.unwrap_or(said.observed_at)
}

/// How a thing of the day is seen; `None` for what the trainee decides and does.
fn sight(body: &Body) -> Option<Sight> {
    match body {
        Body::ConcreteSounded(_) => Some(Sight::Tape),
        Body::LoadArrived(_) => Some(Sight::Ticket(body.clone())),
        Body::ConcreteTest(_) | Body::FluidTest(_) | Body::BottomSounded(_) | Body::SedimentMeasured(_) => {
            Some(Sight::Sample(body.clone()))
        }
        Body::LineMadeUp(_)
        | Body::Cleaning(_)
        | Body::LoadRefused(_)
        | Body::ConcreteOrdered(_)
        | Body::DischargeStarted(_)
        | Body::DischargeEnded(_)
        | Body::PiecesRemoved(_)
        | Body::Interruption(_)
        | Body::OverPoured(_)
        | Body::LineOut(_)
        | Body::CageElevation(_)
        | Body::CasingOut(_) => Some(Sight::Seen(body.clone())),
        _ => None,
    }
}
