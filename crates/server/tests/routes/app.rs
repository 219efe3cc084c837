//! The app's files, its addresses, what is nowhere, and the headers on everything.

use crate::office::{Answer, Office};
use expect_test::{Expect, expect};
use std::io::{Read, Write};
use std::net::TcpStream;

fn get(path: &str) -> Answer {
    Office::open().ask(&format!("GET {path}"), None, b"")
}

#[test]
fn files_are_kept_for_ever_when_their_name_holds_their_hash() {
    let check = |path, media, keep| {
        let answer = get(path);
        assert_eq!(
            (answer.status, answer.header("content-type"), answer.header("cache-control")),
            (200, media, keep)
        );
    };
    check("/app-4f1c.js", "text/javascript", "public, max-age=31536000, immutable");
    check("/sw.js", "text/javascript", "no-cache");
    check("/index.html", "text/html; charset=utf-8", "no-cache");
    check("/", "text/html; charset=utf-8", "no-cache");
}

#[test]
fn an_address_of_a_screen_opens_the_app() {
    for path in ["/", "/pair", "/job/Lot.2/shaft/S-1", "/job/Creek~20Rd/shaft/S-1/drawings"] {
        assert_eq!(get(path).text(), "<!doctype html>the app", "{path}");
    }
}

#[test]
fn a_browser_that_takes_packed_files_gets_them() {
    let office = Office::open();
    let packed = office.ask("GET /sw.js\naccept-encoding: gzip, deflate, br", None, b"");
    assert_eq!((packed.header("content-encoding"), packed.header("vary")), ("gzip", "accept-encoding"));
    let plain = office.ask("GET /sw.js\naccept-encoding: gzip;q=0", None, b"");
    assert_eq!((plain.header("content-encoding"), plain.text().as_str()), ("", "keep()"));
}

#[test]
fn every_answer_carries_the_policy() {
    let office = Office::open();
    let mut policies = ["/", "/api/v1/hello", "/api/v1/nowhere", "/nowhere.js", "/desk"].map(|path| {
        let answer = office.ask(&format!("GET {path}"), None, b"");
        assert_eq!(answer.header("x-content-type-options"), "nosniff", "{path}");
        assert_eq!(
            answer.header("referrer-policy"),
            if path == "/desk" { "same-origin" } else { "no-referrer" },
            "{path}"
        );
        answer.header("content-security-policy").to_owned()
    });
    policies.sort();
    assert_eq!(policies.first(), policies.last());
    expect!["default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"]
        .assert_eq(&policies[0]);
}

#[track_caller]
fn check(head: &str, expected: Expect) {
    expected.assert_eq(&Office::open().ask(head, None, b"").told());
}

#[test]
fn what_is_nowhere() {
    check(
        "GET /nowhere.js",
        expect![[r#"
        404 not-found
        There is nothing at /nowhere.js.
        The desk has nothing under that name; nothing was changed.
        Check the name. What a device has not yet sent cannot be here.
    "#]],
    );
    check(
        "GET /api/v1/nowhere",
        expect![[r#"
        404 not-found
        There is nothing at /api/v1/nowhere.
        The desk has nothing under that name; nothing was changed.
        Check the name. What a device has not yet sent cannot be here.
    "#]],
    );
    check(
        "POST /job/J-1",
        expect![[r#"
        405 wrong-method
        POST is not done with /job/J-1.
        Nothing was changed.
        Update the app and the desk to the same version.
    "#]],
    );
    check(
        "PATCH /api/v1/hello",
        expect![[r#"
        405 wrong-method
        PATCH is not done with /api/v1/hello.
        Nothing was changed.
        Update the app and the desk to the same version.
    "#]],
    );
}

/// A request as it is written, without a client that tidies the path up.
fn raw(office: &Office, path: &str) -> String {
    let mut stream = TcpStream::connect(office.address()).expect("connected");
    let head = format!("GET {path} HTTP/1.1\r\nhost: office\r\nconnection: close\r\n\r\n");
    stream.write_all(head.as_bytes()).expect("asked");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("an answer");
    answer
}

#[test]
fn a_path_that_climbs_finds_nothing() {
    let office = Office::open();
    for path in [
        "/../record.sqlite",
        "/..%2f..%2fetc/passwd",
        "/%2e%2e/%2e%2e/etc/passwd",
        "/job/../../record.sqlite",
        "//etc/passwd",
        "/api/v1/../../record.sqlite",
        "/desk/../record.sqlite",
        "/record.sqlite/..",
    ] {
        let answer = raw(&office, path);
        assert!(answer.starts_with("HTTP/1.1 404") && answer.contains("\"not-found\""), "{path}: {answer}");
    }
}
