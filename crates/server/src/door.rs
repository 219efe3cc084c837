//! Who comes in: paired devices by their token, people by their session, the desk's own machine, and everybody else for
//! little. What they may do is decided in `gate`.
//!
//! A token is kept as its hash. It comes as a bearer token or as the cookie the pairing set; the cookie is
//! `SameSite=Strict`, so no other page can send it along.

use crate::answer::Refused;
use crate::answered::Way;
use crate::rate::Who;
use crate::running::Shared;
use crate::{session, time};
use axum::http::request::Parts;
use axum::http::{HeaderMap, Uri, header};
use std::net::{IpAddr, SocketAddr};
use std::sync::{Arc, PoisonError};
use std::time::Instant;
use store::{Database, Device, Known, Office, People, Role, StoreError};
use wire::http::{COOKIE, Code};

/// Where a request comes from.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Peer(pub(crate) SocketAddr);

/// Somebody who asks, as far as the office knows.
#[derive(Debug, Clone)]
pub(crate) struct Asker {
    /// The address as one party, for limits.
    pub(crate) who: Who,
    /// The address as it is, for the list of sign-ins.
    pub(crate) address: String,
    /// The name of the request.
    pub(crate) request: String,
    /// The device whose token came along, let go or not, and the person it belongs to.
    pub(crate) device: Option<(Device, Option<Known>)>,
    /// Who is signed in, and the token of the session.
    pub(crate) session: Option<(Known, String)>,
    /// There are people, so roles decide.
    pub(crate) peopled: bool,
    /// The token came as a bearer, which no page can make a browser send.
    pub(crate) bearer: bool,
    /// HTTPS, spoken here or by a program in between.
    pub(crate) secure: bool,
}

impl Asker {
    /// The people behind the request: of the session and of the device.
    pub(crate) fn people(&self) -> impl Iterator<Item = &Known> {
        let of_device = self.device.iter().filter(|(device, _)| device.gone.is_none());
        let of_device = of_device.filter_map(|(_, person)| person.as_ref());
        self.session.iter().map(|(known, _)| known).chain(of_device)
    }

    /// One of them has one of these roles on a job.
    pub(crate) fn on(&self, job: &str, roles: &[Role]) -> bool {
        self.people().any(|known| known.roles.on(job, roles))
    }

    /// One of them has one of these roles on some job.
    pub(crate) fn anywhere(&self, roles: &[Role]) -> bool {
        self.people().any(|known| known.roles.anywhere(roles))
    }

    /// Who is signed in has one of these roles on a job.
    pub(crate) fn signed_in_on(&self, job: &str, roles: &[Role]) -> bool {
        self.session.as_ref().is_some_and(|(known, _)| known.roles.on(job, roles))
    }

    /// Who is signed in has one of these roles on every job.
    pub(crate) fn signed_in_everywhere(&self, roles: &[Role]) -> bool {
        self.session.as_ref().is_some_and(|(known, _)| known.roles.everywhere(roles))
    }

    /// Somebody the office knows.
    pub(crate) fn is_known(&self) -> bool {
        self.people().next().is_some()
    }

    /// A device that is paired, whoever it belongs to.
    pub(crate) fn has_device(&self) -> bool {
        self.device.as_ref().is_some_and(|(device, _)| device.gone.is_none())
    }

    /// The device, when it was let go.
    pub(crate) fn gone_device(&self) -> Option<&Device> {
        self.device.as_ref().map(|(device, _)| device).filter(|device| device.gone.is_some())
    }

    /// What the device is told: whether it may come, or has something to bring.
    pub(crate) fn is_paired(&self) -> bool {
        let bound = !self.peopled || self.is_known();
        self.gone_device().is_some() || (self.has_device() && bound)
    }

    /// May see that there is a job.
    pub(crate) fn sees(&self, job: &str) -> bool {
        self.gone_device().is_none() && (!self.peopled || self.on(job, Role::ALL))
    }

    /// The name of the person behind it.
    pub(crate) fn name(&self) -> Option<&str> {
        self.people().next().map(|known| known.person.name.as_str())
    }

    /// Who is signed in. A route that needs somebody signed in has one.
    pub(crate) fn person(&self) -> Result<&Known, Refused> {
        let nobody = || Refused::new(Code::NOT_SIGNED_IN, "Nobody is signed in here.");
        self.session.as_ref().map(|(known, _)| known).ok_or_else(nobody)
    }
}

/// Finds out who asks, and counts that it did.
pub(crate) async fn asker(shared: &Arc<Shared>, parts: &Parts) -> Result<Asker, Refused> {
    let address = origin(parts, shared.site.behind_proxy)?;
    let secure = is_secure(shared, &parts.headers);
    let token = token(&parts.headers).filter(|token| token.len() == TOKEN).map(str::to_owned);
    let session = session::of_cookie(&parts.headers, session::cookie_name(secure));
    let session = session.filter(|token| token.len() == TOKEN).map(str::to_owned);
    let now = time::now().seconds();
    let shown = session.clone();
    let found = shared.read(move |store| look_up(store, token, shown, now)).await?;
    let who = Who::at(address);
    let counted = found.device.as_ref().map_or(who, |(device, _)| Who::Device(device.number));
    count(shared, counted)?;
    found.device.iter().for_each(|(device, _)| shared.meter.heard(device.number, Instant::now()));
    if found.seen.is_some_and(|seen| now - seen > session::SEEN_SECONDS)
        && let Some(token) = session.clone()
    {
        shared.writer.ask(move |store| store.see_session(&token, now)).await?;
    }
    Ok(Asker {
        who,
        address: address.to_canonical().to_string(),
        request: parts.extensions.get::<Way>().map(|way| way.request().to_owned()).unwrap_or_default(),
        device: found.device,
        session: found.person.zip(session),
        peopled: found.peopled,
        bearer: is_bearer(&parts.headers),
        secure,
    })
}

/// Digits of a token of ours; nothing else is looked for.
const TOKEN: usize = 64;

struct Found {
    peopled: bool,
    device: Option<(Device, Option<Known>)>,
    person: Option<Known>,
    seen: Option<i64>,
}

fn look_up(
    store: &Database,
    token: Option<String>,
    session: Option<String>,
    now: i64,
) -> Result<Found, StoreError> {
    let device = token.map(|token| store.bearer(&token)).transpose()?.flatten();
    let holder = device.as_ref().and_then(|device| device.person);
    let holder = holder.map(|person| store.person(person)).transpose()?.flatten();
    let holder = holder.filter(|known| known.person.gone.is_none());
    let idle = now - session::IDLE_SECONDS;
    let session = session.map(|token| store.session(&token, idle, now)).transpose()?.flatten();
    let (person, seen) = session.unzip();
    Ok(Found { peopled: store.has_people()?, device: device.map(|device| (device, holder)), person, seen })
}

fn count(shared: &Shared, who: Who) -> Result<(), Refused> {
    let mut rates = shared.rates.lock().unwrap_or_else(PoisonError::into_inner);
    rates.take(who, Instant::now(), &shared.site.limits).map_err(|wait| {
        let what = "This device asked more often than the desk answers one device.";
        Refused::new(Code::TOO_MANY, what).after(wait)
    })
}

/// The machine the server runs on, asked by its own page.
pub(crate) fn here(parts: &Parts) -> Result<(), Refused> {
    if peer(parts)?.ip().to_canonical().is_loopback() && is_desk_page(&parts.headers, &parts.uri) {
        return Ok(());
    }
    Err(Refused::new(Code::NOT_FROM_HERE, "The desk page is shown on the desk's own machine only."))
}

/// HTTPS spoken here, or by a program in between.
fn is_secure(shared: &Shared, headers: &HeaderMap) -> bool {
    shared.secure || headers.get("x-forwarded-proto").is_some_and(|scheme| scheme == "https")
}

/// Where a request comes from; behind a proxy that is known, what the proxy says of it.
fn origin(parts: &Parts, behind_proxy: bool) -> Result<IpAddr, Refused> {
    let peer = peer(parts)?.ip();
    let told = if behind_proxy { forwarded(&parts.headers) } else { None };
    Ok(told.unwrap_or(peer))
}

/// The last address of the last `X-Forwarded-For`, which the proxy itself wrote. What stands before it anybody may
/// have written, so nothing else is believed.
fn forwarded(headers: &HeaderMap) -> Option<IpAddr> {
    let last =
        headers.get_all("x-forwarded-for").iter().next_back()?.to_str().ok()?.rsplit(',').next()?.trim();
    last.parse().ok().or_else(|| last.parse().ok().map(|address: SocketAddr| address.ip()))
}

fn peer(parts: &Parts) -> Result<SocketAddr, Refused> {
    let peer = parts.extensions.get::<Peer>().map(|peer| peer.0);
    peer.ok_or_else(|| Refused::new(Code::INTERNAL, "The desk lost sight of who asks.").inside("no peer"))
}

/// No program in between, no name that only pretends to be this machine, no other page's form.
fn is_desk_page(headers: &HeaderMap, uri: &Uri) -> bool {
    let passed_on = ["forwarded", "x-forwarded-for", "via"].iter().any(|name| headers.contains_key(*name));
    let text = |name| headers.get(name).and_then(|value| value.to_str().ok());
    let host = text(header::HOST).or_else(|| uri.authority().map(|authority| authority.as_str()));
    let own = host.is_some_and(is_loopback_name);
    let origin = text(header::ORIGIN).and_then(|origin| origin.split_once("://"));
    let same = !headers.contains_key(header::ORIGIN) || origin.map(|(_, host)| host) == host;
    !passed_on && own && same
}

fn is_loopback_name(host: &str) -> bool {
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) => name,
        _ => host,
    };
    matches!(name, "localhost" | "127.0.0.1" | "[::1]")
}

/// Whether the page a request comes from is one of this office; `None`: nothing says where it comes from, so no browser of
/// our days sent it.
pub(crate) fn is_own_page(headers: &HeaderMap, uri: &Uri, reached_at: &str) -> Option<bool> {
    let text = |name| headers.get(name).map(|value| value.to_str().unwrap_or_default());
    if let Some(site) = text("sec-fetch-site") {
        return Some(site == "same-origin");
    }
    let origin = text("origin")?;
    let host = text("host").or_else(|| uri.authority().map(|authority| authority.as_str()));
    let same_host = origin.split_once("://").is_some_and(|(_, name)| Some(name) == host);
    Some(same_host || origin == reached_at)
}

fn is_bearer(headers: &HeaderMap) -> bool {
    headers.get(header::AUTHORIZATION).is_some_and(|value| value.as_bytes().starts_with(b"Bearer "))
}

/// The token of a device that a request carries.
fn token(headers: &HeaderMap) -> Option<&str> {
    let bearer =
        headers.get(header::AUTHORIZATION).and_then(|value| value.to_str().ok()?.strip_prefix("Bearer "));
    bearer.or_else(|| session::of_cookie(headers, COOKIE))
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::{HeaderName, HeaderValue};

    fn headers(all: &[(&str, &str)]) -> HeaderMap {
        let pair = |(name, value): &(&str, &str)| {
            let name: HeaderName = name.parse().expect("a name");
            (name, HeaderValue::from_str(value).expect("a value"))
        };
        all.iter().map(pair).collect()
    }

    #[track_caller]
    fn check(all: &[(&str, &str)], expected: bool) {
        assert_eq!(is_desk_page(&headers(all), &Uri::from_static("/desk")), expected, "{all:?}");
    }

    #[test]
    fn the_desk_page_is_asked_for_by_its_own_name_only() {
        check(&[("host", "127.0.0.1:8080")], true);
        check(&[("host", "localhost")], true);
        check(&[("host", "[::1]:8080")], true);
        check(&[("host", "rebound.example:8080")], false);
        check(&[("host", "127.0.0.1.example")], false);
        check(&[], false);
    }

    #[test]
    fn a_form_on_another_page_and_a_program_in_between_are_not_the_desk() {
        let host = ("host", "localhost:8080");
        check(&[host, ("origin", "http://localhost:8080")], true);
        check(&[host, ("origin", "https://elsewhere.example")], false);
        check(&[host, ("origin", "null")], false);
        check(&[host, ("x-forwarded-for", "192.0.2.7")], false);
        check(&[host, ("forwarded", "for=192.0.2.7")], false);
    }

    #[track_caller]
    fn check_page(all: &[(&str, &str)], expected: Option<bool>) {
        let own = is_own_page(&headers(all), &Uri::from_static("/people"), "https://office.example");
        assert_eq!(own, expected, "{all:?}");
    }

    /// What the browser says of the page comes first; it cannot be made up by one. Then the origin, which has to be the
    /// host that was asked for or the address the office is reached at.
    #[test]
    fn a_page_of_this_office_is_told_from_another() {
        let host = ("host", "127.0.0.1:7420");
        check_page(&[host, ("sec-fetch-site", "same-origin")], Some(true));
        check_page(&[host, ("sec-fetch-site", "same-origin"), ("origin", "null")], Some(true));
        for other in ["same-site", "cross-site", "none", ""] {
            check_page(&[host, ("sec-fetch-site", other), ("origin", "http://127.0.0.1:7420")], Some(false));
        }
        check_page(&[host, ("origin", "http://127.0.0.1:7420")], Some(true));
        check_page(&[host, ("origin", "https://office.example")], Some(true));
        check_page(&[host, ("origin", "https://office.example.elsewhere.example")], Some(false));
        check_page(&[host, ("origin", "null")], Some(false));
        check_page(&[host], None);
    }

    #[track_caller]
    fn check_forwarded(all: &[(&str, &str)], expected: Option<&str>) {
        let address = expected.map(|text| text.parse().expect("an address"));
        assert_eq!(forwarded(&headers(all)), address, "{all:?}");
    }

    #[test]
    fn of_what_was_passed_on_the_last_address_is_believed() {
        check_forwarded(&[("x-forwarded-for", "192.0.2.7")], Some("192.0.2.7"));
        check_forwarded(&[("x-forwarded-for", "10.0.0.1, 198.51.100.4,192.0.2.7")], Some("192.0.2.7"));
        check_forwarded(&[("x-forwarded-for", "192.0.2.7:50123")], Some("192.0.2.7"));
        check_forwarded(&[("x-forwarded-for", "[2001:db8::7]:50123")], Some("2001:db8::7"));
        check_forwarded(&[("x-forwarded-for", "2001:db8::7")], Some("2001:db8::7"));
        check_forwarded(&[("x-forwarded-for", "192.0.2.7, unknown")], None);
        check_forwarded(&[("forwarded", "for=192.0.2.7")], None);
        check_forwarded(&[], None);
    }

    #[test]
    fn two_headers_are_one_list() {
        let mut all = headers(&[("x-forwarded-for", "10.0.0.1")]);
        all.append("x-forwarded-for", HeaderValue::from_static("192.0.2.7"));
        assert_eq!(forwarded(&all), "192.0.2.7".parse().ok());
    }

    #[test]
    fn a_token_comes_as_bearer_or_as_cookie() {
        assert_eq!(token(&headers(&[("authorization", "Bearer 12ab")])), Some("12ab"));
        assert_eq!(token(&headers(&[("cookie", "a=1; shaftbook_device=34cd; b=2")])), Some("34cd"));
        assert_eq!(token(&headers(&[("authorization", "Basic 12ab")])), None);
        assert_eq!(token(&headers(&[])), None);
    }
}
