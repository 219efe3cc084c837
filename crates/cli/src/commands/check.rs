//! `check`: what the record means, now or at a moment of the day.

use crate::args::Command;
use crate::folder::{Folder, shaft_of};
use crate::problem::{OPEN, Problem};
use crate::style::Style;
use crate::view::View;
use assess::{Finding, Outcome};
use serde_json::Value;
use wording::Show;

pub(crate) fn run(command: &Command) -> Result<(), Problem> {
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
        println!("{:#}", if shaft.is_some() { told.into_iter().next().unwrap_or_default() } else { Value::Array(told) });
    } else {
        views.iter().for_each(|view| tell(view, *all));
        super::verify::tell_alarms(&record);
    }
    let open: usize = views.iter().map(open_findings).sum();
    match *strict && open > 0 {
        true => Err(Problem::new(format!("{open} failing findings are open."), "Decide about each: finding_disposed.").exit(OPEN)),
        false => Ok(()),
    }
}

fn open_findings(view: &View<'_>) -> usize {
    view.assessment.findings.iter().filter(|finding| finding.is_open()).count()
}

fn count(view: &View<'_>, wanted: Outcome) -> usize {
    view.assessment.findings.iter().filter(|finding| finding.outcome() == wanted).count()
}

/// The counts of a shaft in one line.
pub(crate) fn counts_line(view: &View<'_>) -> String {
    format!(
        "{} fail ({} open), {} cannot say, {} not measured, {} meet, {} without a limit, {} disputes, {} questions",
        count(view, Outcome::Fails),
        open_findings(view),
        count(view, Outcome::CannotSay),
        count(view, Outcome::NotMeasured),
        count(view, Outcome::Meets),
        count(view, Outcome::NoLimitSet),
        view.log.disputes.len(),
        view.assessment.questions.iter().filter(|question| question.answer.is_none()).count(),
    )
}

fn tell(view: &View<'_>, all: bool) {
    let style = Style::of_terminal();
    let show = Show::of_log(&view.log).on_day_of(view.assessment.at);
    let at = view.assessment.at;
    println!("\n{}", style.bold(&format!("Shaft {}, {} {}", view.shaft, at.date(), at.clock())));
    println!("{}", counts_line(view));
    if let Some(why) = &view.no_rules {
        println!("{}", wording::no_rules(why));
    }
    view.refused.iter().for_each(|refused| println!("{}", wording::refused(refused)));
    findings(view, all, &show);
    forecasts(view, &show);
    doubts(view, &show);
}

/// Fails and what cannot be said in full, the rest when asked for.
fn findings(view: &View<'_>, all: bool, show: &Show) {
    let style = Style::of_terminal();
    let matters = |finding: &&Finding| all || matches!(finding.outcome(), Outcome::Fails | Outcome::CannotSay);
    let judged = |finding: &&Finding| finding.criterion.is_some();
    for finding in view.assessment.findings.iter().filter(judged).filter(matters) {
        let text = wording::finding(finding, &view.log, show);
        let verdict = if finding.outcome() == Outcome::Fails { style.bad(text.verdict) } else { text.verdict.to_owned() };
        println!("\n  {verdict}: {}", text.sentence);
        if !text.sure_note.is_empty() {
            println!("      {} ({})", text.sure_note, text.criterion);
        }
        if !text.evidence.is_empty() {
            println!("      rests on: {}", text.evidence.join("; "));
        }
        text.dispositions.iter().for_each(|done| println!("      {}", done.sentence));
    }
    let unmeasured = count(view, Outcome::NotMeasured);
    if !all && unmeasured > 0 {
        println!("\n  {unmeasured} not measured; --all lists them with the entries that are missing.");
    }
}

fn forecasts(view: &View<'_>, show: &Show) {
    if view.assessment.forecasts.is_empty() {
        return;
    }
    println!("\n  {}", Style::of_terminal().bold("What is coming"));
    for forecast in &view.assessment.forecasts {
        let text = wording::forecast(forecast, &view.log, show);
        println!("  {}: {}", text.heading, text.sentence);
        if !text.do_now.is_empty() {
            println!("      {}", text.do_now);
        }
    }
}

/// Disputes and open questions: what people have to settle.
fn doubts(view: &View<'_>, show: &Show) {
    for dispute in &view.log.disputes {
        println!("\n  {}", wording::dispute(dispute, &view.log, show).paragraph());
    }
    let open = view.assessment.questions.iter().filter(|question| question.answer.is_none());
    for question in open {
        println!("\n  {}", wording::question(question, show, &view.log).paragraph());
    }
}
