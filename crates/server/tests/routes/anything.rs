//! Whatever is sent to whatever address: an answer, and where it is a refusal, in the one shape.

use crate::office::{Office, lines, remarks};
use proptest::prelude::*;
use server::Limits;

/// Addresses that take something, and such as come near one.
fn path() -> impl Strategy<Value = String> {
    let known = prop::sample::select(vec![
        "/api/v1/hello",
        "/api/v1/pair",
        "/api/v1/jobs",
        "/api/v1/entries",
        "/api/v1/entries?job=J-1",
        "/api/v1/entries?job=J-1&after=0&limit=18446744073709551616",
        "/api/v1/photos/missing",
        "/api/v1/photos/e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
        "/api/v1/jobs/J-1/record.jsonl",
        "/api/v1/jobs/J-1/shafts/S-1/log.csv",
        "/desk",
        "/desk/devices/1/let-go",
    ])
    .prop_map(str::to_owned);
    let query = "[a-z0-9%&=+;_-]{0,12}";
    let asked = query.prop_map(|query| format!("/api/v1/entries?job=J-1&{query}"));
    let after = ("[-+0-9a-f.%]{0,24}", "[-+0-9e.%]{0,24}")
        .prop_map(|(after, limit)| format!("/api/v1/entries?job=J-1&after={after}&limit={limit}"));
    let photo = "[0-9a-f%.]{60,66}".prop_map(|name| format!("/api/v1/photos/{name}"));
    let job = "[A-Za-z0-9%._-]{0,9}".prop_map(|job| format!("/api/v1/jobs/{job}/record.jsonl"));
    let other = "[a-z0-9/%._~-]{0,24}".prop_map(|rest| format!("/{rest}"));
    prop_oneof![4 => known, 1 => asked, 1 => after, 1 => photo, 1 => job, 1 => other]
}

fn body() -> impl Strategy<Value = Vec<u8>> {
    let near = prop::sample::select(vec![
        r#"{"code":"K7PM3XQF","name":"Rig","device":"00"}"#.to_owned(),
        r#"{"code":1,"name":"","device":null}"#.to_owned(),
        r#"{"hashes":["e3b0",""]}"#.to_owned(),
        r#"{"hashes":[[[[[[]]]]]]}"#.to_owned(),
        lines(&remarks(1, 2)),
        lines(&remarks(1, 2)).replace("remark 1", "remark 9"),
    ]);
    prop_oneof![near.prop_map(String::into_bytes), prop::collection::vec(any::<u8>(), 0..200)]
}

fn method() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec!["GET", "POST", "PUT", "DELETE", "PATCH", "OPTIONS"])
}

#[test]
fn whatever_is_sent_has_an_answer_in_the_one_shape() {
    // Patient enough for a slow machine, and never too often.
    let office = Office::limited(Limits { rate: 1e6, burst: 1e6, ..Limits::default() });
    let token = office.pair(1);
    let header = "[ -~]{0,30}";
    let all = (method(), path(), body(), any::<bool>(), header);
    let mut runner = proptest::test_runner::TestRunner::new(ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::with_cases(300)
    });
    let held = runner.run(&all, |(method, path, body, paired, header)| {
        let head = format!("{method} {path}\ncookie: {}\nx-forwarded-for: {}", header.trim(), header.trim());
        // What is no address at all is refused before it is sent.
        prop_assume!(format!("http://office{path}").parse::<ureq::http::Uri>().is_ok());
        let body = if matches!(method, "GET" | "DELETE" | "OPTIONS") { Vec::new() } else { body };
        let answer = office.ask(&head, paired.then_some(token.as_str()), &body);
        if answer.status >= 400 {
            let refusal = answer.refusal();
            prop_assert!(
                refusal.code != "internal" && answer.status < 500,
                "{method} {path}: {}",
                answer.told()
            );
            let sentences = [&refusal.what, &refusal.meaning, &refusal.next];
            prop_assert!(sentences.iter().all(|sentence| sentence.ends_with('.')), "{}", answer.told());
        }
        Ok(())
    });
    held.unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(office.get("/api/v1/hello", &token).status, 200, "and it goes on");
}
