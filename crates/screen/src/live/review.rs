//! The review of a shaft: every entry with what became of it, and every finding with its source.
//!
//! Nothing is left out: struck entries stand struck through with by whom and why, disputes with every
//! candidate, entries of a newer version with the word that this program needs an update.
//!
//! Never: hide an entry, whatever its time; show the text of a correction in the place of what it replaced.

use super::card::{Card, of_finding, of_question};
use super::doubts::about_record;
use super::heading::{Heading, heading};
use super::job::alarm_card;
use super::looked::Looked;
use quantity::{Gather, InOrder, Moment};
use record::kinds::{DeviceNamed, DisputeClosed};
use record::{Body, DeviceId, Entry, EntryId, Line, Log, Newer, Record, Standing};
use std::collections::BTreeMap;
use wording::show::day_text;
use wording::{Mark, Show, label};

/// A shaft under review.
#[derive(Debug, Clone, PartialEq)]
pub struct Review {
    /// What stands over it.
    pub heading: Heading,
    /// How it stands, in one or two sentences.
    pub verdict: String,
    /// Every entry, in the order things were seen; entries about the whole job among them.
    pub rows: Vec<ReviewRow>,
    /// Findings in the defined order: fails first.
    pub findings: Vec<Card>,
    /// Questions about what was written.
    pub questions: Vec<Card>,
    /// Disputes, loose corrections, newer entries, refused limits.
    pub record: Vec<Card>,
    /// Copied devices, missing entries, broken chains.
    pub alarms: Vec<Card>,
}

/// One entry under review.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReviewRow {
    /// Its id.
    pub id: String,
    /// Its short id.
    pub short: String,
    /// When it was seen, seconds since 1970.
    pub at: i64,
    /// When it was seen, as people read it.
    pub time: String,
    /// The day of that: `13 May 2025`.
    pub day: String,
    /// The clock of that: `10:41`.
    pub clock: String,
    /// Who wrote it.
    pub who: String,
    /// On which device: its name, else its short key.
    pub device: String,
    /// Its number on that device.
    pub seq: u64,
    /// Word of its kind; empty for one of a newer version.
    pub kind: &'static str,
    /// Its kind as people read it.
    pub label: String,
    /// What it says, as it was typed.
    pub what: String,
    /// The elevation that follows from it; empty where none does.
    pub elevation: String,
    /// It is about the whole job.
    pub about_job: bool,
    /// It was struck through, and by what.
    pub struck: Option<Struck>,
    /// Id of the entry it replaces; empty where it replaces none.
    pub replaces: String,
    /// Why it replaces it.
    pub reason: String,
    /// It was written down well after it was seen: how long, when. Empty where it was not late.
    pub late: String,
    /// It is a candidate of a dispute; says about which entry. Empty where it is not.
    pub disputed: String,
    /// It was written by a newer version of this program.
    pub newer: bool,
    /// It is dated later than the moment looked at, and no figure counts it yet.
    pub ahead: bool,
    /// It can be struck through or corrected: it stands, and is no correction that strikes.
    pub correctable: bool,
    /// Hash of the photo, where it is one.
    pub photo: String,
    /// What people asked about it and answered, and what they said of it.
    pub said: Vec<String>,
}

/// What struck an entry through.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Struck {
    /// Id of the correction.
    pub by: String,
    /// Who wrote it, and when.
    pub who: String,
    /// Why.
    pub why: String,
}

/// A shaft under review.
pub fn review(record: &Record, shaft: &str, at: Moment) -> Review {
    let looked = Looked::at(record, shaft, at);
    let assessment = &looked.assessment;
    Review {
        heading: heading(&looked),
        verdict: wording::verdict_sentence(&assessment.findings, looked.log.disputes.len()),
        rows: rows(&looked),
        findings: assessment.findings.iter().map(|one| of_finding(one, &looked)).collect(),
        questions: assessment.questions.iter().map(|one| of_question(one, &looked)).collect(),
        record: about_record(&looked),
        alarms: record.alarms().iter().map(|alarm| alarm_card(alarm, record)).collect(),
    }
}

/// Every entry of the shaft and of the job, those dated ahead too.
pub(super) fn rows(looked: &Looked<'_>) -> Vec<ReviewRow> {
    let whole = Log::of(looked.record, Some(looked.shaft), None);
    let show = Show::of_log(&whole);
    let by = Source { looked, whole: &whole, show, devices: devices(looked.record) };
    let lines = whole.lines.iter().map(|line| by.line(line));
    // A correction that strikes without replacing stands in no line of the log.
    let strikes =
        whole.corrections.iter().filter(|entry| whole.lines.iter().all(|line| line.entry.id != entry.id));
    let strikes = strikes.map(|entry| by.strike(entry));
    let newer = whole.newer.iter().map(|entry| by.newer(entry));
    let mut rows: Vec<ReviewRow> = lines.chain(strikes).chain(newer).collect();
    rows.put_in_order_by_key(|row| row.at);
    rows
}

/// What people call each device, as last named.
fn devices(record: &Record) -> BTreeMap<DeviceId, String> {
    let mut named: BTreeMap<DeviceId, (u64, String)> = BTreeMap::new();
    for held in record.entries() {
        let record::Held::Known(Entry {
            device, seq, body: Body::DeviceNamed(DeviceNamed { name, .. }), ..
        }) = held
        else {
            continue;
        };
        if named.get(device).is_none_or(|(before, _)| before < seq) {
            named.insert(*device, (*seq, name.clone()));
        }
    }
    named.into_iter().map(|(device, (_, name))| (device, name)).into_map()
}

struct Source<'s, 'r> {
    looked: &'s Looked<'r>,
    whole: &'s Log<'r>,
    show: Show,
    devices: BTreeMap<DeviceId, String>,
}

impl Source<'_, '_> {
    fn device(&self, device: &DeviceId) -> String {
        self.devices.get(device).cloned().unwrap_or_else(|| device.short())
    }

    /// A row that says who wrote what, and nothing of what became of it.
    fn plain(&self, entry: &Entry, at: Moment) -> ReviewRow {
        ReviewRow {
            id: entry.id.to_string(),
            short: entry.id.short(),
            at: at.seconds(),
            time: self.show.moment(at),
            day: day_text(at),
            clock: at.clock(),
            who: entry.author.clone(),
            device: self.device(&entry.device),
            seq: entry.seq,
            about_job: entry.shaft.is_none(),
            ahead: entry.observed_at > self.looked.at,
            ..ReviewRow::blank()
        }
    }

    fn line(&self, line: &Line<'_>) -> ReviewRow {
        let level = wording::entry::derived(line, &self.looked.assessment.picture);
        let mut row = ReviewRow {
            kind: line.body.kind().word,
            label: label::kind(line.body.kind()),
            what: what(line.body, &self.show),
            elevation: level.map_or_else(String::new, |level| self.show.elevation(level)),
            correctable: line.stands(),
            photo: photo(line.body),
            said: wording::said_about(line, self.whole, &self.show),
            ..self.plain(line.entry, line.at)
        };
        if line.reason.is_some() {
            row.replaces = line.origin.to_string();
        }
        for mark in wording::entry::marks(line, self.whole, &self.show) {
            row.mark(mark, &line.standing);
        }
        row
    }

    fn strike(&self, entry: &Entry) -> ReviewRow {
        let (replaces, reason) = match &entry.body {
            Body::Correction(correction) => (correction.replaces.to_string(), correction.reason.clone()),
            _ => (String::new(), String::new()),
        };
        ReviewRow {
            kind: entry.body.kind().word,
            label: label::kind(entry.body.kind()),
            what: self.struck_text(entry),
            struck: correction_body(entry).and_then(|_| self.not_kept(entry)),
            replaces,
            reason,
            ..self.plain(entry, entry.observed_at)
        }
    }

    /// What a correction strikes out, told by its place in the log, and what it would put there.
    fn struck_text(&self, entry: &Entry) -> String {
        let Body::Correction(correction) = &entry.body else { return String::new() };
        let about = wording::entry_reference(correction.replaces, self.whole, &self.show);
        match &correction.body {
            Some(body) => format!("corrects {about}: {}", wording::entry_text(body, &self.show)),
            None => format!("strikes {about}"),
        }
    }

    /// A correction that was not kept when its dispute was closed.
    fn not_kept(&self, entry: &Entry) -> Option<Struck> {
        let Body::Correction(correction) = &entry.body else { return None };
        let mut closings = self.whole.each::<DisputeClosed>();
        let about =
            |closing: &DisputeClosed| closing.about == correction.replaces && closing.keeps != entry.id;
        let (line, closing) = closings.rfind(|(_, closing)| about(closing))?;
        let who = closing.by.clone().unwrap_or_else(|| line.entry.author.clone());
        Some(Struck {
            by: line.entry.id.to_string(),
            who: format!("{who}, {}", self.show.moment(line.at)),
            why: closing.reason.clone(),
        })
    }

    fn newer(&self, entry: &Newer) -> ReviewRow {
        let notice = wording::newer(entry, &self.show);
        ReviewRow {
            id: entry.id.to_string(),
            short: entry.id.short(),
            at: entry.observed_at.seconds(),
            time: self.show.moment(entry.observed_at),
            day: day_text(entry.observed_at),
            clock: entry.observed_at.clock(),
            device: self.device(&entry.device),
            seq: entry.seq,
            label: "Needs an update".to_owned(),
            what: notice.paragraph(),
            about_job: entry.shaft.is_none(),
            newer: true,
            ..ReviewRow::blank()
        }
    }
}

impl ReviewRow {
    fn blank() -> Self {
        ReviewRow {
            id: String::new(),
            short: String::new(),
            at: 0,
            time: String::new(),
            day: String::new(),
            clock: String::new(),
            who: String::new(),
            device: String::new(),
            seq: 0,
            kind: "",
            label: String::new(),
            what: String::new(),
            elevation: String::new(),
            about_job: false,
            struck: None,
            replaces: String::new(),
            reason: String::new(),
            late: String::new(),
            disputed: String::new(),
            newer: false,
            ahead: false,
            correctable: false,
            photo: String::new(),
            said: Vec::new(),
        }
    }

    fn mark(&mut self, mark: Mark, standing: &Standing) {
        match mark {
            Mark::Struck { by, why } => self.struck = Some(Struck { by: by_id(standing), who: by, why }),
            Mark::Replaces { why, .. } => self.reason = why,
            Mark::Disputed { note } => self.disputed = note,
            Mark::Late { note } => self.late = note,
            Mark::Asked { .. } => {}
        }
    }
}

/// What a correction puts in the place of what it replaces.
fn correction_body(entry: &Entry) -> Option<&Body> {
    match &entry.body {
        Body::Correction(correction) => correction.body.as_deref(),
        _ => None,
    }
}

fn by_id(standing: &Standing) -> String {
    let id: Option<EntryId> = match standing {
        Standing::Struck { by } => Some(*by),
        _ => None,
    };
    id.map_or_else(String::new, |id| id.to_string())
}

/// What an entry says. Of a photo its caption: the hash stands beside it, and the picture is shown.
fn what(body: &Body, show: &Show) -> String {
    match body {
        Body::Photo(photo) => {
            let depth = photo.depth.as_ref().map(|depth| format!("; depth {}", depth.shown()));
            format!("{}{}", photo.caption, depth.unwrap_or_default())
        }
        body => wording::entry_text(body, show),
    }
}

fn photo(body: &Body) -> String {
    match body {
        Body::Photo(photo) => photo.file.to_string(),
        _ => String::new(),
    }
}
