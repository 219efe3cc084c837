//! The input is looked over before a page is set, so that a mistake is named in the caller's own words.

use crate::{Drawing, LogTable, ReportError, ReportInput, SummaryInput};

/// Looks over a package.
pub(crate) fn package(input: &ReportInput) -> Result<(), ReportError> {
    named(&input.heading.job, &input.heading.shaft)?;
    input.logs.iter().chain(&input.papers).try_for_each(table)?;
    std::iter::once(&input.sheet).chain(&input.drawings).try_for_each(drawing)
}

/// Looks over a job summary.
pub(crate) fn summary(input: &SummaryInput) -> Result<(), ReportError> {
    named(&input.heading.job, &input.heading.shaft)?;
    input.plan.iter().try_for_each(drawing)
}

fn named(job: &str, shaft: &str) -> Result<(), ReportError> {
    if job.trim().is_empty() || shaft.trim().is_empty() {
        return Err(ReportError::Unnamed);
    }
    Ok(())
}

fn table(table: &LogTable) -> Result<(), ReportError> {
    let expected = table.columns.len();
    let no_width = |weight: f64| !(weight.is_finite() && weight > 0.0);
    if expected == 0 || no_width(table.width) || table.columns.iter().any(|column| no_width(column.weight)) {
        return Err(ReportError::Columns { table: table.title.clone() });
    }
    let rows = table.rows.iter().map(|row| row.cells.len()).enumerate().map(|(at, found)| (at + 1, found));
    let total = table.total.iter().map(|cells| (0, cells.len()));
    match rows.chain(total).find(|(_, found)| *found != expected) {
        Some((row, found)) => Err(ReportError::Cells { table: table.title.clone(), row, found, expected }),
        None => Ok(()),
    }
}

/// The title, or the words behind the drawing when it carries its own title.
fn name(drawing: &Drawing) -> String {
    if drawing.title.is_empty() { drawing.alt.clone() } else { drawing.title.clone() }
}

fn drawing(drawing: &Drawing) -> Result<(), ReportError> {
    let refused = |why: &str| ReportError::Drawing { title: name(drawing), why: why.to_owned() };
    if drawing.alt.trim().is_empty() {
        return Err(refused("it has no words for a reader who cannot see it"));
    }
    if !drawing.svg.trim_start().starts_with('<') {
        return Err(refused("it is no SVG text"));
    }
    Ok(())
}

/// The drawing that stopped the pages, if one did. Reading a drawing twice is slow, so this asks afterwards.
pub(crate) fn unreadable<'a>(drawings: impl IntoIterator<Item = &'a Drawing>) -> Option<ReportError> {
    drawings.into_iter().find_map(|drawing| {
        let why = usvg::Tree::from_str(&drawing.svg, &usvg::Options::default()).err()?.to_string();
        Some(ReportError::Drawing { title: name(drawing), why })
    })
}
