//! Passkeys: added on one's own page, used to come in, and what an attacker would try with them.

use crate::authenticator::Authenticator;
use crate::office::{Answer, Office};
use crate::people::{OWN, comes, cookie, manager, page, post};
use expect_test::expect;
use serde_json::{Value, json};
use store::{Passkeys, People, SignIns};

/// An office with a name over HTTPS, as a proxy would bring it.
fn open() -> Office {
    Office::with(|site| site.address = Some("https://office.example".to_owned()))
}

fn ask(office: &Office, path: &str, cookie: &str, body: &Value) -> Answer {
    let head = format!("POST {path}\n{OWN}\ncookie: {cookie}");
    office.ask(&head, None, body.to_string().as_bytes())
}

fn read(answer: &Answer) -> Value {
    serde_json::from_slice(&answer.bytes).expect("JSON")
}

/// Adds a passkey of whoever is signed in.
fn add(office: &Office, cookie: &str, device: &mut Authenticator) -> Answer {
    let begun = read(&ask(office, "/people/passkeys/new", cookie, &json!({})));
    let answer = device.make(&begun["question"]);
    let brought = json!({ "ceremony": begun["ceremony"], "name": "Phone", "answer": answer });
    ask(office, "/people/passkeys", cookie, &brought)
}

/// What a sign-in with a passkey would send.
fn shown(office: &Office, device: &Authenticator) -> Value {
    let begun = read(&ask(office, "/people/sign-in/passkey/begin", "x=1", &json!({})));
    json!({ "ceremony": begun["ceremony"], "answer": device.show(&begun["question"]) })
}

fn sign_in(office: &Office, shown: &Value) -> Answer {
    ask(office, "/people/sign-in/passkey", "x=1", shown)
}

/// A manager with a passkey.
fn with_passkey() -> (Office, String, Authenticator) {
    let office = open();
    let chief = manager(&office);
    let mut device = Authenticator::new(1);
    let added = add(&office, &chief, &mut device);
    assert_eq!((added.status, read(&added)), (200, json!({ "to": "/people" })), "{}", added.text());
    (office, chief, device)
}

#[test]
fn a_passkey_is_added_used_and_removed() {
    let (office, chief, mut device) = with_passkey();
    let own = page(&office, "/people", &chief).text();
    assert!(own.contains("Phone") && own.contains("not used yet"), "{own}");
    device.counter = 2;
    let answer = sign_in(&office, &shown(&office, &device));
    assert_eq!((answer.status, read(&answer)), (200, json!({ "to": "/people" })), "{}", answer.text());
    let here = cookie(&answer);
    assert!(page(&office, "/people", &here).text().contains("last used"));
    // Of another it is nobody's business.
    let hall = comes(&office, "a.hall", &[]);
    assert_eq!(post(&office, "/people/passkeys/1/remove", &hall, "").refusal().code, "not-found");
    assert_eq!(post(&office, "/people/passkeys/1/remove", &here, "").status, 303);
    device.counter = 3;
    assert_eq!(sign_in(&office, &shown(&office, &device)).refusal().code, "passkey-wrong");
    let told: Vec<String> = office
        .store()
        .sign_ins(i64::MAX, 5)
        .expect("asked")
        .into_iter()
        .map(|(_, one)| format!("{} {}: {}", one.what, one.person.unwrap_or_default(), one.about))
        .collect();
    expect![[r#"
        refused : passkey
        passkey-removed d.pike: passkey 1
        invitation-used a.hall: 
        signed-in d.pike: with passkey 1: Phone
        passkey-added d.pike: passkey 1: Phone"#]]
    .assert_eq(&told.join("\n"));
}

/// What was heard on the way, or kept by a page, opens nothing a second time.
#[test]
fn an_answer_serves_once_and_for_its_own_question() {
    let (office, _, mut device) = with_passkey();
    device.counter = 2;
    let first = shown(&office, &device);
    assert_eq!(sign_in(&office, &first).status, 200);
    expect![[r#"
        403 passkey-wrong
        What was begun here is over: it serves once, for five minutes.
        Nobody was let in, no passkey was added, and nothing else was changed.
        Try once more. If it stays, sign in with the password, and look over your passkeys on your own page.
    "#]]
    .assert_eq(&sign_in(&office, &first).told());
    // The old answer under a new question, and a wrong one uses the question up.
    let mut other = shown(&office, &device);
    let right = other["answer"].clone();
    other["answer"] = first["answer"].clone();
    assert_eq!(sign_in(&office, &other).refusal().code, "passkey-wrong");
    other["answer"] = right;
    assert_eq!(sign_in(&office, &other).refusal().code, "passkey-wrong");
}

#[track_caller]
fn check(change: impl FnOnce(&mut Authenticator), what: &str) {
    let (office, _, mut device) = with_passkey();
    device.counter = 2;
    change(&mut device);
    let refused = sign_in(&office, &shown(&office, &device)).refusal();
    assert_eq!((refused.code.as_str(), refused.what.as_str()), ("passkey-wrong", what));
}

const NOT_IT: &str = "The passkey was not taken: its answer is not one to what was asked.";

#[test]
fn what_is_signed_for_another_page_or_without_anybody_there_is_not_taken() {
    check(|device| device.origin = "https://elsewhere.example".to_owned(), NOT_IT);
    check(|device| device.origin = "http://office.example".to_owned(), NOT_IT);
    check(|device| device.origin = "https://office.example:8443".to_owned(), NOT_IT);
    check(|device| device.name = "elsewhere.example".to_owned(), NOT_IT);
    // Present, and the device has not seen who.
    check(|device| device.flags = 0x01, NOT_IT);
    check(|device| device.flags = 0x00, NOT_IT);
}

/// A counter that goes back is that of a copy: told to whoever shows it, and to the office.
#[test]
fn a_copied_passkey_is_refused_and_noted() {
    let (office, _, mut device) = with_passkey();
    device.counter = 9;
    assert_eq!(sign_in(&office, &shown(&office, &device)).status, 200);
    device.counter = 9;
    let refused = sign_in(&office, &shown(&office, &device)).refusal();
    assert_eq!(refused.what, "The passkey has counted less than before, so there may be a copy of it.");
    let noted = office.store().sign_ins(i64::MAX, 1).expect("asked").remove(0).1;
    assert_eq!(noted.person.as_deref(), Some("d.pike"));
    assert_eq!(noted.about, "passkey 1: its counter went back, it may have been copied");
}

/// Another key under the id of a known one, and a key nobody added.
#[test]
fn a_key_that_was_not_added_opens_nothing() {
    let (office, chief, device) = with_passkey();
    let mut forged = Authenticator::new(1);
    // It knows the handle, and has signed for it itself.
    let begun = read(&ask(&office, "/people/passkeys/new", &chief, &json!({})));
    forged.make(&begun["question"]);
    forged.counter = device.counter + 1;
    assert_eq!(sign_in(&office, &shown(&office, &forged)).refusal().what, NOT_IT);
    let mut never = Authenticator::new(7);
    never.make(&begun["question"]);
    let refused = sign_in(&office, &shown(&office, &never)).refusal();
    assert_eq!(refused.what, "The office knows no such passkey, or its holder was let go.");
}

#[test]
fn one_who_was_let_go_comes_in_with_no_passkey() {
    let (office, chief, _) = with_passkey();
    let hall = comes(&office, "a.hall", &[]);
    let mut device = Authenticator::new(2);
    assert_eq!(add(&office, &hall, &mut device).status, 200);
    let before = shown(&office, &device);
    assert_eq!(post(&office, "/people/office/people/2/let-go", &chief, "").status, 303);
    assert_eq!(sign_in(&office, &before).refusal().code, "passkey-wrong");
    // Invited again, the old one is gone.
    let two = office.store().person_named("a.hall").expect("asked").expect("somebody").0.number;
    assert_eq!(office.store().passkeys_of(two).expect("asked"), []);
}

/// A ceremony of one person is not ended by another, and none adds a passkey for somebody else.
#[test]
fn nobody_ends_what_another_began() {
    let (office, chief, _) = with_passkey();
    let hall = comes(&office, "a.hall", &[]);
    let begun = read(&ask(&office, "/people/passkeys/new", &chief, &json!({})));
    let answer = Authenticator::new(3).make(&begun["question"]);
    let brought = json!({ "ceremony": begun["ceremony"], "name": "Phone", "answer": answer });
    assert_eq!(ask(&office, "/people/passkeys", &hall, &brought).refusal().code, "passkey-wrong");
    assert_eq!(ask(&office, "/people/passkeys", &chief, &brought).refusal().code, "passkey-wrong", "used up");
    // A device that has one already is asked for no second.
    let known = &read(&ask(&office, "/people/passkeys/new", &chief, &json!({})))["question"];
    assert_eq!(known["excludeCredentials"].as_array().map(Vec::len), Some(1));
    assert_eq!(known["authenticatorSelection"]["residentKey"], "required");
    assert_eq!(known["authenticatorSelection"]["userVerification"], "required");
}

#[test]
fn guessing_with_passkeys_is_slowed() {
    let (office, _, _) = with_passkey();
    let never = Authenticator::new(7);
    let begun = |office: &Office| {
        let mut shown = shown(office, &never);
        shown["answer"]["response"]["userHandle"] = json!("AAAAAAAAAAAAAAAAAAAAAA");
        shown
    };
    for _ in 0..5 {
        assert_eq!(sign_in(&office, &begun(&office)).refusal().code, "passkey-wrong");
    }
    assert_eq!(sign_in(&office, &begun(&office)).refusal().code, "too-many");
}

/// One half at one server, the other at another: they share the database, and with it what was begun.
#[test]
fn what_one_server_began_another_ends() {
    let (office, _, mut device) = with_passkey();
    let beside = office.beside_at("https://office.example");
    device.counter = 2;
    let shown = shown(&office, &device);
    let head = format!("POST /people/sign-in/passkey\n{OWN}");
    let answer = office.ask_at((beside.address(), &head), None, shown.to_string().as_bytes());
    assert_eq!(answer.status, 200, "{}", answer.text());
    assert_eq!(sign_in(&office, &shown).refusal().code, "passkey-wrong");
}

/// Reached by an address in figures it has no name a passkey could be bound to, and says so.
#[test]
fn an_office_without_a_name_says_why_it_takes_none() {
    let office = Office::open();
    let chief = manager(&office);
    assert!(page(&office, "/people", &chief).text().contains("A passkey is bound to the name of the office"));
    assert!(!page(&office, "/people/sign-in", "").text().contains("use-passkey"));
    let refused = ask(&office, "/people/passkeys/new", &chief, &json!({})).refusal();
    assert_eq!(
        refused.what,
        "This office is not reached by a name over HTTPS, so no passkey can be bound to it."
    );
}
