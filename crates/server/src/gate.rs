//! The one place where it is decided who may do what: every route names what it needs, and is answered only after this.
//!
//! Before there are people, a paired device may do everything a device does, and the desk's own machine the rest. From
//! the first person on, roles decide. The whole table is docs/access.md; a test compares the two by asking.
//!
//! Words: *need* = what a route asks of whoever comes; *asker* = who that is.
//! Never: decide it a second time in a handler, but for what only the lines of a delivery say.

use crate::answer::Refused;
use crate::answered::Way;
use crate::body::hear_out;
use crate::door::{self, Asker, is_own_page};
use crate::routes::no_photo;
use crate::running::Shared;
use axum::extract::{FromRequestParts, Query, RawPathParams, Request, State};
use axum::http::request::Parts;
use axum::http::{Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::sync::Arc;
use store::{Role, Store};
use wire::http::Code;

/// Any role at all.
pub(crate) const ANY: &[Role] = Role::ALL;

/// Roles that bring entries. What contractor's quality may write is in `writes`.
pub(crate) const WRITERS: &[Role] = &[Role::Inspector, Role::Reviewer, Role::Quality, Role::Manager];

/// Roles that close a shaft.
pub(crate) const SEALERS: &[Role] = &[Role::Reviewer, Role::Manager];

const MANAGER: &[Role] = &[Role::Manager];

/// What a route needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Need {
    /// Nothing, and it is not even looked who asks: for programs that watch the office.
    NotEvenAName,
    /// Nothing: anybody may ask.
    Nothing,
    /// The desk's own machine; with people, signed in as manager of every job too.
    Desk,
    /// A device that brings something, let go or not (what becomes of it is decided line by line); or one of these roles
    /// on any job.
    Bring(&'static [Role]),
    /// One of these roles on any job.
    Anywhere(&'static [Role]),
    /// One of these roles on the job the address names.
    Job(&'static [Role]),
    /// One of these roles on a job whose record names the file of the address.
    File(&'static [Role]),
    /// Somebody signed in.
    Person,
    /// The manager of the job the address names, signed in.
    JobManager,
    /// A manager of every job, signed in.
    OfficeManager,
}

impl Need {
    /// As the table in docs/access.md says it.
    pub(crate) fn told(self) -> &'static str {
        match self {
            Need::NotEvenAName => "not even a name",
            Need::Nothing => "nothing",
            Need::Desk => "the desk",
            Need::Bring(_) => "a device or a role, to bring",
            Need::Anywhere(_) => "a role",
            Need::Job(_) => "a role on the job",
            Need::File(_) => "a role on a job that names it",
            Need::Person => "signed in",
            Need::JobManager => "manager of the job",
            Need::OfficeManager => "manager of the office",
        }
    }
}

/// What becomes of one who comes.
#[derive(Debug, PartialEq, Eq)]
enum Verdict {
    Come,
    /// Nobody the office knows.
    Unknown,
    /// A stranger to the people's pages.
    SignIn,
    /// Known, and without the role.
    NoRole,
    /// Known, and told what is told of something that is not there.
    NotThere,
}

/// Lets a request through to its route, or answers it.
pub(crate) async fn pass(
    State((shared, need, route)): State<(Arc<Shared>, Need, &'static str)>,
    params: RawPathParams,
    mut request: Request,
    next: Next,
) -> Response {
    let (mut parts, body) = request.into_parts();
    parts.extensions.get::<Way>().into_iter().for_each(|way| way.takes(route));
    match admitted(&shared, need, &params, &mut parts).await {
        Ok(()) => {
            request = Request::from_parts(parts, body);
            next.run(request).await
        }
        Err(refusal) => {
            hear_out(body, &shared.site.limits).await;
            *refusal
        }
    }
}

async fn admitted(
    shared: &Arc<Shared>,
    need: Need,
    params: &RawPathParams,
    parts: &mut Parts,
) -> Result<(), Box<Response>> {
    if need == Need::NotEvenAName {
        return Ok(());
    }
    let refuse = |refused: Refused| Box::new(refused.into_response());
    let asker = door::asker(shared, parts).await.map_err(refuse)?;
    if need == Need::Desk {
        door::here(parts).map_err(refuse)?;
    }
    own_page(shared, need, &asker, parts).map_err(refuse)?;
    let jobs = match need {
        Need::File(_) if asker.peopled => jobs_naming(shared, params).await.map_err(refuse)?,
        _ => job(params, parts).into_iter().collect(),
    };
    match verdict(need, &asker, &jobs) {
        Verdict::Come => {}
        Verdict::SignIn if parts.method == Method::GET => return Err(Box::new(to_sign_in())),
        verdict => return Err(refuse(refused(shared, verdict, &asker, parts).await)),
    }
    parts.extensions.insert(Arc::new(asker));
    Ok(())
}

fn verdict(need: Need, asker: &Asker, jobs: &[String]) -> Verdict {
    let with = |held: bool, stranger: Verdict| match (held, asker.is_known()) {
        (true, _) => Verdict::Come,
        (false, true) => Verdict::NoRole,
        (false, false) => stranger,
    };
    let signed_in = |held: bool| match &asker.session {
        None => Verdict::SignIn,
        Some(_) if held => Verdict::Come,
        Some(_) => Verdict::NoRole,
    };
    let on = |roles| jobs.iter().any(|job| asker.on(job, roles));
    let device = || if asker.has_device() { Verdict::Come } else { Verdict::Unknown };
    match need {
        Need::NotEvenAName | Need::Nothing => Verdict::Come,
        Need::Desk if !asker.peopled => Verdict::Come,
        Need::Bring(_) if asker.gone_device().is_some() => Verdict::Come,
        Need::Bring(_) | Need::Anywhere(_) | Need::Job(_) | Need::File(_) if !asker.peopled => device(),
        Need::Bring(roles) | Need::Anywhere(roles) => with(asker.anywhere(roles), Verdict::Unknown),
        Need::Job(roles) => with(on(roles), Verdict::Unknown),
        Need::File(roles) if asker.is_known() && !on(roles) => Verdict::NotThere,
        Need::File(roles) => with(on(roles), Verdict::Unknown),
        Need::Person => signed_in(true),
        Need::JobManager => signed_in(jobs.iter().any(|job| asker.signed_in_on(job, MANAGER))),
        Need::Desk | Need::OfficeManager => signed_in(asker.signed_in_everywhere(MANAGER)),
    }
}

/// The job an address names, in its path or its question. The empty name is every job and no address names it.
fn job(params: &RawPathParams, parts: &Parts) -> Option<String> {
    #[derive(serde::Deserialize)]
    struct Named {
        job: String,
    }
    let in_path = params.iter().find(|(name, _)| *name == "job").map(|(_, job)| job.to_owned());
    let in_question = || Query::<Named>::try_from_uri(&parts.uri).ok().map(|Query(named)| named.job);
    in_path.or_else(in_question).filter(|job| !job.is_empty())
}

/// The jobs whose record names the file of an address.
async fn jobs_naming(shared: &Arc<Shared>, params: &RawPathParams) -> Result<Vec<String>, Refused> {
    let hash = params.iter().find(|(name, _)| *name == "hash").map(|(_, hash)| hash.to_owned());
    let hash = hash.unwrap_or_default();
    Ok(shared.read(move |store| store.jobs_naming(&hash)).await?)
}

/// A request that changes something comes from a page of this office, or from no page at all.
///
/// OWASP Cross-Site Request Forgery Prevention Cheat Sheet: check `Sec-Fetch-Site`, and where a browser does not send it,
/// `Origin`. A program that shows its token as a bearer cannot be made to by a page and is not asked.
fn own_page(shared: &Shared, need: Need, asker: &Asker, parts: &Parts) -> Result<(), Refused> {
    let changes = !matches!(parts.method, Method::GET | Method::HEAD);
    if !changes || asker.bearer {
        return Ok(());
    }
    let forms = !matches!(need, Need::Nothing | Need::Bring(_)) || parts.uri.path().starts_with("/people");
    match is_own_page(&parts.headers, &parts.uri, shared.reached_at()) {
        Some(true) => Ok(()),
        None if !forms || need == Need::Desk => Ok(()),
        _ => Err(Refused::new(Code::OTHER_PAGE, "This did not come from a page of this office.")),
    }
}

fn to_sign_in() -> Response {
    (StatusCode::SEE_OTHER, [(header::LOCATION, "/people/sign-in")]).into_response()
}

async fn refused(shared: &Arc<Shared>, verdict: Verdict, asker: &Asker, parts: &Parts) -> Refused {
    match verdict {
        Verdict::Come | Verdict::SignIn => {
            Refused::new(Code::NOT_SIGNED_IN, "Nobody is signed in here, or the time of the session is over.")
        }
        Verdict::Unknown if asker.device.is_some() && asker.gone_device().is_none() => {
            let what = "The device is paired, and belongs to nobody who may come in.";
            Refused::new(Code::NOT_PAIRED, what)
        }
        Verdict::Unknown => Refused::new(Code::NOT_PAIRED, "The desk does not know this device."),
        Verdict::NotThere => {
            let name = parts.uri.path().rsplit('/').next().unwrap_or_default();
            no_photo(name)
        }
        Verdict::NoRole => {
            shared.note_refusal(asker, parts).await;
            let name = asker.name().unwrap_or("The device");
            Refused::new(Code::NO_ROLE, format!("{name} has no role that allows this."))
        }
    }
}

impl<S: Send + Sync> FromRequestParts<S> for Asker {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, Refused> {
        let asker = parts.extensions.get::<Arc<Asker>>().map(|asker| Asker::clone(asker));
        let lost = || Refused::new(Code::INTERNAL, "The desk lost sight of who asks.").inside("no asker");
        asker.ok_or_else(lost)
    }
}

/// Whether somebody may bring an entry of a kind into a job. `None` as kind: of a version this program does not know.
pub(crate) fn writes(asker: &Asker, job: &str, kind: Option<&str>) -> bool {
    let alone = [Role::Inspector, Role::Reviewer, Role::Manager];
    let comment = kind.is_some_and(|kind| COMMENTS.contains(&kind));
    !asker.peopled || asker.on(job, &alone) || (comment && asker.on(job, &[Role::Quality]))
}

/// Kinds by which contractor's quality adds words and alters nothing.
const COMMENTS: &[&str] = &["remark", "photo", "comment", "signed"];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_comment_is_a_kind() {
        for word in COMMENTS {
            assert!(record::kinds::kind_of(word).is_some(), "{word}");
        }
    }
}
