//! What a database on a server must withstand: many writers at once, a hand in it, a foreign database, careless settings, a
//! server that is started anew, a dump that is played back.

mod kinds;

use kinds::Kept;
use record::Held;
use std::collections::BTreeSet;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;
use store::{Address, Database, Line, Office, Proved, Store, StoreError, Told};
use testkit::{JOB, Tablet, body};

fn lines(number: u8, count: usize) -> Vec<Line> {
    let mut tablet = Tablet::new(number);
    let write = |at| tablet.write("10:41", body("remark", &[("text", &format!("remark {at}"))]));
    (0..count).map(write).map(|entry| Line::of(&Held::Known(entry))).collect()
}

const WRITERS: u8 = 6;
const EACH: usize = 60;

/// Reads on by its cursor until told to stop, and once more: the arrivals it saw.
fn follow(address: &Address, stop: &AtomicBool) -> Vec<i64> {
    let store = Database::open_existing(address).expect("a reader");
    let (mut seen, mut cursor) = (Vec::new(), 0);
    loop {
        let last = stop.load(Ordering::Relaxed);
        for arrival in store.arrivals(cursor, 10_000).expect("read") {
            cursor = arrival.arrival;
            seen.push(cursor);
        }
        if last {
            return seen;
        }
    }
}

/// The reason for the lock of the writer: without it a commit with a smaller number could be seen after one with a greater,
/// and whoever had read up to the greater would never fetch it.
#[test]
fn a_cursor_never_passes_over_an_entry_that_is_committed_later() {
    let kept = Kept::postgres();
    let (address, stop) = (&kept.address, AtomicBool::new(false));
    let followed: Vec<Vec<i64>> = std::thread::scope(|scope| {
        let followers: Vec<_> = (0..2).map(|_| scope.spawn(|| follow(address, &stop))).collect();
        let write = |number: u8| {
            let mut store = Database::open(address).expect("opens beside the others");
            for piece in lines(number, EACH).chunks(1 + usize::from(number) % 3) {
                store.add_lines(piece).expect("kept");
            }
        };
        let writers: Vec<_> = (1..=WRITERS).map(|number| scope.spawn(move || write(number))).collect();
        writers.into_iter().for_each(|writer| writer.join().expect("it wrote"));
        stop.store(true, Ordering::Relaxed);
        followers.into_iter().map(|follower| follower.join().expect("it followed")).collect()
    });
    let all: Vec<i64> = kept.arrivals(0, 100_000).expect("read").iter().map(|new| new.arrival).collect();
    assert_eq!(all.len(), usize::from(WRITERS) * EACH);
    for seen in followed {
        assert_eq!(seen, all, "a follower missed some");
    }
    assert_eq!(kept.check().expect("whole").entries, all.len());
}

/// Without the lock the same story goes wrong, so the test above can fail: a number is given out, a later one is committed
/// first, and a reader passes over the earlier.
#[test]
fn without_the_lock_a_cursor_does_pass_over_one() {
    let kept = Kept::postgres();
    let server = kept.server.as_ref().expect("a server");
    let put = |line: &Line| {
        let (id, job, text) = (line.id(), line.job(), line.text().replace('\'', "''"));
        format!("INSERT INTO entry (id, job, device, seq, line) VALUES ('{id}', '{job}', 'd', 1, '{text}')")
    };
    let two = lines(1, 2);
    let slow = format!("BEGIN; {}; SELECT pg_sleep(2); COMMIT", put(&two[0]));
    std::thread::scope(|scope| {
        let first = scope.spawn(|| server.by_hand(&slow).expect("by hand"));
        std::thread::sleep(Duration::from_millis(800));
        server.by_hand(&put(&two[1])).expect("by hand");
        let seen: Vec<i64> = kept.arrivals(0, 9).expect("read").iter().map(|new| new.arrival).collect();
        assert_eq!(seen, [2]);
        first.join().expect("it wrote");
        let later: Vec<i64> = kept.arrivals(2, 9).expect("read").iter().map(|new| new.arrival).collect();
        assert_eq!(later, Vec::<i64>::new(), "arrival 1 is there and is never fetched");
    });
}

#[test]
fn rows_are_never_altered_or_erased_by_hand() {
    let mut kept = Kept::postgres();
    kept.add_lines(&lines(1, 2)).expect("added");
    for (statement, expected) in [
        ("UPDATE entry SET line = ''", "an entry is never altered"),
        ("DELETE FROM entry", "an entry is never erased"),
        ("TRUNCATE entry", "an entry is never erased"),
    ] {
        let refused = kept.by_hand(statement).expect_err("refused");
        assert!(refused.contains(expected), "{refused}");
    }
    assert_eq!(kept.record(JOB).expect("read").len(), 2);
}

#[test]
fn a_line_altered_behind_the_back_of_the_program_is_found() {
    let mut kept = Kept::postgres();
    kept.add_lines(&lines(1, 2)).expect("added");
    let by_hand = "ALTER TABLE entry DISABLE TRIGGER ALL;
        UPDATE entry SET line = replace(line, 'remark 1', 'remark 7') WHERE arrival = 2";
    kept.by_hand(by_hand).expect("altered");
    let told = kept.check();
    assert!(matches!(told, Err(StoreError::Altered { arrival: 2, .. })), "{told:?}");
    let told = kept.record(JOB);
    assert!(matches!(told, Err(StoreError::Altered { arrival: 2, .. })), "{told:?}");
}

/// An entry that vanished with its index is still counted.
#[test]
fn an_entry_taken_away_behind_the_back_of_the_program_is_noticed() {
    let mut kept = Kept::postgres();
    kept.add_lines(&lines(1, 2)).expect("added");
    kept.by_hand("ALTER TABLE entry DISABLE TRIGGER ALL; DELETE FROM entry WHERE arrival = 2").expect("gone");
    let told = kept.check();
    assert!(matches!(told, Err(StoreError::Damaged(_))), "{told:?}");
}

fn empty() -> (testkit::postgres::Database, Address) {
    let server = testkit::postgres::database();
    let address = Address::read(&server.address()).expect("an address");
    (server, address)
}

#[test]
fn a_database_of_another_program_or_a_newer_one_is_refused_and_left_alone() {
    let (server, address) = empty();
    server.by_hand("CREATE TABLE song (title TEXT)").expect("a table");
    let refused = Database::open(&address).map(|_| ());
    assert!(matches!(refused, Err(StoreError::Foreign)), "{refused:?}");
    let tables = "SELECT string_agg(relname, ',') FROM pg_class WHERE relkind = 'r' AND relnamespace = 2200";
    assert_eq!(server.by_hand(tables).expect("asked").trim(), "song");
    let newer = Kept::postgres();
    newer.by_hand("UPDATE shaftbook SET version = 99").expect("set");
    let refused = Database::open(&newer.address).map(|_| ());
    assert!(matches!(refused, Err(StoreError::Version { found: 99, .. })), "{refused:?}");
}

#[test]
fn a_server_that_is_not_there_is_named() {
    let address = Address::read("postgres://a@127.0.0.1:1/office").expect("an address");
    let refused = Database::open(&address).map(|_| ());
    assert!(matches!(refused, Err(StoreError::Unreachable(_))), "{refused:?}");
    let (server, _) = empty();
    let nowhere = server.address().replace(server.name(), "nowhere");
    let refused = Database::open(&Address::read(&nowhere).expect("an address")).map(|_| ());
    assert!(
        matches!(&refused, Err(StoreError::Unreachable(said)) if said.contains("nowhere")),
        "{refused:?}"
    );
}

/// Somebody switched off the waiting for each commit for this database: this program waits all the same.
#[test]
fn a_commit_waits_for_the_disk_whatever_the_database_is_set_to() {
    let (server, address) = empty();
    let set = format!("ALTER DATABASE {} SET synchronous_commit = off", server.name());
    server.by_hand(&set).expect("set");
    assert_eq!(server.by_hand("SHOW synchronous_commit").expect("asked").trim(), "off");
    let mut store = Database::open(&address).expect("a store");
    store.add_lines(&lines(1, 1)).expect("kept");
    let waits = "CREATE TABLE seen AS SELECT current_setting('synchronous_commit') AS how WHERE false;
        CREATE FUNCTION see() RETURNS trigger LANGUAGE plpgsql AS
            'BEGIN INSERT INTO seen VALUES (current_setting(''synchronous_commit'')); RETURN NEW; END';
        CREATE TRIGGER see AFTER INSERT ON entry FOR EACH ROW EXECUTE FUNCTION see()";
    server.by_hand(waits).expect("set");
    store.add_lines(&lines(1, 2)).expect("kept");
    assert_eq!(server.by_hand("SELECT how FROM seen").expect("asked").trim(), "on");
}

/// Connections that ended, as when the server was started anew, are begun again.
#[test]
fn a_server_started_anew_is_found_again() {
    let kept = Kept::postgres();
    let reader = Database::open_existing(&kept.address).expect("a reader");
    let mut kept = kept;
    kept.add_lines(&lines(1, 1)).expect("kept");
    assert_eq!(reader.jobs().expect("read"), [JOB]);
    let end = "SELECT pg_terminate_backend(pid) FROM pg_stat_activity
        WHERE datname = current_database() AND pid <> pg_backend_pid()";
    kept.by_hand(end).expect("ended");
    assert_eq!(reader.jobs().expect("read again"), [JOB]);
    kept.add_lines(&lines(1, 2)).expect("kept");
    kept.by_hand(end).expect("ended");
    kept.add_code("K7PM3XQF", 1600, 1000).expect("kept");
    assert_eq!(kept.record(JOB).expect("read").len(), 2);
}

/// Another program fell silent in the middle of writing: it is waited for, then named, and the server ends it.
#[test]
fn a_writer_that_fell_silent_does_not_keep_the_others_out_for_ever() {
    let mut kept = Kept::postgres();
    let server = kept.server.as_ref().expect("a server");
    let slow = "BEGIN; SELECT pg_advisory_xact_lock(x'53484654'::int); SELECT pg_sleep(7); COMMIT";
    let (refused, then) = std::thread::scope(|scope| {
        let silent = scope.spawn(|| server.by_hand(slow).expect("by hand"));
        std::thread::sleep(Duration::from_millis(500));
        let mut store = Database::open(&kept.address).expect("a store");
        let refused = store.add_lines(&lines(1, 1));
        silent.join().expect("it ended");
        (refused, store.add_lines(&lines(1, 1)))
    });
    assert!(matches!(refused, Err(StoreError::Busy)), "{refused:?}");
    assert!(then.is_ok(), "{then:?}");
    kept.add_lines(&lines(2, 1)).expect("kept");
}

#[test]
fn what_one_program_writes_another_hears_of() {
    let mut kept = Kept::postgres();
    let mut listener = kept.address.listener().expect("a server").expect("it listens");
    assert_eq!(listener.wait(Duration::from_millis(50)).expect("silence"), None);
    kept.add_lines(&lines(1, 2)).expect("kept");
    assert_eq!(listener.wait(Duration::from_secs(10)).expect("a word"), Some(Told::Arrived));
    kept.let_go(1, 1000).expect("nobody");
    assert_eq!(listener.wait(Duration::from_secs(10)).expect("a word"), Some(Told::Rights));
    kept.add_lines(&lines(1, 2)).expect("known");
    assert_eq!(listener.wait(Duration::from_millis(50)).expect("silence"), None, "nothing was new");
}

/// The way docs/operate.md keeps a server's database with the server's own programs.
#[test]
fn a_dump_played_back_goes_on_and_gives_no_arrival_twice() {
    let mut kept = Kept::postgres();
    kept.add_lines(&lines(1, 3)).expect("kept");
    let (server, again) = (kept.server.as_ref().expect("a server"), testkit::postgres::database());
    let dump = std::env::temp_dir().join(format!("{}-{}.dump", server.name(), std::process::id()));
    let named = dump.to_str().expect("a name").to_owned();
    server.cluster().run("pg_dump", &["--format=custom", "--file", &named, server.name()]).expect("dumped");
    kept.add_lines(&lines(2, 2)).expect("lost with the disk");
    let lost = kept.last_arrival().expect("read");
    again
        .cluster()
        .run("pg_restore", &["--exit-on-error", "--dbname", again.name(), &named])
        .expect("restored");
    std::fs::remove_file(dump).expect("taken away");
    again.by_hand("SELECT shaftbook_restored()").expect("told");
    let mut restored = Database::open(&Address::read(&again.address()).expect("an address")).expect("opens");
    assert_eq!(restored.check().expect("whole").entries, 3);
    restored.add_lines(&lines(3, 1)).expect("kept");
    assert!(restored.last_arrival().expect("read") > lost);
    let ids: BTreeSet<_> = restored.arrivals(0, 99).expect("read").iter().map(|new| new.id).collect();
    assert_eq!(ids.len(), 4);
}

/// A line the database cannot take, a name longer than its indexes hold, is refused, and what stands beside it is kept
/// when it comes alone.
#[test]
fn a_name_too_long_for_the_database_harms_nothing_else() {
    let mut kept = Kept::postgres();
    // Noise, so that it cannot be packed.
    let noise: String = (0..200_u8).map(|at| record::EntryId(wire::sha256(&[at])).to_string()).collect();
    let mut tablet = Tablet::new(1).of_job(&noise);
    let long = Line::of(&Held::Known(tablet.write("10:41", body("remark", &[("text", "clear")]))));
    let refused = kept.add_lines(&[lines(2, 1).remove(0), long]);
    assert!(matches!(refused, Err(StoreError::Database(_))), "{refused:?}");
    assert_eq!(kept.last_arrival().expect("read"), 0);
    kept.add_lines(&lines(2, 1)).expect("kept");
    assert_eq!(kept.check().expect("whole").entries, 1);
}

/// Brought back to what version 4 was, and opened by this program: which job names which photo is found out from the lines.
#[test]
fn a_database_of_version_4_is_brought_to_the_newest() {
    let mut kept = Kept::postgres();
    let hash = "0f".repeat(32);
    let photo = body("photo", &[("file", &hash), ("caption", "the ticket")]);
    kept.add(&[Held::Known(Tablet::new(1).write("10:41", photo))]).expect("added");
    kept.by_hand(
        "DROP TABLE wrong_try; DROP TABLE passkey, ceremony; DROP TABLE named_file; ALTER TABLE person DROP COLUMN signs_as; UPDATE shaftbook SET version = 4",
    )
    .expect("brought back");
    let again = kept.again();
    assert!(again.is_newest().expect("asked"));
    assert_eq!(again.jobs_naming(&hash).expect("asked"), [JOB]);
    assert_eq!(again.check().expect("whole").entries, 1);
}
