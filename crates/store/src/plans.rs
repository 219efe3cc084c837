//! How each question is answered: none reads a whole table that grows with the office.
//!
//! Every statement the store asks is also asked for its plan, on tables that are filled. What reads everything on purpose
//! (the integrity check, a move, a copy) is not asked here.

use crate::postgres::Postgres;
use crate::sql::Sql;
use crate::sqlite::Sqlite;
use crate::{
    Address, Ceremony, EVERY_JOB, Left, LettingIn, Line, Most, NewPasskey, Office, Pairing, Passkeys, People,
    Role, SetAside, SignIn, SignIns, Span, Store, Tries,
};
use record::Held;
use std::cell::RefCell;
use std::collections::BTreeMap;
use testkit::{Tablet, body};

/// The plan of each statement that was asked, once somebody looks.
#[derive(Default)]
pub(crate) struct Plans(RefCell<Option<BTreeMap<String, Vec<String>>>>);

impl Plans {
    /// Begins to look.
    fn look(&self) {
        self.0.borrow_mut().get_or_insert_default();
    }

    /// Keeps the plan of a statement, unless it is known or nobody looks.
    pub(crate) fn note(&self, statement: &str, plan: impl FnOnce() -> Vec<String>) {
        if self.0.borrow().as_ref().is_some_and(|known| !known.contains_key(statement)) {
            let plan = plan();
            self.0.borrow_mut().get_or_insert_default().insert(statement.to_owned(), plan);
        }
    }

    fn all(&self) -> BTreeMap<String, Vec<String>> {
        self.0.borrow().clone().unwrap_or_default()
    }
}

/// Tables that grow with the work: what nobody may read as a whole.
const GROW: &[&str] = &["entry", "set_aside", "sign_in", "wrong_try"];

/// Rows put into each of them, as the two kinds of database make them out of nothing.
fn filling(rows: &str, digest: &str) -> String {
    format!(
        "INSERT INTO entry (id, job, shaft, device, seq, line)
             SELECT {digest}, 'J-' || n % 100, 'S-' || n % 40, 'd' || n % 7, n, 'a line of an ordinary length' {rows};
         INSERT INTO set_aside (id, job, shaft, device, seq, line, brought_by, at, let_in_at)
             SELECT 'a' || {digest}, 'J-' || n % 100, 'S-1', 'd', n, 'a line', n % 9, n,
                 CASE WHEN n % 50 = 0 THEN NULL ELSE 1 END {rows};
         INSERT INTO wrong_try (who, tries, last, until) SELECT 'name ' || n, 1, n, n {rows};
         INSERT INTO sign_in (at, what, person, address, about) SELECT n, 'refused', NULL, '', '' {rows};
         ANALYZE;"
    )
}

fn line(number: u8, job: &str) -> Line {
    let mut tablet = Tablet::new(number).of_job(job);
    Line::of(&Held::Known(tablet.write("10:41", body("remark", &[("text", "clear")]))))
}

/// Everything that is asked while an office is served. What is answered does not matter here; most rows are no entries.
fn serve<D: Sql>(store: &mut D) {
    let most = Most { lines: 100, bytes: 1 << 20 };
    drop(store.record("J-7"));
    drop(store.after("J-7", 30_000, most));
    store.jobs().expect("read");
    store.counts().expect("read");
    store.count("J-7").expect("read");
    store.last_arrival().expect("read");
    store.arrivals(39_000, 100).expect("read");
    drop(store.heads("J-7"));
    store.add_lines(&[line(1, "J-7"), line(2, "J-8")]).expect("kept");
    let person = store.add_person("d.pike", 1000).expect("added");
    store.has_people().expect("read");
    store.sign_as(person, Some("D. Pike")).expect("kept");
    store.entry("id").expect("read");
    store.jobs_naming("hash").expect("read");
    store.give_role(person, "J-7", Role::Reader).expect("given");
    store.people_on(EVERY_JOB).expect("read");
    store.people_on("J-7").expect("read");
    store.person(person).expect("read");
    store.person_named("d.pike").expect("read");
    store.take_role(person, "J-7", Role::Reader).expect("taken");
    store.invite(person, "code", 2000).expect("invited");
    store.use_invitation("code", "hash", 1000).expect("used");
    store.begin_session(person, "token", Span { from: 1000, until: 2000 }).expect("begun");
    store.session("token", 999, 1500).expect("read");
    store.see_session("token", 1500).expect("seen");
    store.end_session("token").expect("ended");
    devices(store, person);
    store.let_person_go(person, 1500, Left::AManager).expect("gone");
}

fn devices<D: Sql>(store: &mut D, person: i64) {
    store.add_code_of(person, "K7PM3XQF", 1600, 1000).expect("kept");
    let (device, token) = ("d".repeat(64), "token".to_owned());
    let pairing = Pairing { device, name: "Rig 1".to_owned(), token, paired_at: String::new() };
    let device = store.pair("K7PM3XQF", &pairing, 1000).expect("asked").expect("paired").number;
    store.bearer("token").expect("read");
    store.devices().expect("read");
    store.devices_gone().expect("read");
    store.own_key("key", device).expect("kept");
    store.gone_owner("key").expect("read");
    store.aside_under("id").expect("read");
    store.set_aside(&[line(3, "J-7")], device, 1000).expect("aside");
    drop(store.aside("J-7", 30_000, 100));
    store.aside_of_jobs().expect("read");
    let letting =
        LettingIn { job: "J-7", brought_by: device, up_to: i64::MAX, by: "d", reason: "r", now: 1500 };
    store.let_in(&letting).expect("let in");
    store.let_go(device, 1500).expect("gone");
    store.drop_codes().expect("dropped");
    passkeys(store, person);
    store.count_wrong("name 1", (1000, 4600), 9).expect("counted");
    store.tally("name 1", 1000).expect("read");
    store.know("name 1", (1000, 4600)).expect("known");
    store.forget_tries("name 1").expect("forgotten");
    store.set("address", "https://office.example").expect("set");
    store.setting("address").expect("read");
    let happened =
        SignIn { at: 1, what: "in".into(), person: None, address: String::new(), about: String::new() };
    store.note_sign_in(&happened).expect("noted");
    store.sign_ins(30_000, 100).expect("read");
}

fn passkeys<D: Sql>(store: &mut D, person: i64) {
    let [id, handle, name, key] = ["id", "handle", "Phone", "{}"].map(str::to_owned);
    let new = NewPasskey { person, id, handle, name, key, since: 1000 };
    let number = store.add_passkey(&new).expect("added").expect("new");
    store.passkey("id").expect("read");
    store.use_passkey(number, "{}", 1500).expect("used");
    store.passkeys_of(person).expect("read");
    store.remove_passkey(person, number).expect("removed");
    let ceremony =
        Ceremony { token: "t", person: None, address: "192.0.2.7", state: "{}", span: (1000, 1300) };
    store.begin_ceremony(&ceremony).expect("begun");
    store.end_ceremony("t", None, 1100).expect("ended");
}

/// No plan reads a growing table from one end to the other.
#[track_caller]
fn check(plans: &BTreeMap<String, Vec<String>>, whole: impl Fn(&str, &str) -> bool) {
    assert!(plans.len() > 45, "only {} statements were asked", plans.len());
    for (statement, plan) in plans {
        for table in GROW {
            let reads = plan.iter().find(|step| whole(step, table));
            assert_eq!(reads, None, "{statement}\nreads all of {table}:\n{}", plan.join("\n"));
        }
    }
}

fn postgres_reads_all(step: &str, table: &str) -> bool {
    step.contains(&format!("Seq Scan on {table} ")) || step.ends_with(&format!("Seq Scan on {table}"))
}

fn sqlite_reads_all(step: &str, table: &str) -> bool {
    // Also by an index, from one end to the other; the part of an index that holds what waits is not all of the table.
    (step.starts_with(&format!("SCAN {table}")) && !step.contains("set_aside_waiting"))
        || step == "SCAN entry"
}

#[test]
fn no_question_to_postgres_reads_a_whole_table() {
    let server = testkit::postgres::database();
    let address = Address::read(&server.address()).expect("an address");
    let mut store = Postgres::open(address.server().expect("a server")).expect("a store");
    let digest = "encode(sha256(n::text::bytea), 'hex')";
    server.by_hand(&filling("FROM generate_series(1, 40000) AS n", digest)).expect("filled");
    store.plans.look();
    serve(&mut store);
    check(&store.plans.all(), postgres_reads_all);
}

#[test]
fn no_question_to_sqlite_reads_a_whole_table() {
    let mut store = Sqlite::in_memory();
    crate::migrate::migrate(&store).expect("migrated");
    let rows = "FROM (WITH RECURSIVE c (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM c WHERE n < 40000) SELECT n FROM c)";
    store.script(&filling(rows, "printf('%064d', n)")).expect("filled");
    store.plans.look();
    serve(&mut store);
    check(&store.plans.all(), sqlite_reads_all);
}

/// The test above would notice: here are two questions that do read everything.
#[test]
fn a_question_that_reads_everything_is_noticed() {
    let plan = |step: &str| BTreeMap::from([("q".to_owned(), vec![step.to_owned()])]);
    let noticed = |step: &str, whole: fn(&str, &str) -> bool| {
        plan(step).values().flatten().any(|step| GROW.iter().any(|table| whole(step, table)))
    };
    assert!(noticed(
        "  ->  Parallel Seq Scan on entry  (cost=0.00..1.00 rows=1 width=1)",
        postgres_reads_all
    ));
    assert!(!noticed("Index Scan using entry_pkey on entry  (cost=0.29..8.31)", postgres_reads_all));
    assert!(noticed("SCAN entry USING COVERING INDEX entry_by_job", sqlite_reads_all));
    assert!(!noticed("SEARCH entry USING INDEX entry_by_arrival (job=?)", sqlite_reads_all));
}
