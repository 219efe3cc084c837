//! The screen of a job: its shafts with the stage each is in, its people, its materials, its alarms.
//!
//! Never: count a shaft as clear because nothing was measured.

use super::card::{Card, CardSort};
use super::doubts::about_record;
use super::drawing::changeable;
use super::heading::criteria_text;
use super::looked::Looked;
use super::people::{MixRow, PersonRow, fluids, mixes, people};
use super::sign::{Haste, Sign};
use crate::entry::stage::Stage;
use assess::Urgency;
use figure::{JobPlan, Lead, Mark, PlacedShaft, Progress, Scale, Size, job_plan_svg};
use quantity::Moment;
use record::choices::{JobUnits, LengthStyle};
use record::kinds::JobOpened;
use record::{Alarm, Record};
use wording::label;
use wording::show::day_text;

/// A job at a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct JobScreen {
    /// The moment it shows, seconds since 1970.
    pub at: i64,
    /// The moment as people read it, with its date.
    pub moment: String,
    /// The key of the job in its entries; empty for an empty record.
    pub key: String,
    /// Its name; its key where nobody opened it.
    pub name: String,
    /// What was entered of it: label and text.
    pub about: Vec<(&'static str, String)>,
    /// Units: `US units, feet and tenths`.
    pub units: String,
    /// The criteria in force; says so where none are.
    pub criteria: String,
    /// The record is a rehearsal.
    pub rehearsal: bool,
    /// Unit of distances on the plan.
    pub distance: Scale,
    /// How many entries there are.
    pub entries: usize,
    /// Its shafts.
    pub shafts: Vec<ShaftRow>,
    /// Who is on the job.
    pub people: Vec<PersonRow>,
    /// Mixes.
    pub mixes: Vec<MixRow>,
    /// Drilling fluids.
    pub fluids: Vec<MixRow>,
    /// Copied devices, missing entries, broken chains.
    pub alarms: Vec<Card>,
    /// Disputes, newer entries, refused limits: of the entries about the whole job.
    pub record: Vec<Card>,
}

/// One shaft of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct ShaftRow {
    /// Its name.
    pub name: String,
    /// What it carries; empty without a plan.
    pub structure: String,
    /// Planned diameter and depth: `48 in × 60.0 ft`; empty without a plan.
    pub size: String,
    /// The stage of the work.
    pub stage: Stage,
    /// The worst that was found.
    pub sign: Sign,
    /// Findings that fail.
    pub fails: usize,
    /// Those of them that nobody decided about.
    pub open: usize,
    /// Questions nobody answered.
    pub questions: usize,
    /// Disputes nobody closed.
    pub disputes: usize,
    /// Findings due by now that were not measured or cannot be judged.
    pub waiting: usize,
    /// The most urgent thing that is coming, in a few words; empty when nothing is.
    pub urgent: String,
    /// How soon that is.
    pub haste: Option<Haste>,
    /// The last entry; empty without one.
    pub last: String,
    /// When that was, seconds since 1970.
    pub last_at: Option<i64>,
    /// Place on the plan: north and east in metres, where both were entered.
    pub place_m: Option<(f64, f64)>,
    /// Station as it was entered; may be empty.
    pub station: String,
}

/// A job at a moment.
pub fn job(record: &Record, at: Moment) -> JobScreen {
    let whole = Looked::at(record, "", at);
    let opened = whole.assessment.picture.job;
    let key = record.job().unwrap_or_default().to_owned();
    JobScreen {
        at: at.seconds(),
        moment: format!("{}, {}", day_text(at), at.clock()),
        name: opened.map_or_else(|| key.clone(), |job| job.name.clone()),
        key,
        about: opened.map_or_else(Vec::new, about),
        units: opened.map_or_else(String::new, units),
        criteria: criteria_text(&whole),
        rehearsal: opened.is_some_and(|job| job.rehearsal == Some(true)),
        distance: distance(opened),
        entries: record.len(),
        shafts: record.shafts().into_iter().map(|shaft| shaft_row(record, shaft, at)).collect(),
        people: people(&whole.log),
        mixes: mixes(&whole.log, &whole.show),
        fluids: fluids(&whole.log, &whole.show),
        alarms: record.alarms().iter().map(|alarm| alarm_card(alarm, record)).collect(),
        record: about_record(&whole),
    }
}

impl JobScreen {
    /// The plan of the job as SVG text, in colours a screen can change: where its shafts stand, and how far
    /// each is; `leads` gives the address of a shaft.
    pub fn plan(&self, size: Size, leads: &dyn Fn(&str) -> String) -> String {
        let shafts = self.shafts.iter().map(|row| placed(row, leads)).collect();
        let (title, subtitle) = (self.name.clone(), self.moment.clone());
        let plan = JobPlan { title, subtitle, distance: self.distance, shafts, ..JobPlan::default() };
        changeable(&job_plan_svg(&plan, size))
    }
}

/// A shaft as the plan shows it; `leads` gives its address.
pub(super) fn placed(row: &ShaftRow, leads: &dyn Fn(&str) -> String) -> PlacedShaft {
    PlacedShaft {
        name: row.name.clone(),
        stage: row.stage.label().to_owned(),
        progress: progress(row.stage),
        mark: match row.sign {
            Sign::Fails => Mark::Fails,
            Sign::CannotSay => Mark::Doubtful,
            Sign::NotMeasured => Mark::NotMeasured,
            Sign::Meets => Mark::Meets,
            Sign::NoLimitSet => Mark::NoLimit,
        },
        place_m: row.place_m.map(|(north, east)| (east, north)),
        lead: Lead { to: leads(&row.name), says: format!("Shaft {}, {}", row.name, row.stage.label()) },
    }
}

fn progress(stage: Stage) -> Progress {
    match stage {
        Stage::Planned => Progress::Planned,
        Stage::BeforeDrilling => Progress::SetOut,
        Stage::Drilling | Stage::Bottom | Stage::Cage => Progress::Hole,
        Stage::Pour => Progress::Concrete,
        Stage::After | Stage::Done => Progress::Placed,
    }
}

pub(super) fn distance(opened: Option<&JobOpened>) -> Scale {
    match opened.map(|job| job.units) {
        Some(JobUnits::Us) => Scale::feet(),
        _ => Scale::meters(),
    }
}

/// What was entered of the job; what was not stands in no row.
fn about(job: &JobOpened) -> Vec<(&'static str, String)> {
    let rows = [
        ("Number", &job.number),
        ("Owner", &job.owner),
        ("Contractor", &job.contractor),
        ("Engineer", &job.engineer),
        ("Location", &job.location),
        ("Datum", &job.datum),
        ("Grid", &job.grid),
    ];
    let zone = ("Time zone", job.time_zone.clone());
    rows.into_iter().filter_map(|(label, text)| Some((label, text.clone()?))).chain([zone]).collect()
}

fn units(job: &JobOpened) -> String {
    let system = match job.units {
        JobUnits::Us => "US units",
        JobUnits::Metric => "metric units",
    };
    let lengths = match job.lengths {
        LengthStyle::FeetTenths => "feet and tenths",
        LengthStyle::FeetInches => "feet and inches",
        LengthStyle::Meters => "meters",
    };
    let comma = if job.decimal_comma == Some(true) { ", decimal comma" } else { "" };
    format!("{system}, {lengths}{comma}")
}

/// What the chains of the devices reveal.
pub(crate) fn alarm_card(alarm: &Alarm, record: &Record) -> Card {
    let id = match alarm {
        Alarm::Cloned { device, seq, .. } => format!("alarm:cloned:{}:{seq}", device.short()),
        Alarm::Gap { device, from, to } => format!("alarm:gap:{}:{from}-{to}", device.short()),
        Alarm::Broken { device, entry } => format!("alarm:broken:{}:{}", device.short(), entry.short()),
    };
    Card::of_notice(CardSort::Record, id, wording::alarm(alarm, record))
}

/// One shaft of the job alone: after an entry about it, only its row has to be made again.
pub fn shaft_row(record: &Record, shaft: &str, at: Moment) -> ShaftRow {
    row_of(&Looked::at(record, shaft, at))
}

/// The row of a shaft that is looked at already.
pub(super) fn row_of(looked: &Looked<'_>) -> ShaftRow {
    let findings = &looked.assessment.findings;
    let heading = super::heading::heading(looked);
    let stage = looked.stage();
    let signs = || findings.iter().map(Sign::of_finding);
    let due = |sign: Sign| matches!(sign, Sign::NotMeasured | Sign::CannotSay);
    let waiting = findings
        .iter()
        .filter(|one| due(Sign::of_finding(one)) && super::next::is_due(one.fact.stage, stage));
    let urgent = looked.assessment.forecasts.first().filter(|one| one.urgency < Urgency::Later);
    let own = looked.log.lines.iter().rfind(|line| line.entry.shaft.is_some());
    let size = [heading.diameter, heading.depth].into_iter().filter(|part| !part.is_empty());
    ShaftRow {
        name: looked.shaft.to_owned(),
        structure: heading.structure,
        size: size.collect::<Vec<_>>().join(" × "),
        stage,
        sign: Sign::worst(signs()),
        fails: signs().filter(|sign| *sign == Sign::Fails).count(),
        open: findings.iter().filter(|finding| finding.is_open()).count(),
        questions: looked.assessment.questions.iter().filter(|question| question.answer.is_none()).count(),
        disputes: looked.log.disputes.len(),
        waiting: waiting.count(),
        haste: urgent.map(|one| Haste::of(one.urgency)),
        urgent: urgent
            .map_or_else(String::new, |one| wording::forecast(one, &looked.log, &looked.show).heading),
        last: own.map_or_else(String::new, |line| {
            format!("{}  {}", looked.show.moment(line.at), label::kind(line.body.kind()))
        }),
        last_at: own.map(|line| line.at.seconds()),
        place_m: place(looked),
        station: station(looked),
    }
}

fn place(looked: &Looked<'_>) -> Option<(f64, f64)> {
    let plan = looked.assessment.picture.plan.as_ref()?.shaft;
    let meters = |coordinate: &record::choices::Coordinate| coordinate.value().to_meters();
    Some((meters(plan.northing.as_ref()?), meters(plan.easting.as_ref()?)))
}

fn station(looked: &Looked<'_>) -> String {
    let plan = looked.assessment.picture.plan.as_ref();
    plan.and_then(|plan| plan.shaft.station.clone()).unwrap_or_default()
}
