//! A record goes from a file into a server's database and back: everything, or nothing.

mod kinds;

use kinds::Kept;
use record::Held;
use store::{
    Address, Database, EVERY_JOB, LettingIn, Line, Office, Pairing, People, Proved, Role, SetAside, SignIn,
    SignIns, Span, Store, StoreError, move_all,
};
use testkit::{JOB, Tablet, body};

fn remark(text: &str) -> record::Body {
    body("remark", &[("text", text)])
}

fn lines(number: u8, job: &str, texts: &[&str]) -> Vec<Line> {
    let mut tablet = Tablet::new(number).of_job(job);
    texts.iter().map(|text| Line::of(&Held::Known(tablet.write("10:41", remark(text))))).collect()
}

/// Texts that a table copied as text could come out of changed.
const ODD: &[&str] = &["a\tb", "c\\n", "line\nfeed", "ſ \u{FFFE}0", "'; DROP TABLE entry; --", "\\N", "\\."];

/// Something in every table; with names no form would take.
fn fill(store: &mut Database) {
    store.add_lines(&lines(1, JOB, ODD)).expect("added");
    store.add_lines(&lines(2, "a\0job\twith \\ in it", &["one", "two"])).expect("added");
    let person = store.add_person("d.pike", 1000).expect("added");
    store.give_role(person, EVERY_JOB, Role::Manager).expect("given");
    store.give_role(person, "a\0job", Role::Reader).expect("given");
    store.add_code_of(person, "K7PM3XQF", 1600, 1000).expect("kept");
    let pairing = Pairing {
        device: testkit::key(1).device().to_string(),
        name: "Rig\0 \u{FFFE} 1".to_owned(),
        token: "token".to_owned(),
        paired_at: "2031-04-08T10:41:00+00:00".to_owned(),
    };
    let device = store.pair("K7PM3XQF", &pairing, 1000).expect("asked").expect("paired").number;
    store.add_code("ACDEFGHJ", 1600, 1000).expect("kept");
    store.own_key("key", device).expect("kept");
    store.set("address", "https://office.example").expect("set");
    store.invite(person, "code", 2000).expect("invited");
    store.begin_session(person, "token", Span { from: 1000, until: 2000 }).expect("begun");
    let aside = lines(3, JOB, &["x", "y"]);
    store.set_aside(&aside, device, 1300).expect("set aside");
    let letting =
        LettingIn { job: JOB, brought_by: device, up_to: 1, by: "d.pike", reason: "It is ours.", now: 1500 };
    assert_eq!(store.let_in(&letting).expect("let in").len(), 1);
    let about = "over the \t air".to_owned();
    let happened =
        SignIn { at: 1000, what: "refused".into(), person: None, address: "192.0.2.7".into(), about };
    store.note_sign_in(&happened).expect("noted");
}

/// All of a store that can be asked.
fn told(store: &Database) -> String {
    let records: Vec<String> = store
        .jobs()
        .expect("read")
        .iter()
        .map(|job| format!("{job:?}\n{}", wire::write_lines(&store.record(job).expect("proved"))))
        .collect();
    format!(
        "{}{:?}{:?}{:?}{:?}{:?}{:?}{:?}",
        records.concat(),
        store.counts().expect("read"),
        store.devices().expect("read"),
        store.people_on(EVERY_JOB).expect("read"),
        store.aside(JOB, 0, 99).expect("read"),
        store.sign_ins(i64::MAX, 99).expect("read"),
        store.session("token", 999, 1500).expect("read"),
        store.setting("address").expect("read"),
    )
}

#[test]
fn a_record_moves_to_a_server_and_back_without_losing_anything() {
    let (mut file, server) = (Kept::sqlite(), Kept::postgres());
    fill(&mut file);
    let before = told(&file);
    let proved = file.check().expect("whole");
    assert_eq!((proved.jobs, proved.entries), (2, ODD.len() + 3));
    assert_eq!(move_all(&file, &server, "the server").expect("moved"), proved);
    assert_eq!(told(&server), before);
    let back = Kept::sqlite();
    assert_eq!(move_all(&server, &back, "a file").expect("moved back"), proved);
    assert_eq!(told(&back), before);
    // Both take entries again where they now are, under numbers nobody has seen.
    let mut back = back;
    let next = back.add_lines(&lines(9, JOB, &["later"])).expect("added");
    assert!(matches!(next[0], store::Kept::New(arrival) if arrival > proved.entries as i64), "{next:?}");
}

/// Numbers are never given twice, not even those of rows that are gone.
#[test]
fn numbers_go_on_where_they_were() {
    let (mut file, server) = (Kept::sqlite(), Kept::postgres());
    file.add_lines(&lines(1, JOB, &["a", "b", "c"])).expect("added");
    file.by_hand("UPDATE sqlite_sequence SET seq = 41").expect("by hand");
    move_all(&file, &server, "the server").expect("moved");
    let mut server = server;
    assert_eq!(server.add_lines(&lines(2, JOB, &["d"])).expect("added"), [store::Kept::New(42)]);
    let back = Kept::sqlite();
    move_all(&server, &back, "a file").expect("moved back");
    let mut back = back;
    assert_eq!(back.add_lines(&lines(3, JOB, &["e"])).expect("added"), [store::Kept::New(43)]);
}

/// The place it came from says where the record is, and takes nothing in; what is in it can be looked at.
#[test]
fn what_was_moved_away_takes_nothing_in_any_more() {
    for (from, to) in [(Kept::sqlite(), Kept::postgres()), (Kept::postgres(), Kept::sqlite())] {
        let mut from = from;
        fill(&mut from);
        // Another program has it open already.
        let mut beside = from.again();
        move_all(&from, &to, "elsewhere").expect("moved");
        if from.server.is_some() {
            let added = beside.add_lines(&lines(9, JOB, &["lost"]));
            assert!(matches!(&added, Err(StoreError::Moved(to)) if to == "elsewhere"), "{added:?}");
        }
        let opened = Database::open(&from.address).map(|_| ());
        assert!(matches!(&opened, Err(StoreError::Moved(to)) if to == "elsewhere"), "{opened:?}");
        let looked = Database::open_to_read(&from.address).expect("can be looked at");
        assert_eq!(looked.record(JOB).expect("read"), to.record(JOB).expect("read"));
    }
}

#[test]
fn nothing_is_written_over() {
    let (mut file, mut server) = (Kept::sqlite(), Kept::postgres());
    fill(&mut file);
    server.set("address", "https://other.example").expect("set");
    let refused = move_all(&file, &server, "the server").map(|_| ());
    assert!(matches!(refused, Err(StoreError::Occupied)), "{refused:?}");
    assert_eq!(server.jobs().expect("read"), Vec::<String>::new());
    file.add_lines(&lines(9, JOB, &["goes on"])).expect("the file takes entries as before");
}

/// A line that was altered behind the back of the program stops the move, and nothing is marked as moved.
#[test]
fn what_is_not_whole_is_not_moved() {
    let (mut file, server) = (Kept::sqlite(), Kept::postgres());
    file.add_lines(&lines(1, JOB, &["clear", "clear"])).expect("added");
    file.by_hand(
        "DROP TRIGGER entry_is_never_altered; UPDATE entry SET line = replace(line, 'clear', 'cloud') WHERE arrival = 2",
    )
    .expect("altered");
    let refused = move_all(&file, &server, "the server").map(|_| ());
    assert!(matches!(refused, Err(StoreError::Altered { arrival: 2, .. })), "{refused:?}");
    assert!(Database::open(&Address::of_file(&file.path().join(store::DATABASE))).is_ok());
}

/// A copy of a server's database is a file like any other, and a folder can be made of it.
#[test]
fn a_copy_of_a_servers_database_restores_as_a_file() {
    let mut server = Kept::postgres();
    fill(&mut server);
    let (copy, again) = (server.path().join("copy.sqlite"), server.path().join("again.sqlite"));
    let checked = server.backup(&copy).expect("copied");
    assert_eq!(store::restore(&copy, &again).expect("restored"), checked);
    let restored = Database::open(&Address::of_file(&again)).expect("opens");
    assert_eq!(restored.record(JOB).expect("read"), server.record(JOB).expect("read"));
}
