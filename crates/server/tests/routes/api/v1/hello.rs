//! `GET /hello`.

use crate::office::{Office, noon};
use wire::http::Hello;

#[test]
fn whoever_asks_learns_who_the_office_is_and_whether_it_knows_them() {
    let office = Office::open();
    let token = office.pair(1);
    for (answer, paired) in [
        (office.ask("GET /api/v1/hello", None, b""), false),
        (office.get("/api/v1/hello", &token), true),
        (office.get("/api/v1/hello", &"0".repeat(64)), false),
        (office.ask(&format!("GET /api/v1/hello\ncookie: shaftbook_device={token}"), None, b""), true),
    ] {
        let hello: Hello = serde_json::from_slice(&answer.bytes).expect("a hello");
        assert_eq!((hello.office.as_str(), hello.paired), ("Office of the test", paired));
        assert_eq!(hello.clock.expect("a demonstration").site, noon());
    }
}

#[test]
fn without_a_demonstration_there_is_no_other_clock() {
    let office = Office::with(|site| site.clock = None);
    let answer = office.ask("GET /api/v1/hello", None, b"");
    let hello: Hello = serde_json::from_slice(&answer.bytes).expect("a hello");
    assert_eq!(hello.clock, None);
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).expect("after 1970");
    assert!(hello.server_time.seconds().abs_diff(now.as_secs() as i64) <= 5);
}
