//! Passkeys and ceremonies: whose they are, and that each ceremony is answered once.

mod kinds;

use kinds::{Kept, each_kind};
use store::{Ceremony, EVERY_JOB, Left, NewPasskey, Passkeys, People, Removal, Role, Span, Sqlite, restore};

fn somebody(store: &mut Kept, name: &str) -> i64 {
    let number = store.add_person(name, 1000).expect("added");
    store.set_secret(number, "hash").expect("set");
    number
}

fn add(store: &mut Kept, person: i64, id: &str) -> Option<i64> {
    let new = NewPasskey {
        person,
        id: id.to_owned(),
        handle: "0f".repeat(16),
        name: "Phone".to_owned(),
        key: "{}".to_owned(),
        since: 1000,
    };
    store.add_passkey(&new).expect("asked")
}

fn count(store: &Kept, person: i64) -> usize {
    store.passkeys_of(person).expect("asked").len()
}

#[test]
fn a_passkey_is_added_once_used_and_removed_by_its_holder_alone() {
    each_kind(|mut store| {
        let (one, two) = (somebody(&mut store, "d.pike"), somebody(&mut store, "a.hall"));
        let number = add(&mut store, one, "aa").expect("new");
        assert_eq!(add(&mut store, two, "aa"), None, "an id is one person's");
        store.use_passkey(number, r#"{"counter":4}"#, 1500).expect("used");
        let found = store.passkey("aa").expect("asked").expect("there");
        assert_eq!((found.person, found.key.as_str(), found.used), (one, r#"{"counter":4}"#, Some(1500)));
        assert!(!store.remove_passkey(two, number).expect("asked"));
        assert_eq!(count(&store, one), 1);
        assert!(store.remove_passkey(one, number).expect("asked"));
        assert_eq!(store.passkey("aa").expect("asked"), None);
        assert!(add(&mut store, one, "bb").expect("new") > number, "a number is never used twice");
    });
}

/// Who is let go, and who begins anew by an invitation, has no passkey left.
#[test]
fn passkeys_go_with_the_person_and_with_a_used_invitation() {
    each_kind(|mut store| {
        let (one, two) = (somebody(&mut store, "d.pike"), somebody(&mut store, "a.hall"));
        store.give_role(one, EVERY_JOB, Role::Manager).expect("given");
        add(&mut store, one, "aa");
        add(&mut store, two, "bb");
        store.set_secret(one, "another").expect("set");
        assert_eq!(count(&store, one), 1, "a new password keeps them");
        store.invite(one, "code", 2000).expect("invited");
        assert_eq!(count(&store, one), 1, "an invitation alone removes nothing");
        store.use_invitation("code", "hash", 1500).expect("asked").expect("used");
        assert_eq!(count(&store, one), 0);
        assert_eq!(store.let_person_go(two, 1200, Left::AManager).expect("asked"), Removal::Done);
        assert_eq!(count(&store, two), 0);
    });
}

fn begin(store: &mut Kept, token: &str, person: Option<i64>, address: &str) -> bool {
    let ceremony = Ceremony { token, person, address, state: token, span: (1000, 1300) };
    store.begin_ceremony(&ceremony).expect("asked")
}

#[test]
fn a_ceremony_is_answered_once_in_time_by_whose_it_is() {
    each_kind(|mut store| {
        for token in ["once", "late", "foreign"] {
            assert!(begin(&mut store, token, (token == "foreign").then_some(1), "192.0.2.7"));
        }
        let end = |store: &mut Kept, token: &str, person, now| {
            store.end_ceremony(token, person, now).expect("asked").is_some()
        };
        assert!(end(&mut store, "once", None, 1299) && !end(&mut store, "once", None, 1299));
        assert!(!end(&mut store, "late", None, 1300));
        assert!(!end(&mut store, "foreign", Some(2), 1100), "of another person");
        assert!(!end(&mut store, "foreign", Some(1), 1100), "used up by the wrong answer");
        assert!(!end(&mut store, "never", None, 1100));
    });
}

#[test]
fn one_address_keeps_nobody_else_from_beginning() {
    each_kind(|mut store| {
        let begun = (0..30).filter(|at| begin(&mut store, &format!("a{at}"), None, "192.0.2.7")).count();
        assert_eq!(begun, 20);
        assert!(begin(&mut store, "b", None, "198.51.100.4"));
        // Those that lapsed make room.
        let later =
            Ceremony { token: "c", person: None, address: "192.0.2.7", state: "", span: (1300, 1600) };
        assert!(store.begin_ceremony(&later).expect("asked"));
    });
}

/// A backup has passkeys as it has passwords, and nothing that was begun.
#[test]
fn a_restored_office_knows_passkeys_and_no_ceremony() {
    each_kind(|mut store| {
        let one = somebody(&mut store, "d.pike");
        add(&mut store, one, "aa");
        begin(&mut store, "token", None, "192.0.2.7");
        store.begin_session(one, "session", Span { from: 1000, until: 2000 }).expect("begun");
        let (copy, again) = (store.path().join("copy.sqlite"), store.path().join("again.sqlite"));
        store.backup(&copy).expect("copied");
        restore(&copy, &again).expect("restored");
        let mut restored = Sqlite::open(&again).expect("opened");
        assert_eq!(restored.passkeys_of(one).expect("asked").len(), 1);
        assert_eq!(restored.end_ceremony("token", None, 1100).expect("asked"), None);
    });
}
