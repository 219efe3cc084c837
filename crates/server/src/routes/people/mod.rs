//! The people's pages: sign in, use an invitation, your own page, the office, a job, what is set aside, the list of
//! sign-ins. They work without a script; the one there is fills in a field and speaks to passkeys.

pub(crate) mod aside;
pub(crate) mod invited;
pub(crate) mod manage;
pub(crate) mod names;
pub(crate) mod own;
pub(crate) mod passkeys;
pub(crate) mod shown;
pub(crate) mod sign_in;
pub(crate) mod sign_ins;

use crate::answer::Refused;
use crate::door::Asker;
use crate::page::{self, STYLE};
use crate::running::Shared;
use crate::tries::{self, Tried};
use crate::writer::NotWritten;
use crate::{code, session, time};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use std::sync::Arc;
use store::{People, SALT, Span};
use wire::http::Code;

/// The least a password has: NIST SP 800-63B-4 section 3.1.1.2, where nothing stands beside it (from memory).
pub(super) const PASSWORD_LEAST: usize = 15;

/// The most that is compared; more is no better and costs time.
const PASSWORD_MOST: usize = 200;

const SCRIPT: &str = include_str!("people.js");

/// `GET /people/people.css`.
pub(crate) async fn style() -> Response {
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], STYLE).into_response()
}

/// `GET /people/people.js`.
pub(crate) async fn script() -> Response {
    ([(header::CONTENT_TYPE, "text/javascript; charset=utf-8")], SCRIPT).into_response()
}

/// A page with who is signed in and the way out.
pub(super) fn of_person(shared: &Shared, asker: &Asker, (title, content): (&str, &str)) -> Response {
    let name = asker.session.as_ref().map(|(known, _)| known.person.name.as_str());
    let way_out = |name: &str| {
        let key = page::form("/people/sign-out", "", "Sign out");
        let own = "<a href=\"/people\">your page</a>";
        format!("<nav><p>Signed in as <strong>{}</strong>, {own}</p>{key}</nav>\n", page::text(name))
    };
    let content = format!("{}{content}", name.map(way_out).unwrap_or_default());
    page::answer(page::framed(&shared.site.office, (title, &content)))
}

/// Begins a session and hands its cookie to the browser. One that was there ends: nobody keeps another's.
pub(super) async fn begun(
    shared: &Shared,
    asker: &Asker,
    person: i64,
    mut answer: Response,
) -> Result<Response, Refused> {
    let token = code::token().map_err(NotWritten::Chance)?;
    let from = time::now().seconds();
    let span = Span { from, until: from + session::WHOLE_SECONDS };
    let (kept, old) = (token.clone(), asker.session.as_ref().map(|(_, token)| token.clone()));
    let begin = move |store: &mut store::Database| {
        old.map(|old| store.end_session(&old)).transpose()?;
        store.begin_session(person, &kept, span)
    };
    shared.writer.ask(begin).await?;
    answer.headers_mut().insert(header::SET_COOKIE, session::cookie(asker.secure, &token)?);
    Ok(answer)
}

/// Counts a try from an address as wrong until it turns out right, so that many at once are counted too.
pub(super) async fn count_try(shared: &Arc<Shared>, asker: &Asker) -> Result<(), Refused> {
    may_try(shared, &[Tried::At(asker.who)], "From this address too many wrong tries came in a row.").await
}

/// Counts a try of each, or refuses it with how long to wait. Whoever has to wait costs the writer no turn.
pub(super) async fn may_try(shared: &Arc<Shared>, tried: &[Tried], what: &str) -> Result<(), Refused> {
    let now = time::now().seconds();
    let all = tried.to_vec();
    let mut wait = shared.read(move |store| tries::wait(store, &all, now)).await?;
    if wait.is_none() {
        let all = tried.to_vec();
        wait = shared.writer.ask(move |store| tries::count(store, &all, now)).await?;
    }
    wait.map_or(Ok(()), |wait| Err(Refused::new(Code::TOO_MANY, what).after(wait)))
}

/// A try turned out right.
pub(super) async fn right(shared: &Shared, asker: &Asker) -> Result<(), Refused> {
    let who = asker.who;
    Ok(shared.writer.ask(move |store| tries::right(store, &[Tried::At(who)])).await?)
}

/// What is kept of a password somebody chose, once it is good enough and typed twice the same.
pub(super) async fn chosen(shared: &Arc<Shared>, (new, again): (&str, &str)) -> Result<String, Refused> {
    let wrong = |what: String| Err(Refused::new(Code::PASSWORD_WEAK, what));
    let count = new.chars().count();
    if new != again {
        return wrong("The two passwords are not the same.".to_owned());
    }
    if !(PASSWORD_LEAST..=PASSWORD_MOST).contains(&count) {
        return wrong(format!(
            "A password has {PASSWORD_LEAST} to {PASSWORD_MOST} characters; this has {count}."
        ));
    }
    let mut salt = [0; SALT];
    getrandom::fill(&mut salt).map_err(NotWritten::Chance)?;
    let new = new.to_owned();
    let hidden = comparing(shared, move || store::hidden_password(&new, salt)).await?;
    let inside = "Argon2id gave nothing; is there memory?";
    hidden.ok_or_else(|| Refused::new(Code::INTERNAL, "The password could not be kept.").inside(inside))
}

/// Work with a password, of which only so much is done at once.
pub(super) async fn comparing<T: Send + 'static>(
    shared: &Arc<Shared>,
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Refused> {
    let patience = shared.site.limits.patience;
    let Ok(Ok(_turn)) = tokio::time::timeout(patience, shared.comparing.acquire()).await else {
        return Err(Refused::new(Code::DESK_BUSY, "Too many sign in at this moment.").after(patience));
    };
    Ok(crate::running::waiting(work).await)
}

/// The fields in which a password is chosen.
pub(super) fn new_password() -> String {
    let rules = format!(
        "autocomplete=\"new-password\" type=\"password\" required minlength=\"{PASSWORD_LEAST}\" \
         maxlength=\"{PASSWORD_MOST}\" aria-describedby=\"rules\""
    );
    page::field(("new", "new", "New password"), &rules)
        + &page::field(("again", "again", "The same again"), &rules)
        + &format!(
            "<p class=\"small\" id=\"rules\">At least {PASSWORD_LEAST} characters. A sentence only you would write is \
             easy to keep and hard to guess.</p>"
        )
}
