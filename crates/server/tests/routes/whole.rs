//! The server as a whole: restarts, damage, backups under load, too many at once, slow ones, HTTPS.

use crate::office::{Office, line, lines, remarks, site, start};
use expect_test::{Expect, expect};
use server::{Limits, StartError, Tls};
use std::io::{Read, Write};
use std::net::{TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU8, Ordering};
use std::time::{Duration, Instant};
use store::{Proved, Sqlite, Store, StoreError};
use testkit::JOB;

#[test]
fn a_restart_keeps_devices_entries_and_cursors() {
    let mut office = Office::open();
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 3)));
    office.restart();
    let answer = office.get("/api/v1/entries?job=J-1&after=1", &token);
    assert_eq!(answer.text(), lines(&remarks(1, 3)[1..]));
    assert_eq!(office.push(&token, &lines(&remarks(1, 4))).cursor, 4);
}

/// Overwrites the middle of the database while nobody holds it.
fn damage(office: &mut Office) {
    office.running.take().expect("running").stop();
    let mut bytes = std::fs::read(office.database()).expect("readable");
    let middle = bytes.len() / 3;
    bytes[middle..].iter_mut().for_each(|byte| *byte = 0xa5);
    std::fs::write(office.database(), bytes).expect("written");
}

#[test]
fn a_damaged_database_is_named_and_not_served() {
    let mut office = Office::on_a_file();
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 50)));
    damage(&mut office);
    let started = start(site(office.folder.path(), &office.journal)).map(|_| ());
    assert!(matches!(&started, Err(StartError::Store(StoreError::Damaged(_)))), "{started:?}");
}

#[track_caller]
fn check(office: &Office, head: &str, token: &str, body: &str, expected: &Expect) {
    let answer = office.ask(head, Some(token), body.as_bytes());
    expected.assert_eq(&answer.told());
    let (journal, request) = (office.happened(), answer.refusal().request);
    let told = journal.iter().find(|happened| happened.request.as_ref() == Some(&request));
    let inside = told.and_then(|happened| happened.inside.as_ref());
    assert!(inside.is_some(), "the journal has the request, and why: {journal:?}");
}

#[test]
fn a_database_taken_away_while_it_is_served_is_named() {
    let office = Office::on_a_file();
    let token = office.pair(1);
    office.push(&token, &lines(&remarks(1, 2)));
    std::fs::rename(office.database(), office.folder.path().join("elsewhere.sqlite")).expect("moved");
    let expected = expect![[r#"
        503 desk-damaged
        The desk's database is damaged.
        The desk keeps nothing new until it is repaired; every device keeps what it has.
        In the office: run the check command and restore the last backup; the devices then send what it lacks.
    "#]];
    check(&office, "POST /api/v1/entries", &token, &lines(&remarks(2, 1)), &expected);
    assert!(!office.database().exists(), "no empty database takes its place");
}

#[test]
fn a_line_altered_in_the_database_is_named_and_not_handed_out() {
    let office = Office::open();
    let token = office.pair(1);
    let entry = record::Held::Known(remarks(1, 1).remove(0));
    let planted = store::Line::proved(&entry, wire::write(&entry).replace("remark 0", "remark 9"));
    office.store().add_lines(&[planted]).expect("planted");
    let expected = expect![[r#"
        503 desk-damaged
        Entry 1 in the desk's database is no longer what it was.
        It is not handed out. What comes in is kept as before, and every device keeps what it has.
        In the office: run the check command and restore the last backup; the devices then send what it lacks.
    "#]];
    check(&office, "GET /api/v1/entries?job=J-1", &token, "", &expected);
    check(&office, "GET /api/v1/jobs/J-1/record.jsonl", &token, "", &expected);
}

#[test]
fn another_program_that_holds_the_database_is_named() {
    let office = Office::on_a_file();
    let token = office.pair(1);
    let holder = Sqlite::open(&office.database()).expect("a store");
    let held = holder.hold().expect("held");
    let answer = office.ask("POST /api/v1/entries", Some(&token), lines(&remarks(1, 1)).as_bytes());
    expect![[r#"
        503 desk-busy
        Another program holds the desk's database.
        Nothing was taken in; what is written waits on the device.
        Nothing to do; the device tries again by itself.
    "#]]
    .assert_eq(&answer.told());
    drop(held);
    assert_eq!(office.push(&token, &lines(&remarks(1, 1))).cursor, 1);
}

/// While tablets write, a backup is taken: what was acknowledged before it began is in it, it is whole, and
/// an office restored from it goes on, giving no arrival a second time.
#[test]
fn a_backup_taken_under_load_restores_to_the_same() {
    let office = Office::open();
    let token = office.pair(1);
    let (stop, tablet) = (AtomicBool::new(false), AtomicU8::new(10));
    let copy = office.folder.path().join("copy.sqlite");
    let before = std::thread::scope(|scope| {
        for _ in 0..3 {
            scope.spawn(|| {
                while !stop.load(Ordering::Relaxed) {
                    let number = tablet.fetch_add(1, Ordering::Relaxed);
                    if number < 240 {
                        office.push(&token, &lines(&remarks(number, 3)));
                    }
                }
            });
        }
        while tablet.load(Ordering::Relaxed) < 30 {
            std::thread::sleep(Duration::from_millis(5));
        }
        let before = office.desk().record(JOB).expect("read");
        office.store().backup(&copy).expect("copied");
        stop.store(true, Ordering::Relaxed);
        before
    });
    let kept = Sqlite::open_untouched(&copy).expect("a copy");
    let in_copy = kept.record(JOB).expect("whole");
    let missing = before.entries().filter(|held| in_copy.get(&held.id()).is_none()).count();
    assert_eq!((missing, kept.check().expect("whole").entries), (0, in_copy.len()));
    restored(&copy, &in_copy);
}

#[track_caller]
fn restored(copy: &std::path::Path, in_copy: &record::Record) {
    let folder = tempfile::tempdir().expect("a folder");
    let database = folder.path().join(store::DATABASE);
    store::restore(copy, &database).expect("restored");
    let again = Office::of_folder(folder.path());
    assert_eq!(wire::write_lines(&again.desk().record(JOB).expect("read")), wire::write_lines(in_copy));
    let last = again.push(&again.pair(250), &lines(&remarks(251, 1))).cursor;
    assert!(last > 1_000_000_000, "an arrival that was given before may be given again: {last}");
}

#[test]
fn a_device_that_asks_too_often_is_told_when_to_come_again() {
    let office = Office::limited(Limits { rate: 0.5, burst: 3.0, ..Limits::default() });
    let (one, other) = (office.pair(1), office.pair(2));
    for _ in 0..3 {
        assert_eq!(office.get("/api/v1/jobs", &one).status, 200);
    }
    let answer = office.get("/api/v1/jobs", &one);
    expect![[r#"
        429 too-many
        This device asked more often than the desk answers one device.
        Nothing was taken in; what is written waits on the device.
        Wait a minute; the device tries again by itself.
    "#]]
    .assert_eq(&answer.told());
    assert_eq!(answer.header("retry-after"), "2");
    assert_eq!(office.get("/api/v1/jobs", &other).status, 200);
}

/// Says what somebody sends who then waits, and gives what comes back.
fn stalled(office: &Office, sent: &str) -> String {
    let mut stream = TcpStream::connect(office.address()).expect("connected");
    stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a patience");
    stream.write_all(sent.as_bytes()).expect("sent");
    let mut answer = String::new();
    // Closed in the middle of a head there may be nothing to read, or a reset.
    drop(stream.read_to_string(&mut answer));
    answer
}

#[test]
fn who_is_too_slow_is_not_waited_for() {
    let office = Office::limited(Limits { patience: Duration::from_millis(300), ..Limits::default() });
    let token = office.pair(1);
    let begun = Instant::now();
    let head = format!(
        "POST /api/v1/entries HTTP/1.1\r\nhost: office\r\nauthorization: Bearer {token}\r\n\
         content-length: 100\r\nconnection: close\r\n\r\nonly a little"
    );
    let answer = stalled(&office, &head);
    assert!(answer.starts_with("HTTP/1.1 408") && answer.contains("\"too-slow\""), "{answer}");
    assert!(answer.contains("13 bytes had come when the desk stopped waiting for more."), "{answer}");
    let half = stalled(&office, "GET /api/v1/hello HTTP/1.1\r\nhost: off");
    assert!(!half.contains("200"), "{half}");
    assert!(begun.elapsed() < Duration::from_secs(10), "{:?}", begun.elapsed());
}

/// A connection that closes under what is on its way takes the answer with it, and the next request too.
#[test]
fn who_is_refused_is_heard_to_the_end() {
    let office = Office::open();
    let mut stream = TcpStream::connect(office.address()).expect("connected");
    stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a patience");
    let half = "x".repeat(100_000);
    let head = format!(
        "POST /api/v1/entries HTTP/1.1\r\nhost: office\r\ncontent-length: {}\r\n\r\n",
        2 * half.len()
    );
    for part in
        [&head, &half, &half, "GET /api/v1/hello HTTP/1.1\r\nhost: office\r\nconnection: close\r\n\r\n"]
    {
        stream.write_all(part.as_bytes()).expect("sent");
        std::thread::sleep(Duration::from_millis(100));
    }
    let mut answers = String::new();
    stream.read_to_string(&mut answers).expect("two answers");
    assert!(answers.starts_with("HTTP/1.1 401"), "{answers}");
    assert!(answers.contains("HTTP/1.1 200"), "{answers}");
}

/// Devices on a bad line that begin to send and stop do not keep the others out.
#[test]
fn many_slow_ones_leave_room_for_others() {
    let office = Office::limited(Limits { patience: Duration::from_secs(2), ..Limits::default() });
    let token = office.pair(1);
    let begin = |bytes: usize| {
        let mut stream = TcpStream::connect(office.address()).expect("connected");
        let head = format!(
            "POST /api/v1/entries HTTP/1.1\r\nhost: office\r\nauthorization: Bearer {token}\r\n\
             content-length: {bytes}\r\n\r\na little"
        );
        stream.write_all(head.as_bytes()).expect("sent");
        stream
    };
    let begun = Instant::now();
    let small: Vec<TcpStream> = (0..40).map(|_| begin(2000)).collect();
    office.push(&token, &lines(&remarks(1, 1)));
    assert!(begun.elapsed() < Duration::from_secs(2), "{:?}", begun.elapsed());
    drop(small);
}

/// A certificate made for this test, spoken to by a client that trusts it alone.
#[test]
fn https_with_a_given_certificate() {
    let folder = tempfile::tempdir().expect("a folder");
    let made = rcgen::generate_simple_self_signed(vec!["office.example".to_owned()]).expect("a certificate");
    let (certificate, key) = (folder.path().join("office.pem"), folder.path().join("office.key"));
    std::fs::write(&certificate, made.cert.pem()).expect("written");
    std::fs::write(&key, made.signing_key.serialize_pem()).expect("written");
    let tls = Tls::from_pem(&certificate, &key).expect("a certificate");
    let site = site(&folder.path().join("office"), &Arc::default());
    let running = server::start(site, TcpListener::bind("127.0.0.1:0").expect("a port"), Some(tls));
    let running = running.expect("a server");
    let code = running.desk().new_code().expect("a code");
    assert!(code.link.starts_with(&format!("https://{}/pair#", running.address())), "{}", code.link);
    let body = String::from_utf8(crate::office::pairing(&code.text, 1)).expect("a text");
    let answer = secured(running.address(), made.cert.der().clone(), &body);
    assert!(answer.starts_with("HTTP/1.1 200") && answer.contains("SameSite=Strict; Secure"), "{answer}");
    let plain = TcpStream::connect(running.address()).map(|mut stream| {
        stream.write_all(b"GET / HTTP/1.1\r\nhost: office\r\n\r\n").expect("sent");
        let mut answer = Vec::new();
        drop(stream.read_to_end(&mut answer));
        String::from_utf8_lossy(&answer).contains("200")
    });
    assert!(!plain.expect("connected"), "nothing is said without a key");
}

fn secured(
    address: std::net::SocketAddr,
    certificate: tokio_rustls::rustls::pki_types::CertificateDer<'static>,
    body: &str,
) -> String {
    use tokio_rustls::rustls;
    let mut roots = rustls::RootCertStore::empty();
    roots.add(certificate).expect("a root");
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let config = rustls::ClientConfig::builder_with_provider(provider)
        .with_safe_default_protocol_versions()
        .expect("versions")
        .with_root_certificates(roots)
        .with_no_client_auth();
    let name = "office.example".try_into().expect("a name");
    let client = rustls::ClientConnection::new(Arc::new(config), name).expect("a client");
    let mut stream = rustls::StreamOwned::new(client, TcpStream::connect(address).expect("connected"));
    let head = format!(
        "POST /api/v1/pair HTTP/1.1\r\nhost: office.example\r\nconnection: close\r\ncontent-length: {}\r\n\r\n",
        body.len()
    );
    stream.write_all((head + body).as_bytes()).expect("sent");
    let mut answer = String::new();
    // The end may come without a farewell.
    drop(stream.read_to_string(&mut answer));
    answer
}

#[test]
fn files_that_are_no_certificate_are_named() {
    let folder = tempfile::tempdir().expect("a folder");
    let (certificate, key) = (folder.path().join("office.pem"), folder.path().join("office.key"));
    let refused = || Tls::from_pem(&certificate, &key).err().expect("refused").to_string();
    assert!(refused().contains("office.pem"), "{}", refused());
    std::fs::write(&certificate, "a letter").expect("written");
    assert!(refused().contains("there is no certificate in it"), "{}", refused());
}

/// Many tablets at once share commits: every entry is answered once, and the record holds each once.
#[test]
fn many_tablets_at_once_lose_and_double_nothing() {
    let office = Office::limited(Limits { rate: 1e6, burst: 1e6, ..Limits::default() });
    let token = office.pair(1);
    std::thread::scope(|scope| {
        for tablet in 2..18 {
            let (office, token) = (&office, &token);
            scope.spawn(move || {
                for entry in remarks(tablet, 10) {
                    let pushed = office.push(token, &(line(&entry) + "\n"));
                    assert_eq!(pushed.answers[0].id, Some(entry.id));
                }
            });
        }
    });
    let record = office.desk().record(JOB).expect("read");
    assert_eq!((record.len(), record.alarms().len()), (160, 0));
}
