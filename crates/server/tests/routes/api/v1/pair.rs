//! `POST /pair`.

use crate::office::{Office, pairing};
use expect_test::{Expect, expect};
use wire::http::Paired;

const PAIR: &str = "POST /api/v1/pair";

#[test]
fn a_code_from_the_desk_becomes_a_token_and_a_cookie() {
    let office = Office::open();
    let code = office.desk().new_code().expect("a code");
    // As somebody types what is printed in two groups.
    let answer = office.ask(PAIR, None, &pairing(&code.grouped().to_lowercase(), 1));
    let paired: Paired = serde_json::from_slice(&answer.bytes).expect("paired");
    assert_eq!((answer.status, paired.office.as_str(), paired.token.len()), (200, "Office of the test", 64));
    let cookie =
        format!("shaftbook_device={}; Path=/; Max-Age=34560000; HttpOnly; SameSite=Strict", paired.token);
    assert_eq!(answer.header("set-cookie"), cookie);
    assert_eq!(office.get("/api/v1/jobs", &paired.token).status, 200);
    let devices = office.desk().devices().expect("devices");
    assert_eq!(devices.iter().map(|device| device.name.as_str()).collect::<Vec<_>>(), ["Rig 1"]);
}

#[test]
fn behind_a_program_that_speaks_https_the_cookie_is_for_https() {
    let office = Office::open();
    let code = office.desk().new_code().expect("a code").text;
    let head = format!("{PAIR}\nx-forwarded-proto: https");
    let answer = office.ask(&head, None, &pairing(&code, 1));
    assert!(answer.header("set-cookie").ends_with("; SameSite=Strict; Secure"), "{}", answer.text());
}

#[test]
fn neither_token_nor_code_lies_in_the_folder() {
    let mut office = Office::on_a_file();
    let token = office.pair(1);
    let code = office.desk().new_code().expect("a code").text;
    office.running.take().expect("running").stop();
    let kept = std::fs::read(office.database()).expect("readable");
    for secret in [&token, &code] {
        assert!(!kept.windows(secret.len()).any(|window| window == secret.as_bytes()));
    }
    let rig = b"Rig 1";
    assert!(kept.windows(rig.len()).any(|window| window == rig), "the file is the one that was written");
}

#[test]
fn a_device_paired_again_keeps_its_number_and_loses_its_old_token() {
    let office = Office::open();
    let (first, second) = (office.pair(1), office.pair(1));
    assert_eq!(office.get("/api/v1/jobs", &first).status, 401);
    assert_eq!(office.get("/api/v1/jobs", &second).status, 200);
    assert_eq!(office.desk().devices().expect("devices").len(), 1);
}

#[track_caller]
fn check(body: &[u8], expected: &Expect) {
    expected.assert_eq(&Office::open().ask(PAIR, None, body).told());
}

#[test]
fn a_code_the_desk_does_not_have() {
    let expected = expect![[r#"
        403 code-wrong
        The desk has no such code, or it was used, or its ten minutes are over.
        The device is not paired; its record is untouched.
        Read the code on the desk again. A code serves once and for ten minutes; ask for a new one.
    "#]];
    check(&pairing("K7PM3XQF", 1), &expected);
    check(&pairing("", 1), &expected);
    check(&pairing("K7PM3XQ0; --", 1), &expected);
}

#[test]
fn a_code_serves_once() {
    let office = Office::open();
    let code = office.desk().new_code().expect("a code").text;
    assert_eq!(office.ask(PAIR, None, &pairing(&code, 1)).status, 200);
    assert_eq!(office.ask(PAIR, None, &pairing(&code, 2)).refusal().code, "code-wrong");
    assert_eq!(office.desk().devices().expect("devices").len(), 1);
}

#[test]
fn a_code_whose_time_is_over_serves_no_more() {
    use store::Office as _;
    let office = Office::open();
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).expect("after 1970");
    let now = now.as_secs() as i64;
    let mut store = office.store();
    store.add_code("K7PM3XQF", now - 1, now - 600).expect("kept");
    store.add_code("ACDEFGHJ", now + 60, now - 600).expect("kept");
    assert_eq!(office.ask(PAIR, None, &pairing("K7PM3XQF", 1)).refusal().code, "code-wrong");
    assert_eq!(office.ask(PAIR, None, &pairing("ACDEFGHJ", 1)).status, 200);
}

#[test]
fn a_body_that_is_no_pairing() {
    check(
        b"{}",
        &expect![[r#"
        400 malformed
        The body is not as it should be: missing field `code` at line 1 column 2.
        Nothing was taken in.
        Update the app and the desk to the same version; if it stays, send the request's name to support.
    "#]],
    );
    check(
        b"a code",
        &expect![[r#"
        400 malformed
        The body is not as it should be: expected value at line 1 column 1.
        Nothing was taken in.
        Update the app and the desk to the same version; if it stays, send the request's name to support.
    "#]],
    );
    let odd = br#"{"code":"K7PM3XQF","name":"Rig","device":"ff"}"#;
    check(
        odd,
        &expect![[r#"
        400 malformed
        The device's key is not 64 hexadecimal digits in small letters.
        Nothing was taken in.
        Update the app and the desk to the same version; if it stays, send the request's name to support.
    "#]],
    );
    let nameless = String::from_utf8(pairing("K7PM3XQF", 1)).expect("a text").replace("Rig 1", "  ");
    check(
        nameless.as_bytes(),
        &expect![[r#"
        400 malformed
        A device needs a name of 1 to 60 characters.
        Nothing was taken in.
        Update the app and the desk to the same version; if it stays, send the request's name to support.
    "#]],
    );
}

/// Behind a proxy everybody comes from one address; the proxy says whose request it is, when it is believed.
#[test]
fn behind_a_proxy_one_who_guesses_does_not_keep_the_others_waiting() {
    let from = |address: &str| format!("{PAIR}\nx-forwarded-for: 203.0.113.99, {address}");
    for (behind_proxy, others_wait) in [(true, false), (false, true)] {
        let office = Office::with(|site| site.behind_proxy = behind_proxy);
        for _ in 0..5 {
            let refused = office.ask(&from("192.0.2.7"), None, &pairing("K7PM3XQF", 1)).refusal();
            assert_eq!(refused.code, "code-wrong");
        }
        let code = office.desk().new_code().expect("a code").text;
        let refused = office.ask(&from("192.0.2.7"), None, &pairing(&code, 1)).refusal();
        assert_eq!(refused.code, "too-many");
        let other = office.ask(&from("192.0.2.8"), None, &pairing(&code, 2)).status;
        assert_eq!(other == 429, others_wait, "believed: {behind_proxy}");
    }
}

#[test]
fn guessing_is_made_to_wait_and_says_how_long() {
    let office = Office::open();
    for _ in 0..5 {
        assert_eq!(office.ask(PAIR, None, &pairing("K7PM3XQF", 1)).refusal().code, "code-wrong");
    }
    let code = office.desk().new_code().expect("a code").text;
    let answer = office.ask(PAIR, None, &pairing(&code, 1));
    expect![[r#"
        429 too-many
        From this address too many wrong codes came in a row.
        Nothing was taken in; what is written waits on the device.
        Wait a minute; the device tries again by itself.
    "#]]
    .assert_eq(&answer.told());
    let wait: u64 = answer.header("retry-after").parse().expect("seconds");
    assert!((50..=61).contains(&wait), "{wait}");
}
