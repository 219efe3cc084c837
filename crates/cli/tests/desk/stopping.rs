//! Told to stop: what is under way is finished, lines of news are closed, and the exit code is 0.

use crate::desk::{Desk, Served, notes, remark};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};
use testkit::postgres::database;

fn record(desk: &Desk) -> String {
    desk.write("notes.toml", &notes(&remark("10:10", "water at 12 ft")));
    desk.run(&["enter", "notes.toml", "--job", "source"]).ends(0);
    desk.run(&["export", "record", "--job", "source"]).ends(0).out
}

fn begun(served: &Served, head: &str, token: &str) -> TcpStream {
    let address = served.said["address"].as_str().expect("an address").replace("http://", "");
    let mut stream = TcpStream::connect(address).expect("connected");
    stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a patience");
    let all = format!("{head}\r\nhost: office\r\nauthorization: Bearer {token}\r\n\r\n");
    stream.write_all(all.as_bytes()).expect("sent");
    stream
}

fn the_rest(mut stream: TcpStream) -> String {
    let mut answer = String::new();
    stream.read_to_string(&mut answer).expect("to its end");
    answer
}

/// A delivery of which half has come when the office is told to stop, and a screen that listens.
#[track_caller]
fn stopped_in_the_middle(served: Served, token: &str, lines: &str) {
    let (first, second) = lines.split_at(lines.len() / 2);
    let head = format!("POST /api/v1/entries HTTP/1.1\r\ncontent-length: {}", lines.len());
    let mut delivery = begun(&served, &head, token);
    delivery.write_all(first.as_bytes()).expect("sent");
    let mut screen = begun(&served, "GET /api/v1/live HTTP/1.1", token);
    assert!(screen.read(&mut [0; 500]).expect("its head") > 0);
    let begun = Instant::now();
    served.tell_to_stop();
    std::thread::sleep(Duration::from_millis(300));
    delivery.write_all(second.as_bytes()).expect("sent");
    let answer = the_rest(delivery);
    assert!(answer.starts_with("HTTP/1.1 200"), "{answer}");
    assert_eq!(answer.matches("\"state\":\"stored\"").count(), lines.lines().count(), "{answer}");
    the_rest(screen);
    assert_eq!(served.ended(), Some(0));
    assert!(begun.elapsed() < Duration::from_secs(8), "{:?}", begun.elapsed());
}

#[test]
fn what_is_under_way_is_finished_first() {
    let desk = Desk::new();
    let lines = record(&desk);
    let served = desk.serve(&["office"]);
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    stopped_in_the_middle(served, &token, &lines);
    assert_eq!(desk.run(&["export", "record", "--job", "office"]).ends(0).out, lines);
    assert_eq!(desk.serve(&["office"]).bring(&token, &lines), 0, "nothing is doubled");
}

/// One of two servers is stopped; the tablet goes on at the other, and neither loses anything.
#[test]
fn one_of_two_servers_can_be_stopped() {
    let (desk, server) = (Desk::new(), database());
    let lines = record(&desk);
    let first = desk.serve(&["office", "--database", &server.address()]);
    let token = first.pair(first.said["code"].as_str().expect("a code"));
    let second = desk.serve(&["office"]);
    stopped_in_the_middle(first, &token, &lines);
    assert_eq!(second.get("/readyz", "").text(), "ready\n");
    assert_eq!(second.bring(&token, &lines), 0, "what the first took in is there");
    stopped_in_the_middle(second, &token, &again(&desk));
    assert_eq!(desk.run(&["inspect", "office"]).ends(0).exit, 0);
}

/// Another record.
fn again(desk: &Desk) -> String {
    desk.write("more.toml", &notes(&remark("10:50", "clear")).replace("test-job", "other-job"));
    desk.run(&["enter", "more.toml", "--job", "more"]).ends(0);
    desk.run(&["export", "record", "--job", "more"]).ends(0).out
}
