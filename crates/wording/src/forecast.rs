//! A forecast as text: what is coming, how sure that is, and what to do now.
//!
//! Words: *do now* = one step a person at the hole can take; a forecast never says that something is safe.
//! Never: leave out the uncertainty of a reading; hide that a level of attention was assumed.

mod clocks;
mod moves;

use crate::entry::entry_reference;
use crate::show::Show;
use crate::words;
use assess::{Forecast, Outlook, Urgency};
use record::Log;

/// A forecast, worded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ForecastText {
    /// Stable word of what is coming: `embedment`.
    pub outlook: &'static str,
    /// Stable word of the urgency: `now`, `soon`, `later`.
    pub urgency: &'static str,
    /// The urgency as people read it.
    pub when: &'static str,
    /// What it is about.
    pub heading: String,
    /// What is coming.
    pub sentence: String,
    /// What to do now.
    pub do_now: String,
    /// The entries it comes from.
    pub evidence: Vec<String>,
}

/// Heading, sentence and step of a forecast.
pub(crate) struct Said {
    pub(crate) heading: String,
    pub(crate) sentence: String,
    pub(crate) do_now: String,
}

/// A forecast as text.
pub fn forecast(forecast: &Forecast, log: &Log<'_>, show: &Show) -> ForecastText {
    let said = said(&forecast.outlook, show);
    ForecastText {
        outlook: words::outlook(&forecast.outlook),
        urgency: words::urgency(forecast.urgency),
        when: when(forecast.urgency),
        heading: said.heading,
        sentence: said.sentence,
        do_now: said.do_now,
        evidence: forecast.evidence.iter().map(|id| entry_reference(*id, log, show)).collect(),
    }
}

fn when(urgency: Urgency) -> &'static str {
    match urgency {
        Urgency::Now => "now",
        Urgency::Soon => "within half an hour, or with the next move",
        Urgency::Later => "later",
    }
}

fn said(outlook: &Outlook, show: &Show) -> Said {
    match outlook {
        Outlook::Embedment { .. } => moves::embedment(outlook, show),
        Outlook::HeadAtNextLift { .. } => moves::head(outlook, show),
        Outlook::StillToOrder { .. } => moves::order(outlook, show),
        Outlook::SlumpLife { .. } => clocks::slump(outlook, show),
        Outlook::FluidTestDue { at, left } => clocks::fluid_test(*at, *left, show),
        Outlook::Gap { since, lasted, allowed } => clocks::gap(*since, *lasted, *allowed, show),
        Outlook::TimeLimit { fact, ticket, ends, left } => {
            clocks::limit((fact, ticket.as_deref()), *ends, *left, show)
        }
    }
}
