//! Passkeys: adding and removing one's own, and coming in with one.
//!
//! Each way is two requests. The first begins a ceremony and gives the browser its question; the second brings the answer and uses
//! the ceremony up, whatever the answer is.

use super::{begun, count_try, right};
use crate::answer::{Refused, json};
use crate::body;
use crate::code;
use crate::door::Asker;
use crate::page;
use crate::passkeys::{Asked, Made, NotTaken, Taking, Worth};
use crate::running::{Shared, waiting};
use crate::time;
use crate::writer::NotWritten;
use axum::body::Body;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::Response;
use serde::Deserialize;
use std::sync::Arc;
use store::{Ceremony, Known, NewPasskey, Passkey, Passkeys, People};
use webauthn_rs::prelude::{PublicKeyCredential, RegisterPublicKeyCredential, Uuid};
use wire::http::Code;

/// How long a ceremony may take.
const SERVES_SECONDS: i64 = 5 * 60;

/// Passkeys a person may have.
const MOST: usize = 20;

/// What takes passkeys, where the office is reached by a name.
fn taking(shared: &Shared) -> Result<&Taking, Refused> {
    let what = "This office is not reached by a name over HTTPS, so no passkey can be bound to it.";
    shared.passkeys.as_ref().ok_or_else(|| Refused::new(Code::PASSKEY_WRONG, what))
}

fn wrong(what: &str) -> Refused {
    Refused::new(Code::PASSKEY_WRONG, what)
}

fn not_taken(error: NotTaken) -> Refused {
    wrong("The passkey was not taken: its answer is not one to what was asked.").inside(error.0)
}

/// Keeps a ceremony, and gives its question to the browser.
async fn begin(
    shared: &Arc<Shared>,
    asker: &Asker,
    (person, asked): (Option<i64>, Asked),
) -> Result<Response, Refused> {
    let token = code::token().map_err(NotWritten::Chance)?;
    let (kept, address, now) = (token.clone(), format!("{:?}", asker.who), time::now().seconds());
    let keep = move |store: &mut store::Database| {
        let span = (now, now + SERVES_SECONDS);
        let ceremony = Ceremony { token: &kept, person, address: &address, state: &asked.state, span };
        store.begin_ceremony(&ceremony)
    };
    if shared.writer.ask(keep).await? {
        return json(&serde_json::json!({ "ceremony": token, "question": asked.question }));
    }
    let wait = std::time::Duration::from_secs(SERVES_SECONDS.unsigned_abs());
    Err(Refused::new(Code::TOO_MANY, "Too much was begun with passkeys and not ended.").after(wait))
}

/// The state of a ceremony, which is used up by that.
async fn ended(shared: &Arc<Shared>, token: String, person: Option<i64>) -> Result<String, Refused> {
    let now = time::now().seconds();
    let state = shared.writer.ask(move |store| store.end_ceremony(&token, person, now)).await?;
    state.ok_or_else(|| wrong("What was begun here is over: it serves once, for five minutes."))
}

/// `POST /people/passkeys/new`.
pub(crate) async fn ask_for_new(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
) -> Result<Response, Refused> {
    let (taking, person) = (taking(&shared)?, asker.person()?.person.clone());
    let number = person.number;
    let known = shared.read(move |store| store.passkeys_of(number)).await?;
    if known.len() >= MOST {
        return Err(wrong(&format!("{} has {MOST} passkeys already; remove one first.", person.name)));
    }
    let handle = handle_of(&known)?;
    let keys: Vec<String> = known.into_iter().map(|passkey| passkey.key).collect();
    let asked = taking.ask_for_new(&person, (handle, &keys)).map_err(not_taken)?;
    begin(&shared, &asker, (Some(number), asked)).await
}

/// What devices call a person by: the same for all of one person's passkeys.
fn handle_of(known: &[Passkey]) -> Result<Uuid, Refused> {
    let known = known.first().and_then(|passkey| Uuid::try_parse(&passkey.handle).ok());
    known.map_or_else(drawn, Ok)
}

fn drawn() -> Result<Uuid, Refused> {
    let mut bytes = [0; 16];
    getrandom::fill(&mut bytes).map_err(NotWritten::Chance)?;
    Ok(Uuid::from_bytes(bytes))
}

/// A new passkey as a browser brings it.
#[derive(Deserialize)]
struct Brought {
    ceremony: String,
    name: String,
    answer: RegisterPublicKeyCredential,
}

/// `POST /people/passkeys`.
pub(crate) async fn add(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Refused> {
    let brought: Brought = body::small(&headers, body, &shared.site.limits).await?;
    let (taking, name) = (taking(&shared)?, body::name("passkey", &brought.name)?);
    let person = asker.person()?.person.clone();
    let state = ended(&shared, brought.ceremony, Some(person.number)).await?;
    let Made { handle, id, key } = taking.new_of(&brought.answer, &state).map_err(not_taken)?;
    let since = time::now().seconds();
    let new = NewPasskey { person: person.number, id, handle, name: name.clone(), key, since };
    let number = shared.writer.ask(move |store| store.add_passkey(&new)).await?;
    let number = number.ok_or_else(|| wrong("This passkey is here already."))?;
    shared.note(&asker, ("passkey-added", Some(&person.name)), &format!("passkey {number}: {name}")).await;
    json(&serde_json::json!({ "to": "/people" }))
}

/// `POST /people/passkeys/{number}/remove`: one's own.
pub(crate) async fn remove(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    Path(number): Path<i64>,
) -> Result<Response, Refused> {
    let person = asker.person()?.person.clone();
    let removed = shared.writer.ask(move |store| store.remove_passkey(person.number, number)).await?;
    if !removed {
        return Err(Refused::new(Code::NOT_FOUND, format!("You have no passkey {number}.")));
    }
    shared.note(&asker, ("passkey-removed", Some(&person.name)), &format!("passkey {number}")).await;
    Ok(page::to("/people"))
}

/// `POST /people/sign-in/passkey/begin`.
pub(crate) async fn ask_for_any(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
) -> Result<Response, Refused> {
    let asked = taking(&shared)?.ask_for_any().map_err(not_taken)?;
    begin(&shared, &asker, (None, asked)).await
}

/// A passkey as a browser shows it.
#[derive(Deserialize)]
struct Shown {
    ceremony: String,
    answer: PublicKeyCredential,
}

/// `POST /people/sign-in/passkey`. A try counts before it is looked at, as with a password.
pub(crate) async fn sign_in(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Refused> {
    let shown: Shown = body::small(&headers, body, &shared.site.limits).await?;
    let (handle, id) = taking(&shared)?.named_by(&shown.answer).map_err(not_taken)?;
    count_try(&shared, &asker).await?;
    let state = ended(&shared, shown.ceremony, None).await?;
    let Some((passkey, known)) = holder(&shared, (handle, id)).await? else {
        shared.note(&asker, ("refused", None), "passkey").await;
        return Err(wrong("The office knows no such passkey, or its holder was let go."));
    };
    let name = known.person.name.clone();
    match compared(&shared, (shown.answer, state, passkey.key)).await? {
        Worth::Right(key) => {
            let (number, now) = (passkey.number, time::now().seconds());
            shared.writer.ask(move |store| store.use_passkey(number, &key, now)).await?;
            right(&shared, &asker).await?;
            let about = format!("with passkey {number}: {}", passkey.name);
            shared.note(&asker, ("signed-in", Some(&name)), &about).await;
            begun(&shared, &asker, known.person.number, json(&serde_json::json!({ "to": "/people" }))?).await
        }
        Worth::Wrong(inside) => {
            shared.note(&asker, ("refused", Some(&name)), &format!("passkey {}", passkey.number)).await;
            Err(not_taken(NotTaken(inside)))
        }
        Worth::Copied => {
            let about = format!("passkey {}: its counter went back, it may have been copied", passkey.number);
            shared.note(&asker, ("refused", Some(&name)), &about).await;
            Err(wrong("The passkey has counted less than before, so there may be a copy of it."))
        }
    }
}

/// The passkey an answer names and whose it is, if that person may come in.
async fn holder(
    shared: &Arc<Shared>,
    (handle, id): (String, String),
) -> Result<Option<(Passkey, Known)>, Refused> {
    let asked = move |store: &store::Database| {
        let Some(passkey) = store.passkey(&id)?.filter(|passkey| passkey.handle == handle) else {
            return Ok(None);
        };
        let known = store.person(passkey.person)?.filter(|known| known.person.gone.is_none());
        Ok(known.map(|known| (passkey, known)))
    };
    Ok(shared.read(asked).await?)
}

async fn compared(
    shared: &Arc<Shared>,
    (answer, state, key): (PublicKeyCredential, String, String),
) -> Result<Worth, Refused> {
    let shared = Arc::clone(shared);
    waiting(move || taking(&shared)?.worth(&answer, &state, &key).map_err(not_taken)).await
}

/// The key that signs in with a passkey. Without a script there is none: a browser gives passkeys to scripts alone.
pub(super) fn way_in(shared: &Shared) -> String {
    let Some(taking) = &shared.passkeys else { return String::new() };
    format!(
        "<section aria-labelledby=\"with-passkey\" data-passkeys=\"{}\" hidden>\n<h2 id=\"with-passkey\">Or with a passkey</h2>\n\
         <button type=\"button\" id=\"use-passkey\">Sign in with a passkey</button>\n\
         <p role=\"alert\" id=\"passkey-said\"></p>\n</section>\n",
        page::text(taking.origin())
    )
}

/// One's own passkeys, with the form that adds one where this office can take them.
pub(super) fn own(shared: &Shared, known: &[Passkey]) -> String {
    let rows: String = known.iter().map(row).collect();
    let list = if rows.is_empty() { "<p>None yet.</p>\n".to_owned() } else { format!("<ul>\n{rows}</ul>\n") };
    let form = shared.passkeys.as_ref().map_or_else(no_name, form);
    format!(
        "<section aria-labelledby=\"passkeys\">\n<h2 id=\"passkeys\">Passkeys</h2>\n{list}{form}</section>\n"
    )
}

fn row(passkey: &Passkey) -> String {
    let name = page::text(&passkey.name);
    let used = passkey
        .used
        .map_or_else(|| "not used yet".to_owned(), |at| format!("last used {}", page::moment(at)));
    format!(
        "<li><span class=\"name\">{name}</span> <span class=\"since\">since {}, {used}</span>\
         <form method=\"post\" action=\"/people/passkeys/{}/remove\"><button aria-label=\"Remove {name}\">Remove</button>\
         </form></li>\n",
        page::moment(passkey.since),
        passkey.number
    )
}

fn form(taking: &Taking) -> String {
    let name = page::field(
        ("passkey-name", "name", "What you call it"),
        "required maxlength=\"60\" autocomplete=\"off\"",
    );
    format!(
        "<form id=\"new-passkey\" data-passkeys=\"{}\" hidden>{name}<button>Add a passkey</button>\n\
         <p role=\"alert\" id=\"passkey-said\"></p></form>\n\
         <p class=\"small\">With a passkey you come in by the lock of your phone, tablet or computer, or by a security key, \
         without a password. The password goes on counting.</p>\n",
        page::text(taking.origin())
    )
}

fn no_name() -> String {
    "<p class=\"small\">A passkey is bound to the name of the office over HTTPS, and this office has none yet: whoever keeps it \
     starts it with <code>shaftbook serve --reached-at https://…</code></p>\n"
        .to_owned()
}
