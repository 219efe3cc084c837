//! `shafts`: the shafts of a job and how each stands.

use crate::folder::Folder;
use crate::problem::Problem;
use crate::screen::{Screen, shown};
use crate::view::View;
use serde_json::{Value, json};
use std::path::Path;

pub(crate) fn run(job: &Path, as_json: bool, screen: &mut Screen) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let views: Vec<View<'_>> =
        record.shafts().into_iter().map(|shaft| View::at(&record, shaft, None)).collect();
    if as_json {
        screen.json(&Value::Array(views.iter().map(json_of).collect()));
        return Ok(());
    }
    none_yet(&views, screen);
    let wide = views.iter().map(|view| shown(&view.shaft).chars().count()).max().unwrap_or(0);
    for view in &views {
        let counts = super::check::counts_line(view);
        screen.set_in(0, wide + 2, &format!("{:<wide$}  {counts}", view.shaft));
    }
    Ok(())
}

fn json_of(view: &View<'_>) -> Value {
    let at = view.assessment.at.to_string();
    json!({ "shaft": view.shaft, "at": at, "counts": crate::json::counts(view) })
}

/// What to do where there are no shafts.
pub(crate) fn none_yet(views: &[View<'_>], screen: &mut Screen) {
    if views.is_empty() {
        screen.say("No shafts yet. Plan one in your notes with [[shaft]], then `shaftbook enter`.");
    }
}
