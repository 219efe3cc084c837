//! Using an invitation: a password is chosen, and one is signed in.
//!
//! The secret of the link stands behind `#`, so that it reaches no program in between and no list of addresses; a script
//! puts it into the field, and without one it is pasted.

use super::{begun, chosen, count_try, new_password, of_person, right};
use crate::answer::Refused;
use crate::body::Form;
use crate::door::Asker;
use crate::noted::REFUSED;
use crate::page;
use crate::running::Shared;
use crate::time;
use axum::extract::State;
use axum::response::Response;
use serde::Deserialize;
use std::sync::Arc;
use store::People;
use wire::http::Code;

/// How long an invitation serves.
pub(crate) const SERVES_SECONDS: i64 = 7 * 24 * 60 * 60;

/// `GET /people/invited`.
pub(crate) async fn page(State(shared): State<Arc<Shared>>, asker: Asker) -> Response {
    let code = page::field(
        ("invitation", "invitation", "Invitation"),
        "required maxlength=\"200\" autocomplete=\"off\" autocapitalize=\"none\" spellcheck=\"false\"",
    );
    let form = page::form("/people/invited", &(code + &new_password()), "Choose this password");
    let content =
        format!("<p>An invitation serves once, for seven days. Choose a password with it.</p>\n{form}");
    of_person(&shared, &asker, ("You are invited", &content))
}

#[derive(Deserialize)]
pub(crate) struct Used {
    invitation: String,
    new: String,
    again: String,
}

/// `POST /people/invited`.
pub(crate) async fn accept(
    State(shared): State<Arc<Shared>>,
    asker: Asker,
    form: Form<Used>,
) -> Result<Response, Refused> {
    let used = form.fields;
    let secret = chosen(&shared, (&used.new, &used.again)).await?;
    count_try(&shared, &asker).await?;
    let code = code_of(&used.invitation);
    let now = time::now().seconds();
    let person = shared.writer.ask(move |store| store.use_invitation(&code, &secret, now)).await?;
    let Some(person) = person else {
        shared.note(&asker, (REFUSED, None), "invitation").await;
        let what = "There is no such invitation, or it was used, or its seven days are over.";
        return Err(Refused::new(Code::INVITATION_WRONG, what));
    };
    right(&shared, &asker).await?;
    shared.note(&asker, ("invitation-used", Some(&person.name)), "").await;
    begun(&shared, &asker, person.number, page::to("/people")).await
}

/// What was pasted: the secret, or the whole link.
fn code_of(typed: &str) -> String {
    typed.trim().rsplit('#').next().unwrap_or_default().to_owned()
}
