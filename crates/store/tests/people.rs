//! People, invitations, sessions, what is set aside.

mod kinds;

use kinds::each_kind;
use record::Held;
use store::{
    Database, EVERY_JOB, Kept, Left, LettingIn, Line, Office, Pairing, People, Removal, Role, SetAside,
    SignIn, SignIns, Span, Sqlite, Store, StoreError, restore,
};
use testkit::{JOB, Tablet, body};

/// One who chose a password and manages every job.
fn manager(store: &mut Database) -> i64 {
    let number = store.add_person("d.pike", 1000).expect("added");
    store.give_role(number, EVERY_JOB, Role::Manager).expect("given");
    number
}

#[test]
fn there_are_people_from_the_first_one_on() {
    each_kind(|mut store| {
        assert!(!store.has_people().expect("asked"));
        let one = manager(&mut store);
        assert!(store.has_people().expect("asked"));
        assert_eq!(store.add_person("d.pike", 2000).expect("added"), one, "the same name is the same person");
        let two = store.add_person("a.hall", 2000).expect("added");
        assert!(two > one);
        let all: Vec<String> =
            store.people_on(EVERY_JOB).expect("asked").into_iter().map(|known| known.person.name).collect();
        assert_eq!(all, ["a.hall", "d.pike"]);
        assert_eq!(store.people_on(JOB).expect("asked"), []);
    });
}

#[test]
fn a_person_signs_with_the_name_the_office_knows() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        let signs_as =
            |store: &Database| store.person(one).expect("asked").expect("somebody").person.signs_as;
        assert_eq!(signs_as(&store), None);
        store.sign_as(one, Some("Dana Pike, P.E.")).expect("kept");
        assert_eq!(signs_as(&store).as_deref(), Some("Dana Pike, P.E."));
        assert!(store.person_named("d.pike").expect("asked").expect("somebody").0.signs("dana pike pe"));
        store.sign_as(one, None).expect("kept");
        assert_eq!(signs_as(&store), None);
    });
}

#[test]
fn a_role_is_given_and_taken() {
    each_kind(|mut store| {
        let one = store.add_person("a.hall", 1000).expect("added");
        store.give_role(one, JOB, Role::Reader).expect("given");
        store.give_role(one, JOB, Role::Reader).expect("given again");
        let roles = store.person(one).expect("asked").expect("somebody").roles;
        assert_eq!(roles.0, [(JOB.to_owned(), Role::Reader)]);
        assert_eq!(store.people_on(JOB).expect("asked").len(), 1);
        let take = |store: &mut Database| store.take_role(one, JOB, Role::Reader).expect("taken");
        assert_eq!([take(&mut store), take(&mut store)], [Removal::Done, Removal::NotThere]);
    });
}

#[test]
fn an_invitation_serves_once_before_its_time_is_over_and_a_newer_one_takes_its_place() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        store.invite(one, "first", 2000).expect("invited");
        store.invite(one, "second", 2000).expect("invited");
        assert_eq!(store.use_invitation("first", "hash", 1500).expect("asked"), None);
        assert_eq!(store.use_invitation("second", "hash", 2000).expect("asked"), None, "too late");
        let used = store.use_invitation("second", "hash", 1999).expect("asked").expect("invited");
        assert_eq!((used.name.as_str(), used.chose), ("d.pike", true));
        assert_eq!(store.use_invitation("second", "other", 1999).expect("asked"), None, "once");
        assert_eq!(
            store.person_named("d.pike").expect("asked").expect("somebody").1.as_deref(),
            Some("hash")
        );
    });
}

fn begin(store: &mut Database, person: i64, token: &str) {
    store.begin_session(person, token, Span { from: 1000, until: 2000 }).expect("begun");
}

fn open(store: &Database, token: &str, idle: i64, now: i64) -> bool {
    store.session(token, idle, now).expect("asked").is_some()
}

#[test]
fn a_session_ends_by_itself_when_nobody_is_there_or_its_time_is_over() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        begin(&mut store, one, "token");
        assert!(open(&store, "token", 999, 1500) && !open(&store, "other", 999, 1500));
        assert!(!open(&store, "token", 1000, 1500), "nobody was there");
        store.see_session("token", 1400).expect("seen");
        assert!(open(&store, "token", 1000, 1500));
        assert!(!open(&store, "token", 1000, 2000), "its time is over");
        store.end_session("token").expect("ended");
        assert!(!open(&store, "token", 999, 1500));
    });
}

/// A new password, by an invitation or not, is chosen because the old one may be known: whoever came in with it is out.
#[test]
fn a_new_password_ends_every_session() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        begin(&mut store, one, "token");
        store.set_secret(one, "hash").expect("set");
        assert!(!open(&store, "token", 999, 1500));
        begin(&mut store, one, "token");
        store.invite(one, "code", 2000).expect("invited");
        assert!(open(&store, "token", 999, 1500), "an invitation alone ends nothing");
        store.use_invitation("code", "hash", 1500).expect("asked").expect("used");
        assert!(!open(&store, "token", 999, 1500));
    });
}

fn pair(store: &mut Database, person: i64, number: u8) -> i64 {
    store.add_code_of(person, "K7PM3XQF", 1600, 1000).expect("kept");
    let pairing = Pairing {
        device: testkit::key(number).device().to_string(),
        name: format!("Rig {number}"),
        token: format!("token {number}"),
        paired_at: "2031-04-08T10:41:00+00:00".to_owned(),
    };
    let device = store.pair("K7PM3XQF", &pairing, 1000).expect("asked").expect("paired");
    assert_eq!(device.person, Some(person));
    device.number
}

#[test]
fn one_who_is_let_go_takes_sessions_invitations_codes_and_devices_along_and_no_name() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        let device = pair(&mut store, one, 1);
        begin(&mut store, one, "token");
        store.invite(one, "code", 2000).expect("invited");
        store.add_code_of(one, "ACDEFGHJ", 1600, 1000).expect("kept");
        let go = |store: &mut Database, now| store.let_person_go(one, now, Left::MaybeNobody).expect("done");
        assert_eq!([go(&mut store, 1200), go(&mut store, 1300)], [Removal::Done, Removal::NotThere]);
        assert!(!open(&store, "token", 999, 1100));
        assert_eq!(store.use_invitation("code", "hash", 1100).expect("asked"), None);
        let bearer = store.bearer("token 1").expect("asked").expect("known");
        assert_eq!((bearer.number, bearer.gone), (device, Some(1200)));
        assert_eq!(store.device("token 1").expect("asked"), None);
        let known = store.person(one).expect("asked").expect("still named");
        assert_eq!((known.person.gone, known.roles.0.len()), (Some(1200), 0));
        // Invited again, the roles are there again.
        store.invite(one, "again", 3000).expect("invited");
        assert_eq!(store.person(one).expect("asked").expect("named").roles.0.len(), 1);
    });
}

/// One who manages the office and has come in.
fn one_more(store: &mut Database, name: &str) -> i64 {
    let number = store.add_person(name, 1000).expect("added");
    store.give_role(number, EVERY_JOB, Role::Manager).expect("given");
    store.set_secret(number, "hash").expect("set");
    number
}

/// Who manages the office and comes in.
fn managers(store: &Database) -> Vec<String> {
    let known = store.people_on(EVERY_JOB).expect("asked").into_iter();
    let comes = known.filter(|known| known.person.chose && known.roles.everywhere(&[Role::Manager]));
    comes.map(|known| known.person.name).collect()
}

#[test]
fn the_last_who_manages_the_office_and_comes_in_stays() {
    each_kind(|mut store| {
        let one = one_more(&mut store, "d.pike");
        // Invited, and not come yet: nobody to leave the office to.
        let two = store.add_person("a.hall", 1000).expect("added");
        store.give_role(two, EVERY_JOB, Role::Manager).expect("given");
        // A manager of one job manages no office.
        store.give_role(one, JOB, Role::Manager).expect("given");
        let take = |store: &mut Database, job| store.take_role(one, job, Role::Manager).expect("asked");
        let go = |store: &mut Database, left| store.let_person_go(one, 1200, left).expect("asked");
        assert_eq!(take(&mut store, EVERY_JOB), Removal::LastManager);
        assert_eq!(go(&mut store, Left::AManager), Removal::LastManager);
        assert_eq!(take(&mut store, JOB), Removal::Done, "any other role goes");
        assert_eq!(managers(&store), ["d.pike"]);
        store.set_secret(two, "hash").expect("came in");
        assert_eq!(go(&mut store, Left::AManager), Removal::Done);
        assert_eq!(managers(&store), ["a.hall"]);
        // The console may.
        assert_eq!(store.let_person_go(two, 1300, Left::AManager).expect("asked"), Removal::LastManager);
        assert_eq!(store.let_person_go(two, 1300, Left::MaybeNobody).expect("asked"), Removal::Done);
        assert_eq!(managers(&store), [""; 0]);
    });
}

/// Each by a connection of its own, as by two servers, at the same moment.
#[test]
fn of_two_managers_who_let_each_other_go_one_stays() {
    each_kind(|mut store| {
        for round in 0..12 {
            let both = ["d.pike", "a.hall"].map(|name| {
                let number = one_more(&mut store, name);
                store.invite(number, name, 2000).expect("back again");
                number
            });
            let start = std::sync::Barrier::new(2);
            let done: Vec<Removal> = std::thread::scope(|scope| {
                let against = |number: i64| {
                    let (mut other, start) = (store.again(), &start);
                    scope.spawn(move || {
                        start.wait();
                        match round % 2 {
                            0 => other.let_person_go(number, 1200, Left::AManager).expect("asked"),
                            _ => other.take_role(number, EVERY_JOB, Role::Manager).expect("asked"),
                        }
                    })
                };
                let threads = both.map(against);
                threads.into_iter().map(|thread| thread.join().expect("it asked")).collect()
            });
            let mut told: Vec<String> = done.iter().map(|done| format!("{done:?}")).collect();
            told.sort();
            assert_eq!(told, ["Done", "LastManager"], "round {round}");
            assert_eq!(managers(&store).len(), 1, "round {round}");
        }
    });
}

fn lines(tablet: u8, count: u8) -> Vec<Line> {
    let mut tablet = Tablet::new(tablet);
    let write = |at| tablet.write(&format!("10:{:02}", 10 + at), body("remark", &[("text", "clear")]));
    (0..count).map(write).map(|entry| Line::of(&Held::Known(entry))).collect()
}

fn letting(by: i64, up_to: i64) -> LettingIn<'static> {
    let reason = "Written before the tablet was let go; the crew confirms it.";
    LettingIn { job: JOB, brought_by: by, up_to, by: "d.pike", reason, now: 1500 }
}

#[test]
fn what_is_set_aside_is_kept_and_in_no_record_until_it_is_let_in() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        let device = pair(&mut store, one, 1);
        let all = lines(1, 4);
        store.add_lines(&all[..1]).expect("added");
        let put = store.set_aside(&all, device, 1300).expect("set aside");
        assert_eq!(put, [Some(Kept::Known(1)), None, None, None]);
        assert_eq!(store.set_aside(&all[1..], device, 1400).expect("again"), [None, None, None], "once each");
        assert_eq!(store.record(JOB).expect("read").len(), 1);
        assert_eq!(store.aside_of_jobs().expect("asked"), [(JOB.to_owned(), 3)]);
        let by_id = |line: &Line| store.entry(line.id()).expect("asked").map(|held| Line::of(&held));
        assert_eq!([by_id(&all[0]).as_ref(), by_id(&all[3]).as_ref()], [Some(&all[0]), Some(&all[3])]);
        assert_eq!(store.entry(&"0".repeat(64)).expect("asked"), None);
        let aside = store.aside(JOB, 0, 100).expect("asked");
        assert_eq!(
            aside.iter().map(|aside| (aside.brought_by, aside.at)).collect::<Vec<_>>(),
            [(device, 1300); 3]
        );
        // Up to what somebody has looked at, and by nobody else's device.
        assert_eq!(store.let_in(&letting(device + 1, i64::MAX)).expect("done"), []);
        let in_now = store.let_in(&letting(device, aside[1].number)).expect("let in");
        assert_eq!(in_now, [(all[1].clone(), Kept::New(2)), (all[2].clone(), Kept::New(3))]);
        assert_eq!(store.record(JOB).expect("read").len(), 3);
        assert_eq!(store.let_in(&letting(device, i64::MAX)).expect("let in").len(), 1, "each once");
        assert_eq!(store.aside_of_jobs().expect("asked"), []);
    });
}

/// A photo is bound to the jobs whose record shows it; what is aside shows nothing.
#[test]
fn a_file_is_named_by_the_jobs_whose_record_names_it() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        let device = pair(&mut store, one, 1);
        let hash = "0f".repeat(32);
        let photo = |tablet: u8, job: &str| {
            let fields = [("file", hash.as_str()), ("caption", "the ticket")];
            Line::of(&Held::Known(Tablet::new(tablet).of_job(job).write("10:41", body("photo", &fields))))
        };
        let naming = |store: &Database| store.jobs_naming(&hash).expect("asked");
        assert_eq!(naming(&store), [""; 0]);
        store.set_aside(&[photo(1, JOB)], device, 1300).expect("set aside");
        assert_eq!(naming(&store), [""; 0]);
        store.add_lines(&[photo(2, "J-2"), photo(3, "J-2")]).expect("added");
        assert_eq!(naming(&store), ["J-2"]);
        store.let_in(&letting(device, 9)).expect("let in");
        assert_eq!(naming(&store), [JOB, "J-2"]);
        assert_eq!(store.jobs_naming(&"0e".repeat(32)).expect("asked"), [""; 0]);
    });
}

/// The database itself refuses, whatever program asks.
#[test]
fn what_is_set_aside_and_what_happened_at_the_door_is_never_erased_or_altered() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        let device = pair(&mut store, one, 1);
        store.set_aside(&lines(1, 1), device, 1300).expect("set aside");
        store.let_in(&letting(device, 9)).expect("let in");
        let happened = SignIn {
            at: 1000,
            what: "refused".into(),
            person: None,
            address: "192.0.2.7".into(),
            about: String::new(),
        };
        store.note_sign_in(&happened).expect("noted");
        assert_eq!(store.sign_ins(i64::MAX, 10).expect("asked"), [(1, happened)]);
        let replaced = match &store.server {
            None => "INSERT OR REPLACE INTO sign_in VALUES (1, 1, 'signed-in', NULL, '', '')",
            Some(_) => "TRUNCATE sign_in",
        };
        for statement in [
            "DELETE FROM set_aside",
            "UPDATE set_aside SET reason = 'another'",
            "UPDATE set_aside SET line = '{}'",
            "DELETE FROM sign_in",
            "UPDATE sign_in SET what = 'signed-in'",
            replaced,
        ] {
            let refused = store.by_hand(statement);
            assert!(refused.as_ref().is_err_and(|error| error.contains("never")), "{statement}: {refused:?}");
        }
    });
}

#[test]
fn a_key_belongs_to_the_device_that_named_it_first() {
    each_kind(|mut store| {
        let one = manager(&mut store);
        let (first, second) = (pair(&mut store, one, 1), pair(&mut store, one, 2));
        store.own_key("key", first).expect("kept");
        store.own_key("key", second).expect("kept");
        assert_eq!(store.gone_owner("key").expect("asked"), None);
        store.let_go(second, 1200).expect("done");
        assert_eq!(store.gone_owner("key").expect("asked"), None);
        store.let_go(first, 1200).expect("done");
        assert_eq!(store.gone_owner("key").expect("asked"), Some(first));
    });
}

/// A backup may be older than the end of a session or the use of an invitation.
#[test]
fn a_restored_office_opens_no_door_that_was_shut() {
    each_kind(|mut store| {
        let folder = tempfile::tempdir().expect("a folder");
        let one = manager(&mut store);
        begin(&mut store, one, "token");
        store.invite(one, "code", 2000).expect("invited");
        store.add_code_of(one, "K7PM3XQF", 1600, 1000).expect("kept");
        let (copy, again) = (folder.path().join("copy.sqlite"), folder.path().join("again.sqlite"));
        store.backup(&copy).expect("copied");
        restore(&copy, &again).expect("restored");
        let mut restored = Database::Sqlite(Sqlite::open(&again).expect("opened"));
        assert!(!open(&restored, "token", 999, 1500));
        assert_eq!(restored.use_invitation("code", "hash", 1500).expect("asked"), None);
        assert_eq!(restored.person_named("d.pike").expect("asked").expect("somebody").0.number, one);
    });
}

/// Names are bound to the statement, never written into it.
#[test]
fn a_name_that_is_a_statement_stays_a_name() {
    each_kind(|mut store| {
        let odd = "x'); DROP TABLE person; --";
        let one = store.add_person(odd, 1000).expect("added");
        store.give_role(one, odd, Role::Reader).expect("given");
        assert_eq!(store.person_named(odd).expect("asked").expect("somebody").0.number, one);
        assert_eq!(store.people_on(odd).expect("asked").len(), 1);
        assert_eq!(store.person_named("x' OR '1'='1").expect("asked"), None);
        let refused: Result<_, StoreError> = store.aside("J-1' OR 1=1 --", 0, 10);
        assert_eq!(refused.expect("asked"), []);
    });
}
