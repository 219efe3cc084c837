//! What the SQLite file itself must withstand: two programs, a hand in the database, a foreign file, damage.

use record::Held;
use rusqlite::Connection;
use std::path::{Path, PathBuf};
use store::{
    EVERY_JOB, Known, Office, Pairing, People, Proved, SetAside, SignIns, Sqlite, Store, StoreError,
};
use tempfile::TempDir;
use testkit::{JOB, Tablet, body};

fn entry(number: u8) -> Held {
    Held::Known(Tablet::new(number).about(Some("S-1")).write("10:41", body("remark", &[("text", "clear")])))
}

fn filled() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("record.sqlite");
    Sqlite::open(&path).expect("a store").add(&[entry(1), entry(2)]).expect("added");
    (folder, path)
}

/// A hand that goes around the program is stopped by the database itself.
#[track_caller]
fn refused(statement: &str, expected: &str) {
    let (_folder, path) = filled();
    let connection = Connection::open(&path).expect("opened");
    let error = connection.execute_batch(statement).expect_err("refused");
    assert!(error.to_string().contains(expected), "{error}");
    assert_eq!(Sqlite::open(&path).expect("a store").record(JOB).expect("read").len(), 2);
}

#[test]
fn rows_are_never_altered_or_erased() {
    refused("UPDATE entry SET line = ''", "an entry is never altered");
    refused("DELETE FROM entry", "an entry is never erased");
    refused("INSERT OR REPLACE INTO entry SELECT * FROM entry", "never");
}

#[test]
fn two_programs_add_to_one_file() {
    let (_folder, path) = filled();
    let (mut one, mut other) = (Sqlite::open(&path).expect("a store"), Sqlite::open(&path).expect("a store"));
    one.add(&[entry(3)]).expect("added");
    other.add(&[entry(4)]).expect("added");
    assert_eq!(one.record(JOB).expect("read"), other.record(JOB).expect("read"));
    assert_eq!(one.record(JOB).expect("read").len(), 4);
}

#[test]
fn a_database_another_program_holds_is_waited_for_and_then_named() {
    let (_folder, path) = filled();
    let mut store = Sqlite::open(&path).expect("a store");
    let holder = Connection::open(&path).expect("opened");
    holder.execute_batch("BEGIN IMMEDIATE").expect("held");
    assert!(matches!(store.add(&[entry(3)]), Err(StoreError::Busy)));
    holder.execute_batch("ROLLBACK").expect("let go");
    store.add(&[entry(3)]).expect("added");
}

#[test]
fn a_line_altered_behind_the_back_of_the_program_is_found() {
    for change in ["line = replace(line, 'clear', 'cloud')", "id = replace(id, substr(id, 1, 8), '00000000')"]
    {
        let (_folder, path) = filled();
        let hand = Connection::open(&path).expect("opened");
        let by_hand =
            format!("DROP TRIGGER entry_is_never_altered; UPDATE entry SET {change} WHERE arrival = 2");
        hand.execute_batch(&by_hand).expect("altered");
        let read = Sqlite::open(&path).expect("a store").record(JOB);
        assert!(matches!(read, Err(StoreError::Altered { arrival: 2, .. })), "{change}: {read:?}");
    }
}

/// Opens a file that is no store of ours; it must be named, and be the same afterwards.
#[track_caller]
fn check(path: &Path, expected: &str) {
    let before = std::fs::read(path).expect("readable");
    let error = Sqlite::open(path).map(|_| ()).expect_err("refused");
    assert!(error.to_string().contains(expected), "{error}");
    assert_eq!(std::fs::read(path).expect("readable"), before);
}

#[test]
fn files_that_are_none_of_ours_are_named_and_left_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = folder.path().join("text.sqlite");
    std::fs::write(&text, "This is a letter, and it is long enough to be mistaken for a page. ".repeat(40))
        .expect("written");
    check(&text, "the database is damaged");
    let songs = folder.path().join("songs.sqlite");
    Connection::open(&songs).expect("made").execute_batch("CREATE TABLE song (title TEXT)").expect("made");
    check(&songs, "this is a database of some other program");
}

/// One byte in forty places: either nothing that was kept has changed, or it is said that something has.
#[test]
fn a_flipped_byte_changes_nothing_or_is_told() {
    let (_folder, path) = filled();
    let whole = std::fs::read(&path).expect("readable");
    let kept = wire::write_lines(&Sqlite::open(&path).expect("a store").record(JOB).expect("read"));
    let mut told = 0;
    for step in 0..40 {
        let mut bytes = whole.clone();
        let place = step * whole.len() / 40 + step;
        bytes[place] ^= 0x5a;
        let folder = tempfile::tempdir().expect("a folder");
        let damaged = folder.path().join("record.sqlite");
        std::fs::write(&damaged, &bytes).expect("written");
        match looked_at(&damaged) {
            Ok(lines) => assert_eq!(lines, kept, "byte {place} changed the record in silence"),
            Err(_) => told += 1,
        }
    }
    assert!(told > 0, "no byte mattered");
}

fn looked_at(path: &Path) -> Result<String, StoreError> {
    let store = Sqlite::open_to_read(path)?;
    if let Some(complaint) = store.complaint()? {
        return Err(StoreError::Damaged(complaint));
    }
    Ok(wire::write_lines(&store.record(JOB)?))
}

#[test]
fn a_folder_nobody_may_write_to_can_be_read() {
    let (folder, path) = filled();
    let mut store = Sqlite::open_untouched(&path).expect("a store");
    assert_eq!(store.record(JOB).expect("read").len(), 2);
    let names: Vec<_> = std::fs::read_dir(folder.path()).expect("readable").flatten().collect();
    assert_eq!(names.len(), 1, "nothing was made beside the file");
    assert!(matches!(store.add(&[entry(3)]), Err(StoreError::ReadOnly)));
}

/// A database as version 3 of the schema kept it: nothing of it is lost on the way to the newest, and what is counted in
/// the newest is what is in it. Never edit.
#[test]
fn a_database_of_version_3_reads() {
    let golden = Path::new(env!("CARGO_MANIFEST_DIR")).join("golden");
    let folder = tempfile::tempdir().expect("a folder");
    let copy = folder.path().join("record.sqlite");
    std::fs::copy(golden.join("v3.sqlite"), &copy).expect("copied");
    let untouched = Sqlite::open_untouched(&copy).expect("a store");
    let proved = untouched.check().expect("whole before it is brought to the newest version");
    let jobs = untouched.jobs().expect("read");
    let mut store = Sqlite::open(&copy).expect("a store");
    assert_eq!(store.check().expect("whole afterwards"), proved);
    let [job] = jobs.as_slice() else { panic!("{jobs:?}") };
    let lines = std::fs::read_to_string(golden.join("v1.jsonl")).expect("readable");
    assert_eq!(wire::write_lines(&store.record(job).expect("read")), lines);
    let counted = store.count(job).expect("read").expect("counted");
    assert_eq!((counted.entries as usize, proved.entries), (lines.lines().count(), lines.lines().count()));
    let names = |known: Vec<Known>| known.into_iter().map(|known| known.person.name).collect::<Vec<_>>();
    assert_eq!(names(store.people_on(EVERY_JOB).expect("read")), ["a.hall", "d.pike"]);
    assert_eq!(store.person(1).expect("read").expect("somebody").person.signs_as, None);
    assert_eq!(store.bearer("token 2").expect("read").expect("known").gone, Some(1200));
    assert_eq!(store.gone_owner("key").expect("read"), Some(2));
    assert!(store.session("session", 999, 1500).expect("read").is_some());
    assert_eq!(store.setting("address").expect("read").as_deref(), Some("https://office.example"));
    assert_eq!(store.sign_ins(i64::MAX, 9).expect("read").len(), 1);
    assert_eq!(paired_next(&mut store), 8, "a number is never given twice");
}

fn paired_next(store: &mut Sqlite) -> i64 {
    store.add_code("K7PM3XQF", 1600, 1000).expect("kept");
    let pairing = Pairing {
        device: testkit::key(3).device().to_string(),
        name: "Rig 3".to_owned(),
        token: "token 3".to_owned(),
        paired_at: "2031-04-08T10:41:00+00:00".to_owned(),
    };
    store.pair("K7PM3XQF", &pairing, 1000).expect("asked").expect("paired").number
}

/// A database as version 4 of the schema kept it: two people who were invited, and a photo that a line names. Never edit.
#[test]
fn a_database_of_version_4_reads() {
    let golden = Path::new(env!("CARGO_MANIFEST_DIR")).join("golden");
    let folder = tempfile::tempdir().expect("a folder");
    let copy = folder.path().join("record.sqlite");
    std::fs::copy(golden.join("v4.sqlite"), &copy).expect("copied");
    let untouched = Sqlite::open_untouched(&copy).expect("a store");
    let proved = untouched.check().expect("whole before it is brought to the newest version");
    let store = Sqlite::open(&copy).expect("a store");
    assert_eq!(store.check().expect("whole afterwards"), proved);
    assert_eq!((proved.entries, proved.jobs), (5, 1));
    assert_eq!(store.jobs_naming(&"0f".repeat(32)).expect("read"), ["test-job"]);
    let people = store.people_on(EVERY_JOB).expect("read");
    let told = people.iter().map(|known| (known.person.known_as(), known.person.chose)).collect::<Vec<_>>();
    assert_eq!(told, [("a.hall".to_owned(), false), ("d.pike".to_owned(), false)]);
    assert_eq!(store.sign_ins(i64::MAX, 9).expect("read").len(), 2);
}

/// A database as version 1 of the schema kept it. Never edit: if this stops reading, a site record is lost.
#[test]
fn a_database_of_version_1_reads() {
    let golden = Path::new(env!("CARGO_MANIFEST_DIR")).join("golden");
    let folder = tempfile::tempdir().expect("a folder");
    let copy = folder.path().join("record.sqlite");
    std::fs::copy(golden.join("v1.sqlite"), &copy).expect("copied");
    let store = Sqlite::open(&copy).expect("a store");
    let jobs = store.jobs().expect("read");
    let [job] = jobs.as_slice() else { panic!("{jobs:?}") };
    let lines = std::fs::read_to_string(golden.join("v1.jsonl")).expect("readable");
    assert_eq!(wire::write_lines(&store.record(job).expect("read")), lines);
    assert!(lines.lines().count() > 3);
}
