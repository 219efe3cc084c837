//! `GET /live`.

use crate::office::{Office, lines, remarks};
use std::io::{BufRead, BufReader, Write};
use std::net::{SocketAddr, TcpStream};
use std::time::Duration;
use store::{Office as _, Store};
use wire::http::Arrived;

/// An open line to the server, past the headers.
struct Listening(BufReader<TcpStream>);

impl Listening {
    fn to(office: &Office, token: &str) -> Self {
        Self::at(office.address(), token)
    }

    fn at(address: SocketAddr, token: &str) -> Self {
        let mut stream = TcpStream::connect(address).expect("connected");
        stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a patience");
        let head =
            format!("GET /api/v1/live HTTP/1.1\r\nhost: office\r\nauthorization: Bearer {token}\r\n\r\n");
        stream.write_all(head.as_bytes()).expect("asked");
        let mut lines = BufReader::new(stream);
        let mut head = String::new();
        while !head.ends_with("\r\n\r\n") {
            assert!(lines.read_line(&mut head).expect("a head") > 0, "{head}");
        }
        assert!(head.starts_with("HTTP/1.1 200") && head.contains("text/event-stream"), "{head}");
        Listening(lines)
    }

    fn next(&mut self) -> Option<Arrived> {
        let mut event = String::new();
        loop {
            let mut line = String::new();
            if self.0.read_line(&mut line).expect("a line in time") == 0 || line == "0\r\n" {
                return None;
            }
            if line.starts_with("event:") {
                event = line;
            } else if let Some(data) = line.strip_prefix("data:") {
                assert_eq!(event.trim_end(), "event: arrived");
                return Some(serde_json::from_str(data).expect("news"));
            }
        }
    }
}

/// The next news after a cursor: a line that is opened while something arrives hears of that twice, at its first look and as
/// news.
fn after(screen: &mut Listening, cursor: u64) -> Option<Arrived> {
    let mut next = screen.next();
    while next.as_ref().is_some_and(|arrived| arrived.cursor <= cursor) {
        next = screen.next();
    }
    next
}

fn arrived(job: &str, cursor: u64) -> Option<Arrived> {
    Some(Arrived { job: job.to_owned(), cursor })
}

#[test]
fn an_open_screen_is_told_where_each_job_is_and_then_what_arrives() {
    let office = Office::open();
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 3)));
    let (mut one, mut other) = (Listening::to(&office, &token), Listening::to(&office, &token));
    assert_eq!([one.next(), other.next()], [arrived("J-1", 3), arrived("J-1", 3)]);
    office.push(&token, &lines(&remarks(2, 2)));
    assert_eq!([one.next(), other.next()], [arrived("J-1", 5), arrived("J-1", 5)]);
    // What is known already is no news; what the desk itself adds is.
    office.push(&token, &lines(&remarks(2, 2)));
    let held: Vec<_> = remarks(3, 1).into_iter().map(record::Held::Known).collect();
    office.desk().add(&held).expect("added");
    assert_eq!([one.next(), other.next()], [arrived("J-1", 6), arrived("J-1", 6)]);
}

/// Somebody at the desk types notes in with another program.
#[test]
fn what_another_program_writes_is_told_too() {
    let office = Office::open();
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 1)));
    let mut screen = Listening::to(&office, &token);
    assert_eq!(screen.next(), arrived("J-1", 1));
    let held: Vec<_> = remarks(2, 2).into_iter().map(record::Held::Known).collect();
    office.store().add(&held).expect("added");
    assert_eq!(screen.next(), arrived("J-1", 3));
}

/// A screen at one server hears at once of what came in at the other. Looking without being told takes up to two seconds.
#[test]
fn two_servers_on_one_database_tell_each_others_news() {
    let office = Office::on_a_server();
    let other = office.beside();
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 1)));
    let mut screen = Listening::at(other.address(), &token);
    assert_eq!(screen.next(), arrived("J-1", 1));
    let mut longest = Duration::ZERO;
    for number in 2..8 {
        std::thread::sleep(Duration::from_millis(100));
        let begun = std::time::Instant::now();
        office.push(&token, &lines(&remarks(number, 1)));
        let number = u64::from(number);
        assert_eq!(after(&mut screen, number - 1), arrived("J-1", number));
        longest = longest.max(begun.elapsed());
    }
    println!("news of the other server: after {longest:?} at most");
    // A device let go at the desk of one is cut off at the other too.
    office.store().let_go(1, 0).expect("let go");
    assert_eq!(screen.next(), None);
    other.stop();
}

#[test]
fn a_server_that_stops_ends_the_line_and_does_not_wait_for_the_screen() {
    let mut office = Office::open();
    let token = office.pair(1);
    let mut screen = Listening::to(&office, &token);
    let begun = std::time::Instant::now();
    office.running.take().expect("running").stop();
    assert!(begun.elapsed() < Duration::from_secs(8), "{:?}", begun.elapsed());
    assert_eq!(screen.next(), None);
}

#[test]
fn an_unpaired_screen_hears_nothing() {
    assert_eq!(Office::open().ask("GET /api/v1/live", None, b"").refusal().code, "not-paired");
}
