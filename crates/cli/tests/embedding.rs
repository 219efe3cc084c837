//! The app goes into the program whole, or the program is not built.

#[allow(dead_code, reason = "the build calls the rest")]
#[path = "../build.rs"]
mod build;

use expect_test::expect;

#[test]
fn a_folder_without_the_app_is_told_in_three_sentences() {
    let folder = tempfile::tempdir().expect("a folder");
    let told = build::look_for_page(folder.path()).expect_err("nothing is there");
    let told = told.replace(&folder.path().display().to_string(), "FOLDER");
    expect![[r#"
        The app is not built: FOLDER holds no index.html.
        The program serves the app to tablets and is not built without it.
        Run `cargo xtask app`, or name a folder that holds the app in SHAFTBOOK_APP."#]]
    .assert_eq(&told);
    std::fs::write(folder.path().join("index.html"), "<!doctype html>").expect("written");
    assert_eq!(build::look_for_page(folder.path()), Ok(()));
}

/// A packed variant goes with its file and is none of its own; what is hidden stays out.
#[test]
fn every_file_is_in_the_table_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let names = ["index.html", "app-3f9a62c1d0e4.js", "app-3f9a62c1d0e4.js.br", "fonts/a.ttf", ".hidden"];
    std::fs::create_dir(folder.path().join("fonts")).expect("a folder");
    for name in names {
        std::fs::write(folder.path().join(name), name).expect("written");
    }
    let table = build::table(folder.path());
    let rows: Vec<&str> = table.lines().filter(|line| line.contains("Embedded {")).collect();
    let paths: Vec<&str> = rows.iter().filter_map(|row| row.split('"').nth(1)).collect();
    assert_eq!(paths, ["app-3f9a62c1d0e4.js", "fonts/a.ttf", "index.html"]);
    assert!(rows[0].contains("brotli: Some(") && rows[0].contains("gzip: None"), "{}", rows[0]);
    assert!(rows[0].contains("immutable: true") && rows[2].contains("immutable: false"), "{table}");
}

/// Media types as registered with IANA; `text/javascript` by RFC 9239, `application/wasm` by the WebAssembly
/// web interface. From memory.
#[test]
fn a_browser_is_told_what_each_file_is() {
    for (file, media) in [
        ("index.html", "text/html; charset=utf-8"),
        ("app-3f9a62c1.js", "text/javascript; charset=utf-8"),
        ("app.wasm", "application/wasm"),
        ("manifest.webmanifest", "application/manifest+json"),
        ("fonts/IBMPlexSans-Regular.ttf", "font/ttf"),
        ("README", "application/octet-stream"),
    ] {
        assert_eq!(build::content_type(file), media, "{file}");
    }
}

#[test]
fn only_a_name_with_a_hash_may_be_kept_for_ever() {
    for kept in ["app-3f9a62c1d0e4.js", "app-3f9a62c1_bg.wasm", "fonts/plex.0123456789ab.ttf"] {
        assert!(build::carries_hash(kept), "{kept}");
    }
    for asked_again in ["index.html", "sw.js", "icon-512.png", "deadbee.js", "manifest.webmanifest"] {
        assert!(!build::carries_hash(asked_again), "{asked_again}");
    }
}
