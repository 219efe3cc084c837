//! What many shafts show together: lines to read, and drawings in which every mark leads to its entry.
//!
//! A tablet with hundreds of shafts reckons one after the other ([`Reckoned`]) and shows how far it is; after an entry only
//! what that entry is about is reckoned again.
//!
//! Never: compare crews in a drawing without their intervals.

use super::drawing::changeable;
use super::job::{ShaftRow, row_of};
use super::looked::Looked;
use super::open_items::waits_for;
use super::people::people;
use ::drawing::Scales;
use ::drawing::across::{AcrossView, GroupWords, concrete, fluid, fresh, hours, taken};
use assess::across::{Across, HandedIn, OfCriterion, OfShaft, Place, Spot, Taken};
use figure::{GroupSheet, bars_svg, groups_svg, trend_svg};
use quantity::Moment;
use record::choices::JobUnits;
use record::kinds::JobOpened;
use record::{Held, Log, Record};
use std::collections::BTreeSet;
use wording::{AcrossLine, AcrossSection, Show};

/// One shaft as it was reckoned, kept while the others are.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoned {
    /// Its row in the list of its job.
    pub row: ShaftRow,
    /// For whom its open items wait, one for each.
    pub waits_for: Vec<String>,
    pub(super) part: OfShaft,
}

impl Reckoned {
    /// Looks at one shaft of a record.
    pub fn of(record: &Record, shaft: &str, at: Moment) -> Self {
        let looked = Looked::at(record, shaft, at);
        let place = Place { job: record.job().unwrap_or_default().to_owned(), shaft: shaft.to_owned() };
        Reckoned {
            row: row_of(&looked),
            waits_for: waits_for(&looked, &people(&looked.log)),
            part: OfShaft::of_assessed(place, &looked.log, &looked.assessment),
        }
    }
}

/// The shafts that what is new in a record is about; `None`: it is about the whole job, and so about every shaft.
pub fn touched(before: &Record, now: &Record) -> Option<BTreeSet<String>> {
    let new = now.entries().filter(|held| before.get(&held.id()).is_none());
    new.map(|held: &Held| now.home(held).map(str::to_owned)).collect()
}

/// What the shafts of a job show together, at a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct AcrossScreen {
    /// Lines under headings.
    pub sections: Vec<AcrossSection>,
    across: Across,
    show: Show,
    scales: Scales,
}

/// What the shafts of a job show together, at a moment.
pub fn across(record: &Record, at: Moment) -> AcrossScreen {
    AcrossScreen::of(&[record], Across::of(&[record], at))
}

impl AcrossScreen {
    /// Puts together what was reckoned of these jobs.
    pub fn together(jobs: &[&Record], reckoned: &[&Reckoned], at: Moment) -> Self {
        let parts: Vec<OfShaft> = reckoned.iter().map(|one| one.part.clone()).collect();
        Self::of(jobs, Across::together(&parts, assess::across::people(jobs, at), at))
    }

    /// In the units of the first job.
    fn of(jobs: &[&Record], across: Across) -> Self {
        let log = jobs.first().map(|record| Log::of(record, None, None)).unwrap_or_default();
        let units = log.last::<JobOpened>().map(|(_, job)| job.units);
        let show = Show::of_log(&log);
        AcrossScreen {
            sections: wording::across(&across, &show),
            scales: if units == Some(JobUnits::Us) { Scales::US } else { Scales::METRIC },
            across,
            show,
        }
    }

    /// The drawings of a section, as wide as asked, in points; `leads` gives the address of an entry or a shaft.
    pub fn drawings(&self, word: &str, width: f64, leads: &dyn Fn(&Spot) -> String) -> Vec<String> {
        let view = self.view(leads);
        let trend = |sheet: figure::TrendSheet| trend_svg(&sheet, sheet.size(width));
        let bars = |sheet: figure::BarSheet| bars_svg(&sheet, sheet.size(width));
        let drawn: Vec<Option<String>> = match word {
            "taken" => vec![self.drawn_taken(&view).map(|sheet| groups_svg(&sheet, sheet.size(width)))],
            "concrete" => vec![concrete(&view).map(bars)],
            "hours" => vec![hours(&view).map(bars)],
            "readings" => vec![fluid(&view).map(trend), fresh(&view).map(trend)],
            _ => Vec::new(),
        };
        drawn.into_iter().flatten().map(|svg| changeable(&svg)).collect()
    }

    pub(super) fn view<'v>(&'v self, leads: &'v dyn Fn(&Spot) -> String) -> AcrossView<'v> {
        AcrossView::new(&self.across, self.scales, leads)
    }

    /// What groups of shafts took.
    pub(super) fn taken(&self) -> &[Taken] {
        &self.across.taken
    }

    /// The line of a group of shafts.
    pub(super) fn taken_words(&self, one: &Taken) -> AcrossLine {
        wording::taken_words(one, &self.show)
    }

    /// Criteria, the one that fails most often first.
    pub(super) fn criteria(&self) -> &[OfCriterion] {
        &self.across.criteria
    }

    /// Who wrote, the one with most late entries first.
    pub(super) fn people(&self) -> &[HandedIn] {
        &self.across.people
    }

    /// The lines of a section.
    pub(super) fn lines(&self, word: &'static str) -> impl Iterator<Item = &AcrossLine> {
        self.sections.iter().filter(move |section| section.word == word).flat_map(|section| &section.lines)
    }

    fn drawn_taken(&self, view: &AcrossView<'_>) -> Option<GroupSheet> {
        let words = |taken: &Taken| {
            let line = self.taken_words(taken);
            GroupWords { heading: line.group.to_owned(), label: line.label, beside: line.value }
        };
        let told: Vec<&Taken> = self.across.taken.iter().filter(|one| wording::is_told(one)).collect();
        taken(view, &told, &words)
    }
}
