//! `GET /jobs`, and under it the record and the papers of a job.

use crate::office::{Office, lines, noon, remarks};
use expect_test::{Expect, expect};
use testkit::{JOB, Tablet, body};
use wire::http::{IdSum, Jobs};

fn filled() -> (Office, String) {
    let office = Office::open();
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 3)));
    (office, token)
}

#[test]
fn each_job_with_its_count_its_cursor_and_its_sum() {
    let (office, token) = filled();
    let other =
        Tablet::new(2).of_job("Creek Rd / lot 2, 50%").write("10:41", body("remark", &[("text", "a")]));
    let before: Jobs = serde_json::from_slice(&office.get("/api/v1/jobs", &token).bytes).expect("jobs");
    office.push(&token, &lines(std::slice::from_ref(&other)));
    let jobs: Jobs = serde_json::from_slice(&office.get("/api/v1/jobs", &token).bytes).expect("jobs");
    let of = |jobs: &Jobs| -> Vec<(String, u64, u64)> {
        jobs.jobs.iter().map(|job| (job.job.clone(), job.entries, job.cursor)).collect()
    };
    assert_eq!(of(&before), [(JOB.to_owned(), 3, 3)]);
    assert_eq!(of(&jobs), [("Creek Rd / lot 2, 50%".to_owned(), 1, 4), (JOB.to_owned(), 3, 3)]);
    let sum = IdSum::from_iter(remarks(1, 3).iter().map(|entry| entry.id));
    assert_eq!([jobs.jobs[0].sum, jobs.jobs[1].sum], [Some(IdSum::from_iter([other.id])), Some(sum)]);
}

#[test]
fn the_record_is_the_file_anybody_can_verify() {
    let (office, token) = filled();
    let answer = office.get("/api/v1/jobs/J-1/record.jsonl", &token);
    assert_eq!(answer.text(), wire::write_lines(&testkit::record(&remarks(1, 3))));
    assert_eq!(answer.header("content-type"), "application/jsonl");
    assert_eq!(answer.header("content-disposition"), "inline; filename=\"J-1.jsonl\"");
}

#[test]
fn a_job_whose_name_needs_care_in_an_address() {
    let office = Office::open();
    let token = office.pair(1);
    let entry =
        Tablet::new(2).of_job("Creek Rd / lot 2, 50%").write("10:41", body("remark", &[("text", "a")]));
    office.push(&token, &lines(&[entry]));
    let path = "/api/v1/jobs/Creek%20Rd%20%2F%20lot%202%2C%2050%25/record.jsonl";
    let answer = office.get(path, &token);
    assert_eq!((answer.status, answer.text().lines().count()), (200, 1));
    assert_eq!(answer.header("content-disposition"), "inline; filename=\"Creek-Rd---lot-2--50-.jsonl\"");
}

#[test]
fn papers_are_made_of_the_record_as_it_is_now() {
    let (office, token) = filled();
    let package = office.get("/api/v1/jobs/J-1/shafts/S-1/package.pdf", &token);
    assert_eq!(package.text(), format!("%PDF of S-1 with 3 entries at {}", noon()));
    assert_eq!(package.header("content-type"), "application/pdf");
    let log = office.get("/api/v1/jobs/J-1/shafts/S-1/log.csv", &token);
    assert_eq!(
        (log.text().as_str(), log.header("content-type")),
        ("shaft\nS-1\n", "text/csv; charset=utf-8")
    );
}

#[track_caller]
fn check(path: &str, expected: Expect) {
    let (office, token) = filled();
    let mut tablet = Tablet::new(3).about(Some("S-9"));
    let on_nine = tablet.write("10:41", body("remark", &[("text", "clear")]));
    let on_thirteen = tablet.about(Some("S-13")).write("10:42", body("remark", &[("text", "clear")]));
    office.push(&token, &lines(&[on_nine, on_thirteen]));
    expected.assert_eq(&office.get(path, &token).told());
}

#[test]
fn what_is_not_there_is_named() {
    check(
        "/api/v1/jobs/J-2/record.jsonl",
        expect![[r#"
        404 not-found
        The desk has no job `J-2`.
        The desk has nothing under that name; nothing was changed.
        Check the name. What a device has not yet sent cannot be here.
    "#]],
    );
    check(
        "/api/v1/jobs/J-1/shafts/S-2/package.pdf",
        expect![[r#"
        404 not-found
        The job `J-1` has no shaft `S-2`.
        The desk has nothing under that name; nothing was changed.
        Check the name. What a device has not yet sent cannot be here.
    "#]],
    );
    check(
        "/api/v1/jobs/J-2/shafts/S-1/log.csv",
        expect![[r#"
        404 not-found
        The desk has no job `J-2`.
        The desk has nothing under that name; nothing was changed.
        Check the name. What a device has not yet sent cannot be here.
    "#]],
    );
}

#[test]
fn a_package_that_cannot_be_made_says_why() {
    check(
        "/api/v1/jobs/J-1/shafts/S-9/package.pdf",
        expect![[r#"
        422 package-failed
        S-9 has no plan.
        Nothing can be judged without one.
        Enter the plan of the shaft.
    "#]],
    );
}

#[test]
fn a_panic_in_one_request_is_told_and_ends_nothing_else() {
    check(
        "/api/v1/jobs/J-1/shafts/S-13/package.pdf",
        expect![[r#"
        500 internal
        The desk came upon something it was not made for.
        The desk could not finish this; what was acknowledged before is kept.
        The device tries again. Look into the desk's journal under the request's name.
    "#]],
    );
    let (office, token) = filled();
    assert_eq!(office.get("/api/v1/jobs", &token).status, 200);
}
