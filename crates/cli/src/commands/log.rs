//! `log`: what was written, as text.

use crate::args::Command;
use crate::folder::{Folder, shaft_of};
use crate::problem::Problem;
use crate::screen::Screen;
use crate::view::View;
use record::{Line, Standing};
use serde_json::{Value, json};
use wording::Show;

/// Columns of the time and of the kind of entry, with the space behind them.
const TIME: usize = 7;
const KIND: usize = 21;

pub(crate) fn run(command: &Command, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Log { shaft, tables, json, at, job } = command else { return Ok(()) };
    let record = Folder::open(&job.job)?.record()?;
    let shaft = shaft_of(&record, shaft)?;
    let view = View::of(&record, &shaft, at.at.as_deref())?;
    let show = Show::of_log(&view.log);
    if *json {
        screen.json(&Value::Array(view.log.lines.iter().map(json_of).collect()));
    } else if *tables {
        super::tables::print(&wording::tables(&view.log, &view.assessment, &show), screen);
    } else {
        lines(&view, &show, screen);
        seals(&view, screen);
    }
    Ok(())
}

fn lines(view: &View<'_>, show: &Show, screen: &mut Screen) {
    let references = Some(&view.assessment.picture);
    let mut day = String::new();
    for line in &view.log.lines {
        let date = line.at.date();
        if date != day {
            screen.gap();
            screen.heading(&date);
            day = date;
        }
        let show = show.clone().on_day_of(line.at);
        print(line, &wording::entry_line(line, &view.log, references, &show), screen);
    }
}

/// Every seal, and what came after it.
fn seals(view: &View<'_>, screen: &mut Screen) {
    for seal in view.seals() {
        screen.gap();
        screen.heading(&seal.what);
        screen.say(&format!("Root {}", seal.root));
        if !seal.later.is_empty() {
            screen.say("Supplement, not under this seal:");
        }
        seal.later.iter().for_each(|entry| screen.set_in(2, 2, entry));
    }
}

/// One line, its time and kind in columns. What does not stand says so first, in words; dimmer on a terminal.
fn print(line: &Line<'_>, text: &str, screen: &mut Screen) {
    let style = screen.style();
    let mut parts = text.splitn(3, "  ");
    let (time, kind) = (parts.next().unwrap_or_default(), parts.next().unwrap_or_default());
    let rest = parts.next().unwrap_or_default();
    let standing = match line.standing {
        Standing::Stands => "",
        Standing::Struck { .. } => "STRUCK THROUGH: ",
        Standing::Disputed { .. } => "IN DISPUTE: ",
    };
    // A long kind is followed by its space too.
    let kind = format!("{kind}  ");
    let lead = format!("{time:<TIME$}{kind:<KIND$}");
    let body = format!("{standing}{rest}");
    let struck = matches!(line.standing, Standing::Struck { .. });
    screen.led(0, TIME + 4, (&lead, &body), |lead| if struck { style.dim(lead) } else { style.plain(lead) });
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
