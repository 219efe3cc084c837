//! `log`: what was written, as text.

use crate::folder::{Folder, shaft_of};
use crate::problem::Problem;
use crate::style::Style;
use crate::view::View;
use record::{Line, Standing};
use serde_json::{Value, json};
use std::path::Path;
use wording::Show;

/// How the log is printed.
pub(crate) struct Form {
    pub(crate) tables: bool,
    pub(crate) json: bool,
}

pub(crate) fn run(job: &Path, shaft: &str, at: Option<&str>, form: Form) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let shaft = shaft_of(&record, shaft)?;
    let view = View::of(&record, &shaft, at)?;
    if form.json {
        let lines: Vec<Value> = view.log.lines.iter().map(json_of).collect();
        println!("{:#}", Value::Array(lines));
        return Ok(());
    }
    let show = Show::of_log(&view.log);
    if form.tables {
        super::tables::print(&wording::tables(&view.log, &view.assessment, &show));
        return Ok(());
    }
    let references = Some(&view.assessment.picture);
    let mut day = String::new();
    for line in &view.log.lines {
        let date = line.at.date();
        if date != day {
            println!("\n{}", Style::of_terminal().bold(&date));
            day = date;
        }
        let show = show.on_day_of(line.at);
        println!("{}", styled(line, &wording::entry_line(line, &view.log, references, &show)));
    }
    Ok(())
}

/// Struck lines are dimmed on a terminal; the words say so everywhere.
fn styled(line: &Line<'_>, text: &str) -> String {
    match line.standing {
        Standing::Struck { .. } => Style::of_terminal().dim(text),
        _ => text.to_owned(),
    }
}

fn json_of(line: &Line<'_>) -> Value {
    let standing = match line.standing {
        Standing::Stands => json!({ "is": "stands" }),
        Standing::Struck { by } => json!({ "is": "struck", "by": by.to_string() }),
        Standing::Disputed { about } => json!({ "is": "disputed", "about": about.to_string() }),
    };
    json!({
        "entry": line.entry.id.to_string(), "origin": line.origin.to_string(), "at": line.at.to_string(),
        "author": line.entry.author, "device": line.entry.device.to_string(), "kind": line.body.kind().word,
        "body": tree(&record::Value::Group(line.body.to_group())), "standing": standing,
        "late_minutes": line.late_minutes(), "reason": line.reason,
    })
}

fn tree(value: &record::Value) -> Value {
    match value {
        record::Value::Text(text) => json!(text),
        record::Value::Flag(flag) => json!(flag),
        record::Value::List(items) => Value::Array(items.iter().map(tree).collect()),
        record::Value::Group(group) => {
            Value::Object(group.iter().map(|(name, value)| (name.clone(), tree(value))).collect())
        }
    }
}
