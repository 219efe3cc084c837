//! `package`: the PDF of a shaft, or of every shaft and the job.

use crate::args::{Command, Paper as Asked};
use crate::file::{file_name, write};
use crate::folder::{Folder, shaft_of};
use crate::problem::Problem;
use crate::progress::Progress;
use crate::screen::Screen;
use crate::view::View;
use package::Source;
use quantity::Moment;
use record::Record;
use record::choices::JobUnits;
use report::{Fonts, Paper, Pdf, ReportError};
use std::path::Path;

pub(crate) fn run(command: &Command, now: Moment, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Package { shaft, out, paper, job } = command else { return Ok(()) };
    let record = Folder::open(&job.job)?.record()?;
    let shafts: Vec<String> = match shaft {
        Some(shaft) => vec![shaft_of(&record, shaft)?],
        None => record.shafts().into_iter().map(str::to_owned).collect(),
    };
    let views: Vec<View<'_>> = shafts.iter().map(|shaft| View::at(&record, shaft, None)).collect();
    let fonts = Fonts::new(&house_fonts()).map_err(|error| failed(&error))?;
    let sources: Vec<Source<'_, '_>> =
        views.iter().map(|view| source(&record, view, now, paper_of(*paper, view))).collect();
    let progress = Progress::new();
    for (index, source) in sources.iter().enumerate() {
        progress.say(&format!(
            "Making the package of {} ({} of {}) …",
            source.shaft,
            index + 1,
            sources.len()
        ));
        let pdf = report::package(&package::shaft(source), &fonts).map_err(|error| failed(&error))?;
        save(&out.join(format!("{}.pdf", file_name(source.shaft))), &pdf, (&progress, screen))?;
    }
    let summary =
        if shaft.is_none() { package::job(&record, &sources, now, first_paper(&sources)) } else { None };
    if let Some(summary) = summary {
        let pdf = report::job_summary(&summary, &fonts).map_err(|error| failed(&error))?;
        save(&out.join("job.pdf"), &pdf, (&progress, screen))?;
    }
    Ok(())
}

pub(crate) fn house_fonts() -> Vec<&'static [u8]> {
    figure::FONTS.iter().map(|(_, bytes)| *bytes).collect()
}

pub(crate) fn source<'v, 'r>(
    record: &'r Record,
    view: &'v View<'r>,
    made: Moment,
    paper: Paper,
) -> Source<'v, 'r> {
    Source {
        shaft: &view.shaft,
        record,
        log: &view.log,
        set: &view.set,
        assessment: &view.assessment,
        earlier: view.earlier(),
        made,
        paper,
        sealing: None,
    }
}

/// The paper asked for; else that of the job's units.
pub(crate) fn paper_of(asked: Option<Asked>, view: &View<'_>) -> Paper {
    match (asked, view.assessment.picture.job.map(|job| job.units)) {
        (Some(Asked::Letter), _) | (None, Some(JobUnits::Us)) => Paper::Letter,
        (Some(Asked::A4), _) | (None, _) => Paper::A4,
    }
}

fn first_paper(sources: &[Source<'_, '_>]) -> Paper {
    sources.first().map_or(Paper::A4, |source| source.paper)
}

fn save(path: &Path, pdf: &Pdf, (progress, screen): (&Progress, &mut Screen)) -> Result<(), Problem> {
    write(path, &pdf.bytes)?;
    progress.say("");
    screen.line(&path.display().to_string());
    Ok(())
}

pub(crate) fn failed(error: &ReportError) -> Problem {
    let what = format!("The pages could not be made: {error}.");
    let meaning = "There is no package of it; the record is whole.";
    Problem::new(what, meaning, "Keep the record and report what was printed here.")
}
