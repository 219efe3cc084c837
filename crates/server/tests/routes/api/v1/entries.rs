//! `POST /entries` and `GET /entries`.

use crate::office::{Answer, Office, line, lines, remarks};
use expect_test::{Expect, expect};
use record::Held;
use server::Limits;
use store::{Line, Store};
use testkit::{JOB, Tablet, body};
use wire::http::{LineAnswer, State};

const PUSH: &str = "POST /api/v1/entries";

fn states(answers: &[LineAnswer]) -> Vec<(usize, State)> {
    answers.iter().map(|answer| (answer.line, answer.state)).collect()
}

/// The sentences of each answer that has some.
fn told(answers: &[LineAnswer]) -> String {
    let of = |answer: &LineAnswer| {
        let refusal = answer.refusal.as_ref().or(answer.notice.as_ref())?;
        let word = if answer.refusal.is_some() { "refused" } else { "kept" };
        Some(format!(
            "line {} {word}: {}\n{}\n{}\n{}\n",
            answer.line, refusal.code, refusal.what, refusal.meaning, refusal.next
        ))
    };
    answers.iter().filter_map(of).collect()
}

#[test]
fn what_is_answered_stored_is_in_the_store() {
    let office = Office::open();
    let token = office.pair(1);
    let entries = remarks(1, 3);
    let pushed = office.push(&token, &lines(&entries));
    assert_eq!(states(&pushed.answers), [(1, State::Stored), (2, State::Stored), (3, State::Stored)]);
    assert_eq!(
        pushed.answers.iter().filter_map(|answer| answer.id).collect::<Vec<_>>(),
        [entries[0].id, entries[1].id, entries[2].id]
    );
    assert_eq!((pushed.cursor, told(&pushed.answers)), (3, String::new()));
    assert_eq!(office.desk().record(JOB).expect("read"), testkit::record(&entries));
}

/// A chain played again, by another device even, is known line by line and changes nothing.
#[test]
fn a_replayed_chain_is_known() {
    let office = Office::open();
    let (one, other) = (office.pair(1), office.pair(2));
    let entries = lines(&remarks(1, 3));
    office.push(&one, &entries);
    let again = office.push(&other, &entries);
    assert!(again.answers.iter().all(|answer| answer.state == State::Known), "{again:?}");
    assert_eq!(again.cursor, 3);
    let twice = office.push(&one, &(lines(&remarks(2, 1)) + &lines(&remarks(2, 1))));
    assert_eq!(states(&twice.answers), [(1, State::Stored), (2, State::Known)]);
}

#[test]
fn nothing_but_blank_lines_has_no_answers() {
    let office = Office::open();
    let token = office.pair(1);
    assert_eq!(office.push(&token, "\n  \n").answers, []);
}

/// Every way a line can be bad, between two good ones.
#[test]
fn a_bad_line_refuses_that_line_only() {
    let office = Office::open();
    let token = office.pair(1);
    let good = remarks(1, 2);
    let altered = line(&remarks(2, 1)[0]).replace("remark 0", "remark 9");
    let forged = {
        // The id of what stands there, sealed by somebody who has not the device's key.
        let text = line(&remarks(3, 1)[0]);
        let (head, seal) = text.split_at(text.find("\"sig\":\"").expect("a seal") + 7);
        let other = line(&remarks(4, 1)[0]);
        let at = other.find("\"sig\":\"").expect("a seal") + 7;
        assert_ne!(seal, &other[at..]);
        head.to_owned() + &other[at..]
    };
    let spaced = line(&remarks(5, 1)[0]).replacen(':', ": ", 1);
    let long = line(&Tablet::new(6).write("10:41", body("remark", &[("text", &"a".repeat(600_000))])));
    let half = "{\"half\":".to_owned();
    let all = [&line(&good[0]), &altered, &forged, &spaced, &half, &long, &line(&good[1])];
    let pushed = office.push(&token, &all.map(String::as_str).join("\n"));
    let of = |state| {
        pushed
            .answers
            .iter()
            .filter(|answer| answer.state == state)
            .map(|answer| answer.line)
            .collect::<Vec<_>>()
    };
    assert_eq!((of(State::Stored), of(State::Refused)), (vec![1, 7], vec![2, 3, 4, 5, 6]));
    expect![[r#"
        line 2 refused: line-altered
        This line is no entry: the id does not follow from the content; it was altered.
        This entry was not taken in, because it is not what its device signed; every other one was.
        Keep the device as it is and find out where the entry came from; the original may be on its device.
        line 3 refused: line-altered
        This line is no entry: the signature is not that of the device; altered or forged.
        This entry was not taken in, because it is not what its device signed; every other one was.
        Keep the device as it is and find out where the entry came from; the original may be on its device.
        line 4 refused: line-altered
        This line is no entry: the line is not in its canonical spelling; it was touched.
        This entry was not taken in, because it is not what its device signed; every other one was.
        Keep the device as it is and find out where the entry came from; the original may be on its device.
        line 5 refused: line-unreadable
        This line is no entry: this is not JSON: EOF while parsing a value at line 1 column 8.
        This line was not taken in; every other line was.
        Save the record as a file and send it to support; the file it came from may be damaged.
        line 6 refused: line-too-large
        The entry is 600473 bytes long; at most 524288 are taken in.
        This entry was not taken in; every other one was. It stays on the device.
        Strike it through and write it in parts.
    "#]]
    .assert_eq(&told(&pushed.answers));
    assert_eq!(office.desk().record(JOB).expect("read"), testkit::record(&good));
}

#[test]
fn bytes_that_are_no_text_refuse_their_line() {
    let office = Office::open();
    let token = office.pair(1);
    let mut bytes = lines(&remarks(1, 1)).into_bytes();
    bytes.extend(b"\xff\xfe\n");
    let answer = office.ask(PUSH, Some(&token), &bytes);
    let pushed: wire::http::Pushed = serde_json::from_slice(&answer.bytes).expect("answers");
    assert_eq!(states(&pushed.answers), [(1, State::Stored), (2, State::Refused)]);
}

/// The store holds something else under the id of what comes: neither is thrown away without a word.
#[test]
fn a_second_content_under_one_id_is_refused_and_named() {
    let office = Office::open();
    let token = office.pair(1);
    let entry = Held::Known(remarks(1, 1).remove(0));
    let planted = Line::proved(&entry, wire::write(&entry).replace("remark 0", "remark 9"));
    office.store().add_lines(&[planted]).expect("planted");
    let pushed = office.push(&token, &lines(&remarks(1, 2)));
    assert_eq!(states(&pushed.answers), [(1, State::Refused), (2, State::Stored)]);
    expect![[r#"
        line 1 refused: same-id
        The desk holds another content under the id 51f655df.
        The desk keeps the one it has; the other stays on the device.
        Do not erase the device. Save its record as a file and let the office compare both.
    "#]]
    .assert_eq(&told(&pushed.answers));
}

#[test]
fn a_clock_ten_years_off_is_kept_and_told() {
    let office = Office::open();
    let token = office.pair(1);
    let mut tablet = Tablet::new(1);
    let behind = tablet.write("2021-04-08 10:41", body("remark", &[("text", "behind")]));
    let ahead = tablet.write("2041-04-08 10:41", body("remark", &[("text", "ahead")]));
    let near =
        tablet.write("2031-04-07 13:00", body("remark", &[("text", "a day, less an hour and a minute")]));
    let pushed = office.push(&token, &lines(&[behind, ahead, near]));
    assert_eq!(states(&pushed.answers), [(1, State::Stored), (2, State::Stored), (3, State::Stored)]);
    expect![[r#"
        line 1 kept: clock-far
        The clock of the device showed 2021-04-08T10:42:00-06:00, 3652 days behind the desk's.
        The entry is kept with the times as they were written; nobody corrects them silently.
        Set the clock of the device. Where a time is wrong, strike the entry through and write it again.
        line 2 kept: clock-far
        The clock of the device showed 2041-04-08T10:42:00-06:00, 3652 days ahead of the desk's.
        The entry is kept with the times as they were written; nobody corrects them silently.
        Set the clock of the device. Where a time is wrong, strike the entry through and write it again.
    "#]]
    .assert_eq(&told(&pushed.answers));
}

/// A page: status, cursor, more, and the lines.
fn page(answer: &Answer) -> (u16, &str, &str, String) {
    let header = |name| answer.headers.get(name).map_or("", |value| value.to_str().expect("a text"));
    (answer.status, header("shaftbook-cursor"), header("shaftbook-more"), answer.text())
}

#[test]
fn a_job_is_pulled_page_by_page_in_order_of_arrival() {
    let office = Office::open();
    let token = office.pair(1);
    let entries = remarks(1, 5);
    office.push(&token, &lines(&entries));
    let pull = |after: u64| office.get(&format!("/api/v1/entries?job=J-1&after={after}&limit=2"), &token);
    assert_eq!(page(&pull(0)), (200, "2", "true", lines(&entries[..2])));
    assert_eq!(page(&pull(2)), (200, "4", "true", lines(&entries[2..4])));
    assert_eq!(page(&pull(4)), (200, "5", "false", lines(&entries[4..])));
    assert_eq!(page(&pull(5)), (200, "5", "false", String::new()));
    let all = office.get("/api/v1/entries?job=J-1", &token);
    assert_eq!(page(&all), (200, "5", "false", lines(&entries)));
    assert_eq!(all.header("content-type"), "application/jsonl");
}

/// The cursor of a job moves over the entries of other jobs, and never hands them out.
#[test]
fn other_jobs_lines_stay_with_their_job() {
    let office = Office::open();
    let token = office.pair(1);
    let other = Tablet::new(2).of_job("J-2").write("10:41", body("remark", &[("text", "clear")]));
    let own = remarks(1, 2);
    office.push(&token, &(line(&own[0]) + "\n" + &line(&other) + "\n" + &line(&own[1]) + "\n"));
    assert_eq!(page(&office.get("/api/v1/entries?job=J-1", &token)), (200, "3", "false", lines(&own)));
    assert_eq!(
        page(&office.get("/api/v1/entries?job=J-2", &token)),
        (200, "2", "false", line(&other) + "\n")
    );
    assert_eq!(page(&office.get("/api/v1/entries?job=J-3", &token)), (200, "0", "false", String::new()));
}

/// A cursor from a time that was lost is answered with where the job is.
#[test]
fn a_cursor_beyond_the_last_arrival_is_set_right() {
    let office = Office::open();
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 2)));
    assert_eq!(
        page(&office.get("/api/v1/entries?job=J-1&after=99", &token)),
        (200, "2", "false", String::new())
    );
    let most = format!("/api/v1/entries?job=J-1&after={}", u64::MAX);
    assert_eq!(page(&office.get(&most, &token)).1, "2");
}

#[track_caller]
fn check(head: &str, paired: bool, body: &[u8], expected: &Expect) {
    let office = Office::limited(Limits { entries_bytes: 2000, ..Limits::default() });
    let token = office.pair(1);
    expected.assert_eq(&office.ask(head, paired.then_some(token.as_str()), body).told());
}

#[test]
fn an_unpaired_device_neither_brings_nor_takes() {
    let expected = expect![[r#"
        401 not-paired
        The desk does not know this device.
        Nothing was exchanged. What is written stays on the device and waits.
        Pair the device with a code from the desk.
    "#]];
    check(PUSH, false, lines(&remarks(1, 1)).as_bytes(), &expected);
    check("GET /api/v1/entries?job=J-1", false, b"", &expected);
    check("GET /api/v1/entries?job=J-1\nauthorization: Bearer 12ab", false, b"", &expected);
}

#[test]
fn a_delivery_that_is_too_large() {
    check(
        PUSH,
        true,
        &vec![b' '; 2001],
        &expect![[r#"
        413 too-large
        What was sent has more than 2000 bytes, the most that is taken in here.
        It was not taken in; it stays on the device.
        Nothing to do for entries, they are sent in smaller parts. Take a photo again at a smaller size.
    "#]],
    );
}

#[test]
fn a_question_that_is_none() {
    check(
        "GET /api/v1/entries",
        true,
        b"",
        &expect![[r#"
        400 malformed
        The address asks for no page: `job` names a job, `after` and `limit` are whole numbers.
        Nothing was taken in.
        Update the app and the desk to the same version; if it stays, send the request's name to support.
    "#]],
    );
    check(
        "GET /api/v1/entries?job=J-1&after=-3",
        true,
        b"",
        &expect![[r#"
        400 malformed
        The address asks for no page: `job` names a job, `after` and `limit` are whole numbers.
        Nothing was taken in.
        Update the app and the desk to the same version; if it stays, send the request's name to support.
    "#]],
    );
    check(
        "DELETE /api/v1/entries",
        true,
        b"",
        &expect![[r#"
        405 wrong-method
        DELETE is not done with /api/v1/entries.
        Nothing was changed.
        Update the app and the desk to the same version.
    "#]],
    );
}
