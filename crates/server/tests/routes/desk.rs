//! `GET /desk`, `POST /desk/codes`, `POST /desk/devices/{number}/let-go`.

use crate::office::{Office, pairing};
use expect_test::expect;

const PAGE: &str = "GET /desk";

#[test]
fn the_desk_shows_a_code_once_there_is_one_until_it_is_used() {
    let office = Office::open();
    assert!(office.ask(PAGE, None, b"").text().contains("No code serves at the moment"));
    let made = office.ask("POST /desk/codes", None, b"");
    assert_eq!((made.status, made.header("location")), (303, "/desk"));
    let page = office.ask(PAGE, None, b"").text();
    let shown = page.split_once("class=\"code\">").expect("a code").1.split('<').next().expect("a code");
    assert!(page.contains("<svg") && page.contains(&format!("http://{}/pair", office.address())), "{page}");
    assert_eq!(office.ask("POST /api/v1/pair", None, &pairing(shown, 1)).status, 200);
    let after = office.ask(PAGE, None, b"").text();
    assert!(after.contains("No code serves at the moment") && after.contains("Rig 1"), "{after}");
}

#[test]
fn a_device_that_is_let_go_sends_nothing_more() {
    let office = Office::open();
    let (lost, kept) = (office.pair(1), office.pair(2));
    assert_eq!(office.get("/api/v1/jobs", &lost).status, 200);
    assert_eq!(office.ask("POST /desk/devices/1/let-go", None, b"").status, 303);
    assert_eq!(office.get("/api/v1/jobs", &lost).refusal().code, "not-paired");
    assert_eq!(office.get("/api/v1/jobs", &kept).status, 200);
    expect![[r#"
        404 not-found
        No device 1 is paired.
        The desk has nothing under that name; nothing was changed.
        Check the name. What a device has not yet sent cannot be here.
    "#]]
    .assert_eq(&office.ask("POST /desk/devices/1/let-go", None, b"").told());
}

#[test]
fn the_desk_is_for_its_own_machine() {
    let office = Office::open();
    let refused = office.ask("GET /desk\nx-forwarded-for: 192.0.2.7", None, b"");
    expect![[r#"
        403 not-from-here
        The desk page is shown on the desk's own machine only.
        Nothing was shown or changed.
        Open this page on the machine the desk runs on.
    "#]]
    .assert_eq(&refused.told());
    for head in [
        "GET /desk\nhost: rebound.example",
        "GET /desk/desk.css\nhost: rebound.example",
        "POST /desk/codes\norigin: https://elsewhere.example",
        "POST /desk/devices/1/let-go\norigin: null",
    ] {
        assert_eq!(office.ask(head, None, b"").refusal().code, "not-from-here", "{head}");
    }
}

#[test]
fn the_page_brings_its_style_in_a_file() {
    let style = Office::open().ask("GET /desk/desk.css", None, b"");
    assert_eq!((style.status, style.header("content-type")), (200, "text/css; charset=utf-8"));
}
