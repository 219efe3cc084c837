//! Who comes in: paired devices by their token, the desk's own machine, and everybody else for little.
//!
//! A token is kept as its hash. It comes as a bearer token or as the cookie the pairing set; the cookie is
//! `SameSite=Strict`, so no other page can send it along.

use crate::answer::Refused;
use crate::rate::Who;
use crate::running::Shared;
use axum::extract::FromRequestParts;
use axum::http::request::Parts;
use axum::http::{HeaderMap, Uri, header};
use std::net::{IpAddr, SocketAddr};
use std::sync::{Arc, PoisonError};
use std::time::Instant;
use store::{Device, Office};
use wire::http::{COOKIE, Code};

/// Where a request comes from.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Peer(pub(crate) SocketAddr);

/// Devices remembered, so that not every request asks the database.
const REMEMBERED: usize = 4096;

/// Anybody who did not ask too often: the device when it is paired, and the address it asks from.
pub(crate) struct Anybody(pub(crate) Option<Device>, pub(crate) Who);

/// A paired device that did not ask too often.
pub(crate) struct Paired;

/// The machine the server runs on.
pub(crate) struct Here;

impl FromRequestParts<Arc<Shared>> for Anybody {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, shared: &Arc<Shared>) -> Result<Self, Refused> {
        let address = Who::at(origin(parts, shared.site.behind_proxy)?);
        let device = match token(&parts.headers) {
            Some(token) => find(shared, token.to_owned()).await?,
            None => None,
        };
        let who = device.as_ref().map_or(address, |device| Who::Device(device.number));
        let mut rates = shared.rates.lock().unwrap_or_else(PoisonError::into_inner);
        match rates.take(who, Instant::now(), &shared.site.limits) {
            Ok(()) => Ok(Anybody(device, address)),
            Err(wait) => {
                let what = "This device asked more often than the desk answers one device.";
                Err(Refused::new(Code::TOO_MANY, what).after(wait))
            }
        }
    }
}

impl FromRequestParts<Arc<Shared>> for Paired {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, shared: &Arc<Shared>) -> Result<Self, Refused> {
        let Anybody(device, _) = Anybody::from_request_parts(parts, shared).await?;
        let what = "The desk does not know this device.";
        device.map(|_| Paired).ok_or_else(|| Refused::new(Code::NOT_PAIRED, what))
    }
}

impl FromRequestParts<Arc<Shared>> for Here {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, _: &Arc<Shared>) -> Result<Self, Refused> {
        let peer = peer(parts)?;
        if peer.ip().to_canonical().is_loopback() && is_own_page(&parts.headers, &parts.uri) {
            return Ok(Here);
        }
        Err(Refused::new(Code::NOT_FROM_HERE, "The desk page is shown on the desk's own machine only."))
    }
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
fn is_own_page(headers: &HeaderMap, uri: &Uri) -> bool {
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

/// The token a request carries.
fn token(headers: &HeaderMap) -> Option<&str> {
    let bearer =
        headers.get(header::AUTHORIZATION).and_then(|value| value.to_str().ok()?.strip_prefix("Bearer "));
    bearer.or_else(|| {
        let cookies = headers.get_all(header::COOKIE).iter().filter_map(|value| value.to_str().ok());
        let pairs =
            cookies.flat_map(|cookies| cookies.split(';')).filter_map(|pair| pair.trim().split_once('='));
        pairs.filter(|(name, _)| *name == COOKIE).map(|(_, token)| token).next()
    })
}

async fn find(shared: &Arc<Shared>, token: String) -> Result<Option<Device>, Refused> {
    // Ours have 64 digits; nothing else is looked for.
    if token.len() != 64 {
        return Ok(None);
    }
    let hash = wire::sha256(token.as_bytes());
    let (forgotten, known) = {
        let devices = shared.devices.lock().unwrap_or_else(PoisonError::into_inner);
        (devices.0, devices.1.get(&hash).cloned())
    };
    if known.is_some() {
        return Ok(known);
    }
    let found = shared.read(move |store| store.device(&token)).await?;
    let mut devices = shared.devices.lock().unwrap_or_else(PoisonError::into_inner);
    // What was read before everybody was forgotten may be out of date.
    if let Some(device) = found.as_ref().filter(|_| devices.0 == forgotten) {
        if devices.1.len() >= REMEMBERED {
            devices.1.clear();
        }
        devices.1.insert(hash, device.clone());
    }
    Ok(found)
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
        assert_eq!(is_own_page(&headers(all), &Uri::from_static("/desk")), expected, "{all:?}");
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
