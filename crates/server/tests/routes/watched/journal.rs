//! The journal: every request and what happens at the door, and nothing that somebody sent.

use crate::office::{Office, lines, pairing, remarks};
use server::{Declared, Happened, Level, Limits, declared};
use store::{EVERY_JOB, People, Role};
use testkit::JOB;

/// What no line may hold: it stands wherever somebody can put something.
const MARKER: &str = "s3cr3t-m4rk3r";

fn last(office: &Office) -> Happened {
    office.happened().pop().expect("something happened")
}

/// A line as a person reads it, without the time it took.
#[track_caller]
fn check(
    office: &Office,
    (head, token): (&str, Option<&str>),
    expected: (&'static str, u16, Level),
) -> Happened {
    let answer = office.ask(head, token, b"");
    let happened = last(office);
    let (route, status, level) = expected;
    assert_eq!(happened.what, "request", "{happened:?}");
    assert_eq!((happened.route, happened.status), (Some(route), Some(status)), "{happened:?}");
    assert_eq!(happened.level, level, "{happened:?}");
    assert!(happened.ms.is_some() && happened.request.is_some(), "{happened:?}");
    if answer.status >= 400 {
        assert_eq!(happened.refusal, Some(answer.refusal().row().expect("a code").word));
        assert_eq!(happened.request, Some(answer.refusal().request));
    }
    happened
}

#[test]
fn every_request_is_a_line_with_its_route() {
    let office = Office::open();
    let paired = office.pair(1);
    office.push(&paired, &lines(&remarks(1, 1)));
    let token = Some(paired.as_str());
    let told = check(&office, ("GET /api/v1/jobs", token), ("/api/v1/jobs", 200, Level::Info));
    assert_eq!((told.method, told.inside, told.person), (Some("GET"), None, None));
    let of_job = "/api/v1/jobs/{job}/record.jsonl";
    check(&office, ("GET /api/v1/jobs/J-1/record.jsonl", token), (of_job, 200, Level::Info));
    check(&office, ("GET /api/v1/jobs/none/record.jsonl", token), (of_job, 404, Level::Info));
    check(&office, ("GET /api/v1/jobs", None), ("/api/v1/jobs", 401, Level::Info));
    check(&office, ("GET /", None), ("app", 200, Level::Info));
    check(&office, ("GET /none.js", None), ("app", 404, Level::Info));
    check(&office, ("DELETE /api/v1/jobs", token), ("app", 405, Level::Info));
    let paper = "/api/v1/jobs/{job}/shafts/{shaft}/package.pdf";
    check(&office, ("GET /api/v1/jobs/J-1/shafts/S-1/package.pdf", token), (paper, 200, Level::Info));
}

/// A fall inside is a line with its request, and the office goes on.
#[test]
fn what_goes_wrong_inside_is_an_error_with_its_reason() {
    let office = Office::open();
    let token = office.pair(1);
    let mut tablet = testkit::Tablet::new(1).about(Some("S-13"));
    let entry = tablet.write("10:41", testkit::body("remark", &[("text", "clear")]));
    office.push(&token, &lines(&[entry]));
    let paper = "/api/v1/jobs/{job}/shafts/{shaft}/package.pdf";
    let head = "GET /api/v1/jobs/J-1/shafts/S-13/package.pdf";
    let told = check(&office, (head, Some(&token)), (paper, 500, Level::Error));
    assert_eq!(told.inside.as_deref(), Some("a panic; see standard error"));
    check(&office, ("GET /api/v1/jobs", Some(&token)), ("/api/v1/jobs", 200, Level::Info));
}

#[test]
fn what_happens_at_the_door_is_a_line_of_its_own() {
    let office = Office::open();
    let mut store = office.store();
    store.add_person("d.pike", 1000).expect("added");
    let ask = |name: &str| {
        let head = "POST /people/sign-in\nsec-fetch-site: same-origin\naccept: application/json";
        office.ask(head, None, format!("name={name}&password=wrong-for-everybody").as_bytes());
        let happened = office.happened();
        let door: Vec<Happened> =
            happened.into_iter().filter(|happened| happened.what == "refused").collect();
        door.last().cloned().expect("it was noted")
    };
    let known = ask("d.pike");
    assert_eq!((known.level, known.person.as_deref()), (Level::Warn, Some("d.pike")));
    assert_eq!(known.from.as_deref(), Some("127.0.0.1"));
    assert_eq!(known.request, last(&office).request, "the line of the request has the same name");
    assert_eq!(ask("nobody.here").person, None, "a name nobody has may be a password in the wrong field");
}

#[test]
fn it_begins_and_ends_with_the_office() {
    let mut office = Office::open();
    office.running.take().expect("running").stop();
    let told: Vec<&str> = office.happened().iter().map(|happened| happened.what).collect();
    assert_eq!(told, ["started", "stopping", "stopped"]);
}

/// An address with the marker in every place that is not fixed, and behind it a question.
fn marked(path: &str) -> String {
    let parts = path.split('/').map(|part| if part.starts_with('{') { MARKER } else { part });
    format!("{}?job={MARKER}&after={MARKER}&token={MARKER}", parts.collect::<Vec<_>>().join("/"))
}

/// Knocks at a door with everything that could hold a secret.
fn knock(office: &Office, route: &Declared, shows: &str) {
    let headers = ["referer", "user-agent", "x-forwarded-for", "origin", "accept", "shaftbook-own-key"];
    let mut head = format!("{} {}\n{shows}", route.method, marked(route.path));
    head.extend(headers.map(|name| format!("\n{name}: {MARKER}")));
    let form = format!(
        "name={MARKER}&password={MARKER}&new={MARKER}-{MARKER}&again={MARKER}-{MARKER}&invitation={MARKER}\
         &role={MARKER}&person={MARKER}&device={MARKER}&up_to={MARKER}&reason={MARKER}"
    );
    let json = format!(
        "{{\"code\":\"{MARKER}\",\"name\":\"{MARKER}\",\"device\":\"{MARKER}\",\"by\":\"{MARKER}\"}}"
    );
    let bodies: &[&str] = if route.method == "GET" { &[""] } else { &[&form, &json, MARKER] };
    for body in bodies {
        office.ask(&head, None, body.as_bytes());
    }
}

/// All doors, as a stranger, with a token that is none, with one that counts, and signed in.
#[test]
fn nothing_that_was_sent_is_in_the_journal() {
    let office = Office::limited(Limits { rate: 1e6, burst: 1e6, ..Limits::default() });
    let mut store = office.store();
    let chief = store.add_person("d.pike", 1000).expect("added");
    store.give_role(chief, EVERY_JOB, Role::Manager).expect("given");
    let now =
        std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).expect("after 1970").as_secs();
    let (from, session) = (now as i64, "5".repeat(64));
    store.begin_session(chief, &session, store::Span { from, until: from + 1000 }).expect("begun");
    let code = office.desk().new_code_of(Some(chief)).expect("a code").text;
    let paired = office.ask("POST /api/v1/pair", None, &pairing(&code, 1));
    let token = serde_json::from_slice::<wire::http::Paired>(&paired.bytes).expect("paired").token;
    office.push(&token, &lines(&remarks(1, 1)));
    let secret = [MARKER, &code, &token, &session];
    let shows = [
        "x: 1".to_owned(),
        format!("authorization: Bearer {MARKER}"),
        format!("authorization: Bearer {token}"),
        format!("cookie: shaftbook_device={MARKER}; shaftbook_session={MARKER}"),
        format!("cookie: shaftbook_session={session}\nsec-fetch-site: same-origin"),
    ];
    let live = |route: &Declared| route.path.ends_with("/live");
    let mut doors: Vec<Declared> = declared().into_iter().filter(|route| !live(route)).collect();
    doors.sort_by_key(|route| route.path.ends_with("/sign-out"));
    for route in &doors {
        shows.iter().for_each(|shows| knock(&office, route, shows));
    }
    // Something goes wrong inside, too: the marker is in what the database cannot be asked.
    std::fs::remove_dir_all(office.folder.path().join("photos")).expect("removed");
    office.ask(&format!("PUT /api/v1/photos/{}", "0".repeat(64)), Some(&token), MARKER.as_bytes());
    let happened = office.happened();
    let routes: std::collections::BTreeSet<_> =
        happened.iter().filter_map(|happened| happened.route).collect();
    assert!(doors.iter().all(|door| routes.contains(door.path)), "{routes:?}");
    assert!(happened.iter().any(|happened| happened.inside.is_some()));
    for line in &happened {
        let text = format!("{line:?}");
        for secret in secret {
            assert!(!text.contains(secret), "{secret}: {text}");
        }
        assert!(!line.fields().iter().any(|(_, field)| *field == server::Field::Text(JOB)), "{text}");
    }
}
