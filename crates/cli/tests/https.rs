//! An office with a certificate of its own, started from the command line and spoken to over HTTPS.

#![cfg(unix)]

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::Desk;
use rustls::pki_types::CertificateDer;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::sync::Arc;

const NAME: &str = "office.example";

/// A certificate made for one test.
fn made() -> rcgen::CertifiedKey<rcgen::KeyPair> {
    rcgen::generate_simple_self_signed([NAME.to_owned()]).expect("a certificate")
}

/// Somebody who trusts one certificate and asks for an office by name: the answer, or why there is none.
fn ask(address: &str, trusted: &CertificateDer<'static>, name: &str, sent: &str) -> Result<String, String> {
    let mut roots = rustls::RootCertStore::empty();
    roots.add(trusted.clone()).expect("a root");
    let config =
        rustls::ClientConfig::builder_with_provider(Arc::new(rustls::crypto::ring::default_provider()))
            .with_safe_default_protocol_versions()
            .expect("versions")
            .with_root_certificates(roots)
            .with_no_client_auth();
    let name = name.to_owned().try_into().expect("a name");
    let client = rustls::ClientConnection::new(Arc::new(config), name).expect("a client");
    let place = address.strip_prefix("https://").expect("HTTPS");
    let mut stream = rustls::StreamOwned::new(client, TcpStream::connect(place).expect("connected"));
    stream.write_all(sent.as_bytes()).map_err(|error| error.to_string())?;
    let mut answer = String::new();
    // The end may come without a farewell.
    drop(stream.read_to_string(&mut answer));
    Ok(answer)
}

fn get(path: &str) -> String {
    format!("GET {path} HTTP/1.1\r\nhost: {NAME}\r\nconnection: close\r\n\r\n")
}

fn pair(code: &str) -> String {
    let body = serde_json::json!({ "code": code, "name": "tablet 1", "device": "ab".repeat(32) }).to_string();
    let head = format!("POST /api/v1/pair HTTP/1.1\r\nhost: {NAME}\r\nconnection: close\r\n");
    format!("{head}content-length: {}\r\n\r\n{body}", body.len())
}

#[test]
fn an_office_with_a_certificate_speaks_https_and_nothing_else() {
    let (desk, made) = (Desk::new(), made());
    desk.write("cert.pem", &made.cert.pem());
    desk.write("key.pem", &made.signing_key.serialize_pem());
    let reached = format!("https://{NAME}:7420");
    let words = ["office", "--certificate", "cert.pem", "--key", "key.pem", "--reached-at", &reached];
    let served = desk.serve(&words);
    let said = |what: &str| served.said[what].as_str().expect("text").to_owned();
    assert!(said("link").starts_with(&format!("{reached}/pair#pair=")), "{}", said("link"));

    let trusted = made.cert.der();
    let hello = ask(&said("address"), trusted, NAME, &get("/api/v1/hello")).expect("trusted");
    assert!(hello.starts_with("HTTP/1.1 200") && hello.contains("\"paired\":false"), "{hello}");
    let app = ask(&said("address"), trusted, NAME, &get("/")).expect("trusted");
    assert!(app.starts_with("HTTP/1.1 200") && app.contains("text/html"), "{app}");
    let paired = ask(&said("address"), trusted, NAME, &pair(&said("code"))).expect("trusted");
    assert!(paired.starts_with("HTTP/1.1 200") && paired.contains("SameSite=Strict; Secure"), "{paired}");

    let other = self::made();
    let stranger = ask(&said("address"), other.cert.der(), NAME, &get("/api/v1/hello"));
    let why = stranger.expect_err("not trusted");
    assert!(why.contains("invalid peer certificate"), "{why}");
    let misnamed = ask(&said("address"), trusted, "elsewhere.example", &get("/api/v1/hello"));
    let why = misnamed.expect_err("another name");
    assert!(why.contains("not valid for name"), "{why}");
    let place = said("address").replace("https://", "");
    let mut plain = TcpStream::connect(place).expect("connected");
    plain.write_all(get("/api/v1/hello").as_bytes()).expect("sent");
    let mut answer = Vec::new();
    drop(plain.read_to_end(&mut answer));
    assert!(!String::from_utf8_lossy(&answer).contains("200"), "nothing is said without a key");
    assert_eq!(served.stop(), Some(0));
}

/// A code made beside a program that serves is shown on its desk page, and lies nowhere in the folder.
#[test]
fn a_code_made_in_another_terminal_is_shown_on_the_desk() {
    let desk = Desk::new();
    let served = desk.serve(&["office"]);
    let code = desk.says("pair office --json").ends(0).json()["code"].as_str().expect("a code").to_owned();
    let (first, second) = code.split_at(4);
    let page = served.get("/desk", "").text();
    assert!(page.contains(&format!("{first}-{second}")) && page.contains("<svg"), "{page}");
    assert!(!desk.files().iter().any(|name| name.ends_with(".handed")), "{:?}", desk.files());
    served.pair(&code);
    assert!(!served.get("/desk", "").text().contains(&format!("{first}-{second}")));
    assert_eq!(served.stop(), Some(0));
    // Nobody serves: the code is kept and printed, and handed to nobody.
    desk.says("pair office").ends(0).says("lets one device in");
    assert!(!desk.files().iter().any(|name| name.contains("code-")), "{:?}", desk.files());
}
