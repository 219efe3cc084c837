//! What is set aside of a job, for a manager to look at and let in with a reason; before there are people, for the desk.

use super::of_person;
use crate::answer::Refused;
use crate::body::Form;
use crate::door::Asker;
use crate::gate::said_by;
use crate::page::{self, in_address, moment, text};
use crate::running::Shared;
use crate::time;
use axum::extract::{OriginalUri, Path, State};
use axum::response::Response;
use record::Held;
use serde::Deserialize;
use std::sync::Arc;
use store::{Aside, Device, LettingIn, Office, SetAside};
use wire::http::Code;

/// Entries of a page; the rest comes when these are let in.
const MOST: usize = 200;

/// Characters of a reason.
const REASON_MOST: usize = 1000;

/// `GET /people/jobs/{job}/aside`, `GET /desk/jobs/{job}/aside`.
pub(crate) async fn page(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(job): Path<String>,
    OriginalUri(uri): OriginalUri,
) -> Result<Response, Refused> {
    let asked = job.clone();
    let (aside, devices) = shared
        .read(move |store| {
            let all = [store.devices_gone()?, store.devices()?].concat();
            Ok((store.aside(&asked, 0, MOST)?, all))
        })
        .await?;
    let root = if uri.path().starts_with("/desk/") { "/desk" } else { "/people" };
    let action = format!("{root}/jobs/{}/aside/let-in", in_address(&job));
    let mut numbers: Vec<i64> = aside.iter().map(|aside| aside.brought_by).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let content: String =
        numbers.iter().map(|number| of_device(*number, &aside, &devices, &action)).collect();
    let none = "<p>Nothing is set aside.</p>\n".to_owned();
    let content = if content.is_empty() { none } else { content };
    Ok(of_person(&shared, &asker, (&format!("Set aside of {job}"), &content)))
}

fn of_device(number: i64, all: &[Aside], devices: &[Device], action: &str) -> String {
    let device = devices.iter().find(|device| device.number == number);
    let name = text(device.map_or("a device", |device| device.name.as_str()));
    let gone = device.and_then(|device| device.gone);
    let of_this: Vec<&Aside> = all.iter().filter(|aside| aside.brought_by == number).collect();
    let rows: String = of_this.iter().map(|aside| row(aside, gone)).collect();
    let last = of_this.last().map_or(0, |aside| aside.number).to_string();
    let reason = format!(
        "<p class=\"field\"><label for=\"reason-{number}\">Why they may be in the record</label>\
         <textarea id=\"reason-{number}\" name=\"reason\" required maxlength=\"{REASON_MOST}\" rows=\"3\"></textarea></p>"
    );
    let fields = page::hidden("device", &number.to_string()) + &page::hidden("up_to", &last) + &reason;
    let form = page::form(action, &fields, "Let these in");
    let since = gone.map_or_else(|| "paired".to_owned(), |at| format!("let go {}", moment(at)));
    format!(
        "<section aria-labelledby=\"device-{number}\">\n<h2 id=\"device-{number}\">{name}, {since}</h2>\n\
         <div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Entries of {name}\"><table>\n\
         <thead><tr><th scope=\"col\">Entered, by its clock</th><th scope=\"col\">Shaft</th><th scope=\"col\">Kind</th>\
         <th scope=\"col\">Author</th><th scope=\"col\">Came</th></tr></thead>\n<tbody>\n{rows}</tbody></table></div>\n\
         {form}</section>\n"
    )
}

fn row(aside: &Aside, gone: Option<i64>) -> String {
    let (entered, kind, author) = match &aside.held {
        Held::Known(entry) => {
            (Some(entry.entered_at.seconds()), entry.body.kind().word, entry.author.clone())
        }
        Held::Newer(_) => (None, "of a newer version", String::new()),
    };
    let side = match (entered, gone) {
        (Some(entered), Some(gone)) if entered <= gone => " (before it was let go)",
        (Some(_), Some(_)) => " (after it was let go)",
        (Some(_), None) if is_for_another(&aside.held) => " (for another role to say)",
        (Some(_), None) => " (let go then, and paired again)",
        _ => "",
    };
    let entered = entered.map(moment).unwrap_or_default() + side;
    let shaft = aside.held.shaft().unwrap_or_default().to_owned();
    let cells = [entered, shaft, kind.to_owned(), author, moment(aside.at)];
    let cells: String = cells.iter().map(|cell| format!("<td>{}</td>", text(cell))).collect();
    format!("<tr>{cells}</tr>\n")
}

/// Whether an entry says what one role alone says.
fn is_for_another(held: &Held) -> bool {
    matches!(held, Held::Known(entry) if said_by(&entry.body).is_some())
}

#[derive(Deserialize)]
pub(crate) struct Chosen {
    device: i64,
    up_to: i64,
    reason: String,
}

/// `POST /people/jobs/{job}/aside/let-in`, `POST /desk/jobs/{job}/aside/let-in`.
pub(crate) async fn let_in(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(job): Path<String>,
    form: Form<Chosen>,
) -> Result<Response, Refused> {
    let Form { fields: chosen, path } = form;
    let reason = reason(&chosen.reason)?;
    let by = asker.name().unwrap_or("the desk").to_owned();
    let now = time::now().seconds();
    let (named, of, why) = (by.clone(), job.clone(), reason.clone());
    let let_in = move |store: &mut store::Database| {
        let (device, up_to) = (chosen.device, chosen.up_to);
        let letting = LettingIn { job: &of, brought_by: device, up_to, by: &named, reason: &why, now };
        store.let_in(&letting)
    };
    let count = shared.writer.ask(let_in).await?.len();
    let about = format!("{count} entries of {job} by device {}: {reason}", chosen.device);
    shared.note(&asker, ("let-in", Some(&by)), &about).await;
    Ok(page::to(path.trim_end_matches("/let-in")))
}

fn reason(text: &str) -> Result<String, Refused> {
    let reason = text.trim();
    let fits = (1..=REASON_MOST).contains(&reason.chars().count());
    let what = || format!("A reason has 1 to {REASON_MOST} characters.");
    if fits { Ok(reason.to_owned()) } else { Err(Refused::new(Code::MALFORMED, what())) }
}
