//! Every route as everybody: what is allowed is exactly what docs/access.md says.

use crate::office::{Answer, Office, line};
use server::{Declared, Limits, declared};
use std::cell::Cell;
use std::io::{BufRead, BufReader, Write};
use std::net::TcpStream;
use store::{Database, EVERY_JOB, Office as _, Pairing, People, Role, Span};
use testkit::{JOB, Tablet, body};

const MANUAL: &str = include_str!("../../../../docs/access.md");

/// The name under every record of these tests, where it is about something else.
const NAME: &str = "in words";

/// The columns of the table, in its order.
const ACTORS: [&str; 12] = [
    "nobody",
    "device of nobody",
    "device let go",
    "reader",
    "contractor's quality",
    "inspector",
    "reviewer",
    "manager",
    "another job",
    "manager of the office",
    "before: nobody",
    "before: paired device",
];

/// The rows of the table: request and cells.
fn written() -> Vec<(String, Vec<String>)> {
    let rows = MANUAL
        .lines()
        .filter(|line| ["| `GET ", "| `POST ", "| `PUT "].iter().any(|start| line.starts_with(start)));
    rows.map(|row| {
        let mut cells = row.trim_matches('|').split('|').map(|cell| cell.trim().trim_matches('`').to_owned());
        (cells.next().expect("a request"), cells.collect())
    })
    .collect()
}

#[test]
fn the_manual_names_every_route_once_and_every_actor() {
    let heads: Vec<&str> = MANUAL
        .lines()
        .find(|line| line.starts_with("| request |"))
        .expect("a head")
        .trim_matches('|')
        .split('|')
        .skip(1)
        .map(str::trim)
        .collect();
    assert_eq!(heads, ACTORS);
    let named: Vec<String> = written().into_iter().map(|(request, _)| request).collect();
    let routes: Vec<String> =
        declared().iter().map(|Declared { method, path, .. }| format!("{method} {path}")).collect();
    assert_eq!(named, routes);
    for (request, cells) in written() {
        assert_eq!(cells.len(), ACTORS.len(), "{request}");
        let known = |cell: &String| matches!(cell.as_str(), "yes" | "no" | "own" | "aside");
        assert!(cells.iter().all(known), "{request}");
    }
}

/// Somebody who asks: by a session, by a device, or by neither.
#[derive(Clone, Default)]
struct Shows {
    session: Option<String>,
    device: Option<String>,
}

/// An office with everybody of the table in it.
struct House {
    office: Office,
    drawn: Cell<u64>,
    victim: (i64, i64),
    tablet: std::cell::RefCell<Tablet>,
}

const PHOTO: &[u8] = b"a picture of the ticket";

fn photo_hash() -> String {
    record::entry::FileHash(wire::sha256(PHOTO)).to_string()
}

/// A secret that was never given before.
fn secret(number: u64) -> String {
    format!("{number:064x}")
}

impl House {
    fn open() -> Self {
        let limits = Limits { rate: 1e6, burst: 1e6, ..Limits::default() };
        let office = Office::limited(limits);
        let entries: Vec<_> = crate::office::remarks(1, 2).into_iter().map(record::Held::Known).collect();
        office.desk().add(&entries).expect("added");
        // A photo that is there, named by an entry of the job.
        let photo = photo_hash();
        let shows = body("photo", &[("file", &photo), ("caption", "the ticket")]);
        office.desk().add(&[record::Held::Known(Tablet::new(7).write("09:00", shows))]).expect("added");
        let folder = office.folder.path().join(store::PHOTOS).join(&photo[..2]);
        std::fs::create_dir_all(&folder).expect("a folder");
        std::fs::write(folder.join(&photo), PHOTO).expect("written");
        let tablet = std::cell::RefCell::new(Tablet::new(9).by(NAME));
        House { office, drawn: Cell::new(1), victim: (1, 1), tablet }
    }

    /// With the people of the table. The first is somebody whom the others let go and invite.
    fn peopled() -> Self {
        let mut house = House::open();
        let mut store = house.store();
        let victim = store.add_person("victim", 1000).expect("added");
        let device = house.pair(&mut store, Some(victim), 200).0;
        house.victim = (victim, device);
        house
    }

    fn store(&self) -> Database {
        self.office.store()
    }

    fn draw(&self) -> String {
        self.drawn.set(self.drawn.get() + 1);
        secret(self.drawn.get())
    }

    fn pair(&self, store: &mut Database, person: Option<i64>, number: u8) -> (i64, String) {
        let token = self.draw();
        match person {
            Some(person) => store.add_code_of(person, "K7PM3XQF", i64::MAX, 0).expect("kept"),
            None => store.add_code("K7PM3XQF", i64::MAX, 0).expect("kept"),
        }
        let pairing = Pairing {
            device: testkit::key(number).device().to_string(),
            name: format!("Rig {number}"),
            token: token.clone(),
            paired_at: "2031-04-08T10:41:00+00:00".to_owned(),
        };
        (store.pair("K7PM3XQF", &pairing, 0).expect("asked").expect("paired").number, token)
    }

    /// A person with roles, once by a session and once by a device.
    fn person(&self, name: &str, roles: &[(&str, Role)]) -> [Shows; 2] {
        let mut store = self.store();
        let number = store.add_person(name, 1000).expect("added");
        store.sign_as(number, Some(NAME)).expect("kept");
        for (job, role) in roles {
            store.give_role(number, job, *role).expect("given");
        }
        let session = self.draw();
        let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).expect("after 1970");
        let from = now.as_secs() as i64;
        store.begin_session(number, &session, Span { from, until: from + 1000 }).expect("begun");
        let device = self.pair(&mut store, Some(number), 100 + number as u8).1;
        [Shows { session: Some(session), device: None }, Shows { session: None, device: Some(device) }]
    }

    /// Everybody an actor may come as.
    fn shows(&self, actor: &str) -> Vec<Shows> {
        let on = |role| self.person(role_name(role), &[(JOB, role)]).to_vec();
        let device = |person| {
            let device = self.pair(&mut self.store(), person, 50);
            (device.0, Shows { session: None, device: Some(device.1) })
        };
        match actor {
            "nobody" | "before: nobody" => vec![Shows::default()],
            "device of nobody" | "before: paired device" => vec![device(None).1],
            "device let go" => {
                let (number, shows) = device(None);
                assert!(self.store().let_go(number, 1000).expect("done"));
                vec![shows]
            }
            "reader" => on(Role::Reader),
            "contractor's quality" => on(Role::Quality),
            "inspector" => on(Role::Inspector),
            "reviewer" => on(Role::Reviewer),
            "manager" => on(Role::Manager),
            "another job" => {
                let all: Vec<(&str, Role)> = Role::ALL.iter().map(|role| ("J-2", *role)).collect();
                self.person("another", &all).to_vec()
            }
            "manager of the office" => self.person("office", &[(EVERY_JOB, Role::Manager)]).to_vec(),
            actor => panic!("{actor} is nobody"),
        }
    }

    /// Asks a route as somebody, from a page of this office.
    fn ask(&self, route: &Declared, shows: &Shows) -> String {
        let (path, body) = (self.address(route.path), self.body(route));
        let mut head = format!("{} {path}\nsec-fetch-site: same-origin", route.method);
        if let Some(session) = &shows.session {
            head.push_str(&format!("\ncookie: shaftbook_session={session}"));
        }
        if route.path.ends_with("/live") {
            return streamed(&self.office, &head, shows.device.as_deref());
        }
        judged(route, &self.office.ask(&head, shows.device.as_deref(), &body))
    }

    fn address(&self, path: &str) -> String {
        let number = if path.contains("/people/{number}") { self.victim.0 } else { self.victim.1 };
        let path = path.replace("{job}", JOB).replace("{shaft}", "S-1").replace("{hash}", &photo_hash());
        let path = path.replace("{format}", "geojson");
        let question = if path.ends_with("/entries") { format!("?job={JOB}") } else { String::new() };
        path.replace("{number}", &number.to_string()) + &question
    }

    fn body(&self, route: &Declared) -> Vec<u8> {
        let form = |text: &str| text.as_bytes().to_vec();
        match (route.method, route.path) {
            ("GET", _) => Vec::new(),
            (_, "/api/v1/entries") => {
                let entry = self.tablet.borrow_mut().write("10:41", body("remark", &[("text", "clear")]));
                line(&entry).into_bytes()
            }
            (_, "/api/v1/pair") => crate::office::pairing("ACDEFGHJ", 201),
            (_, "/api/v1/photos/missing") => form(r#"{"hashes":[]}"#),
            (_, "/api/v1/photos/{hash}") => PHOTO.to_vec(),
            (_, path) if path.ends_with("/seal") => form(r#"{"by":"I. Vane"}"#),
            (_, "/people/sign-in") => form("name=x&password=y"),
            (_, "/people/invited") => form("invitation=x&new=y&again=z"),
            (_, "/people/password") => form("password=x&new=y&again=z"),
            (_, "/people/office/names") => form("person=1&name=Vic+Tim"),
            (_, path) if path.ends_with("/give") => form("name=new.one&role=reader"),
            (_, path) if path.ends_with("/take") => form("person=1&role=reader"),
            (_, path) if path.ends_with("/let-in") => form("device=1&up_to=9&reason=seen"),
            _ => form("x="),
        }
    }
}

fn role_name(role: Role) -> &'static str {
    role.word()
}

/// What somebody may do, by what was answered.
fn judged(route: &Declared, answer: &Answer) -> String {
    let at_the_door = ["not-paired", "not-signed-in", "no-role", "not-from-here", "other-page"];
    let refused = matches!(answer.status, 401 | 403) && at_the_door.contains(&answer.refusal().code.as_str());
    let to_sign_in = answer.status == 303
        && answer.header("location") == "/people/sign-in"
        && route.path != "/people/sign-out";
    let text = answer.text();
    let word = match (route.method, route.path) {
        _ if refused || to_sign_in => "no",
        ("GET", "/api/v1/photos/{hash}") if answer.status == 404 => "no",
        (_, "/api/v1/jobs") if !text.contains(JOB) => "own",
        ("POST", "/api/v1/entries") if text.contains("set-aside") => "aside",
        ("POST", "/api/v1/entries") if text.contains("no-role") => "no",
        ("POST", "/api/v1/entries") => {
            assert!(text.contains("stored"), "{text}");
            "yes"
        }
        _ => "yes",
    };
    assert!(answer.status < 500, "{} {}: {text}", route.method, route.path);
    word.to_owned()
}

/// The line of news: what it begins with says what somebody may see.
fn streamed(office: &Office, head: &str, device: Option<&str>) -> String {
    let mut stream = TcpStream::connect(office.address()).expect("connected");
    let (asked, headers) = head.split_once('\n').expect("headers");
    let bearer = device.map(|token| format!("authorization: Bearer {token}\r\n")).unwrap_or_default();
    let headers = headers.replace('\n', "\r\n");
    let all = format!("{asked} HTTP/1.1\r\nhost: {}\r\n{headers}\r\n{bearer}\r\n", office.address());
    stream.write_all(all.as_bytes()).expect("asked");
    stream.set_read_timeout(Some(std::time::Duration::from_millis(500))).expect("a patience");
    let (mut lines, mut status, mut line) = (BufReader::new(stream), String::new(), String::new());
    lines.read_line(&mut status).expect("a status");
    let mut told = String::new();
    // The first look comes at once; silence after it means that nothing may be seen.
    while lines.read_line(&mut line).is_ok_and(|read| read > 0) && !told.contains("\"cursor\"") {
        told.push_str(&std::mem::take(&mut line));
    }
    match (status.contains(" 200 "), told.contains(JOB)) {
        (true, true) => "yes",
        (true, false) => "own",
        (false, _) => "no",
    }
    .to_owned()
}

/// What a cell promises to a device: the people's pages and the desk's answer a session alone.
fn expected<'c>(route: &Declared, shows: &Shows, cell: &'c str, actor: &str) -> &'c str {
    let page = route.path.starts_with("/people") || route.path.starts_with("/desk");
    let by_device = shows.device.is_some() && page && route.need != "nothing";
    if by_device && !actor.starts_with("before") { "no" } else { cell }
}

#[test]
fn what_is_allowed_is_exactly_what_the_manual_says() {
    let (before, after) = (House::open(), House::peopled());
    let mut wrong = Vec::new();
    for (route, (request, cells)) in declared().iter().zip(written()) {
        for (actor, cell) in ACTORS.iter().zip(&cells) {
            let house = if actor.starts_with("before") { &before } else { &after };
            for shows in house.shows(actor) {
                let (found, expected) = (house.ask(route, &shows), expected(route, &shows, cell, actor));
                if found != expected {
                    let by = if shows.device.is_some() { "device" } else { "session" };
                    wrong.push(format!("{request}, {actor} by {by}: {found}, not {expected}"));
                }
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

/// A page elsewhere that sends a form of ours along with the cookies of whoever looks at it.
#[test]
fn no_other_page_changes_anything() {
    let house = House::peopled();
    let [shows, _] = house.person("office", &[(EVERY_JOB, Role::Manager)]);
    let session = shows.session.expect("a session");
    for route in declared().iter().filter(|route| route.method != "GET") {
        for other in [
            "sec-fetch-site: cross-site",
            "sec-fetch-site: same-site",
            "origin: https://elsewhere.example",
            "origin: null",
        ] {
            let head = format!(
                "{} {}\n{other}\ncookie: shaftbook_session={session}",
                route.method,
                house.address(route.path)
            );
            let refusal = house.office.ask(&head, None, &house.body(route)).refusal();
            let door = ["other-page", "not-from-here"].contains(&refusal.code.as_str());
            assert!(door, "{} {} with {other}: {}", route.method, route.path, refusal.code);
        }
        // A form of a browser so old that it says nothing of where it comes from.
        let head =
            format!("{} {}\ncookie: shaftbook_session={session}", route.method, house.address(route.path));
        if route.path.starts_with("/people") {
            let refusal = house.office.ask(&head, None, &house.body(route)).refusal();
            assert_eq!(refusal.code, "other-page", "{} {}", route.method, route.path);
        }
    }
}

/// The rows of the table of what is said: the entry as it is named there, and a cell for each of four roles.
fn rows_of_words() -> Vec<(String, Vec<String>)> {
    let from = MANUAL.split("## Who may say what").nth(1).expect("the chapter");
    let chapter = from.split("\n## ").next().expect("its end");
    let rows = chapter.lines().filter(|line| line.starts_with("| `"));
    rows.map(|row| {
        let mut cells = row.trim_matches('|').split('|').map(|cell| cell.trim().to_owned());
        (cells.next().expect("an entry"), cells.collect())
    })
    .collect()
}

/// An entry that says what a row names.
fn said(row: &str) -> record::Body {
    let words: Vec<&str> = row.split('`').skip(1).step_by(2).collect();
    let text = |name: &'static str| (name, NAME);
    let hash = "0f".repeat(32);
    match words[..] {
        ["signed", role] => body("signed", &[text("name"), ("role", role)]),
        ["finding_disposed", decision] => {
            body("finding_disposed", &[text("criterion"), ("decision", decision), text("reason"), text("by")])
        }
        ["hold_released"] => body("hold_released", &[text("hold"), text("by")]),
        ["correction", role] => body(
            "correction",
            &[
                ("replaces", &hash),
                text("reason"),
                ("body.kind", "signed"),
                ("body.body.name", NAME),
                ("body.body.role", role),
            ],
        ),
        [kind] => testkit::minimal(record::kinds::kind_of(kind).expect("a kind")),
        _ => panic!("{row}"),
    }
}

/// A signature, a decision, a release and a seal are taken from those alone whose word they are.
#[test]
fn who_may_say_what_is_exactly_what_the_manual_says() {
    let house = House::peopled();
    let roles = [Role::Quality, Role::Inspector, Role::Reviewer, Role::Manager];
    let devices = roles.map(|role| house.person(role.word(), &[(JOB, role)])[1].clone());
    let rows = rows_of_words();
    let named: std::collections::BTreeSet<&str> =
        rows.iter().filter_map(|(row, _)| row.strip_prefix("`signed` as `")?.strip_suffix('`')).collect();
    let parts = record::choices::Role::WORDS.iter().map(|part| part.word).collect();
    assert_eq!(named, parts, "every part has a row");
    let mut wrong = Vec::new();
    for (row, cells) in rows {
        for ((role, shows), cell) in roles.iter().zip(&devices).zip(&cells) {
            let entry = house.tablet.borrow_mut().write("10:41", said(&row));
            let token = shows.device.as_deref();
            let answer = house.office.ask("POST /api/v1/entries", token, line(&entry).as_bytes());
            let found = word_of(&answer);
            if found != cell {
                wrong.push(format!("{row}, {}: {found}, not {cell}", role.word()));
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

/// What was answered to one entry, in a word.
fn word_of(answer: &Answer) -> &'static str {
    let text = answer.text();
    match () {
        () if text.contains("set-aside") => "aside",
        () if text.contains("no-role") => "no",
        () if text.contains("stored") => "yes",
        () => panic!("{text}"),
    }
}

/// The rows of the table of names, without the head.
fn rows_of_names() -> Vec<(&'static str, &'static str)> {
    let from = MANUAL.split("## In whose name").nth(1).expect("the chapter");
    let chapter = from.split("\n## ").next().expect("its end");
    let rows = chapter.lines().filter(|line| line.starts_with("| ")).skip(1);
    rows.map(|row| row.trim_matches('|').split_once('|').expect("two cells"))
        .map(|(entry, cell)| (entry.trim(), cell.trim()))
        .collect()
}

/// What others wrote before, as the office has it: two signatures, a strike-through, a remark.
fn written_before(house: &House) -> [record::EntryId; 4] {
    let mut tablet = Tablet::new(8);
    let inspector = tablet.write("09:00", body("signed", &[("name", "B. Vane"), ("role", "inspector")]));
    let engineer = tablet.write("09:10", body("signed", &[("name", "I. Vane"), ("role", "engineer")]));
    let struck = tablet.write("09:20", correction(engineer.id, &[]));
    let remark = tablet.write("09:30", body("remark", &[("text", "clear")]));
    let all = [inspector, engineer, struck, remark];
    let ids = all.each_ref().map(|entry| entry.id);
    house.office.desk().add(&all.map(record::Held::Known)).expect("added");
    ids
}

fn correction(replaces: record::EntryId, place: &[(&str, &str)]) -> record::Body {
    let replaces = replaces.to_string();
    body("correction", &[&[("replaces", replaces.as_str()), ("reason", "not so")], place].concat())
}

/// Nobody's word is taken in the name of another, and nobody's is taken away by whoever could not have said it.
#[test]
fn in_whose_name_is_exactly_what_the_manual_says() {
    let house = House::peopled();
    let [_, hall] = house.person("a.hall", &[(JOB, Role::Inspector)]);
    let mut store = house.store();
    let number = store.person_named("a.hall").expect("asked").expect("somebody").0.number;
    store.sign_as(number, Some("Anna Hall")).expect("kept");
    let [inspector, engineer, struck, remark] = written_before(&house);
    let signed = |name: &str, role: &str| body("signed", &[("name", name), ("role", role)]);
    let in_place = [("body.kind", "remark"), ("body.body.text", "clear")];
    let (about, keeps) = (engineer.to_string(), struck.to_string());
    let closed = [("about", about.as_str()), ("keeps", keeps.as_str()), ("reason", "so")];
    let rows = [
        ["Anna Hall", "A. HALL", "a.hall"].map(|name| signed(name, "inspector")).to_vec(),
        vec![signed("B. Vane", "inspector")],
        vec![signed("B. Vane", "contractor")],
        vec![correction(inspector, &[])],
        vec![correction(engineer, &[])],
        vec![correction(struck, &[])],
        vec![correction(engineer, &in_place)],
        vec![body("dispute_closed", &closed)],
        vec![correction(remark, &[])],
    ];
    let manual = rows_of_names();
    assert_eq!(manual.len(), rows.len());
    for (bodies, (row, cell)) in rows.into_iter().zip(manual) {
        for body in bodies {
            let entry = house.tablet.borrow_mut().write("10:41", body);
            let token = hall.device.as_deref();
            let answer = house.office.ask("POST /api/v1/entries", token, line(&entry).as_bytes());
            assert_eq!(word_of(&answer), cell, "{row}");
        }
    }
}

/// What is struck through may come in the same delivery, behind what strikes it.
#[test]
fn a_signature_and_its_strike_through_in_one_delivery_are_told_apart() {
    let house = House::peopled();
    let [_, hall] = house.person("a.hall", &[(JOB, Role::Inspector)]);
    let mut tablet = house.tablet.borrow_mut();
    let signed = tablet.write("10:41", body("signed", &[("name", "I. Vane"), ("role", "engineer")]));
    let strike = tablet.write("10:42", correction(signed.id, &[]));
    let lines = line(&strike) + "\n" + &line(&signed) + "\n";
    let answer = house.office.ask("POST /api/v1/entries", hall.device.as_deref(), lines.as_bytes());
    let pushed: wire::http::Pushed = serde_json::from_slice(&answer.bytes).expect("answers");
    let whats: Vec<&str> =
        pushed.answers.iter().map(|one| one.refusal.as_ref().expect("aside").what.as_str()).collect();
    expect_test::expect![[r#"
        [
            "It strikes through what another said, and a.hall (in words) has no role on the job that lets them.",
            "a.hall (in words) has no role on the job that lets them say this: it is for another to say.",
        ]
    "#]]
    .assert_debug_eq(&whats);
}
