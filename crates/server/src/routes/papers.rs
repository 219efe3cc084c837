//! The record as a file, the papers made of it, the seal, and the formats other programs read.

use crate::answer::{Refused, json};
use crate::body;
use crate::desk::Desk;
use crate::door::Asker;
use crate::running::{Shared, waiting};
use crate::site::{Asked, Papers, SealWanted};
use axum::extract::{Path, Request, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use record::Record;
use std::sync::Arc;
use store::Store;
use wire::http::{Code, SealAsked, ShaftIsSealed};
use wording::Notice;

/// Characters a name may have.
const NAME_MOST: usize = 120;

/// `GET /jobs/{job}/record.jsonl`. Every line is proved before it is handed out.
pub(crate) async fn record(
    State(shared): State<Arc<Shared>>,
    Path(job): Path<String>,
) -> Result<Response, Refused> {
    let name = file_name(&[&job], "jsonl");
    let lines = waiting(move || of_job(&shared, &job).map(|record| wire::write_lines(&record))).await?;
    Ok(file(lines.into_bytes(), "application/jsonl", &name))
}

/// `GET /jobs/{job}/shafts/{shaft}/package.pdf`.
pub(crate) async fn package(
    State(shared): State<Arc<Shared>>,
    Path(place): Path<(String, String)>,
) -> Result<Response, Refused> {
    let name = file_name(&[&place.0, &place.1], "pdf");
    let bytes = of_shaft(shared, place, |papers, asked| papers.package_pdf(asked)).await?;
    Ok(file(bytes, "application/pdf", &name))
}

/// `GET /jobs/{job}/shafts/{shaft}/log.csv`.
pub(crate) async fn log(
    State(shared): State<Arc<Shared>>,
    Path(place): Path<(String, String)>,
) -> Result<Response, Refused> {
    let name = file_name(&[&place.0, &place.1], "csv");
    let bytes = of_shaft(shared, place, |papers, asked| papers.log_csv(asked)).await?;
    Ok(file(bytes, "text/csv; charset=utf-8", &name))
}

/// `GET /jobs/{job}/shafts/{shaft}/sealed.pdf`.
pub(crate) async fn sealed(
    State(shared): State<Arc<Shared>>,
    Path(place): Path<(String, String)>,
) -> Result<Response, Refused> {
    let name = file_name(&[&place.0, &place.1, "sealed"], "pdf");
    let bytes = of_shaft(shared, place, |papers, asked| papers.sealed_pdf(asked)).await?;
    Ok(file(bytes, "application/pdf", &name))
}

/// `GET /jobs/{job}/shafts/{shaft}/sealed.tsr`.
pub(crate) async fn time_stamp(
    State(shared): State<Arc<Shared>>,
    Path(place): Path<(String, String)>,
) -> Result<Response, Refused> {
    let name = file_name(&[&place.0, &place.1, "sealed"], "tsr");
    let bytes = of_shaft(shared, place, |papers, asked| papers.time_stamp(asked)).await?;
    Ok(file(bytes, "application/timestamp-reply", &name))
}

/// What is made of the record of one shaft, on a thread of its own.
async fn of_shaft(
    shared: Arc<Shared>,
    (job, shaft): (String, String),
    make: fn(&dyn Papers, &Asked<'_>) -> Result<Vec<u8>, Notice>,
) -> Result<Vec<u8>, Refused> {
    waiting(move || {
        let record = of_job(&shared, &job)?;
        has_shaft(&record, &job, &shaft)?;
        let asked = Asked { record: &record, shaft: &shaft, at: shared.site_time(&job) };
        make(&*shared.site.papers, &asked).map_err(Refused::paper)
    })
    .await
}

/// `GET /jobs/{job}/exports/{format}`.
pub(crate) async fn export(
    State(shared): State<Arc<Shared>>,
    Path((job, format)): Path<(String, String)>,
) -> Result<Response, Refused> {
    let named = job.clone();
    let make = move || {
        let record = of_job(&shared, &job)?;
        let none = || Refused::new(Code::NOT_FOUND, format!("There is no format `{format}`."));
        shared.site.papers.export(&record, &format).ok_or_else(none)
    };
    let made = waiting(make).await?;
    Ok(file(made.bytes, made.media, &file_name(&[&named], made.ending)))
}

/// `POST /jobs/{job}/shafts/{shaft}/seal`. Where there are people, the name of the one who asks stands beside what was typed.
pub(crate) async fn seal(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path((job, shaft)): Path<(String, String)>,
    request: Request,
) -> Result<Response, Refused> {
    let (parts, body) = request.into_parts();
    let asked: SealAsked = body::small(&parts.headers, body, &shared.site.limits).await?;
    let by = who_seals(&asker, &asked.by)?;
    let make = move || {
        has_shaft(&of_job(&shared, &job)?, &job, &shaft)?;
        let with_open_findings = asked.with_open_findings;
        let wanted = SealWanted { job: &job, shaft: &shaft, by: &by, with_open_findings };
        shared.site.papers.seal(&Desk(Arc::clone(&shared)), &wanted).map_err(Refused::paper)
    };
    json(&ShaftIsSealed { entry: Some(waiting(make).await?) })
}

fn who_seals(asker: &Asker, typed: &str) -> Result<String, Refused> {
    let name = match (asker.name(), typed.trim()) {
        (None, typed) => typed.to_owned(),
        (Some(known), "") => known.to_owned(),
        (Some(known), typed) if typed == known => known.to_owned(),
        (Some(known), typed) => format!("{typed} ({known})"),
    };
    let fits = (1..=NAME_MOST).contains(&name.chars().count()) && !name.chars().any(char::is_control);
    let what = || format!("Who seals is named by 1 to {NAME_MOST} characters.");
    if fits { Ok(name) } else { Err(Refused::new(Code::MALFORMED, what())) }
}

fn of_job(shared: &Shared, job: &str) -> Result<Record, Refused> {
    let record = shared.readers.with(|store| store.record(job))?;
    let what = || format!("The desk has no job `{job}`.");
    if record.is_empty() { Err(Refused::new(Code::NOT_FOUND, what())) } else { Ok(record) }
}

fn has_shaft(record: &Record, job: &str, shaft: &str) -> Result<(), Refused> {
    let what = || format!("The job `{job}` has no shaft `{shaft}`.");
    let has = record.shafts().contains(&shaft);
    if has { Ok(()) } else { Err(Refused::new(Code::NOT_FOUND, what())) }
}

fn file(bytes: Vec<u8>, media: &'static str, name: &str) -> Response {
    let mut response = bytes.into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(media));
    if let Ok(disposition) = HeaderValue::from_str(&format!("inline; filename=\"{name}\"")) {
        headers.insert(header::CONTENT_DISPOSITION, disposition);
    }
    response
}

/// A file name out of names people chose: letters and digits stay, anything else is a hyphen.
fn file_name(names: &[&str], ending: &str) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() || matches!(c, '-' | '_') { c } else { '-' };
    let names: Vec<String> = names.iter().map(|name| name.chars().map(plain).collect()).collect();
    format!("{}.{ending}", names.join("-"))
}
