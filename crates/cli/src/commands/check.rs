//! `check`: what the record means, now or at a moment of the day.

mod ahead;
mod print;

use crate::args::Command;
use crate::folder::{Folder, shaft_of};
use crate::problem::{OPEN, Problem};
use crate::screen::Screen;
use crate::view::View;
use assess::Outcome;
use serde_json::Value;

pub(crate) fn run(command: &Command, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Check { shaft, all, strict, json, at, job } = command else { return Ok(()) };
    let record = Folder::open(&job.job)?.record()?;
    let shafts: Vec<String> = match shaft {
        Some(shaft) => vec![shaft_of(&record, shaft)?],
        None => record.shafts().into_iter().map(str::to_owned).collect(),
    };
    let views: Vec<View<'_>> =
        shafts.iter().map(|shaft| View::of(&record, shaft, at.at.as_deref())).collect::<Result<_, _>>()?;
    if *json {
        let told: Vec<Value> = views.iter().map(crate::json::assessment).collect();
        screen.json(&if shaft.is_some() {
            told.into_iter().next().unwrap_or_default()
        } else {
            Value::Array(told)
        });
    } else {
        views.iter().for_each(|view| print::shaft(view, *all, screen));
        super::shafts::none_yet(&views, screen);
        super::verify::tell_alarms(&record, screen);
    }
    let open: usize = views.iter().map(open_findings).sum();
    if *strict && open > 0 { Err(undecided(open)) } else { Ok(()) }
}

fn undecided(open: usize) -> Problem {
    let are = if open == 1 { "finding that fails is" } else { "findings that fail are" };
    let next = "Decide about each with an entry finding_disposed: shaftbook kinds finding_disposed.";
    let meaning = "What fails stays open in every report until somebody decides about it.";
    Problem::new(format!("{open} {are} open."), meaning, next).exit(OPEN)
}

fn open_findings(view: &View<'_>) -> usize {
    view.assessment.findings.iter().filter(|finding| finding.is_open()).count()
}

fn count(view: &View<'_>, wanted: Outcome) -> usize {
    view.assessment.findings.iter().filter(|finding| finding.outcome() == wanted).count()
}

/// The counts of a shaft in one line; what there is none of is left out, but for what fails.
pub(crate) fn counts_line(view: &View<'_>) -> String {
    let (fails, open) = (count(view, Outcome::Fails), open_findings(view));
    let questions = view.assessment.questions.iter().filter(|question| question.answer.is_none()).count();
    let decided = match (fails, open) {
        (0, _) => "nothing fails".to_owned(),
        (fails, 0) => format!("{fails} fail, all decided"),
        (fails, open) if fails == open => format!("{fails} fail"),
        (fails, open) => format!("{fails} fail, {open} of them open"),
    };
    let others = [
        (count(view, Outcome::CannotSay), "cannot be judged"),
        (count(view, Outcome::NotMeasured), "not measured"),
        (count(view, Outcome::Meets), "meet"),
        (view.log.disputes.len(), "in dispute"),
        (questions, if questions == 1 { "open question" } else { "open questions" }),
    ];
    let some = others.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}"));
    [decided].into_iter().chain(some).collect::<Vec<_>>().join(" · ")
}
