//! `limits`: the criteria of a set, or those in force on a job.

use crate::folder::Folder;
use crate::problem::{MISTAKES, Problem};
use assess::Rules;
use criteria::{InForce, SHIPPED, Set, SetInForce};
use record::Log;
use serde_json::{Value, json};
use std::path::Path;
use wording::Show;

pub(crate) fn run(job: &Path, set: Option<&str>, file: Option<&Path>, as_json: bool) -> Result<(), Problem> {
    if let Some(file) = file {
        return show(&of_file(file)?, &Show::of(None), as_json);
    }
    if let Some(id) = set {
        let found = Set::shipped(id).ok_or_else(|| Problem::new(format!("There is no set `{id}`."), sets()))?;
        return show(&found.in_force(&[]).0, &Show::of(None), as_json);
    }
    if !job.join("record.sqlite").exists() {
        println!("{}", sets());
        return Ok(());
    }
    let record = Folder::open(job)?.record()?;
    let log = Log::of(&record, None, None);
    let rules = Rules::of(&log).map_err(|why| Problem::new(wording::no_rules(&why), sets()))?;
    show(&rules.set, &Show::of_log(&log), as_json)?;
    for refused in &rules.refused {
        println!("{}", wording::refused(refused));
    }
    Ok(())
}

fn sets() -> String {
    let ids: Vec<&str> = SHIPPED.iter().map(|(id, _)| *id).collect();
    format!("Sets that come with the program: {}. Print one with `shaftbook limits SET`.", ids.join(", "))
}

fn of_file(path: &Path) -> Result<SetInForce, Problem> {
    let text = std::fs::read_to_string(path).map_err(|error| Problem::file("Reading", path, &error))?;
    let set = Set::parse(&text).map_err(|problems| {
        let lines: Vec<String> = problems.iter().map(|problem| format!("{}: {problem}", path.display())).collect();
        Problem::new(lines.join("\n"), "Mend the file and try again.").exit(MISTAKES)
    })?;
    Ok(set.in_force(&[]).0)
}

fn show(set: &SetInForce, show: &Show, as_json: bool) -> Result<(), Problem> {
    if as_json {
        let all: Vec<Value> = set.criteria.iter().map(|criterion| json_of(criterion, show)).collect();
        println!("{:#}", json!({ "set": set.about.id, "edition": set.about.edition, "sha256": set.sha256, "criteria": all }));
        return Ok(());
    }
    println!("{} ({}), {} criteria", set.about.title, set.about.id, set.criteria.len());
    if let Some(caution) = &set.about.caution {
        println!("{caution}");
    }
    for criterion in &set.criteria {
        println!("\n{}\n    {}: {}", criterion.original.id, criterion.original.title, limit(criterion, show));
        println!("    {}", wording::sure_text(criterion));
    }
    Ok(())
}

fn limit(criterion: &InForce, show: &Show) -> String {
    criterion.rule().map_or_else(|| "no limit is set on this job".to_owned(), |rule| wording::limit_text(rule, None, show))
}

fn json_of(criterion: &InForce, show: &Show) -> Value {
    let original = &criterion.original;
    json!({ "id": original.id, "title": original.title, "fact": original.fact.name, "stage": original.fact.stage.word(),
        "limit": limit(criterion, show), "sure": criterion.sure().word(), "source": original.source,
        "clause": original.clause, "why": original.why, "if_fails": original.if_fails,
        "changed": criterion.changed.as_ref().map(|changed| json!({ "reason": changed.reason, "by": changed.who })) })
}
