//! Days told as field notes, and what the assessment makes of them.

#![allow(dead_code, unreachable_pub, reason = "each test tells the part of the story it needs")]

use assess::{Assessment, Finding, Forecast, Outcome, Outlook, Rules, assess};
use criteria::{Measured, Set};
use notes::{Criteria, Source, Surroundings};
use quantity::Moment;
use record::entry::FileHash;
use record::{EntryId, Held, Log, Record};
use std::collections::BTreeMap;
use wire::{Key, Pen, Times};

pub mod others;
pub mod roadside;

/// Field notes that can be changed before they are told.
#[derive(Clone)]
pub struct Story {
    pub head: String,
    pub log: Vec<String>,
    pub shaft: &'static str,
}

/// A record that stands for itself.
pub struct Told {
    pub record: Record,
    pub shaft: &'static str,
    /// Ids of the entries by their label.
    pub ids: BTreeMap<String, EntryId>,
}

struct Shipped;

impl Surroundings for Shipped {
    fn criteria(&self, key: &str) -> Option<Criteria> {
        let file = FileHash::from_hex(&Set::shipped(key)?.sha256)?;
        Some(Criteria { file, text: None })
    }
}

impl Story {
    pub fn new(shaft: &'static str, head: &str, log: &[&str]) -> Self {
        Story { head: head.to_owned(), log: log.iter().map(|line| (*line).to_owned()).collect(), shaft }
    }

    /// Without the lines that hold a text. There has to be one.
    #[track_caller]
    pub fn without(mut self, text: &str) -> Self {
        let before = self.log.len();
        self.log.retain(|line| !line.contains(text));
        assert!(self.log.len() < before, "no line of the log holds `{text}`");
        self
    }

    /// With one text in place of another, in head and log. It has to be there.
    #[track_caller]
    pub fn with(mut self, text: &str, other: &str) -> Self {
        let there = self.head.contains(text) || self.log.iter().any(|line| line.contains(text));
        assert!(there, "nothing holds `{text}`");
        self.head = self.head.replace(text, other);
        self.log.iter_mut().for_each(|line| *line = line.replace(text, other));
        self
    }

    /// With one more line.
    pub fn and(mut self, line: &str) -> Self {
        self.log.push(line.to_owned());
        self
    }

    fn text(&self) -> String {
        format!("{}\nlog = [\n{}\n]\n", self.head, self.log.join(",\n"))
    }

    /// The record of it.
    #[track_caller]
    pub fn told(&self) -> Told {
        let text = self.text();
        let source = Source { name: "story.toml", bytes: text.as_bytes() };
        let notes = notes::read(source, None, &Shipped)
            .unwrap_or_else(|mistakes| panic!("{mistakes:#?}\nin\n{text}"));
        let key = Key::of_secret([7; 32]);
        let mut pen = Pen::new(&key, "story", "A. Inspector", None);
        let (mut entries, mut ids) = (Vec::new(), BTreeMap::new());
        let entered_at = Moment::parse("2031-05-20T12:00:00-06:00").expect("a moment");
        notes.write(|drafted, body| {
            let times = Times { observed_at: drafted.observed_at, noted_at: drafted.noted_at, entered_at };
            let entry = pen.write(drafted.shaft.as_deref(), times, body);
            let id = entry.id;
            ids.extend(drafted.label.clone().map(|label| (label, id)));
            entries.push(Held::Known(entry));
            id
        });
        let record = Record::of(entries).expect("one device, one job");
        Told { record, shaft: self.shaft, ids }
    }
}

impl Told {
    /// What it means at a time of the first day, `HH:MM`, or of a later one, `+1 HH:MM`.
    #[track_caller]
    pub fn at(&self, time: &str) -> Assessment<'_> {
        let (days, clock) = time.split_once(' ').unwrap_or(("+0", time));
        let days: i64 = days.parse().expect("days");
        let noon = Moment::parse(&format!("2031-05-07T{clock}:00-06:00")).expect("a time");
        self.assessed(noon.plus_seconds(days * 86_400))
    }

    /// What it means once everything was seen.
    pub fn end(&self) -> Assessment<'_> {
        let log = Log::of(&self.record, Some(self.shaft), None);
        self.assessed(log.end().expect("an entry"))
    }

    #[track_caller]
    pub fn assessed(&self, at: Moment) -> Assessment<'_> {
        let log = Log::of(&self.record, Some(self.shaft), Some(at));
        let set = Rules::of(&log).map(|rules| {
            assert_eq!(rules.refused, []);
            rules.set
        });
        assess(&log, &set.unwrap_or_else(|_| Rules::none()), at)
    }
}

/// Every finding of a fact.
pub fn of<'a>(assessment: &'a Assessment<'_>, fact: &str) -> Vec<&'a Finding> {
    assessment.findings.iter().filter(|finding| finding.fact.name == fact).collect()
}

/// The only finding of a fact.
#[track_caller]
pub fn one<'a>(assessment: &'a Assessment<'_>, fact: &str) -> &'a Finding {
    match of(assessment, fact).as_slice() {
        [one] => one,
        many => panic!("{} findings of `{fact}`: {many:#?}", many.len()),
    }
}

/// The outcomes of a criterion.
pub fn outcomes(assessment: &Assessment<'_>, criterion: &str) -> Vec<Outcome> {
    let of = |finding: &&Finding| finding.criterion.as_ref().is_some_and(|c| c.original.id == criterion);
    assessment.findings.iter().filter(of).map(Finding::outcome).collect()
}

/// The value of a finding in SI.
#[track_caller]
pub fn si(finding: &Finding) -> f64 {
    finding.value.and_then(Measured::number).unwrap_or_else(|| panic!("no number in {finding:#?}")).to_f64()
}

pub const FOOT: f64 = 0.3048;
pub const INCH: f64 = 0.0254;

/// Forecasts whose outlook a function picks.
pub fn forecasts<'a, T>(
    assessment: &'a Assessment<'_>,
    pick: impl Fn(&'a Outlook) -> Option<T>,
) -> Vec<(&'a Forecast, T)> {
    assessment.forecasts.iter().filter_map(|forecast| Some((forecast, pick(&forecast.outlook)?))).collect()
}

#[track_caller]
pub fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "found {found}, expected {expected} ± {tolerance}");
}
