//! Pages for people: the frame around each, and text as it may stand in one.
//!
//! Plain HTML that works without a script. Everything a person typed goes through `text`; nothing else is put into a page
//! by anybody.

use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use quantity::Moment;
use wire::http::Refusal;

/// The style of these pages and of the desk's.
pub(crate) const STYLE: &str = include_str!("routes/desk.css");

/// Text as it may stand in a page, between tags or as an attribute in double quotes.
pub(crate) fn text(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            c => safe.push(c),
        }
    }
    safe
}

/// Text as one part of an address.
pub(crate) fn in_address(text: &str) -> String {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.' | b'~');
    let coded = |byte: u8| if plain(byte) { char::from(byte).to_string() } else { format!("%{byte:02X}") };
    text.bytes().map(coded).collect()
}

/// A moment, in seconds since 1970, as day and clock in UTC.
pub(crate) fn moment(seconds: i64) -> String {
    let moment = Moment::at(seconds, 0);
    format!("{} {} UTC", moment.date(), moment.clock())
}

/// A page around its content, which is HTML already.
pub(crate) fn framed(office: &str, (title, content): (&str, &str)) -> String {
    let (office, title) = (text(office), text(title));
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n<title>{title} · {office}</title>\n\
         <link rel=\"stylesheet\" href=\"/people/people.css\">\n</head>\n<body>\n\
         <header><p>{office}</p></header>\n<main>\n<h1>{title}</h1>\n{content}</main>\n\
         <script src=\"/people/people.js\"></script>\n</body>\n</html>\n"
    )
}

/// A page as an answer. Its referrer goes to this office alone, so that a browser names the page a form came from.
pub(crate) fn answer(page: String) -> Response {
    let policy = (HeaderName::from_static("referrer-policy"), HeaderValue::from_static("same-origin"));
    ([(header::CONTENT_TYPE, HeaderValue::from_static("text/html; charset=utf-8")), policy], page)
        .into_response()
}

/// To another page, after something was done.
pub(crate) fn to(address: &str) -> Response {
    let address = HeaderValue::from_str(address).unwrap_or(HeaderValue::from_static("/people"));
    (StatusCode::SEE_OTHER, [(header::LOCATION, address)]).into_response()
}

/// A refusal as a person reads it: the same five parts as everywhere.
pub(crate) fn refusal(office: &str, refusal: &Refusal) -> String {
    let Refusal { what, meaning, next, request, code } = refusal;
    let content = format!(
        "<section class=\"refusal\" role=\"alert\">\n<p class=\"what\">{}</p>\n<p>{}</p>\n<p>{}</p>\n\
         <p class=\"small\">{} · request {}</p>\n</section>\n<p><a href=\"/people\">Back to your page</a></p>\n",
        text(what),
        text(meaning),
        text(next),
        text(code),
        text(request)
    );
    framed(office, ("Not done", &content))
}

/// A form that posts to an address; the fields are HTML already.
pub(crate) fn form(action: &str, fields: &str, key: &str) -> String {
    format!(
        "<form method=\"post\" action=\"{}\">{fields}<button>{}</button></form>\n",
        text(action),
        text(key)
    )
}

/// A field of a form with its label.
pub(crate) fn field((id, name, label): (&str, &str, &str), attributes: &str) -> String {
    format!(
        "<p class=\"field\"><label for=\"{id}\">{label}</label><input id=\"{id}\" name=\"{name}\" {attributes}></p>"
    )
}

/// A field nobody sees.
pub(crate) fn hidden(name: &str, value: &str) -> String {
    format!("<input type=\"hidden\" name=\"{name}\" value=\"{}\">", text(value))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_somebody_typed_is_text_and_nothing_else() {
        let typed = "\"><script>alert('rig')</script> & more";
        assert_eq!(text(typed), "&quot;&gt;&lt;script&gt;alert(&#39;rig&#39;)&lt;/script&gt; &amp; more");
        assert_eq!(in_address("a/b ?<é"), "a%2Fb%20%3F%3C%C3%A9");
        assert_eq!(in_address("Lot.2"), "Lot.2");
    }

    #[test]
    fn a_refusal_is_told_in_the_same_words_as_everywhere() {
        let refusal = Refusal::new(wire::http::Code::NO_ROLE, "<b> has no role.").of_request("6a-1");
        let page = super::refusal("Mud & Sons", &refusal);
        for part in [
            "&lt;b&gt; has no role.",
            "Ask a manager of the job for the role.",
            "no-role",
            "6a-1",
            "Mud &amp; Sons",
        ] {
            assert!(page.contains(part), "{part}: {page}");
        }
    }
}
