//! The record as a file, and the papers made of it.

use crate::answer::Refused;
use crate::running::{Shared, waiting};
use crate::site::Asked;
use axum::extract::{Path, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use record::Record;
use std::sync::Arc;
use store::Store;
use wire::http::Code;

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
    Path((job, shaft)): Path<(String, String)>,
) -> Result<Response, Refused> {
    let name = file_name(&[&job, &shaft], "pdf");
    let make = move || {
        let record = of_job(&shared, &job)?;
        has_shaft(&record, &job, &shaft)?;
        let asked = Asked { record: &record, shaft: &shaft, at: shared.site_time() };
        shared.site.papers.package_pdf(&asked).map_err(Refused::paper)
    };
    Ok(file(waiting(make).await?, "application/pdf", &name))
}

/// `GET /jobs/{job}/shafts/{shaft}/log.csv`.
pub(crate) async fn log(
    State(shared): State<Arc<Shared>>,
    Path((job, shaft)): Path<(String, String)>,
) -> Result<Response, Refused> {
    let name = file_name(&[&job, &shaft], "csv");
    let make = move || {
        let record = of_job(&shared, &job)?;
        has_shaft(&record, &job, &shaft)?;
        let asked = Asked { record: &record, shaft: &shaft, at: shared.site_time() };
        shared.site.papers.log_csv(&asked).map_err(Refused::paper)
    };
    Ok(file(waiting(make).await?, "text/csv; charset=utf-8", &name))
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
