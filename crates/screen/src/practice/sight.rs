//! What can be read at a moment, as cards: what it is, its instruments or its lines, and the entry it is written as.

use super::instrument::{Instrument, instruments};
use super::show;
use quantity::Moment;
use record::{Body, Record};
use rehearse::practice::{Offer, Practice, Sight};
use wording::{entry_text, label};

/// Something that can be read now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SightCard {
    /// Its number in the day; the same offer keeps it.
    pub number: usize,
    /// The word of the kind of entry it is written as.
    pub kind: &'static str,
    /// Since when.
    pub clock: String,
    /// What it is: `Load arrived, ticket 4101`.
    pub title: String,
    /// What stands on a paper, line by line: label and text.
    pub paper: Vec<(String, String)>,
    /// What is to be read off a drawing.
    pub instruments: Vec<Instrument>,
    /// What is seen without an instrument, or stands on the label of a sample.
    pub seen: String,
}

/// An offer as a card; `None` for the tape, which is let down by hand.
pub fn sight(practice: &Practice, offer: &Offer) -> Option<SightCard> {
    let (body, paper, seen) = match &offer.sight {
        Sight::Tape => return None,
        Sight::Ticket(body) => (body, lines(body, practice), String::new()),
        Sight::Sample(body) => (body, Vec::new(), label_of(body, practice)),
        Sight::Seen(body) => (body, Vec::new(), entry_text(body, &show(practice))),
    };
    let kind = body.kind();
    Some(SightCard {
        number: offer.number,
        kind: kind.word,
        clock: offer.since.clock(),
        title: titled(body),
        paper,
        instruments: instruments(body, practice.day().system),
        seen,
    })
}

fn titled(body: &Body) -> String {
    let kind = label::kind(body.kind());
    match ticket(body) {
        Some(ticket) => format!("{kind}, ticket {ticket}"),
        None => kind,
    }
}

fn ticket(body: &Body) -> Option<&str> {
    match body {
        Body::LoadArrived(load) => Some(&load.ticket),
        Body::ConcreteTest(test) => Some(&test.ticket),
        Body::LoadRefused(refused) => Some(&refused.ticket),
        Body::DischargeStarted(started) => Some(&started.ticket),
        Body::DischargeEnded(ended) => Some(&ended.ticket),
        _ => None,
    }
}

/// The numbers of the offers nothing was written for yet.
pub fn unwritten(practice: &Practice, record: &Record) -> Vec<usize> {
    let written = super::debrief::written(practice, record);
    rehearse::practice::unwritten(practice, &written).into_iter().map(|offer| offer.number).collect()
}

/// The ticket of the load that went in last before a moment; empty before the first.
pub fn last_ticket(practice: &Practice, at: Moment) -> String {
    let said = practice.day().said.iter().filter(|said| said.observed_at <= at);
    let mut ended = said.filter_map(|said| match &said.body {
        Body::DischargeEnded(ended) => Some(ended.ticket.clone()),
        _ => None,
    });
    ended.next_back().unwrap_or_default()
}

/// Fields that are known before somebody reads: those that name what the entry is about.
pub fn known(practice: &Practice, number: usize) -> Vec<(&'static str, String)> {
    let Some(said) = practice.day().said.get(number) else { return Vec::new() };
    ticket(&said.body).map(|ticket| ("ticket", ticket.to_owned())).into_iter().collect()
}

/// Each field of a paper. What the inspector adds is not printed on it.
fn lines(body: &Body, practice: &Practice) -> Vec<(String, String)> {
    let all = wording::entry_lines(body, &show(practice)).into_iter();
    all.filter(|(name, ..)| *name != "ticket_checked").map(|(_, label, text)| (label, text)).collect()
}

/// What stands on the label of a sample: where, how deep, for what.
fn label_of(body: &Body, practice: &Practice) -> String {
    let show = show(practice);
    match body {
        Body::FluidTest(test) => {
            let place = format!("From the {}", label::choice(test.place.word()));
            let depth = test.depth.as_ref().map(|depth| format!(", {} deep", show.depth(depth.value())));
            format!("{place}{}; stage {}.", depth.unwrap_or_default(), label::choice(test.stage.word()))
        }
        Body::BottomSounded(_) => "Purpose: before concrete.".to_owned(),
        Body::SedimentMeasured(_) => "With plate and point.".to_owned(),
        _ => String::new(),
    }
}
