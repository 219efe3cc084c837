//! The list of sign-ins and refusals, newest first.

use super::of_person;
use crate::answer::Refused;
use crate::door::Asker;
use crate::page::{moment, text};
use crate::running::Shared;
use axum::extract::rejection::QueryRejection;
use axum::extract::{Query, State};
use axum::response::Response;
use serde::Deserialize;
use std::sync::Arc;
use store::{SignIn, SignIns};
use wire::http::Code;

/// Rows of a page.
const ROWS: usize = 100;

#[derive(Deserialize)]
pub(crate) struct Asked {
    #[serde(default = "newest")]
    before: i64,
}

fn newest() -> i64 {
    i64::MAX
}

/// `GET /people/office/sign-ins`.
pub(crate) async fn page(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    asked: Result<Query<Asked>, QueryRejection>,
) -> Result<Response, Refused> {
    let Query(Asked { before }) =
        asked.map_err(|error| Refused::new(Code::MALFORMED, "`before` is a whole number.").inside(error))?;
    let list = shared.read(move |store| store.sign_ins(before, ROWS)).await?;
    let rows: String = list.iter().map(|(_, happened)| row(happened)).collect();
    let older = list.last().filter(|_| list.len() == ROWS);
    let older = older.map(|(number, _)| {
        format!("<p><a href=\"/people/office/sign-ins?before={number}\">Earlier ones</a></p>\n")
    });
    let content = format!(
        "<p>Only ever added to. A name nobody has is not written down.</p>\n\
         <div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Sign-ins and refusals\"><table>\n\
         <thead><tr><th scope=\"col\">When</th><th scope=\"col\">What</th><th scope=\"col\">Who</th>\
         <th scope=\"col\">From</th><th scope=\"col\">About</th></tr></thead>\n<tbody>\n{rows}</tbody></table></div>\n{}",
        older.unwrap_or_default()
    );
    Ok(of_person(&shared, &asker, ("Sign-ins and refusals", &content)))
}

fn row(happened: &SignIn) -> String {
    let SignIn { at, what, person, address, about } = happened;
    let cells =
        [moment(*at), what.clone(), person.clone().unwrap_or_default(), address.clone(), about.clone()];
    let cells: String = cells.iter().map(|cell| format!("<td>{}</td>", text(cell))).collect();
    format!("<tr>{cells}</tr>\n")
}
