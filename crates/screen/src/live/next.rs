//! What to do next, in order: what cannot wait, what the work asks for, what is still to be measured,
//! what has to be answered.
//!
//! Each step names the entry it would be written as, so that the key for it is one tap away.
//!
//! Never: say that something is safe; leave a step without its entry.

use super::advice::{Advice, advice};
use super::card::{finding_id, forecast_id, forecast_text, forecast_want, kind_label, wants};
use super::doubts::ended;
use super::looked::Looked;
use super::sign::{Haste, Sign};
use crate::entry::stage::Stage;
use assess::picture::{CasingHistory, Load};
use assess::{Finding, Outlook, Urgency};
use criteria::Stage as Work;
use quantity::InOrder;
use wording::ShapeText;

/// One step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Next {
    /// Stable while it is about the same thing.
    pub id: String,
    /// Word of the kind of entry it would be written as.
    pub kind: &'static str,
    /// That kind as people read it.
    pub label: String,
    /// What to do.
    pub what: String,
    /// Why now; may be empty.
    pub why: String,
    /// How soon.
    pub haste: Haste,
    /// Concrete waits until it is done.
    pub holds: bool,
    /// Fields already known: name and text, such as the ticket of a load.
    pub known: Vec<(&'static str, String)>,
}

impl Next {
    fn new(id: String, kind: &'static str, what: impl Into<String>) -> Self {
        Next {
            id,
            kind,
            label: kind_label(kind),
            what: what.into(),
            why: String::new(),
            haste: Haste::Later,
            holds: false,
            known: Vec::new(),
        }
    }

    fn known(mut self, field: &'static str, text: &str) -> Self {
        self.known.push((field, text.to_owned()));
        self
    }
}

/// What to do next.
pub(crate) fn next(looked: &Looked<'_>, stage: Stage, shape: Option<&ShapeText>) -> Vec<Next> {
    let mut all = work(looked, stage);
    all.extend(urgent(looked));
    all.extend(super::shape::step(shape));
    all.extend(release(looked));
    all.extend(decide(looked));
    all.extend(measure(looked, stage));
    all.extend(answer(looked));
    let mut seen = std::collections::BTreeSet::new();
    all.retain(|step| seen.insert((step.kind, step.known.clone())));
    all.put_in_order_by_key(|step| step.haste);
    all
}

/// What a forecast asks for now or soon.
fn urgent(looked: &Looked<'_>) -> Vec<Next> {
    let soon = looked.assessment.forecasts.iter().filter(|forecast| forecast.urgency < Urgency::Later);
    let step = |forecast: &assess::Forecast| {
        let kind = forecast_want(&forecast.outlook)?;
        let text = forecast_text(forecast, looked);
        let mut step = Next::new(forecast_id(&forecast.outlook), kind, text.do_now);
        if let Outlook::TimeLimit { ticket: Some(ticket), .. } | Outlook::SlumpLife { ticket, .. } =
            &forecast.outlook
        {
            step = step.known("ticket", ticket);
        }
        Some(Next { why: text.sentence, haste: Haste::of(forecast.urgency), ..step })
    };
    soon.filter_map(step).collect()
}

/// What the work itself asks for in this stage.
fn work(looked: &Looked<'_>, stage: Stage) -> Vec<Next> {
    match stage {
        Stage::Planned | Stage::BeforeDrilling => before(looked),
        Stage::Drilling => drilling(looked),
        Stage::Bottom => bottom(looked),
        Stage::Cage => cage(looked),
        Stage::Pour => pour(looked),
        Stage::After | Stage::Done => Vec::new(),
    }
}

fn step(kind: &'static str, what: &str) -> Next {
    Next { haste: Haste::Later, ..Next::new(format!("work:{kind}"), kind, what) }
}

fn before(looked: &Looked<'_>) -> Vec<Next> {
    let picture = &looked.assessment.picture;
    let mut all = Vec::new();
    if picture.plan.is_none() {
        all.push(step("shaft_planned", "Enter what the drawings say of this shaft."));
    }
    if !picture.references.is_set() {
        all.push(step("reference_set", "Set the point depths are measured from, with its elevation."));
    }
    all.push(step("tool_run", "When the tool goes in: enter the first run."));
    all
}

fn drilling(looked: &Looked<'_>) -> Vec<Next> {
    let picture = &looked.assessment.picture;
    let mut all = vec![step("tool_run", "Enter each run of the tool: in, out, depth, ground.")];
    let reached = picture.hole.iter().map(|run| run.reached).min();
    let tip = picture.plan.as_ref().map(|plan| plan.tip);
    if reached.zip(tip).is_some_and(|(reached, tip)| reached <= tip) {
        all.insert(0, step("bottom_reached", "The planned tip is reached: enter the bottom."));
    }
    all
}

fn bottom(looked: &Looked<'_>) -> Vec<Next> {
    let bottom = &looked.assessment.picture.bottom;
    let mut all = Vec::new();
    if bottom.cleaned.is_empty() {
        all.push(step("cleaning", "Enter the cleaning of the bottom."));
    }
    if bottom.soundings.is_empty() {
        all.push(step("bottom_sounded", "Sound the bottom at its center and around it."));
    }
    if bottom.sediment.is_empty() {
        all.push(step("sediment_measured", "Measure what lies on the bottom, at its center and around it."));
    }
    if bottom.accepted.is_empty() {
        all.push(step("bottom_accepted", "Have the bottom accepted, and enter by whom."));
    }
    all
}

fn cage(looked: &Looked<'_>) -> Vec<Next> {
    let log = &looked.log;
    let mut all = Vec::new();
    if log.last::<record::kinds::CageSet>().is_none() {
        all.push(step("cage_set", "Enter the cage once it hangs, with the elevation of its top."));
    }
    if looked.assessment.picture.lines.is_empty() {
        all.push(step("line_made_up", "Count the pieces of the line and enter how deep its tip hangs."));
    }
    all.push(step("load_arrived", "When the first truck comes: enter its ticket."));
    all
}

fn pour(looked: &Looked<'_>) -> Vec<Next> {
    let picture = &looked.assessment.picture;
    let mut all: Vec<Next> = picture.loads.iter().filter(|load| load.open()).map(discharging).collect();
    all.extend(to_sound(looked));
    all.extend(picture.loads.iter().filter(|load| load.waiting()).map(waiting));
    let full = super::figures::full(looked);
    if full && all.is_empty() {
        all.extend(picture.lines.iter().filter(|line| line.out.is_none()).map(|line| {
            step("line_out", "Enter when the line is out of the concrete.").known("name", &line.name)
        }));
        all.extend(picture.casings.iter().filter(|casing| casing.is_to_come_out()).map(lift));
    }
    if !full {
        all.push(step("load_arrived", "When the next truck comes: enter its ticket."));
    }
    all
}

fn lift(casing: &CasingHistory) -> Next {
    step("casing_lifted", "Sound, lift, sound again: enter each lift of the casing.")
        .known("name", &casing.name)
}

fn discharging(load: &Load<'_>) -> Next {
    let step = step("discharge_ended", &format!("Enter when load {} is in.", load.ticket));
    Next { haste: Haste::Soon, ..step }.known("ticket", load.ticket)
}

fn waiting(load: &Load<'_>) -> Next {
    step("discharge_started", &format!("Enter when load {} starts to discharge.", load.ticket))
        .known("ticket", load.ticket)
}

/// A load is in and the surface was not sounded since.
fn to_sound(looked: &Looked<'_>) -> Option<Next> {
    let picture = &looked.assessment.picture;
    let done = picture.loads.iter().filter_map(|load| Some((load.ended?, load.ticket))).max()?;
    let sounded = picture.concrete.last().map(|level| level.at);
    if sounded.is_some_and(|at| done.0 <= at) {
        return None;
    }
    let what = format!("Load {} is in: sound the concrete.", done.1);
    Some(Next { haste: Haste::Soon, ..step("concrete_sounded", &what) }.known("after", done.1))
}

/// Findings that fail and nobody decided about; first those of which something can still be done.
fn decide(looked: &Looked<'_>) -> Vec<Next> {
    let open = looked.assessment.findings.iter().filter(|finding| finding.is_open());
    let mut all: Vec<_> = open.map(|finding| (finding, advice(finding, looked))).collect();
    all.put_in_order_by_key(|(_, advice)| *advice != Advice::Holds);
    all.into_iter().map(|(finding, advice)| to_decide(finding, &advice, looked)).collect()
}

fn to_decide(finding: &Finding, advice: &Advice<'_>, looked: &Looked<'_>) -> Next {
    let text = wording::finding(finding, &looked.log, &looked.show);
    let what = match advice {
        Advice::Holds if !text.if_fails.is_empty() => text.if_fails,
        _ => format!("Have it decided: {}.", text.heading),
    };
    let why = match advice {
        Advice::Holds => text.sentence,
        late => format!("{} {}", text.sentence, late.told("", looked)),
    };
    let holds = text.holds && *advice == Advice::Holds;
    // Concrete that waits for a decision waits now; what is in cannot be taken out again.
    let waits = holds && looked.assessment.picture.concrete_started().is_none();
    let haste = if waits { Haste::Now } else { Haste::Later };
    let step = Next::new(finding_id(finding), "finding_disposed", what);
    Next { why, haste, holds, ..step }.known("criterion", &text.criterion)
}

/// What this stage and those before it should have measured.
fn measure(looked: &Looked<'_>, stage: Stage) -> Vec<Next> {
    let due = |finding: &&Finding| {
        Sign::of_finding(finding) == Sign::NotMeasured && is_due(finding.fact.stage, stage)
    };
    let step = |finding: &Finding| {
        let want = wants(finding).into_iter().next()?;
        let criterion = finding.criterion.as_ref()?;
        let title = criterion.original.title.trim_end_matches('.');
        let step = Next::new(finding_id(finding), want.kind, format!("{}: {title}.", want.label));
        Some(Next { why: criterion.original.why.clone(), holds: criterion.original.holds, ..step })
    };
    looked.assessment.findings.iter().filter(due).filter_map(step).collect()
}

/// Whether a stage of the criteria is the work in hand or before it.
pub(crate) fn is_due(work: Work, stage: Stage) -> bool {
    let last = match stage {
        Stage::Planned | Stage::BeforeDrilling => Work::Before,
        Stage::Drilling => Work::Excavation,
        Stage::Bottom | Stage::Cage => Work::BeforeConcrete,
        Stage::Pour => Work::CasingWithdrawal,
        Stage::After | Stage::Done => Work::Testing,
    };
    work <= last
}

/// Holds nobody released: concrete waits for them.
fn release(looked: &Looked<'_>) -> Vec<Next> {
    let step = |(line, placed): (&record::Line<'_>, &record::kinds::HoldPlaced)| {
        let what = format!("Settle the hold “{}”, then enter who released it.", placed.hold);
        let step = Next::new(format!("hold:{}", line.entry.id), "hold_released", what);
        Next { why: ended(&placed.reason), haste: Haste::Soon, holds: true, ..step }
            .known("hold", &placed.hold)
    };
    looked.log.open_holds().into_iter().map(step).collect()
}

/// Questions nobody answered, and disputes nobody closed.
fn answer(looked: &Looked<'_>) -> Vec<Next> {
    let disputes = looked.log.disputes.iter().map(|dispute| {
        let notice = wording::dispute(dispute, &looked.log, &looked.show);
        let step = Next::new(format!("dispute:{}", dispute.about), "dispute_closed", notice.next);
        Next { why: notice.what, haste: Haste::Soon, ..step }.known("about", &dispute.about.to_string())
    });
    let open = looked.assessment.questions.iter().filter(|question| question.answer.is_none());
    let questions = open.map(|question| {
        let notice = wording::question(question, &looked.show, &looked.log);
        let word = question.suspicion.word();
        let step = Next::new(format!("question:{word}:{}", question.about), "question_answered", notice.next);
        Next { why: notice.what, ..step }.known("about", &question.about.to_string()).known("question", word)
    });
    let asked = looked.log.unanswered().into_iter().map(|(line, asked)| {
        let what = format!("Answer {}: {}", line.entry.author, ended(&asked.question));
        let step = Next::new(format!("asked:{}", line.entry.id), "question_answered", what);
        step.known("about", &line.entry.id.to_string()).known("question", record::log::ASKED)
    });
    disputes.chain(questions).chain(asked).collect()
}
