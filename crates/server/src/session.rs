//! Sessions: how long a browser stays signed in, and the cookie it shows.
//!
//! Never: take a session over a sign-in (each begins anew, so that nobody can hand one to somebody else beforehand).

use crate::answer::Refused;
use axum::http::{HeaderMap, HeaderValue};
use wire::http::Code;

/// Without a sign of life it ends after 30 minutes, and after 12 hours however busy it is: what NIST SP 800-63B asks at
/// its second level of assurance (section 4.2.3; from memory).
pub(crate) const IDLE_SECONDS: i64 = 30 * 60;
/// See `IDLE_SECONDS`.
pub(crate) const WHOLE_SECONDS: i64 = 12 * 60 * 60;

/// Between two signs of life that are written down.
pub(crate) const SEEN_SECONDS: i64 = 60;

/// The cookie. Over HTTPS its name begins with `__Host-`: the browser then takes it only with `Secure`, without a domain
/// and for the whole host, so no neighbour can set it (RFC 6265bis section 4.1.3).
const PLAIN: &str = "shaftbook_session";
const SECURE: &str = "__Host-shaftbook_session";

/// The name of the cookie.
pub(crate) fn cookie_name(secure: bool) -> &'static str {
    if secure { SECURE } else { PLAIN }
}

/// The header that hands a session to a browser; an empty token takes it away.
pub(crate) fn cookie(secure: bool, token: &str) -> Result<HeaderValue, Refused> {
    let (name, secure) = (cookie_name(secure), if secure { "; Secure" } else { "" });
    let age = if token.is_empty() { 0 } else { WHOLE_SECONDS };
    let text = format!("{name}={token}; Path=/; Max-Age={age}; HttpOnly; SameSite=Strict{secure}");
    HeaderValue::from_str(&text)
        .map_err(|error| Refused::new(Code::INTERNAL, "The desk could not write its answer.").inside(error))
}

/// What a cookie of a name holds.
pub(crate) fn of_cookie<'h>(headers: &'h HeaderMap, name: &str) -> Option<&'h str> {
    let cookies = headers.get_all(axum::http::header::COOKIE).iter().filter_map(|value| value.to_str().ok());
    let pairs = cookies.flat_map(|cookies| cookies.split(';')).filter_map(|pair| pair.trim().split_once('='));
    pairs.filter(|(held, _)| *held == name).map(|(_, value)| value).next()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn over_https_the_cookie_is_bound_to_the_host() {
        let told =
            |secure, token| cookie(secure, token).expect("a header").to_str().expect("a text").to_owned();
        assert_eq!(
            told(true, "12ab"),
            "__Host-shaftbook_session=12ab; Path=/; Max-Age=43200; HttpOnly; SameSite=Strict; Secure"
        );
        assert_eq!(told(false, ""), "shaftbook_session=; Path=/; Max-Age=0; HttpOnly; SameSite=Strict");
    }
}
