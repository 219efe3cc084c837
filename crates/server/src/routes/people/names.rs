//! The names people put under a record. A manager of the office gives them, because whoever could give one to themselves could
//! sign as anybody.

use super::manage::of_number;
use crate::answer::Refused;
use crate::body::Form;
use crate::door::Asker;
use crate::page::{self, text};
use crate::running::Shared;
use axum::extract::State;
use axum::response::Response;
use serde::Deserialize;
use std::sync::Arc;
use store::{Known, People, name_to_sign_with};
use wire::http::Code;

/// The form that gives a name.
pub(super) fn form(people: &[Known]) -> String {
    let option = |known: &Known| {
        let (number, name) = (known.person.number, text(&known.person.known_as()));
        format!("<option value=\"{number}\">{name}</option>")
    };
    let options: String = people.iter().map(option).collect();
    let person = format!(
        "<p class=\"field\"><label for=\"person\">Person</label><select id=\"person\" name=\"person\">{options}</select></p>"
    );
    let name = page::field(
        ("under", "name", "Name under a record; empty is the name to sign in with"),
        "maxlength=\"120\" autocomplete=\"off\" spellcheck=\"false\"",
    );
    let form = page::form("/people/office/names", &(person + &name), "Keep the name");
    format!(
        "<section aria-labelledby=\"names\">\n<h2 id=\"names\">Names under a record</h2>\n{form}\
         <p class=\"small\">A signature, a decision, a release or a seal in another name than the holder's is set aside when a \
         device brings it.</p>\n</section>\n"
    )
}

/// What a name is given by.
#[derive(Deserialize)]
pub(crate) struct Named {
    person: i64,
    name: String,
}

/// `POST /people/office/names`.
pub(crate) async fn give(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    form: Form<Named>,
) -> Result<Response, Refused> {
    let Named { person, name } = form.fields;
    let (known, name) = (of_number(&shared, person).await?, read(&name)?);
    let kept = name.clone();
    shared.writer.ask(move |store| store.sign_as(person, kept.as_deref())).await?;
    let by = asker.name().unwrap_or_default();
    let about = format!("signs as {}, by {by}", name.as_deref().unwrap_or(&known.person.name));
    shared.note(&asker, ("name-given", Some(&known.person.name)), &about).await;
    Ok(page::to("/people/office"))
}

/// A name as it was typed; nothing typed is none.
pub(super) fn read(typed: &str) -> Result<Option<String>, Refused> {
    if typed.trim().is_empty() {
        return Ok(None);
    }
    let what = "A name under a record has 1 to 120 characters in one line, and a letter among them.";
    name_to_sign_with(typed).map(Some).ok_or_else(|| Refused::new(Code::MALFORMED, what))
}
