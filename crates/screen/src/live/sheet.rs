//! The sheet of a shaft to print from the browser, with no network: how it stands, the findings, the figures, and
//! every entry on a line. Its drawings are asked for one by one.
//!
//! Words: *foot* = what stands under every page.
//! Never: leave an entry out; print a figure without how it came about; forget the digest of the record.

use super::card::{Card, of_finding, of_question};
use super::doubts::{about_record, doubts};
use super::drawing::{DrawingCard, drawings};
use super::heading::{Heading, heading};
use super::job::alarm_card;
use super::looked::Looked;
use super::review::{ReviewRow, rows};
use assess::{Finding, Outcome};
use quantity::{Gather, InOrder, Moment};
use record::{EntryId, Record};
use wording::show::day_text;
use wording::{Assumption, Caution, Figure, Show, Table};

/// Everything the printed sheet holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// What stands over it.
    pub heading: Heading,
    /// The moment it shows, as people read it, with its date.
    pub moment: String,
    /// How the shaft stands, in one or two sentences.
    pub verdict: String,
    /// What does not meet, cannot be said or was not measured, in the defined order: fails first.
    pub findings: Vec<Card>,
    /// What meets, a row for each criterion.
    pub meets: Vec<Together>,
    /// The figures that were reckoned, each with how it came about.
    pub figures: Vec<Figure>,
    /// What was measured and no limit judges, a row for each fact.
    pub unlimited: Vec<Together>,
    /// Placed against theoretical volume, sounding by sounding; `None` before concrete.
    pub volumes: Option<Table>,
    /// Every entry, a day after the other.
    pub days: Vec<Day>,
    /// Questions about what was written.
    pub questions: Vec<Card>,
    /// What the formulas found odd.
    pub doubts: Vec<Card>,
    /// What has to be said about the record, alarms first.
    pub record: Vec<Card>,
    /// The drawings there are; those without content are left out.
    pub drawings: Vec<DrawingCard>,
    /// Cautions.
    pub cautions: Vec<Caution>,
    /// What was assumed where the record is silent.
    pub assumptions: Vec<Assumption>,
    /// SHA-256 over the ids of all entries of the record.
    pub digest: String,
    /// What the digest covers and how a stranger checks it.
    pub digest_note: String,
    /// Which shaft of which job, when, and the digest: so that a loose page can be put back.
    pub foot: String,
}

/// Values of one sort, told in one row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Together {
    /// What was measured.
    pub title: String,
    /// Each value with what it belongs to: `load 30411: 8 1/4 in`.
    pub values: Vec<String>,
    /// The limit in force; empty where none is set.
    pub limit: String,
    /// Where it comes from; empty where none is set.
    pub source: String,
}

/// The entries of one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// `13 May 2025`.
    pub name: String,
    /// In the order things were seen.
    pub rows: Vec<ReviewRow>,
}

/// Everything the printed sheet of a shaft holds.
pub fn sheet(record: &Record, shaft: &str, at: Moment) -> Sheet {
    let mut looked = Looked::at(record, shaft, at);
    looked.show = Show::of_log(&looked.log);
    let assessment = &looked.assessment;
    let alarms = record.alarms();
    let alarms = alarms.iter().map(|alarm| alarm_card(alarm, record));
    let of = |outcome: Outcome| assessment.findings.iter().filter(move |one| one.outcome() == outcome);
    let quiet = |one: &&Finding| matches!(one.outcome(), Outcome::Meets | Outcome::NoLimitSet);
    let (heading, digest) = (heading(&looked), digest(record));
    let moment = format!("{}, {}", day_text(at), at.clock());
    let mut tables = wording::tables(&looked.log, assessment, &looked.show).into_iter();
    Sheet {
        foot: format!("Shaft {shaft} · {} · {moment} · {digest}", heading.job),
        heading,
        moment,
        verdict: wording::verdict_sentence(&assessment.findings, looked.log.disputes.len()),
        findings: assessment
            .findings
            .iter()
            .filter(|one| !quiet(one))
            .map(|one| of_finding(one, &looked))
            .collect(),
        meets: together(of(Outcome::Meets), &looked),
        unlimited: together(of(Outcome::NoLimitSet), &looked),
        figures: wording::figures(assessment, &looked.show),
        volumes: tables.find(|table| table.id == "volumes").filter(|table| !table.rows.is_empty()),
        days: days(rows(&looked)),
        questions: assessment.questions.iter().map(|one| of_question(one, &looked)).collect(),
        doubts: doubts(&looked),
        record: alarms.chain(about_record(&looked)).collect(),
        drawings: drawings(&looked).into_iter().filter(|drawing| drawing.has_content).collect(),
        cautions: wording::cautions().to_vec(),
        assumptions: wording::assumptions(&looked.show),
        digest,
        digest_note: digest_note(record),
    }
}

/// Values of the same criterion, or the same fact, in one row; each keeps what it belongs to and what was decided.
fn together<'f>(findings: impl Iterator<Item = &'f Finding>, looked: &Looked<'_>) -> Vec<Together> {
    let mut all: Vec<Together> = Vec::new();
    for finding in findings {
        let text = wording::finding(finding, &looked.log, &looked.show);
        let title =
            text.heading.strip_suffix(&format!(", {}", text.subject)).unwrap_or(&text.heading).to_owned();
        let decided =
            text.dispositions.iter().map(|done| format!(" ({})", done.sentence)).collect::<String>();
        let value = match (text.subject.is_empty(), text.value.is_empty()) {
            (true, _) => text.value,
            (false, true) => text.subject,
            (false, false) => format!("{}: {}", text.subject, text.value),
        };
        let value = format!("{value}{decided}");
        match all
            .iter_mut()
            .find(|row| row.title == title && row.limit == text.limit && row.source == text.source)
        {
            Some(row) => row.values.push(value),
            None => all.push(Together { title, values: vec![value], limit: text.limit, source: text.source }),
        }
    }
    all
}

/// The entries day by day.
fn days(rows: Vec<ReviewRow>) -> Vec<Day> {
    let mut days: Vec<Day> = Vec::new();
    for row in rows {
        match days.last_mut() {
            Some(day) if day.name == row.day => day.rows.push(row),
            _ => days.push(Day { name: row.day.clone(), rows: vec![row] }),
        }
    }
    days
}

/// SHA-256 over the ids in ascending order, each followed by a line feed: what `verify` prints.
fn digest(record: &Record) -> String {
    let mut ids: Vec<EntryId> = record.entries().map(record::Held::id).collect();
    ids.put_in_order();
    let text: String = ids.iter().map(|id| format!("{id}\n")).collect();
    criteria::set::sha256(&text)
}

fn digest_note(record: &Record) -> String {
    let devices: std::collections::BTreeSet<_> = record.entries().map(|held| held.place().0).into_set();
    format!(
        "{} entries of {} devices. Take the ids of all entries in ascending order, each followed by a line feed, \
         and hash them with SHA-256; `shaftbook verify` does it and proves every signature.",
        record.len(),
        devices.len()
    )
}
