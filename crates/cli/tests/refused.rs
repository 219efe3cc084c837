//! What an office is refused, told in three sentences: what happened, what it means, what to do.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::Desk;
use expect_test::{Expect, expect};

#[track_caller]
fn check(desk: &Desk, words: &[&str], exit: i32, expected: &Expect) {
    let did = desk.run(words).ends(exit);
    assert_eq!(did.out, "", "a refusal prints nothing else");
    expected.assert_eq(&did.err);
}

/// A folder with a record of one remark.
fn with_record() -> Desk {
    let desk = Desk::new();
    desk.write("day.toml", &desk::notes(&desk::remark("10:40", "water at 12 ft")));
    desk.says("enter day.toml --job j").ends(0);
    desk
}

#[test]
fn an_address_that_is_none() {
    check(
        &Desk::new(),
        &["serve", "office", "--address", "7420"],
        2,
        &expect![[r#"
        `7420` is no address to listen on.
        Nothing is served, and no entry was written.
        Write this machine's address and a port, such as 127.0.0.1:7420.
    "#]],
    );
}

#[test]
fn a_network_without_a_certificate() {
    let desk = Desk::new();
    check(
        &desk,
        &["serve", "office", "--address", "0.0.0.0:0"],
        2,
        &expect![[r#"
        0.0.0.0:0 can be reached over the network, and there is no certificate.
        Nothing is served: codes and entries would travel for anyone to read, and no tablet would keep the app for work without a network.
        Give --certificate and --key, or stay on 127.0.0.1; where a reverse proxy speaks HTTPS to the tablets, say --behind-proxy.
    "#]],
    );
    assert!(desk.files().is_empty(), "nothing was made");
}

#[test]
fn a_port_that_is_taken() {
    let taken = std::net::TcpListener::bind("127.0.0.1:0").expect("a port");
    let address = taken.local_addr().expect("an address").to_string();
    let desk = Desk::new();
    let did = desk.run(&["serve", "office", "--address", &address]).ends(1);
    let told = did.err.replace(&address, "127.0.0.1:PORT");
    expect![[r#"
        Another program listens on 127.0.0.1:PORT already.
        Nothing is served, and no entry was written.
        Stop it, or choose another port: --address 127.0.0.1:7421.
    "#]]
    .assert_eq(&told);
}

#[test]
fn a_certificate_that_is_none() {
    let desk = Desk::new();
    desk.write("cert.pem", "hello");
    desk.write("key.pem", "hello");
    let serve = ["serve", "office", "--certificate", "cert.pem", "--key"];
    check(
        &desk,
        &[&serve[..], &["key.pem"]].concat(),
        1,
        &expect![[r#"
        cert.pem: there is no certificate in it.
        Nothing is served, and no entry was written.
        Give the certificate with those it hangs on and its private key, both as PEM.
    "#]],
    );
    check(
        &desk,
        &["serve", "office", "--certificate", "nowhere.pem", "--key", "key.pem"],
        1,
        &expect![[r#"
        nowhere.pem: I/O error: No such file or directory (os error 2).
        Nothing is served, and no entry was written.
        Give the certificate with those it hangs on and its private key, both as PEM.
    "#]],
    );
}

#[test]
fn a_key_that_is_none() {
    let desk = Desk::new();
    let made = rcgen::generate_simple_self_signed(["localhost".to_owned()]).expect("a certificate");
    desk.write("cert.pem", &made.cert.pem());
    let serve = ["serve", "office", "--certificate", "cert.pem"];
    check(
        &desk,
        &[&serve[..], &["--key", "nowhere.pem"]].concat(),
        1,
        &expect![[r#"
        nowhere.pem: I/O error: No such file or directory (os error 2).
        Nothing is served, and no entry was written.
        Give the certificate with those it hangs on and its private key, both as PEM.
    "#]],
    );
    check(
        &desk,
        &[&serve[..], &["--key", "cert.pem"]].concat(),
        1,
        &expect![[r#"
        cert.pem: there is no private key in it.
        Nothing is served, and no entry was written.
        Give the certificate with those it hangs on and its private key, both as PEM.
    "#]],
    );
    desk.run(&serve).ends(2).says("--key <FILE>");
    assert_eq!(desk.files(), ["cert.pem"], "nothing was made");
}

/// The certificate of one office with the key of another.
#[test]
fn a_certificate_and_a_key_that_do_not_belong_together() {
    let desk = Desk::new();
    let made = || rcgen::generate_simple_self_signed(["localhost".to_owned()]).expect("a certificate");
    let (one, other) = (made(), made());
    desk.write("cert.pem", &one.cert.pem());
    desk.write("key.pem", &other.signing_key.serialize_pem());
    let serve = ["serve", "office", "--certificate", "cert.pem", "--key", "key.pem"];
    check(
        &desk,
        &serve,
        1,
        &expect![[r#"
            The certificate and the key cannot be used: keys may not be consistent: KeyMismatch.
            Nothing is served, and no entry was written.
            Give the certificate with those it hangs on and its private key, both as PEM.
        "#]],
    );
}

#[test]
fn a_folder_that_is_a_file() {
    let desk = Desk::new();
    desk.write("office", "not a folder");
    check(
        &desk,
        &["serve", "office"],
        1,
        &expect![[r#"
            office is a file, not a folder.
            Nothing is served, and no entry was written.
            Name a folder, or one that is not there yet.
        "#]],
    );
}

#[test]
fn a_database_that_is_damaged() {
    let desk = with_record();
    let path = desk.path("j").join("record.sqlite");
    let mut bytes = std::fs::read(&path).expect("the database");
    // The head stays, so that it is still a database of ours; every page behind it is overwritten.
    bytes[4096..].fill(0x5a);
    std::fs::write(&path, &bytes).expect("written");
    check(
        &desk,
        &["serve", "j", "--address", "127.0.0.1:0"],
        4,
        &expect![[r#"
            j/record.sqlite: the database is damaged: database disk image is malformed. The office is not served.
            Entries in it may be unreadable; nothing was written.
            Keep the folder as it is, work on a copy, and merge a record you exported or another device's into a new folder.
        "#]],
    );
    check(
        &desk,
        &["inspect", "j"],
        4,
        &expect![[r#"
            j/record.sqlite: the database is damaged: database disk image is malformed.
            Entries in it may be unreadable; nothing was written.
            Keep the folder as it is, work on a copy, and merge a record you exported or another device's into a new folder.
        "#]],
    );
    check(
        &desk,
        &["backup", "j", "--to", "kept.sqlite"],
        4,
        &expect![[r#"
            j/record.sqlite: the database is damaged: database disk image is malformed.
            Entries in it may be unreadable; nothing was written.
            Keep the folder as it is, work on a copy, and merge a record you exported or another device's into a new folder.
        "#]],
    );
    check(
        &desk,
        &["restore", "j/record.sqlite", "--to", "again"],
        4,
        &expect![[r#"
            j/record.sqlite: the database is damaged: database disk image is malformed.
            Entries in it may be unreadable; nothing was written.
            Keep the folder as it is, work on a copy, and merge a record you exported or another device's into a new folder.
        "#]],
    );
    assert!(!desk.path("kept.sqlite").exists() && !desk.path("again/record.sqlite").exists());
    assert_eq!(std::fs::read(&path).expect("the database"), bytes, "it stays as it was");
}

#[test]
fn a_file_that_is_no_database() {
    let desk = Desk::new();
    desk.write("song.sqlite", "a song");
    check(
        &desk,
        &["restore", "song.sqlite", "--to", "again"],
        4,
        &expect![[r#"
        song.sqlite: the database is damaged: file is not a database.
        Entries in it may be unreadable; nothing was written.
        Keep the folder as it is, work on a copy, and merge a record you exported or another device's into a new folder.
    "#]],
    );
    check(
        &desk,
        &["restore", "nowhere.sqlite", "--to", "again"],
        1,
        &expect![[r#"
        nowhere.sqlite is no backup: there is no such file.
        Nothing was restored.
        Name the file `shaftbook backup` wrote.
    "#]],
    );
    check(
        &desk,
        &["inspect", "nowhere"],
        1,
        &expect![[r#"
        nowhere holds no record.
        There was nothing to read there, and nothing was written.
        Start one with `shaftbook begin FOLDER`, or name it with --job FOLDER.
    "#]],
    );
    check(
        &desk,
        &["backup", "nowhere", "--to", "kept.sqlite"],
        1,
        &expect![[r#"
        nowhere holds no record.
        There was nothing to read there, and nothing was written.
        Start one with `shaftbook begin FOLDER`, or name it with --job FOLDER.
    "#]],
    );
}

/// One digit of one line, changed behind our back.
#[test]
fn a_line_that_was_altered() {
    let desk = with_record();
    let path = desk.path("j").join("record.sqlite");
    let mut bytes = std::fs::read(&path).expect("the database");
    let text = b"water at 12 ft";
    let place = bytes.windows(text.len()).position(|part| part == text).expect("the remark is there");
    bytes[place + 9] = b'4';
    std::fs::write(&path, &bytes).expect("written");
    check(
        &desk,
        &["inspect", "j"],
        4,
        &expect![[r#"
        j/record.sqlite: kept line 4: the id does not follow from the content; it was altered.
        A kept entry is not what it was when it was signed.
        Keep the folder as it is, work on a copy, and merge a record you exported or another device's into a new folder.
    "#]],
    );
    check(
        &desk,
        &["backup", "j", "--to", "kept.sqlite"],
        4,
        &expect![[r#"
        j/record.sqlite: kept line 4: the id does not follow from the content; it was altered.
        A kept entry is not what it was when it was signed.
        Keep the folder as it is, work on a copy, and merge a record you exported or another device's into a new folder.
    "#]],
    );
}

#[cfg(unix)]
#[test]
fn an_office_that_is_served_already() {
    let desk = Desk::new();
    let _served = desk.serve(&["office"]);
    check(
        &desk,
        &["serve", "office", "--address", "127.0.0.1:0"],
        1,
        &expect![[r#"
        Another program serves office already.
        Nothing else was started; that program goes on.
        Go on with that one, or stop it first. Another folder can be served beside it.
    "#]],
    );
}
