//! `GET /metrics`, on the address that was named for it. The whole text is read by another library in
//! `tests/reference/metrics_check.py`.

use crate::office::{Office, lines, remarks};
use server::Limits;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::time::{Duration, Instant};

fn watched(limits: Limits) -> Office {
    Office::with(|site| {
        site.limits = limits;
        site.metrics = Some(TcpListener::bind("127.0.0.1:0").expect("a port"));
    })
}

fn asked(address: SocketAddr, path: &str) -> String {
    asked_by("GET", address, path)
}

fn asked_by(method: &str, address: SocketAddr, path: &str) -> String {
    let mut stream = TcpStream::connect(address).expect("connected");
    let head = format!("{method} {path} HTTP/1.1\r\nhost: {address}\r\nconnection: close\r\n\r\n");
    stream.write_all(head.as_bytes()).expect("asked");
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("an answer");
    answer
}

fn figures(office: &Office) -> String {
    let address = office.running.as_ref().and_then(server::Running::metrics).expect("an address");
    let answer = asked(address, "/metrics");
    assert!(answer.starts_with("HTTP/1.1 200"), "{answer}");
    assert!(answer.contains("content-type: application/openmetrics-text; version=1.0.0; charset=utf-8"));
    assert!(answer.contains("\n# EOF\n"), "{answer}");
    answer
}

/// One figure with its labels, in whatever order they stand; 0: it is not there.
#[track_caller]
fn check(text: &str, name: &str, labels: &[&str], expected: f64) {
    let rows = text.lines().filter(|line| line.split(['{', ' ']).next() == Some(name));
    let rows: Vec<&str> = rows.filter(|line| labels.iter().all(|label| line.contains(label))).collect();
    let found: f64 =
        rows.iter().map(|row| row.rsplit(' ').next().expect("a value").parse().unwrap_or(f64::NAN)).sum();
    assert_eq!(found, expected, "{name} {labels:?}: {rows:?}");
}

#[test]
fn what_was_done_is_counted() {
    let office = watched(Limits::default());
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 3)));
    let damaged = lines(&remarks(2, 1)).replace("remark 0", "remark 9");
    office.push(&token, &(lines(&remarks(1, 4)) + &damaged));
    office.ask("POST /api/v1/pair", None, &crate::office::pairing("ACDEFGHJ", 2));
    office.get("/api/v1/entries?job=J-1", "0".repeat(64).as_str());
    office.get("/nowhere-at-all", &token);
    let text = figures(&office);
    let rows: &[(&str, &[&str], f64)] = &[
        ("shaftbook_entries_total", &["kind=\"stored\""], 4.0),
        ("shaftbook_entries_total", &["kind=\"known\""], 3.0),
        ("shaftbook_entries_total", &["kind=\"refused\""], 1.0),
        ("shaftbook_kept_entries", &[], 4.0),
        ("shaftbook_kept_jobs", &[], 1.0),
        ("shaftbook_paired_devices", &[], 1.0),
        ("shaftbook_aside_entries", &[], 0.0),
        ("shaftbook_devices_syncing", &[], 1.0),
        ("shaftbook_database_up", &[], 1.0),
        ("shaftbook_database_write_seconds_count", &["kind=\"entries\""], 2.0),
        ("shaftbook_database_write_failures_total", &[], 0.0),
        ("shaftbook_http_requests_total", &["method=\"POST\"", "/api/v1/entries", "status=\"200\""], 2.0),
        ("shaftbook_http_requests_total", &["method=\"GET\"", "/api/v1/entries", "status=\"401\""], 1.0),
        ("shaftbook_http_requests_total", &["route=\"app\"", "status=\"200\""], 1.0),
        ("shaftbook_http_request_duration_seconds_count", &["method=\"POST\"", "/api/v1/entries"], 2.0),
        ("shaftbook_refusals_total", &["kind=\"code-wrong\""], 1.0),
        ("shaftbook_refusals_total", &["kind=\"not-paired\""], 1.0),
        ("shaftbook_door_total", &["kind=\"device-paired\""], 1.0),
        ("shaftbook_build_info", &["version=\"0.0.0\""], 1.0),
    ];
    for (name, labels, expected) in rows {
        check(&text, name, labels, *expected);
    }
    // Free room and the size of the database are those of this machine.
    for name in
        ["shaftbook_database_size_bytes ", "shaftbook_disk_free_bytes ", "shaftbook_start_time_seconds "]
    {
        let row = text.lines().find(|line| line.starts_with(name)).expect("a figure");
        assert!(
            row.rsplit(' ').next().and_then(|value| value.parse::<i64>().ok()).is_some_and(|value| value > 0),
            "{row}"
        );
    }
    for name in ["J-1", "Rig 1", "127.0.0.1", &token, "nowhere", "Office of the test"] {
        assert!(!text.split("\r\n\r\n").nth(1).expect("a body").contains(name), "{name} is a name");
    }
}

/// As many rows as there are routes, whatever is asked for.
#[test]
fn what_somebody_makes_up_makes_no_new_rows() {
    let office = watched(Limits { rate: 1e6, burst: 1e6, ..Limits::default() });
    let ask = |number: u32| {
        office.ask(&format!("GET /made-up/{number}"), None, b"");
        office.ask(&format!("GET /api/v1/jobs/{number}/record.jsonl?x={number}"), None, b"");
        let refused = asked_by(&format!("MADE{number}"), office.address(), "/api/v1/jobs");
        assert!(refused.starts_with("HTTP/1.1 405"), "{refused}");
    };
    (0..3).for_each(ask);
    let before = figures(&office).lines().count();
    (3..40).for_each(ask);
    assert_eq!(figures(&office).lines().count(), before);
}

#[test]
fn they_are_nowhere_but_on_their_own_address() {
    let office = watched(Limits::default());
    assert_eq!(office.ask("GET /metrics", None, b"").text(), "<!doctype html>the app");
    let address = office.running.as_ref().and_then(server::Running::metrics).expect("an address");
    for path in ["/", "/api/v1/hello", "/desk", "/healthz"] {
        assert!(asked(address, path).starts_with("HTTP/1.1 404"), "{path}");
    }
    assert_eq!(
        Office::open().running.as_ref().and_then(server::Running::metrics),
        None,
        "unless it was named"
    );
}

#[test]
fn lines_of_news_are_counted_while_they_are_open() {
    let office = watched(Limits::default());
    let token = office.pair(1);
    let mut stream = TcpStream::connect(office.address()).expect("connected");
    let head = format!("GET /api/v1/live HTTP/1.1\r\nhost: office\r\nauthorization: Bearer {token}\r\n\r\n");
    stream.write_all(head.as_bytes()).expect("asked");
    BufReader::new(stream.try_clone().expect("a stream")).read_line(&mut String::new()).expect("a status");
    check(&figures(&office), "shaftbook_live_lines", &[], 1.0);
    drop(stream);
    let begun = Instant::now();
    while !figures(&office).contains("\nshaftbook_live_lines 0\n") {
        assert!(begun.elapsed() < Duration::from_secs(40), "the line is still counted");
        std::thread::sleep(Duration::from_millis(200));
    }
}

/// The monitor goes on hearing of an office whose database is gone, and what it held.
#[test]
fn figures_come_also_without_the_database() {
    let office = Office::with(|site| {
        site.database = None;
        site.metrics = Some(TcpListener::bind("127.0.0.1:0").expect("a port"));
    });
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 2)));
    check(&figures(&office), "shaftbook_database_up", &[], 1.0);
    std::fs::rename(office.database(), office.folder.path().join("elsewhere.sqlite")).expect("moved");
    office.ask("POST /api/v1/entries", Some(&token), lines(&remarks(2, 1)).as_bytes());
    let text = figures(&office);
    check(&text, "shaftbook_database_up", &[], 0.0);
    check(&text, "shaftbook_kept_entries", &[], 2.0);
    check(&text, "shaftbook_database_write_failures_total", &[], 1.0);
    check(&text, "shaftbook_refusals_total", &["kind=\"desk-damaged\""], 1.0);
}
