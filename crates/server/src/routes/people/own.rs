//! Your own page: your roles, your devices and a code for one more, your passkeys, your password.

use super::{begun, chosen, new_password, of_person, passkeys, shown, sign_in};
use crate::answer::Refused;
use crate::body::Form;
use crate::desk::Desk;
use crate::door::Asker;
use crate::page::{self, in_address, text};
use crate::running::{Shared, waiting};
use axum::extract::{Path, State};
use axum::response::Response;
use serde::Deserialize;
use std::sync::Arc;
use store::{Device, EVERY_JOB, Known, Office, Passkeys, People, Person, Role, Roles};
use wire::http::Code;

/// `GET /people`.
pub(crate) async fn page(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    let known = asker.person()?;
    let number = known.person.number;
    let (mut devices, known_by) =
        shared.read(move |store| Ok((store.devices()?, store.passkeys_of(number)?))).await?;
    devices.retain(|device| device.person == Some(number));
    let doors = passkeys::own(&shared, &known_by) + &password();
    let content = signs(&known.person) + &roles(&known.roles) + &listed(&devices) + &doors;
    Ok(of_person(&shared, &asker, ("Your page", &content)))
}

/// The names that are taken from this person's devices.
fn signs(person: &Person) -> String {
    let other = person.signs_as.as_ref().map(|name| format!(" or <strong>{}</strong>", text(name)));
    format!(
        "<p>From your devices signatures are taken in the name <strong>{}</strong>{}. A manager of the office gives another \
         name.</p>\n",
        text(&person.name),
        other.unwrap_or_default()
    )
}

fn roles(roles: &Roles) -> String {
    let row = |(job, role): &(String, Role)| {
        let job = shown::job(job);
        format!("<li>{} on {job}{}</li>\n", role.spoken(), "")
    };
    let rows: String = roles.0.iter().map(row).collect();
    let rows =
        if rows.is_empty() { "<li>None yet. A manager of a job gives them.</li>\n".to_owned() } else { rows };
    format!(
        "<section aria-labelledby=\"roles\">\n<h2 id=\"roles\">Your roles</h2>\n<ul>\n{rows}</ul>\n{}</section>\n",
        managed(roles)
    )
}

/// The way to what one manages.
fn managed(roles: &Roles) -> String {
    let office = roles.everywhere(&[Role::Manager]);
    let jobs = roles.0.iter().filter(|(job, role)| *role == Role::Manager && job != EVERY_JOB);
    let link = |(job, _): &(String, Role)| {
        format!("<p><a href=\"/people/jobs/{}\">The people of {}</a></p>\n", in_address(job), text(job))
    };
    let office = if office {
        "<p><a href=\"/people/office\">The people and devices of the office</a></p>\n"
    } else {
        ""
    };
    office.to_owned() + &jobs.map(link).collect::<String>()
}

fn listed(devices: &[Device]) -> String {
    let row = |device: &Device| shown::device(device, &format!("/people/devices/{}/let-go", device.number));
    let rows: String = devices.iter().map(row).collect();
    let list = if rows.is_empty() { "<p>None yet.</p>\n".to_owned() } else { format!("<ul>\n{rows}</ul>\n") };
    let code = page::form("/people/codes", "", "New code for a device");
    format!(
        "<section aria-labelledby=\"devices\">\n<h2 id=\"devices\">Your devices</h2>\n{list}{code}\
         <p class=\"small\">A device writes with your roles. Let a lost one go at once: what it brings from then on is \
         set aside until a manager lets it in.</p>\n</section>\n"
    )
}

fn password() -> String {
    let old = page::field(
        ("password", "password", "Password until now"),
        "autocomplete=\"current-password\" type=\"password\" required maxlength=\"200\"",
    );
    let form = page::form("/people/password", &(old + &new_password()), "Change the password");
    format!(
        "<section aria-labelledby=\"change\">\n<h2 id=\"change\">Password</h2>\n{form}\
         <p class=\"small\">Every other browser that is signed in with your name is signed out.</p>\n</section>\n"
    )
}

/// `POST /people/codes`.
pub(crate) async fn new_code(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    let (desk, person) = (Desk(Arc::clone(&shared)), asker.person()?.person.number);
    let code = waiting(move || desk.new_code_of(Some(person))).await?;
    let drawing = code.qr_svg().unwrap_or_default();
    let content = format!(
        "<section aria-label=\"A code for a device\">\n\
         <p>On the device, point the camera at the square, or open the address and type the code.</p>\n\
         <div class=\"square\" role=\"img\" aria-label=\"The pairing link as a QR code\">{drawing}</div>\n\
         <p class=\"code\">{}</p>\n<p class=\"link\">{}</p>\n\
         <p>It lets one device in, once, within ten minutes. The device writes with your roles.</p>\n</section>\n",
        code.grouped(),
        text(code.link.split('#').next().unwrap_or_default()),
    );
    Ok(of_person(&shared, &asker, ("A code for a device", &content)))
}

/// `POST /people/devices/{number}/let-go`: one's own.
pub(crate) async fn let_go(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(number): Path<i64>,
) -> Result<Response, Refused> {
    let person = asker.person()?.person.number;
    let devices = shared.read(|store| store.devices()).await?;
    let own = devices.iter().any(|device| device.number == number && device.person == Some(person));
    if !own {
        return Err(Refused::new(Code::NOT_FOUND, format!("You have no device {number}.")));
    }
    shared.let_device_go(&asker, number).await?;
    Ok(page::to("/people"))
}

#[derive(Deserialize)]
pub(crate) struct Change {
    password: String,
    new: String,
    again: String,
}

/// `POST /people/password`.
pub(crate) async fn change(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    form: Form<Change>,
) -> Result<Response, Refused> {
    let Known { person, .. } = asker.person()?.clone();
    let Change { password, new, again } = form.fields;
    sign_in::compared(&shared, &asker, (&person.name, password)).await?;
    let secret = chosen(&shared, (&new, &again)).await?;
    shared.writer.ask(move |store| store.set_secret(person.number, &secret)).await?;
    shared.note(&asker, ("password-changed", Some(&person.name)), "").await;
    begun(&shared, &asker, person.number, page::to("/people")).await
}
