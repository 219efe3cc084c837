//! A database and its photos, damaged in the ways disks and people damage them: `inspect` names each.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, notes, remark};
use std::path::Path;

/// A folder with a record of forty remarks, and what `inspect` says of it.
fn whole() -> (Desk, Vec<u8>, String) {
    let desk = Desk::new();
    let lines: String = (0..40).map(|number| remark("10:40", &format!("remark {number}"))).collect();
    desk.write("day.toml", &notes(&lines));
    desk.says("enter day.toml --job j").ends(0);
    let bytes = std::fs::read(desk.path("j/record.sqlite")).expect("the database");
    let told = desk.says("inspect j --json").ends(0).out;
    (desk, bytes, told)
}

/// The folder `d` with this as its database.
#[track_caller]
fn put(desk: &Desk, bytes: &[u8]) {
    std::fs::remove_dir_all(desk.path("d")).ok();
    std::fs::create_dir(desk.path("d")).expect("made");
    std::fs::write(desk.path("d/record.sqlite"), bytes).expect("written");
}

/// `inspect` ends as a damaged record does, names the file in three sentences, and writes nothing.
#[track_caller]
fn named(desk: &Desk, what: &str) -> String {
    let before = std::fs::read(desk.path("d/record.sqlite")).expect("the database");
    let did = desk.says("inspect d");
    assert_eq!((did.exit, did.out.as_str()), (4, ""), "{what}: {}", did.err);
    assert!(did.err.contains("record.sqlite"), "{what}: {}", did.err);
    assert_eq!(did.err.lines().count(), 3, "{what}: {}", did.err);
    assert_eq!(std::fs::read(desk.path("d/record.sqlite")).expect("the database"), before, "{what}");
    did.err
}

#[test]
fn a_database_that_ends_too_soon() {
    let (desk, bytes, _) = whole();
    for share in [0, 1, 2, 5, 9] {
        put(&desk, &bytes[..bytes.len() * share / 10]);
        named(&desk, &format!("{share} tenths of it"));
    }
    for length in [100, 4096, bytes.len() - 4096] {
        put(&desk, &bytes[..length]);
        named(&desk, &format!("{length} bytes of it"));
    }
}

/// Sixty bytes flipped one after the other: each is named, or nothing that was asked for changed.
#[test]
fn a_flipped_byte_in_any_page() {
    let (desk, bytes, told) = whole();
    let mut found = 0;
    for step in 0..60 {
        let mut damaged = bytes.clone();
        damaged[step * bytes.len() / 60 + 11 * step % 400] ^= 0x5a;
        put(&desk, &damaged);
        let did = desk.says("inspect d --json");
        match did.exit {
            0 => assert_eq!(did.out, told, "byte {step} changed something in silence"),
            1 | 4 => {
                assert!(did.err.contains("record.sqlite") && did.out.is_empty(), "{}", did.err);
                found += 1;
            }
            other => panic!("{other}: {}", did.err),
        }
    }
    // The others lie in pages that are free, or in tables of an office that this folder has never been.
    assert!(found > 12, "{found} of 60: the bytes of the record matter");
}

#[test]
fn a_page_of_nothing_but_zeros() {
    let (desk, bytes, _) = whole();
    for page in 1..bytes.len() / 4096 {
        let mut damaged = bytes.clone();
        damaged[page * 4096..(page + 1) * 4096].fill(0);
        put(&desk, &damaged);
        named(&desk, &format!("page {page}"));
    }
}

/// The database of an office that was cut off, without the file beside it that holds what was written last.
#[cfg(unix)]
#[test]
fn a_database_without_the_log_that_belongs_to_it() {
    let desk = Desk::new();
    let served = desk.serve(&["office"]);
    served.pair(served.said["code"].as_str().expect("a code"));
    assert!(desk.path("office/record.sqlite-wal").metadata().expect("a log").len() > 0);
    put(&desk, &std::fs::read(desk.path("office/record.sqlite")).expect("the database"));
    let told = named(&desk, "the log was left behind");
    assert!(told.contains("record.sqlite-wal"), "{told}");
    // Copied with its log it is whole.
    std::fs::copy(desk.path("office/record.sqlite-wal"), desk.path("d/record.sqlite-wal")).expect("copied");
    desk.says("inspect d").ends(0).says("1 devices are paired.");
}

/// A line whose id is right and whose signature is somebody else's: nothing but the signature tells.
#[test]
fn a_line_with_a_forged_signature() {
    use store::{Line, Sqlite, Store};
    let (desk, _, _) = whole();
    let text = desk.says("export record --job j").ends(0).out;
    let lines: Vec<&str> = text.lines().collect();
    let seal = |line: &str| line.find("\"sig\":\"").expect("a signature") + 7;
    let (own, other) = (lines[5], lines[6]);
    let forged = own[..seal(own)].to_owned() + &other[seal(other)..];
    std::fs::create_dir(desk.path("d")).expect("made");
    let held = wire::read(own).expect("an entry");
    let path = desk.path("d/record.sqlite");
    let mut store = Sqlite::open(&path).expect("a store");
    store.add_lines(&[Line::proved(&held, forged)]).expect("planted");
    drop(store);
    let told = named(&desk, "forged");
    assert!(
        told.contains("kept line 1: the signature is not that of the device; altered or forged."),
        "{told}"
    );
    desk.says("check --job d").ends(4).says("altered or forged");
}

fn photo_of(folder: &Path) -> std::path::PathBuf {
    let mut inside = std::fs::read_dir(folder.join("photos")).expect("photos").flatten();
    // Beside the lock of those who take photos in.
    let inner = inside.find(|entry| entry.path().is_dir()).expect("a folder");
    std::fs::read_dir(inner.path()).expect("photos").flatten().next().expect("a photo").path()
}

#[cfg(unix)]
#[test]
fn a_photo_that_is_not_what_was_taken() {
    let desk = Desk::new();
    let served = desk.serve(&["office"]);
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    let photo = b"not really a picture".to_vec();
    let hash = record::entry::FileHash(wire::sha256(&photo)).to_string();
    assert!(served.put(&format!("/api/v1/photos/{hash}"), &token, &photo).status < 300);
    assert_eq!(served.stop(), Some(0));
    desk.says("inspect office").ends(0).says("1 photos are here, each as it was taken.");
    let path = photo_of(&desk.path("office"));
    for altered in [&b"not really a Picture"[..], b"not really", b""] {
        std::fs::write(&path, altered).expect("written");
        desk.says("inspect office")
            .ends(4)
            .says(&format!("the photo {hash} is no longer what its name says."))
            .says("The entries are as they were; the photo is not what was taken.")
            .says("bring the photo again from the device that took it, or from a backup.");
    }
    std::fs::write(&path, &photo).expect("written");
    desk.says("inspect office").ends(0);
}
