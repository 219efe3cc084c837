//! `limits`: the criteria of a set, or those in force on a job.

use crate::args::Command;
use crate::folder::{Folder, is_record};
use crate::problem::{MISTAKES, Problem};
use crate::screen::Screen;
use assess::Rules;
use criteria::{InForce, SHIPPED, Set, SetInForce};
use record::Log;
use serde_json::{Value, json};
use std::path::Path;
use wording::Show;

/// What it means that a set is not there.
const NOT_LISTED: &str = "No limits were shown, and none were put in force.";

pub(crate) fn run(command: &Command, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Limits { set, file, json, job } = command else { return Ok(()) };
    if let Some(file) = file {
        show(&of_file(file)?, &Show::of(None), *json, screen);
    } else if let Some(id) = set {
        let found = Set::shipped(id)
            .ok_or_else(|| Problem::new(format!("There is no set `{id}`."), NOT_LISTED, sets()))?;
        show(&found.in_force(&[]).0, &Show::of(None), *json, screen);
    } else if is_record(&job.job) {
        of_job(&job.job, *json, screen)?;
    } else if job.job.as_os_str() == "." {
        list(*json, screen);
    } else {
        Folder::open(&job.job)?;
    }
    Ok(())
}

fn of_job(job: &Path, as_json: bool, screen: &mut Screen) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let log = Log::of(&record, None, None);
    let rules = Rules::of(&log).map_err(|why| Problem::new(wording::no_rules(&why), NOT_LISTED, sets()))?;
    show(&rules.set, &Show::of_log(&log), as_json, screen);
    if !as_json {
        rules.refused.iter().for_each(|refused| screen.say(&wording::refused(refused)));
    }
    Ok(())
}

/// The sets that come with the program.
fn list(as_json: bool, screen: &mut Screen) {
    let ids: Vec<&str> = SHIPPED.iter().map(|(id, _)| *id).collect();
    if as_json {
        return screen.json(&json!({ "sets": ids }));
    }
    for set in ids.iter().filter_map(|id| Set::shipped(id)) {
        screen.set_in(
            0,
            4,
            &format!("{}: {}, {} criteria", set.about.id, set.about.title, set.criteria.len()),
        );
    }
    screen.say("Print one with `shaftbook limits SET`.");
}

fn sets() -> String {
    let ids: Vec<&str> = SHIPPED.iter().map(|(id, _)| *id).collect();
    format!("Sets that come with the program: {}. Print one with `shaftbook limits SET`.", ids.join(", "))
}

fn of_file(path: &Path) -> Result<SetInForce, Problem> {
    let text = std::fs::read_to_string(path).map_err(|error| Problem::file("Reading", path, &error))?;
    let set = Set::parse(&text).map_err(|problems| {
        let lines: Vec<String> =
            problems.iter().map(|problem| format!("{}: {problem}", path.display())).collect();
        let meaning = "No job can use it as it is; nothing was taken from it.";
        Problem::new(lines.join("\n"), meaning, "Mend the file and try again.").exit(MISTAKES)
    })?;
    Ok(set.in_force(&[]).0)
}

fn show(set: &SetInForce, show: &Show, as_json: bool, screen: &mut Screen) {
    if as_json {
        let all: Vec<Value> = set.criteria.iter().map(|criterion| json_of(criterion, show)).collect();
        let about = &set.about;
        return screen.json(
            &json!({ "set": about.id, "edition": about.edition, "sha256": set.sha256, "criteria": all }),
        );
    }
    screen.heading(&format!("{} ({}), {} criteria", set.about.title, set.about.id, set.criteria.len()));
    if let Some(caution) = &set.about.caution {
        screen.say(caution);
    }
    for criterion in &set.criteria {
        screen.gap();
        screen.line(&criterion.original.id);
        screen.set_in(4, 2, &format!("{}: {}", criterion.original.title, limit(criterion, show)));
        screen.set_in(4, 2, &wording::sure_text(criterion));
    }
}

fn limit(criterion: &InForce, show: &Show) -> String {
    criterion.rule().map_or_else(
        || "no limit is set on this job".to_owned(),
        |rule| wording::limit_text(rule, None, show),
    )
}

fn json_of(criterion: &InForce, show: &Show) -> Value {
    let original = &criterion.original;
    json!({ "id": original.id, "title": original.title, "fact": original.fact.name,
        "stage": original.fact.stage.word(),
        "limit": limit(criterion, show), "sure": criterion.sure().word(), "source": original.source,
        "clause": original.clause, "why": original.why, "if_fails": original.if_fails,
        "changed": criterion.changed.as_ref().map(|one| json!({ "reason": one.reason, "by": one.who })) })
}
