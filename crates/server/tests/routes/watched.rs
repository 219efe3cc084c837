//! What somebody who watches an office is told: whether it is alive and ready, the figures, the journal.

mod figures;
mod journal;

use crate::office::{Office, lines, remarks};
use expect_test::expect;
use std::time::Duration;

#[test]
fn alive_and_ready_are_said_to_anybody_and_nothing_else() {
    let office = Office::open();
    office.push(&office.pair(1), &lines(&remarks(1, 2)));
    for (path, said) in [("GET /healthz", "alive\n"), ("GET /readyz", "ready\n")] {
        let answer = office.ask(path, None, b"");
        assert_eq!((answer.status, answer.text().as_str()), (200, said));
        assert_eq!(answer.header("content-type"), "text/plain; charset=utf-8");
        assert_eq!(answer.header("cache-control"), "no-store");
        assert_eq!(answer.header("set-cookie"), "");
    }
    let refused = office.ask("POST /readyz", None, b"x=");
    assert_eq!(refused.refusal().code, "wrong-method");
}

/// Whoever watches asks often, and is not slowed as a device is.
#[test]
fn who_watches_is_not_counted_as_one_who_asks() {
    let office = Office::limited(server::Limits { rate: 0.1, burst: 2.0, ..server::Limits::default() });
    for _ in 0..20 {
        assert_eq!(office.ask("GET /healthz", None, b"").status, 200);
        assert_eq!(office.ask("GET /readyz", None, b"").status, 200);
    }
    assert_eq!(office.ask("GET /api/v1/hello", None, b"").status, 200);
}

#[test]
fn an_office_without_its_database_is_alive_and_not_ready() {
    let office = Office::on_a_file();
    std::fs::rename(office.database(), office.folder.path().join("elsewhere.sqlite")).expect("moved");
    expect![[r#"
        503 desk-damaged
        The desk's database is damaged.
        The desk keeps nothing new until it is repaired; every device keeps what it has.
        In the office: run the check command and restore the last backup; the devices then send what it lacks.
    "#]]
    .assert_eq(&office.ask("GET /readyz", None, b"").told());
    assert_eq!(office.ask("GET /healthz", None, b"").status, 200);
    // Put back, it is ready again within a second.
    std::fs::rename(office.folder.path().join("elsewhere.sqlite"), office.database()).expect("moved back");
    std::thread::sleep(Duration::from_millis(1100));
    assert_eq!(office.ask("GET /readyz", None, b"").status, 200);
}

#[test]
fn an_office_whose_server_of_the_database_is_gone_is_alive_and_not_ready() {
    let office = Office::on_a_server();
    assert_eq!(office.ask("GET /readyz", None, b"").status, 200);
    let server = office.server.as_ref().expect("a server");
    let gone = format!("DROP DATABASE {} WITH (FORCE)", server.name());
    server.cluster().run("psql", &["-qAt", "-c", &gone, "postgres"]).expect("dropped");
    std::thread::sleep(Duration::from_millis(1100));
    expect![[r#"
        503 desk-busy
        The desk's database does not answer.
        Nothing was taken in; what is written waits on the device.
        Nothing to do; the device tries again by itself.
    "#]]
    .assert_eq(&office.ask("GET /readyz", None, b"").told());
    assert_eq!(office.ask("GET /healthz", None, b"").status, 200);
}

#[test]
fn an_office_that_cannot_take_photos_in_is_not_ready() {
    let office = Office::open();
    std::fs::remove_dir_all(office.folder.path().join("photos")).expect("removed");
    expect![[r#"
        500 internal
        The desk could not read or write what it keeps.
        The desk could not finish this; what was acknowledged before is kept.
        The device tries again. Look into the desk's journal under the request's name.
    "#]]
    .assert_eq(&office.ask("GET /readyz", None, b"").told());
}
