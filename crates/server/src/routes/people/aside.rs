//! What is set aside of a job, for a manager to look at and let in with a reason; before there are people, for the desk.

use super::of_person;
use crate::answer::Refused;
use crate::body::Form;
use crate::door::Asker;
use crate::page::{self, in_address, moment, text};
use crate::running::Shared;
use crate::says::{self, Overstep};
use crate::time;
use axum::extract::{OriginalUri, Path, State};
use axum::response::Response;
use record::Held;
use serde::Deserialize;
use std::sync::Arc;
use store::{Aside, Database, Device, Known, LettingIn, Office, People, SetAside, Store, StoreError};
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
    let (aside, devices) = shared.read(move |store| looked_at(store, &asked)).await?;
    let root = if uri.path().starts_with("/desk/") { "/desk" } else { "/people" };
    let action = format!("{root}/jobs/{}/aside/let-in", in_address(&job));
    let mut numbers: Vec<i64> = aside.iter().map(|(aside, _)| aside.brought_by).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let content: String =
        numbers.iter().map(|number| of_device(*number, &aside, &devices, &action)).collect();
    let none = "<p>Nothing is set aside.</p>\n".to_owned();
    let content = if content.is_empty() { none } else { content };
    Ok(of_person(&shared, &asker, (&format!("Set aside of {job}"), &content)))
}

/// What is aside, each with why where that is not the device, and every device there is or was.
type LookedAt = (Vec<(Aside, Option<Overstep>)>, Vec<Device>);

fn looked_at(store: &Database, job: &str) -> Result<LookedAt, StoreError> {
    let devices = [store.devices_gone()?, store.devices()?].concat();
    let with_why = |aside: Aside| {
        let why = overstep(store, &aside, &devices)?;
        Ok((aside, why))
    };
    let aside = store.aside(job, 0, MOST)?.into_iter().map(with_why).collect::<Result<_, StoreError>>()?;
    Ok((aside, devices))
}

/// Why an entry of a device that is paired is aside, by what its holder is and is called now.
fn overstep(store: &Database, aside: &Aside, devices: &[Device]) -> Result<Option<Overstep>, StoreError> {
    let device = devices.iter().find(|device| device.number == aside.brought_by && device.gone.is_none());
    let holder = device.and_then(|device| device.person);
    let holder: Vec<Known> =
        holder.map(|person| store.person(person)).transpose()?.flatten().into_iter().collect();
    let find =
        |id: record::EntryId| store.entry(&id.to_string()).map(|held| held.as_ref().map(says::Target::of));
    let struck = says::struck(&aside.held, find)?;
    Ok(says::oversteps(&holder.iter().collect::<Vec<_>>(), &aside.held, &struck))
}

fn of_device(number: i64, all: &[(Aside, Option<Overstep>)], devices: &[Device], action: &str) -> String {
    let device = devices.iter().find(|device| device.number == number);
    let name = text(device.map_or("a device", |device| device.name.as_str()));
    let gone = device.and_then(|device| device.gone);
    let of_this: Vec<_> = all.iter().filter(|(aside, _)| aside.brought_by == number).collect();
    let rows: String = of_this.iter().map(|(aside, why)| row(aside, gone, why.as_ref())).collect();
    let last = of_this.last().map_or(0, |(aside, _)| aside.number).to_string();
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

fn row(aside: &Aside, gone: Option<i64>, why: Option<&Overstep>) -> String {
    let (entered, kind, author) = match &aside.held {
        Held::Known(entry) => {
            (Some(entry.entered_at.seconds()), entry.body.kind().word, entry.author.clone())
        }
        Held::Newer(_) => (None, "of a newer version", String::new()),
    };
    let side = match (entered, gone) {
        (Some(entered), Some(gone)) if entered <= gone => " (before it was let go)".to_owned(),
        (Some(_), Some(_)) => " (after it was let go)".to_owned(),
        (Some(_), None) => format!(" ({})", why.map_or("let go then, and paired again".to_owned(), told)),
        _ => String::new(),
    };
    let entered = entered.map(moment).unwrap_or_default() + &side;
    let shaft = aside.held.shaft().unwrap_or_default().to_owned();
    let cells = [entered, shaft, kind.to_owned(), author, moment(aside.at)];
    let cells: String = cells.iter().map(|cell| format!("<td>{}</td>", text(cell))).collect();
    format!("<tr>{cells}</tr>\n")
}

/// Why an entry is aside that a paired device brought.
fn told(why: &Overstep) -> String {
    match why {
        Overstep::Role => "for another role to say".to_owned(),
        Overstep::Name(name) => format!("in the name of {name}, who does not hold the device"),
        Overstep::Struck => "strikes through what another said".to_owned(),
    }
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
