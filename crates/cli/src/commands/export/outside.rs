//! The formats other programs read (docs/formats.md).

use crate::args::Export;
use crate::file::{file_name, write};
use crate::folder::Folder;
use crate::problem::Problem;
use crate::progress::Progress;
use crate::screen::Screen;
use crate::view::View;
use assess::shape::{Asked, Shape, heights};
use clap::ValueEnum;
use formats::ifc::{self, Schema};
use formats::{Job, Shaft};
use formats::{ags, csvw, geojson, parquet, workbook};
use record::Record;
use server::Exported;
use std::path::{Path, PathBuf};

/// The name and version of the program, as files carry it.
const PROGRAM: &str = concat!("shaftbook ", env!("CARGO_PKG_VERSION"));

/// Files by their names: one where the format is a file, several where it is a folder.
type Made = Vec<(PathBuf, Vec<u8>)>;

/// Writes a job in one of the formats.
pub(super) fn write_out(
    job: &Path,
    what: Export,
    out: Option<&Path>,
    screen: &mut Screen,
) -> Result<(), Problem> {
    let record = Folder::open(job)?.record()?;
    let key = file_name(record.job().unwrap_or("job"));
    let progress = Progress::new();
    let views = views(&record, &progress);
    let job = job_of(&record, &views);
    let made = made(&job, what, (&key, out));
    for (path, bytes) in &made {
        write(path, bytes)?;
    }
    drop(progress);
    made.iter().for_each(|(path, _)| screen.line(&path.display().to_string()));
    Ok(())
}

/// A job in one of the formats as one file, with its media type and ending; `None` where there is no such format.
pub(crate) fn as_one_file(record: &Record, format: &str) -> Option<Exported> {
    let format = Export::from_str(format, false).ok()?;
    let (media, ending) = told(format)?;
    let views: Vec<View<'_>> =
        record.shafts().into_iter().map(|shaft| View::at(record, shaft, None)).collect();
    let job = job_of(record, &views);
    let bytes = match format {
        Export::Csvw => csvw::packed(&job),
        format => made(&job, format, ("", None)).into_iter().next()?.1,
    };
    Some(Exported { bytes, media, ending })
}

/// Media type and ending of a format.
fn told(format: Export) -> Option<(&'static str, &'static str)> {
    Some(match format {
        Export::Ifc | Export::Ifc4 => ("application/x-step", "ifc"),
        Export::Ags => ("text/plain; charset=us-ascii", "ags"),
        Export::Xlsx => ("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "xlsx"),
        Export::Csvw => ("application/zip", "zip"),
        Export::Geojson => ("application/geo+json", "geojson"),
        Export::Parquet => ("application/vnd.apache.parquet", "parquet"),
        Export::Record | Export::Tables | Export::Figures => return None,
    })
}

fn views<'r>(record: &'r Record, progress: &Progress) -> Vec<View<'r>> {
    let view = |shaft: &str| {
        progress.say(&format!("Reckoning {shaft} …"));
        View::at(record, shaft, None)
    };
    record.shafts().into_iter().map(view).collect()
}

/// The job as the formats take it.
pub(crate) fn job_of<'v, 'r>(record: &'r Record, views: &'v [View<'r>]) -> Job<'v, 'r> {
    let shaft = |view: &'v View<'r>| {
        let asked = Asked::of(&view.log, &view.assessment, view.earlier());
        Shaft {
            name: &view.shaft,
            log: &view.log,
            assessment: &view.assessment,
            shape: Shape::of(asked, heights(false)).ok(),
        }
    };
    Job { record, shafts: views.iter().map(shaft).collect(), program: PROGRAM }
}

fn made(job: &Job<'_, '_>, what: Export, (key, out): (&str, Option<&Path>)) -> Made {
    let one = |name: &str, bytes: Vec<u8>| {
        vec![(out.map_or_else(|| PathBuf::from(format!("{key}{name}")), Path::to_path_buf), bytes)]
    };
    match what {
        Export::Ifc => one(".ifc", ifc::write(job, Schema::Ifc43).into_bytes()),
        Export::Ifc4 => one("-ifc4.ifc", ifc::write(job, Schema::Ifc4).into_bytes()),
        Export::Ags => one(".ags", ags::write(job).into_bytes()),
        Export::Xlsx => one(".xlsx", workbook::write(job)),
        Export::Geojson => one(".geojson", geojson::write(job).into_bytes()),
        Export::Parquet => one(".parquet", parquet::write(job)),
        Export::Csvw => {
            let folder = out.map_or_else(|| PathBuf::from(format!("{key}-csvw")), Path::to_path_buf);
            csvw::write(job).into_iter().map(|(name, bytes)| (folder.join(name), bytes)).collect()
        }
        Export::Record | Export::Tables | Export::Figures => Vec::new(),
    }
}
