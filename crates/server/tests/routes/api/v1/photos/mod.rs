//! `POST /photos/missing`, `PUT` and `GET /photos/{hash}`.

use crate::office::Office;
use expect_test::expect;
use record::entry::FileHash;
use server::Limits;
use wire::http::Missing;

/// The first bytes of a JPEG, and something behind them.
const PICTURE: &[u8] = b"\xff\xd8\xff\xe0 rebar at 12 ft";

fn name(bytes: &[u8]) -> String {
    FileHash(wire::sha256(bytes)).to_string()
}

fn put(name: &str) -> String {
    format!("PUT /api/v1/photos/{name}")
}

fn missing(office: &Office, token: &str, hashes: &[&str]) -> Vec<String> {
    let body = format!(
        "{{\"hashes\":[{}]}}",
        hashes.iter().map(|hash| format!("\"{hash}\"")).collect::<Vec<_>>().join(",")
    );
    let answer = office.ask("POST /api/v1/photos/missing", Some(token), body.as_bytes());
    let missing: Missing = serde_json::from_slice(&answer.bytes).expect("hashes");
    missing.missing
}

/// What lies in the folder of photos, folders left out, and the lock that says that they are in use.
fn files(office: &Office) -> usize {
    let mut waiting = vec![office.folder.path().join("photos")];
    let mut count = 0;
    while let Some(folder) = waiting.pop() {
        for entry in std::fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                waiting.push(path);
            } else if !path.ends_with("in-use.lock") {
                count += 1;
            }
        }
    }
    count
}

#[test]
fn a_photo_goes_in_once_and_comes_out_the_same() {
    let mut office = Office::open();
    let token = office.pair(1);
    let (picture, other) = (name(PICTURE), name(b"other"));
    assert_eq!(missing(&office, &token, &[&picture, &other]), [picture.clone(), other.clone()]);
    for _ in 0..2 {
        assert_eq!(office.ask(&put(&picture), Some(&token), PICTURE).status, 204);
    }
    assert_eq!(missing(&office, &token, &[&picture, &other]), [other]);
    office.restart();
    let answer = office.get(&format!("/api/v1/photos/{picture}"), &token);
    assert_eq!((answer.bytes.as_slice(), answer.header("content-type")), (PICTURE, "image/jpeg"));
    assert_eq!(answer.header("cache-control"), "private, max-age=31536000, immutable");
    assert_eq!(files(&office), 1);
}

#[test]
fn a_file_that_is_no_picture_is_handed_out_as_bytes() {
    let office = Office::open();
    let token = office.pair(1);
    let page = b"<script>alert(1)</script>";
    office.ask(&put(&name(page)), Some(&token), page);
    let answer = office.get(&format!("/api/v1/photos/{}", name(page)), &token);
    assert_eq!(answer.header("content-type"), "application/octet-stream");
    assert_eq!(answer.header("x-content-type-options"), "nosniff");
}

#[test]
fn bytes_of_another_hash_leave_nothing_behind() {
    let office = Office::open();
    let token = office.pair(1);
    let answer = office.ask(&put(&name(b"other")), Some(&token), PICTURE);
    expect![[r#"
        422 bad-hash
        The bytes have the hash 37e1949e, not d9298a10.
        The file was not kept, because it is not the one that was named.
        Send it again. If it stays, take the photo again.
    "#]]
    .assert_eq(&answer.told());
    assert_eq!(files(&office), 0);
}

#[test]
fn a_photo_that_is_too_large_leaves_nothing_behind() {
    let office = Office::limited(Limits { photo_bytes: 1000, ..Limits::default() });
    let token = office.pair(1);
    let (most, more) = ([7; 1000], [7; 1001]);
    assert_eq!(office.ask(&put(&name(&most)), Some(&token), &most).status, 204);
    let answer = office.ask(&put(&name(&more)), Some(&token), &more);
    expect![[r#"
        413 too-large
        What was sent has more than 1000 bytes, the most that is taken in here.
        It was not taken in; it stays on the device.
        Nothing to do for entries, they are sent in smaller parts. Take a photo again at a smaller size.
    "#]]
    .assert_eq(&answer.told());
    assert_eq!(files(&office), 1);
}

#[test]
fn what_names_no_photo() {
    let office = Office::open();
    let token = office.pair(1);
    expect![[r#"
        400 malformed
        A photo is named by its SHA-256, 64 hexadecimal digits in small letters.
        Nothing was taken in.
        Update the app and the desk to the same version; if it stays, send the request's name to support.
    "#]]
    .assert_eq(&office.get("/api/v1/photos/..%2frecord.sqlite", &token).told());
    expect![[r#"
        404 not-found
        The desk holds no photo 37e1949e.
        The desk has nothing under that name; nothing was changed.
        Check the name. What a device has not yet sent cannot be here.
    "#]]
    .assert_eq(&office.get(&format!("/api/v1/photos/{}", name(PICTURE)), &token).told());
    assert_eq!(office.ask(&put(&name(PICTURE)), None, PICTURE).refusal().code, "not-paired");
}

#[test]
fn a_photo_altered_on_the_desk_is_named_and_not_handed_out() {
    let office = Office::open();
    let token = office.pair(1);
    let picture = name(PICTURE);
    office.ask(&put(&picture), Some(&token), PICTURE);
    let path = office.folder.path().join("photos").join(&picture[..2]).join(&picture);
    std::fs::write(path, b"painted over").expect("written");
    expect![[r#"
        503 desk-damaged
        The desk's file of the photo 37e1949e is no longer what it was.
        It is not handed out. What comes in is kept as before, and every device keeps what it has.
        In the office: run the check command and restore the last backup; the devices then send what it lacks.
    "#]]
    .assert_eq(&office.get(&format!("/api/v1/photos/{picture}"), &token).told());
}
