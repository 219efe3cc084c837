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

/// As `shaftbook pair` does beside the program that serves: kept in the database, handed over in a file.
fn made_beside(office: &Office) -> server::Code {
    use store::Office as _;
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).expect("after 1970");
    let now = quantity::Moment::at(now.as_secs() as i64, 0);
    let code = server::Code::draw("https://office.example", now).expect("chance");
    let mut store = office.store();
    store.add_code(&code.text, code.until.seconds(), now.seconds()).expect("kept");
    code.hand_over(office.folder.path()).expect("handed over");
    code
}

/// Every file of the office, and whether a text stands in one of them.
fn lies_in_the_folder(office: &Office, text: &str) -> bool {
    let files = std::fs::read_dir(office.folder.path()).expect("a folder").flatten();
    let held = files.filter_map(|file| std::fs::read(file.path()).ok());
    held.into_iter().any(|bytes| bytes.windows(text.len()).any(|window| window == text.as_bytes()))
}

#[test]
fn a_code_that_another_program_made_is_shown_and_lies_nowhere_afterwards() {
    let office = Office::open();
    let first = made_beside(&office);
    let second = made_beside(&office);
    let page = office.ask(PAGE, None, b"").text();
    assert!(page.contains("<svg") && page.contains("https://office.example/pair"), "{page}");
    let shown = [&first, &second].map(|code| page.contains(&code.grouped()));
    assert_eq!(shown.iter().filter(|shown| **shown).count(), 1, "one at a time: {page}");
    for code in [&first, &second] {
        assert!(!lies_in_the_folder(&office, &code.text));
    }
    // When the one that is shown is used, the other is shown.
    let (used, left) = if shown[0] { (&first, &second) } else { (&second, &first) };
    assert_eq!(office.ask("POST /api/v1/pair", None, &pairing(&used.text, 1)).status, 200);
    let page = office.ask(PAGE, None, b"").text();
    assert!(page.contains(&left.grouped()) && !page.contains(&used.grouped()), "{page}");
    assert_eq!(office.ask("POST /api/v1/pair", None, &pairing(&left.text, 2)).status, 200);
    assert!(office.ask(PAGE, None, b"").text().contains("No code serves at the moment"));
}

/// What was handed to a program that is gone is not shown by the next one.
#[test]
fn a_code_handed_over_before_the_start_is_taken_away() {
    let mut office = Office::open();
    office.running.take().expect("running").stop();
    let code = made_beside(&office);
    assert!(lies_in_the_folder(&office, &code.text));
    office.running = Some(office.beside());
    assert!(!lies_in_the_folder(&office, &code.text));
    assert!(office.ask(PAGE, None, b"").text().contains("No code serves at the moment"));
    assert_eq!(
        office.ask("POST /api/v1/pair", None, &pairing(&code.text, 1)).status,
        200,
        "it serves all the same"
    );
}

#[test]
fn a_device_that_is_let_go_is_shown_nothing_more() {
    let office = Office::open();
    let (lost, kept) = (office.pair(1), office.pair(2));
    assert_eq!(office.get("/api/v1/jobs", &lost).status, 200);
    assert_eq!(office.ask("POST /desk/devices/1/let-go", None, b"").status, 303);
    assert_eq!(office.get("/api/v1/entries?job=J-1", &lost).refusal().code, "not-paired");
    assert_eq!(office.get("/api/v1/entries?job=J-1", &kept).status, 200);
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
