//! Signing in and out.
//!
//! A wrong name and a wrong password are told in the same words after the same time. Tries are slowed by address and by
//! name; a name is slowed for ten minutes at most, and not at all from an address it signed in from before.
//!
//! Never: write down a name nobody has; let a session from before live on.

use super::{begun, comparing, may_try, of_person, passkeys};
use crate::answer::Refused;
use crate::body::Form;
use crate::door::Asker;
use crate::noted::REFUSED;
use crate::page;
use crate::running::Shared;
use crate::tries::{self, Tried};
use crate::{session, time};
use axum::extract::State;
use axum::http::header;
use axum::response::Response;
use serde::Deserialize;
use std::sync::Arc;
use store::{Database, People, Person, is_password, name_of_person};
use wire::http::Code;

/// `GET /people/sign-in`.
pub(crate) async fn page(State(shared): State<Arc<Shared>>, asker: Asker) -> Response {
    let content = if asker.peopled { fields() + &passkeys::way_in(&shared) } else { nobody_yet() };
    of_person(&shared, &asker, ("Sign in", &content))
}

fn nobody_yet() -> String {
    "<p>There are no people here yet: devices are paired at the desk, and nobody signs in.</p>\n\
     <p>Whoever keeps the office adds the first person on its machine: \
     <code>shaftbook people add FOLDER NAME</code></p>\n"
        .to_owned()
}

fn fields() -> String {
    let name = page::field(
        ("name", "name", "Name"),
        "autocomplete=\"username\" required maxlength=\"60\" autocapitalize=\"none\" spellcheck=\"false\"",
    );
    let password = page::field(
        ("password", "password", "Password"),
        "autocomplete=\"current-password\" type=\"password\" required maxlength=\"200\"",
    );
    let form = page::form("/people/sign-in", &(name + &password), "Sign in");
    format!(
        "{form}<p class=\"small\">Invited for the first time? <a href=\"/people/invited\">Use the invitation.</a></p>\n"
    )
}

#[derive(Deserialize)]
pub(crate) struct Shown {
    name: String,
    password: String,
}

/// `POST /people/sign-in`.
pub(crate) async fn sign_in(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    form: Form<Shown>,
) -> Result<Response, Refused> {
    let Shown { name, password } = form.fields;
    let person = compared(&shared, &asker, (&name, password)).await?;
    shared.note(&asker, ("signed-in", Some(&person.name)), "with the password").await;
    begun(&shared, &asker, person.number, page::to("/people")).await
}

/// The person of a name, if the password is right; every try counts before it is looked at.
pub(super) async fn compared(
    shared: &Arc<Shared>,
    asker: &Asker,
    (name, password): (&str, String),
) -> Result<Person, Refused> {
    let name = name_of_person(name).unwrap_or_default();
    let tried = begin_try(shared, asker, &name).await?;
    let asked = name.clone();
    let found = shared.read(move |store| store.person_named(&asked)).await?;
    let kept = found.as_ref().and_then(|(_, kept)| kept.clone());
    let right = comparing(shared, move || is_password(&password, kept.as_deref())).await?;
    let person = found.map(|(person, _)| person);
    match person.as_ref().filter(|person| right && person.gone.is_none()) {
        Some(person) => {
            end_try(shared, asker, tried, &name).await?;
            Ok(person.clone())
        }
        None => {
            let known = person.as_ref().map(|person| person.name.as_str());
            shared.note(asker, (REFUSED, known), "sign-in").await;
            Err(Refused::new(Code::SIGN_IN_WRONG, "The name or the password is not right."))
        }
    }
}

/// Counts a try as wrong until it turns out right, so that many at once are counted too.
async fn begin_try(shared: &Arc<Shared>, asker: &Asker, name: &str) -> Result<Vec<Tried>, Refused> {
    let (name, who, now) = (name.to_owned(), asker.who, time::now().seconds());
    let of_name = move |store: &Database| tries::of_name(store, &name, who, now);
    let tried = vec![Tried::At(who), shared.read(of_name).await?];
    may_try(shared, &tried, "Too many wrong tries to sign in came in a row.").await?;
    Ok(tried)
}

async fn end_try(shared: &Shared, asker: &Asker, tried: Vec<Tried>, name: &str) -> Result<(), Refused> {
    let (name, who, now) = (name.to_owned(), asker.who, time::now().seconds());
    let known = move |store: &mut Database| {
        tries::right(store, &tried)?;
        tries::came_in(store, &name, who, now)
    };
    Ok(shared.writer.ask(known).await?)
}

/// `POST /people/sign-out`.
pub(crate) async fn sign_out(State(shared): State<Arc<Shared>>, asker: Asker) -> Result<Response, Refused> {
    if let Some((known, token)) = asker.session.clone() {
        shared.writer.ask(move |store| store.end_session(&token)).await?;
        shared.note(&asker, ("signed-out", Some(&known.person.name)), "").await;
    }
    let mut answer = page::to("/people/sign-in");
    answer.headers_mut().insert(header::SET_COOKIE, session::cookie(asker.secure, "")?);
    Ok(answer)
}
