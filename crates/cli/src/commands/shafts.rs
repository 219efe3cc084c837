//! `shafts`: the shafts of a job and how each stands.

use crate::folder::Folder;
use crate::problem::Problem;
use crate::view::View;
use serde_json::{Value, json};
use std::path::Path;

pub(crate) fn run(job: &Path, as_json: bool) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let views: Vec<View<'_>> = record.shafts().into_iter().map(|shaft| View::at(&record, shaft, None)).collect();
    if as_json {
        let all: Vec<Value> = views
            .iter()
            .map(|view| json!({ "shaft": view.shaft, "at": view.assessment.at.to_string(), "counts": crate::json::counts(view) }))
            .collect();
        println!("{:#}", Value::Array(all));
        return Ok(());
    }
    if views.is_empty() {
        println!("No shafts yet. Plan one in your notes with [[shaft]], then `shaftbook enter`.");
    }
    for view in &views {
        println!("{:<10} {}", view.shaft, super::check::counts_line(view));
    }
    Ok(())
}
