//! All jobs together: how far each is, what waits and for whom, what it took, what fails, who hands in late.
//!
//! For the owner and the office, who stand beside no hole. Each line leads to the page that says it in full, each mark of a
//! drawing to its shaft, and from there to the entries.
//!
//! Never: add a rehearsal to what was built; rank jobs by anything but their order here.

use super::across::{AcrossScreen, Reckoned};
use super::drawing::changeable;
use super::job::{distance, placed};
use ::drawing::across::{GroupWords, taken};
use assess::across::{By, Spot, Taken};
use figure::{GroupSheet, JobPlan, Size, groups_svg, job_plan_svg};
use quantity::{InOrder, Moment};
use record::kinds::JobOpened;
use record::{Log, Record};
use std::collections::BTreeMap;
use wording::show::day_text;

/// The address of a shaft of a job.
type Leads<'l> = &'l dyn Fn(&str, &str) -> String;

/// A line about a job, and the page of the job that says more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfficeRow {
    /// What it is about: `Waits`.
    pub label: &'static str,
    /// What is told.
    pub text: String,
    /// The page of the job: `open-items`, `compare#across-taken`; empty: the job itself.
    pub page: &'static str,
}

/// A job among all jobs.
#[derive(Debug, Clone, PartialEq)]
pub struct OfficeJob {
    /// Its key.
    pub key: String,
    /// What people call it.
    pub name: String,
    /// It is a rehearsal.
    pub rehearsal: bool,
    /// What is told of it, in order.
    pub rows: Vec<OfficeRow>,
    plan: JobPlan,
    /// What its finished shafts took.
    taken: Option<Taken>,
}

impl OfficeJob {
    /// Where its shafts stand and how far each is; empty before the first shaft.
    pub fn plan(&self, size: Size) -> String {
        if self.plan.shafts.is_empty() { String::new() } else { changeable(&job_plan_svg(&self.plan, size)) }
    }
}

/// A job as it was reckoned.
#[derive(Debug, Clone, Copy)]
pub struct ReckonedJob<'a> {
    /// Its record.
    pub record: &'a Record,
    /// Its shafts.
    pub shafts: &'a [Reckoned],
    /// The time on its site.
    pub at: Moment,
}

/// All jobs together, each at the time on its site.
#[derive(Debug, Clone, PartialEq)]
pub struct OfficeScreen {
    /// How many jobs and shafts, how far they are, and what waits.
    pub lead: String,
    /// Each job, in the order given.
    pub jobs: Vec<OfficeJob>,
    /// All their shafts side by side.
    pub across: AcrossScreen,
}

impl OfficeScreen {
    /// Puts together what was reckoned of each job; `leads` gives the address of a shaft of a job.
    pub fn together(jobs: &[ReckonedJob<'_>], leads: Leads<'_>) -> Self {
        let records: Vec<&Record> = jobs.iter().map(|job| job.record).collect();
        let all: Vec<&Reckoned> = jobs.iter().flat_map(|job| job.shafts).collect();
        // Where there is no job there is nothing to look at, at any time.
        let last = jobs.iter().map(|job| job.at).max().unwrap_or(Moment::at(0, 0));
        OfficeScreen {
            lead: lead(jobs.len(), &all),
            jobs: jobs.iter().map(|job| of_job(*job, leads)).collect(),
            across: AcrossScreen::together(&records, &all, last),
        }
    }

    /// What the shafts of each job took, job under job; empty where no pour is over.
    pub fn drawing(&self, width: f64, leads: &dyn Fn(&Spot) -> String) -> String {
        let view = self.across.view(leads);
        let told: Vec<&Taken> = self.jobs.iter().filter_map(|job| job.taken.as_ref()).collect();
        let name = |one: &Taken| {
            let key = one.parts.first().map_or("", |part| part.place.job.as_str());
            self.jobs.iter().find(|job| job.key == key).map_or_else(|| key.to_owned(), |job| job.name.clone())
        };
        let words = |one: &Taken| GroupWords {
            heading: String::new(),
            label: name(one),
            beside: self.across.taken_words(one).value,
        };
        taken(&view, &told, &words).map_or_else(String::new, |sheet| {
            let sheet = GroupSheet { title: "What each job took over the drawing".to_owned(), ..sheet };
            changeable(&groups_svg(&sheet, sheet.size(width)))
        })
    }
}

/// `3 jobs, 12 shafts: 7 done, 2 pour. 9 items wait.`
fn lead(jobs: usize, all: &[&Reckoned]) -> String {
    let waits: usize = all.iter().map(|one| one.waits_for.len()).sum();
    let waits = match waits {
        0 => "Nothing waits for anybody.".to_owned(),
        1 => "1 item waits.".to_owned(),
        many => format!("{many} items wait."),
    };
    let jobs = if jobs == 1 { "1 job".to_owned() } else { format!("{jobs} jobs") };
    format!("{jobs}, {}. {waits}", stages(all))
}

/// `12 shafts: 7 done, 2 pour`.
fn stages(all: &[&Reckoned]) -> String {
    let mut counts: BTreeMap<_, usize> = BTreeMap::new();
    for one in all {
        *counts.entry(one.row.stage).or_default() += 1;
    }
    let each: Vec<String> = counts
        .iter()
        .rev()
        .map(|(stage, count)| format!("{count} {}", stage.label().to_lowercase()))
        .collect();
    match all.len() {
        0 => "no shaft yet".to_owned(),
        1 => format!("1 shaft: {}", each.join(", ")),
        many => format!("{many} shafts: {}", each.join(", ")),
    }
}

fn of_job(ReckonedJob { record, shafts: reckoned, at }: ReckonedJob<'_>, leads: Leads<'_>) -> OfficeJob {
    let all: Vec<&Reckoned> = reckoned.iter().collect();
    let log = Log::of(record, None, None);
    let opened = log.last::<JobOpened>().map(|(_, opened)| opened);
    let key = record.job().unwrap_or_default().to_owned();
    let name = opened.map_or_else(|| key.clone(), |job| job.name.clone());
    let across = AcrossScreen::together(&[record], &all, at);
    let to = |shaft: &str| leads(&key, shaft);
    let plan = JobPlan {
        title: name.clone(),
        subtitle: format!("{}, {}", day_text(at), at.clock()),
        distance: distance(opened),
        shafts: reckoned.iter().map(|one| placed(&one.row, &to)).collect(),
        ..JobPlan::default()
    };
    let rehearsal = opened.is_some_and(|job| job.rehearsal == Some(true));
    let taken = across.taken().iter().find(|one| one.by == By::All).cloned();
    OfficeJob { rows: rows(&all, &across), plan, name, rehearsal, key, taken }
}

fn rows(all: &[&Reckoned], across: &AcrossScreen) -> Vec<OfficeRow> {
    let row = |label, text: String, page| (!text.is_empty()).then_some(OfficeRow { label, text, page });
    let rows = [
        row("Shafts", stages(all), ""),
        row("Waits", whom(all), "open-items"),
        row("Took", took(across), "compare#across-taken"),
        row("Concrete", concrete(across), "compare#across-concrete"),
        row("Fails", fails(across), "compare#across-criteria"),
        row("Late", late(across), "compare#across-people"),
    ];
    rows.into_iter().flatten().collect()
}

/// `4 for the engineer, 2 for the inspector`, the most first.
fn whom(all: &[&Reckoned]) -> String {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for whom in all.iter().flat_map(|one| &one.waits_for) {
        *counts.entry(whom.as_str()).or_default() += 1;
    }
    let mut told: Vec<(&str, usize)> = counts.into_iter().collect();
    told.put_in_order_by_key(|(_, count)| usize::MAX - count);
    let told: Vec<String> = told.into_iter().map(|(whom, count)| format!("{count} for {whom}")).collect();
    if told.is_empty() { "nothing".to_owned() } else { told.join(", ") }
}

fn took(across: &AcrossScreen) -> String {
    let all = across.taken().iter().find(|one| one.by == By::All);
    all.map_or_else(String::new, |one| {
        let line = across.taken_words(one);
        format!("{} of the drawing; {}", line.value, line.note)
    })
}

/// `Ordered 6.00 yd³, placed 52.10 yd³, wasted …`: what somebody wrote.
fn concrete(across: &AcrossScreen) -> String {
    let lines = across
        .lines("concrete")
        .filter(|line| ["Ordered", "Placed", "Wasted or left in lines"].contains(&line.label.as_str()));
    let told: Vec<String> =
        lines.map(|line| format!("{} {}", line.label.to_lowercase(), line.value)).collect();
    told.join(", ")
}

/// What fails most often.
fn fails(across: &AcrossScreen) -> String {
    let failing = across.criteria().iter().filter(|one| one.fails > 0);
    let told: Vec<String> = failing.map(|one| format!("{} ({})", one.title, one.fails)).collect();
    match told.len() {
        0..=3 => told.join("; "),
        many => format!("{}; {} more", told[..3].join("; "), many - 3),
    }
}

/// Who wrote late.
fn late(across: &AcrossScreen) -> String {
    let late = across.people().iter().filter(|one| !one.late.is_empty());
    let told: Vec<String> = late.map(|one| format!("{} ({})", one.author, one.late.len())).collect();
    told.join(", ")
}
