//! Answers that `openssl ts` gave are read, proved and doubted.
//!
//! The files in `golden` were made once with OpenSSL 3.0 (`openssl ts -query`, `-reply`) and verified by it
//! (`openssl ts -verify`), with keys, a root and a service that are invented; the keys were thrown away.

use expect_test::{Expect, expect};
use timestamp::{Doubt, Roots, Token, Trust, query};

/// The numbers of the queries, as `openssl ts -reply -text` shows them.
const RSA: u64 = 0x4c70_a19e_0e8f_edfd;
const EC: u64 = 0xb672_07ed_5bac_fc4d;
const EC_384: u64 = 0x0fcf_fb4f_f5a8_6680;

fn golden(name: &str) -> Vec<u8> {
    let path = format!("{}/tests/golden/{name}", env!("CARGO_MANIFEST_DIR"));
    std::fs::read(path).expect("a golden file")
}

fn roots(name: &str) -> Roots {
    Roots::from_pem(&golden(name)).expect("a root")
}

#[track_caller]
fn check(name: &str, root: &str, once: u64, expected: &Expect) {
    let token = Token::read(&golden(name)).expect("a token");
    assert_eq!(token.covers(&golden("data.txt")), Ok(()));
    assert_eq!(token.answers(once), Ok(()));
    assert_eq!(token.trust(&roots(root)), Trust::Rooted);
    expected.assert_eq(&format!("{}, number {}, at {}", token.service(), token.number(), token.time()));
}

#[test]
fn tokens_of_every_kind_of_key_are_proved() {
    check(
        "rsa.tsr",
        "rsa-root.pem",
        RSA,
        &expect!["CN=Invented time stamps, O=Nobody, C=XX, number 2, at 2026-11-29T23:41:52+00:00"],
    );
    check(
        "ec.tsr",
        "ec-root.pem",
        EC,
        &expect!["CN=Invented time stamps, O=Nobody, C=XX, number 3, at 2026-11-29T23:41:52+00:00"],
    );
    check(
        "ec-384.tsr",
        "ec-384-root.pem",
        EC_384,
        &expect!["CN=Invented time stamps, O=Nobody, C=XX, number 6, at 2026-11-29T23:42:16+00:00"],
    );
    check(
        "older.tsr",
        "rsa-root.pem",
        RSA,
        &expect!["CN=Invented time stamps, O=Nobody, C=XX, number 5, at 2026-11-29T23:41:52+00:00"],
    );
}

/// A service may number with 160 bits; the number was cut off at 127.
#[test]
fn a_long_number_is_told_whole() {
    let token = Token::read(&golden("long-number.tsr")).expect("a token");
    assert_eq!(token.number(), "7f3a9c0122334455667788990011223344556678");
}

#[test]
fn a_token_is_about_its_own_bytes_and_its_own_query() {
    let token = Token::read(&golden("rsa.tsr")).expect("a token");
    assert_eq!(token.covers(b"The seal of another shaft.\n"), Err(Doubt::OtherBytes));
    assert_eq!(token.answers(1), Err(Doubt::OtherQuery));
}

#[test]
fn a_service_that_refuses_is_quoted() {
    let doubt = Token::read(&golden("refused.tsr")).expect_err("no token");
    assert_eq!(doubt, Doubt::Refused("Message digest algorithm is not supported.".to_owned()));
}

/// The second root has the name of the first and another key.
#[test]
fn a_root_is_known_by_its_key() {
    let token = Token::read(&golden("rsa.tsr")).expect("a token");
    for root in ["other-root.pem", "ec-root.pem"] {
        assert!(matches!(token.trust(&roots(root)), Trust::Unrooted(_)), "{root}");
    }
    assert!(Roots::from_pem(b"").is_none());
    assert!(Roots::from_pem(b"-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n").is_none());
}

/// Every byte of every token, each altered in two ways: what is still believed says the same time of the same bytes.
#[test]
fn no_byte_that_is_believed_can_be_touched() {
    for (name, root) in
        [("rsa.tsr", "rsa-root.pem"), ("ec.tsr", "ec-root.pem"), ("older.tsr", "rsa-root.pem")]
    {
        let (whole, roots) = (golden(name), roots(root));
        let time = Token::read(&whole).expect("a token").time();
        let mut refused = 0;
        for at in 0..whole.len() {
            for by in [0x01, 0x80] {
                let mut altered = whole.clone();
                altered[at] ^= by;
                match Token::read(&altered) {
                    Ok(token) if token.trust(&roots) == Trust::Rooted => {
                        assert_eq!(token.time(), time, "{name}, byte {at}");
                        assert_eq!(token.covers(&golden("data.txt")), Ok(()), "{name}, byte {at}");
                    }
                    _ => refused += 1,
                }
            }
        }
        // What is not signed is the wrapping: the status, the list of hashes, the parameters of numbers.
        assert!(refused * 100 > whole.len() * 2 * 95, "{name}: {refused} of {} refused", whole.len() * 2);
    }
}

#[test]
fn what_is_cut_off_or_foreign_is_no_answer() {
    let whole = golden("ec.tsr");
    for length in 0..whole.len() {
        assert!(Token::read(&whole[..length]).is_err(), "{length}");
    }
    assert!(matches!(Token::read(b"<html>no such page</html>"), Err(Doubt::Unreadable(_))));
}

/// As `openssl ts -query -text` reads it: version 1, SHA-256 of the bytes, the number, the wish for the certificate.
#[test]
fn a_query_says_no_more_than_it_has_to() {
    let query = query(b"The seal of an invented shaft.\n", 0x4c70_a19e_0e8f_edfd).expect("a query");
    let hex: String = query.iter().map(|byte| format!("{byte:02x}")).collect();
    expect!["3041020101302f300b0609608648016503040201042068ecc1be885d33f7e9a80b8315c2514dee2781a716497d67a8a6a67b6d3b04a202084c70a19e0e8fedfd0101ff"].assert_eq(&hex);
}
