//! The people of the office and of a job, for those who manage them.
//!
//! A manager of a job gives and takes roles on that job, and invites whoever is new. A new invitation for somebody who is
//! there already is a way into that person's place, so only a manager of the office makes one.

use super::{invited, names, of_person, shown};
use crate::answer::Refused;
use crate::body::Form;
use crate::door::Asker;
use crate::page::{self, in_address, text};
use crate::running::Shared;
use crate::writer::NotWritten;
use crate::{code, time};
use axum::extract::{Path, State};
use axum::response::Response;
use serde::Deserialize;
use std::sync::Arc;
use store::{Device, EVERY_JOB, Known, Left, Office, People, Removal, Role, SetAside, Store, name_of_person};
use wire::http::Code;

/// Where the pages of a job begin.
fn place(job: &str) -> String {
    if job == EVERY_JOB { "/people/office".to_owned() } else { format!("/people/jobs/{}", in_address(job)) }
}

/// `GET /people/jobs/{job}`.
pub(crate) async fn job(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(job): Path<String>,
) -> Result<Response, Refused> {
    let asked = job.clone();
    let (people, aside) =
        shared.read(move |store| Ok((store.people_on(&asked)?, store.aside_of_jobs()?))).await?;
    let aside = aside.iter().find(|(of, _)| *of == job).map_or(0, |(_, count)| *count);
    let entries = if aside == 1 { "1 entry is".to_owned() } else { format!("{aside} entries are") };
    let link = format!("<p><a href=\"{}/aside\">{entries} set aside</a></p>\n", place(&job));
    let content = roles(&people, &job) + &give(&job) + if aside > 0 { &link } else { "" };
    Ok(of_person(&shared, &asker, (&format!("The people of {job}"), &content)))
}

/// Everybody's roles on a job, each with the key that takes it away.
fn roles(people: &[Known], job: &str) -> String {
    let action = format!("{}/take", place(job));
    let held = people.iter().flat_map(|known| known.roles.0.iter().map(move |held| (known, held)));
    let rows =
        held.filter(|(_, (on, _))| on == job).map(|(known, (_, role))| shown::role(known, *role, &action));
    let rows: String = rows.collect();
    let list =
        if rows.is_empty() { "<p>Nobody yet.</p>\n".to_owned() } else { format!("<ul>\n{rows}</ul>\n") };
    let last = "<p class=\"small\">The last who manages the office and comes in stays.</p>\n";
    let last = if job == EVERY_JOB { last } else { "" };
    format!(
        "<section aria-labelledby=\"roles\">\n<h2 id=\"roles\">Roles on {}</h2>\n{list}{last}</section>\n",
        shown::job(job)
    )
}

/// The form that gives a role.
fn give(job: &str) -> String {
    let name = page::field(
        ("name", "name", "Name"),
        "required maxlength=\"60\" autocomplete=\"off\" autocapitalize=\"none\" spellcheck=\"false\"",
    );
    let about =
        page::field(("on", "job", "Job; empty is every job"), "maxlength=\"200\" autocomplete=\"off\"");
    let about = if job == EVERY_JOB { about } else { String::new() };
    let under = page::field(
        ("signs-as", "signs_as", "Of somebody new: signs as, where that is another name"),
        "maxlength=\"120\" autocomplete=\"off\" spellcheck=\"false\"",
    );
    let fields = name + &shown::choice() + &about + &under;
    let form = page::form(&format!("{}/give", place(job)), &fields, "Give the role");
    format!(
        "<section aria-labelledby=\"give\">\n<h2 id=\"give\">Give a role</h2>\n{form}\
         <p class=\"small\">For a new name an invitation is made: hand it to that person yourself.</p>\n</section>\n"
    )
}

/// `GET /people/office`.
pub(crate) async fn office(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    let (people, devices) = shared.read(|store| Ok((store.people_on(EVERY_JOB)?, store.devices()?))).await?;
    let jobs = shared.read(|store| store.jobs()).await?;
    let content = everybody(&people)
        + &names::form(&people)
        + &roles(&people, EVERY_JOB)
        + &give(EVERY_JOB)
        + &of_jobs(&jobs)
        + &of_devices(&devices, &people);
    let list = "<p><a href=\"/people/office/sign-ins\">Sign-ins and refusals</a></p>\n";
    Ok(of_person(&shared, &asker, ("The people of the office", &(content + list))))
}

fn everybody(people: &[Known]) -> String {
    let row = |known: &Known| {
        let (number, name) = (known.person.number, text(&known.person.name));
        let both = text(&known.person.known_as());
        let at = |what: &str| format!("/people/office/people/{number}/{what}");
        let go = format!(
            "<form method=\"post\" action=\"{}\"><button aria-label=\"Let {name} go\">Let go</button></form>",
            at("let-go")
        );
        let invite = format!(
            "<form method=\"post\" action=\"{}\"><button aria-label=\"Invite {name} again\">Invite again</button></form>",
            at("invite")
        );
        let go = if known.person.gone.is_none() { go } else { String::new() };
        format!(
            "<li><span class=\"name\">{both}</span> <span>{}</span>{invite}{go}</li>\n",
            shown::state(known)
        )
    };
    let rows: String = people.iter().map(row).collect();
    format!(
        "<section aria-labelledby=\"all\">\n<h2 id=\"all\">Everybody</h2>\n<ul>\n{rows}</ul>\n\
         <p class=\"small\">Who is let go is signed out everywhere, and every device of that person is let go too. What \
         was written stays.</p>\n</section>\n"
    )
}

fn of_jobs(jobs: &[String]) -> String {
    let row = |job: &String| format!("<li><a href=\"{}\">{}</a></li>\n", place(job), text(job));
    let rows: String = jobs.iter().map(row).collect();
    let list = if rows.is_empty() { "<p>None yet.</p>\n".to_owned() } else { format!("<ul>\n{rows}</ul>\n") };
    format!("<section aria-labelledby=\"jobs\">\n<h2 id=\"jobs\">Jobs</h2>\n{list}</section>\n")
}

fn of_devices(devices: &[Device], people: &[Known]) -> String {
    let row = |device: &Device| {
        let holder = people.iter().find(|known| Some(known.person.number) == device.person);
        let holder = holder.map_or("nobody", |known| known.person.name.as_str());
        let held = Device { name: format!("{} of {holder}", device.name), ..device.clone() };
        shown::device(&held, &format!("/people/office/devices/{}/let-go", device.number))
    };
    let rows: String = devices.iter().map(row).collect();
    let list = if rows.is_empty() { "<p>None yet.</p>\n".to_owned() } else { format!("<ul>\n{rows}</ul>\n") };
    format!(
        "<section aria-labelledby=\"devices\">\n<h2 id=\"devices\">Devices</h2>\n{list}\
         <p class=\"small\">A device of nobody was paired before there were people. It may do nothing until it is paired \
         again; what it holds waits on it.</p>\n</section>\n"
    )
}

/// What a role is given by.
#[derive(Deserialize)]
pub(crate) struct Given {
    name: String,
    role: String,
    #[serde(default)]
    job: String,
    /// Kept for somebody new alone: whose name it is already is for a manager of the office to say.
    #[serde(default)]
    signs_as: String,
}

/// `POST /people/jobs/{job}/give`.
pub(crate) async fn give_on_job(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(job): Path<String>,
    form: Form<Given>,
) -> Result<Response, Refused> {
    let given = form.fields;
    // The job is that of the address, which the door looked at, whatever the form says.
    given_to(&shared, &asker, Given { job, ..given }).await
}

/// `POST /people/office/give`.
pub(crate) async fn give_in_office(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    form: Form<Given>,
) -> Result<Response, Refused> {
    let given = form.fields;
    let job = given.job.trim().to_owned();
    given_to(&shared, &asker, Given { job, ..given }).await
}

async fn given_to(shared: &Arc<Shared>, asker: &Asker, given: Given) -> Result<Response, Refused> {
    let (name, role, signs_as) = (name(&given.name)?, role(&given.role)?, names::read(&given.signs_as)?);
    let code = code::token().map_err(NotWritten::Chance)?;
    let now = time::now().seconds();
    let (asked, job, secret) = (name.clone(), given.job.clone(), code.clone());
    let give = move |store: &mut store::Database| {
        let new = store.person_named(&asked)?.is_none();
        let number = store.add_person(&asked, now)?;
        store.give_role(number, &job, role)?;
        if new {
            store.sign_as(number, signs_as.as_deref())?;
            store.invite(number, &secret, now + invited::SERVES_SECONDS)?;
        }
        Ok(new)
    };
    let new = shared.writer.ask(give).await?;
    shared.rights_changed();
    let by = asker.name().unwrap_or_default();
    let on = if given.job == EVERY_JOB { "every job" } else { &given.job };
    shared.note(asker, ("role-given", Some(&name)), &format!("{} on {on}, by {by}", role.spoken())).await;
    if new { Ok(invitation(shared, asker, (&name, &code)).await) } else { Ok(page::to(&place(&given.job))) }
}

/// The invitation, shown once.
async fn invitation(shared: &Arc<Shared>, asker: &Asker, (name, code): (&str, &str)) -> Response {
    let by = asker.name().unwrap_or_default();
    shared.note(asker, ("invited", Some(name)), &format!("by {by}")).await;
    let link = format!("{}/people/invited#{code}", shared.reached_at());
    let content = format!(
        "<p>Hand this to <strong>{}</strong>, by hand or in a message only that person reads. It is shown this once, \
         serves once, for seven days, and whoever holds it comes in under that name.</p>\n<p class=\"link\">{}</p>\n",
        text(name),
        text(&link)
    );
    of_person(shared, asker, ("An invitation", &content))
}

fn name(text: &str) -> Result<String, Refused> {
    let what = "A name has 1 to 60 letters, digits and the signs . - _ @, and no spaces.";
    name_of_person(text).ok_or_else(|| Refused::new(Code::MALFORMED, what))
}

fn role(word: &str) -> Result<Role, Refused> {
    Role::named(word).ok_or_else(|| Refused::new(Code::MALFORMED, "There is no such role."))
}

/// What a role is taken by.
#[derive(Deserialize)]
pub(crate) struct Taken {
    person: i64,
    role: String,
}

/// `POST /people/jobs/{job}/take`.
pub(crate) async fn take_on_job(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(job): Path<String>,
    form: Form<Taken>,
) -> Result<Response, Refused> {
    let taken = form.fields;
    taken_from(&shared, &asker, (job, taken)).await
}

/// `POST /people/office/take`: a role on every job.
pub(crate) async fn take_in_office(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    form: Form<Taken>,
) -> Result<Response, Refused> {
    let taken = form.fields;
    taken_from(&shared, &asker, (EVERY_JOB.to_owned(), taken)).await
}

async fn taken_from(
    shared: &Arc<Shared>,
    asker: &Asker,
    (job, taken): (String, Taken),
) -> Result<Response, Refused> {
    let role = role(&taken.role)?;
    let known = of_number(shared, taken.person).await?;
    let on = job.clone();
    let held = shared.writer.ask(move |store| store.take_role(taken.person, &on, role)).await?;
    shared.rights_changed();
    let none = || format!("{} is not {} there.", known.person.name, role.spoken());
    done(held, &known, none)?;
    let by = asker.name().unwrap_or_default();
    let about =
        format!("{} on {}, by {by}", role.spoken(), if job == EVERY_JOB { "every job" } else { &job });
    shared.note(asker, ("role-taken", Some(&known.person.name)), &about).await;
    Ok(page::to(&place(&job)))
}

/// Whether something was taken from a person, and why not.
fn done(removal: Removal, known: &Known, none: impl FnOnce() -> String) -> Result<(), Refused> {
    match removal {
        Removal::Done => Ok(()),
        Removal::NotThere => Err(Refused::new(Code::NOT_FOUND, none())),
        Removal::LastManager => {
            let what = format!("Nobody but {} manages the office and comes in.", known.person.name);
            Err(Refused::new(Code::LAST_MANAGER, what))
        }
    }
}

pub(super) async fn of_number(shared: &Arc<Shared>, number: i64) -> Result<Known, Refused> {
    let known = shared.read(move |store| store.person(number)).await?;
    known.ok_or_else(|| Refused::new(Code::NOT_FOUND, format!("There is no person {number}.")))
}

/// `POST /people/office/people/{number}/let-go`.
pub(crate) async fn let_go(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(number): Path<i64>,
) -> Result<Response, Refused> {
    let known = of_number(&shared, number).await?;
    let now = time::now().seconds();
    let went = shared.writer.ask(move |store| store.let_person_go(number, now, Left::AManager)).await?;
    shared.rights_changed();
    done(went, &known, || format!("{} was let go before.", known.person.name))?;
    let by = format!("by {}", asker.name().unwrap_or_default());
    shared.note(&asker, ("person-let-go", Some(&known.person.name)), &by).await;
    Ok(page::to("/people/office"))
}

/// `POST /people/office/people/{number}/invite`.
pub(crate) async fn invite(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(number): Path<i64>,
) -> Result<Response, Refused> {
    let known = of_number(&shared, number).await?;
    let code = code::token().map_err(NotWritten::Chance)?;
    let (secret, until) = (code.clone(), time::now().seconds() + invited::SERVES_SECONDS);
    shared.writer.ask(move |store| store.invite(number, &secret, until)).await?;
    Ok(invitation(&shared, &asker, (&known.person.name, &code)).await)
}

/// `POST /people/office/devices/{number}/let-go`.
pub(crate) async fn let_device_go(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(number): Path<i64>,
) -> Result<Response, Refused> {
    shared.let_device_go(&asker, number).await?;
    Ok(page::to("/people/office"))
}
