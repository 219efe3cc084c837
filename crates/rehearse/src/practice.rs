//! A trainee's practice: the made-up day plays in scaled time, the trainee reads and writes, and at the end
//! the truth is laid beside the record.
//!
//! Plain data without a clock: whoever shows it says how much time has gone by, and gets what can be seen
//! at that moment. What the trainee writes goes into the record of the rehearsal as any entry does; what
//! the tool warned of is told by whoever runs it.
//!
//! Words: *offer* = something that can be read now: a tape let down, a ticket handed over, a sample;
//! *debrief* = the comparison at the end; *sign* = a fact by which the tool can show the trouble.
//! Never: show the truth before the end; fill in a reading nobody took.

mod debrief;
mod dial;

pub use debrief::{Debrief, Missed, ReadingTold, StretchTold, TroubleTold, Warning, debrief};

use quantity::Moment;
use record::Body;

use crate::day::{Day, Said};

/// A day that is being played.
#[derive(Debug, Clone, PartialEq)]
pub struct Practice {
    day: Day,
    begins: Moment,
    scale: f64,
}

/// What can be read.
#[derive(Debug, Clone, PartialEq)]
pub enum Sight {
    /// A tape on the concrete or the bottom: let it down with [`Practice::dial`].
    Tape,
    /// A paper that comes with a load: its fields as printed on it.
    Ticket(Body),
    /// A sample with its readings: slump, temperature, the fluid's properties.
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
    /// A day from its first load on, `scale` times as fast as in life; a scale that is not above zero counts as 1.
    pub fn of_pour(day: Day, scale: f64) -> Self {
        let is_line = |said: &&Said| matches!(said.body, Body::LineMadeUp(_));
        let first = day.said.iter().find(is_line).or(day.said.first());
        let begins = first.map_or(Moment::at(0, 0), |said| said.observed_at);
        Practice { day, begins, scale: if scale > 0.0 { scale } else { 1.0 } }
    }

    /// The day that is played.
    pub fn day(&self) -> &Day {
        &self.day
    }

    /// The moment of the day after so many seconds in life.
    pub fn at(&self, seconds: f64) -> Moment {
        self.begins.plus_seconds((seconds.max(0.0) * self.scale) as i64)
    }

    /// What was written before the practice begins: plan, hole and bottom. It is the trainee's to look at.
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
            let until = said.observed_at.plus_seconds(60 * OPEN_MINUTES);
            Some(Offer { number, since: said.observed_at, until, sight: sight(&said.body)? })
        })
    }

    /// It is over: nothing more happens.
    pub fn is_over(&self, at: Moment) -> bool {
        self.day.said.last().is_none_or(|last| last.observed_at.seconds() <= at.seconds())
    }

    /// What the tape shows when it is let down at a moment, in metres below the reference: the depth of
    /// the concrete with the error of the tape and of the hand, to its marks. A second look at the same
    /// moment shows the same. `None` before the first concrete is in.
    pub fn dial(&self, at: Moment) -> Option<f64> {
        dial::read_m(&self.day, at)
    }
}

/// How a thing of the day is seen; `None` for what the trainee decides and does.
fn sight(body: &Body) -> Option<Sight> {
    match body {
        Body::ConcreteSounded(_) => Some(Sight::Tape),
        Body::LoadArrived(_) => Some(Sight::Ticket(body.clone())),
        Body::ConcreteTest(_) | Body::FluidTest(_) => Some(Sight::Sample(body.clone())),
        Body::DischargeStarted(_)
        | Body::DischargeEnded(_)
        | Body::TipMoved(_)
        | Body::PiecesRemoved(_)
        | Body::Interruption(_)
        | Body::OverPoured(_)
        | Body::LineOut(_)
        | Body::CageElevation(_)
        | Body::CasingOut(_) => Some(Sight::Seen(body.clone())),
        _ => None,
    }
}
