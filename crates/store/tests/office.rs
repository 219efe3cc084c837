//! What an office keeps beside the entries: devices, codes, settings, photos, backups.

mod kinds;

use kinds::each_kind;
use record::Held;
use record::entry::FileHash;
use std::path::Path;
use store::{Checked, Office, Pairing, Photos, Proved, Sqlite, Store, StoreError, restore};
use tempfile::TempDir;
use testkit::{JOB, Tablet, body};

fn entries(tablet: u8, count: u8) -> Vec<Held> {
    let mut tablet = Tablet::new(tablet);
    let write =
        |number| tablet.write(&format!("10:{:02}", 10 + number), body("remark", &[("text", "clear")]));
    (0..count).map(write).map(Held::Known).collect()
}

fn opened() -> (TempDir, Sqlite) {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Sqlite::open(&folder.path().join("record.sqlite")).expect("a store");
    (folder, store)
}

fn rig(number: u8, token: &str) -> Pairing {
    Pairing {
        device: testkit::key(number).device().to_string(),
        name: format!("Rig {number}"),
        token: token.to_owned(),
        paired_at: "2031-04-08T10:41:00+00:00".to_owned(),
    }
}

#[test]
fn a_code_pairs_one_device_before_its_time_is_over() {
    each_kind(|mut store| {
        store.add_code("K7PM3XQF", 1600, 1000).expect("kept");
        assert_eq!(store.pair("ACDEFGHJ", &rig(1, "one"), 1000).expect("asked"), None);
        assert_eq!(store.pair("K7PM3XQF", &rig(1, "one"), 1600).expect("asked"), None);
        let device = store.pair("K7PM3XQF", &rig(1, "one"), 1599).expect("asked").expect("paired");
        assert_eq!((device.number, device.name.as_str()), (1, "Rig 1"));
        assert_eq!(store.pair("K7PM3XQF", &rig(2, "two"), 1000).expect("asked"), None);
        assert_eq!(store.device("one").expect("asked"), Some(device));
        assert_eq!(store.device("two").expect("asked"), None);
    });
}

#[test]
fn a_device_let_go_is_unknown_and_its_number_is_not_given_again() {
    each_kind(|mut store| {
        let mut pair = |number: u8, token: &str| {
            store.add_code("K7PM3XQF", 1600, 1000).expect("kept");
            store.pair("K7PM3XQF", &rig(number, token), 1000).expect("asked").expect("paired").number
        };
        assert_eq!([pair(1, "one"), pair(2, "two"), pair(1, "again")], [1, 2, 1]);
        assert_eq!(
            [store.let_go(2, 2000).expect("done"), store.let_go(2, 2001).expect("done")],
            [true, false]
        );
        for (token, known) in [("one", false), ("two", false), ("again", true)] {
            assert_eq!(store.device(token).expect("asked").is_some(), known, "{token}");
        }
        store.add_code("K7PM3XQF", 1600, 1000).expect("kept");
        let next = store.pair("K7PM3XQF", &rig(3, "three"), 1000).expect("asked").expect("paired");
        assert!(next.number > 2, "{next:?}");
    });
}

#[test]
fn codes_can_be_taken_away() {
    each_kind(|mut store| {
        store.add_code("K7PM3XQF", 1600, 1000).expect("kept");
        store.drop_codes().expect("dropped");
        assert_eq!(store.pair("K7PM3XQF", &rig(1, "one"), 1000).expect("asked"), None);
    });
}

#[test]
fn a_setting_is_what_was_set_last() {
    each_kind(|mut store| {
        assert_eq!(store.setting("address").expect("asked"), None);
        store.set("address", "https://office.example").expect("set");
        store.set("address", "https://desk.example").expect("set");
        assert_eq!(store.setting("address").expect("asked").as_deref(), Some("https://desk.example"));
    });
}

#[test]
fn a_copy_holds_what_was_there_and_nothing_is_written_over() {
    each_kind(|mut store| {
        let folder = tempfile::tempdir().expect("a folder");
        store.add(&entries(1, 3)).expect("added");
        let copy = folder.path().join("copies").join("monday.sqlite");
        assert_eq!(store.backup(&copy).expect("copied"), Checked { jobs: 1, entries: 3, photos: 0 });
        store.add(&entries(2, 2)).expect("added");
        let again = store.backup(&copy);
        assert!(matches!(&again, Err(StoreError::InTheWay(path)) if *path == copy), "{again:?}");
        assert_eq!(Sqlite::open_untouched(&copy).expect("opened").record(JOB).expect("read").len(), 3);
        let over = restore(&copy, &copy);
        assert!(matches!(over, Err(StoreError::InTheWay(_))), "{over:?}");
        assert_eq!(store.record(JOB).expect("read").len(), 5);
    });
}

#[test]
fn a_restored_office_goes_on_and_gives_no_arrival_twice() {
    each_kind(|mut store| {
        let folder = tempfile::tempdir().expect("a folder");
        store.add(&entries(1, 3)).expect("added");
        let (copy, restored) =
            (folder.path().join("copy.sqlite"), folder.path().join("new").join("record.sqlite"));
        store.backup(&copy).expect("copied");
        store.add(&entries(2, 2)).expect("added");
        let lost = store.counts().expect("read")[0].cursor;
        restore(&copy, &restored).expect("restored");
        let mut restored = Sqlite::open(&restored).expect("opened");
        assert_eq!(restored.record(JOB).expect("read").len(), 3);
        restored.add(&entries(3, 1)).expect("added");
        assert!(restored.counts().expect("read")[0].cursor > lost);
    });
}

/// Bytes of a backup turned over in many places: what is restored from it is whole, or nothing is.
#[test]
fn a_damaged_backup_is_not_restored() {
    let (folder, mut store) = opened();
    for device in 1..=3 {
        store.add(&entries(device, 45)).expect("added");
    }
    let copy = folder.path().join("copy.sqlite");
    store.backup(&copy).expect("copied");
    let (whole, kept) = (std::fs::read(&copy).expect("readable"), store.record(JOB).expect("read"));
    let mut refused = 0;
    for step in 0..30 {
        let mut bytes = whole.clone();
        bytes[step * whole.len() / 30..].iter_mut().take(40).for_each(|byte| *byte ^= 0x5a);
        let damaged = folder.path().join(format!("damaged-{step}.sqlite"));
        std::fs::write(&damaged, bytes).expect("written");
        let to = folder.path().join(format!("restored-{step}.sqlite"));
        match restore(&damaged, &to) {
            Ok(_) => {
                assert_eq!(Sqlite::open(&to).expect("opened").record(JOB).expect("read"), kept, "{step}")
            }
            Err(_) => {
                refused += 1;
                assert!(!to.exists(), "{step}");
            }
        }
    }
    assert!(refused > 10, "{refused}");
}

#[test]
fn a_check_counts_what_it_proved_and_names_what_was_altered() {
    each_kind(|mut store| {
        store.add(&entries(1, 3)).expect("added");
        assert_eq!(store.check().expect("whole"), Checked { jobs: 1, entries: 3, photos: 0 });
        let held = &entries(2, 1)[0];
        let planted = store::Line::proved(held, wire::write(held).replace("clear", "cloud"));
        store.add_lines(&[planted]).expect("planted");
        let told = store.check();
        assert!(matches!(told, Err(StoreError::Altered { arrival: 4, .. })), "{told:?}");
    });
}

#[test]
fn a_database_that_is_gone_is_not_made_anew() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("record.sqlite");
    let opened = Sqlite::open_existing(&path).map(|_| ());
    assert!(matches!(opened, Err(StoreError::Damaged(_))), "{opened:?}");
    assert!(!path.exists());
}

#[test]
fn a_database_moved_away_takes_nothing_more() {
    let (folder, mut store) = opened();
    store.add_lines(&[]).expect("added");
    std::fs::rename(folder.path().join("record.sqlite"), folder.path().join("away.sqlite")).expect("moved");
    let held = &entries(1, 1)[0];
    let added = store.add_lines(&[store::Line::of(held)]);
    assert!(matches!(added, Err(StoreError::Damaged(_))), "{added:?}");
    let added = store.add(std::slice::from_ref(held));
    assert!(matches!(added, Err(StoreError::Damaged(_))), "{added:?}");
}

fn photos(folder: &Path) -> Photos {
    Photos::open(&folder.join("photos")).expect("a folder of photos")
}

fn put(photos: &Photos, bytes: &[u8]) -> FileHash {
    let hash = FileHash(wire::sha256(bytes));
    std::fs::write(photos.part(7), bytes).expect("written");
    photos.keep(&photos.part(7), &hash).expect("kept");
    hash
}

#[test]
fn photos_are_found_by_their_hash_and_copied_once() {
    let (here, there) = (tempfile::tempdir().expect("a folder"), tempfile::tempdir().expect("a folder"));
    let (here, there) = (photos(here.path()), photos(there.path()));
    let (one, other) = (put(&here, b"rebar"), put(&here, b"cuttings"));
    assert_eq!(here.read(&one).expect("read").as_deref(), Some(&b"rebar"[..]));
    assert_eq!(there.read(&one).expect("read"), None);
    assert_eq!(here.check().expect("whole"), 2);
    assert_eq!([here.copy_to(&there).expect("copied"), here.copy_to(&there).expect("copied")], [2, 0]);
    assert_eq!(there.missing(&[one, other, FileHash([0; 32])]), [FileHash([0; 32])]);
}

#[test]
fn an_altered_photo_is_named_and_not_copied() {
    let folder = tempfile::tempdir().expect("a folder");
    let (here, there) = (photos(folder.path()), photos(&folder.path().join("there")));
    let hash = put(&here, b"rebar");
    std::fs::write(here.path(&hash), b"paint").expect("written");
    let name = hash.to_string();
    let told = [here.read(&hash).map(|_| ()), here.check().map(|_| ()), here.copy_to(&there).map(|_| ())];
    for told in told {
        assert!(matches!(&told, Err(StoreError::PhotoAltered(altered)) if *altered == name), "{told:?}");
    }
    assert!(!there.holds(&hash));
}

#[test]
fn what_never_came_in_whole_is_cleared() {
    let folder = tempfile::tempdir().expect("a folder");
    let here = photos(folder.path());
    let hash = put(&here, b"rebar");
    std::fs::write(here.part(8), b"half").expect("written");
    let again = photos(folder.path());
    assert!(!again.part(8).exists() && again.holds(&hash));
}
