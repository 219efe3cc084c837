//! The page about the format and the script in it are held to what the crate does.

use std::path::PathBuf;

fn text(name: &str) -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..").join(name);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// What stands between a fence of a language and the next fence.
fn fenced<'t>(page: &'t str, language: &str) -> &'t str {
    let open = format!("```{language}\n");
    let (_, rest) = page.split_once(&open).unwrap_or_else(|| panic!("no {language} on the page"));
    rest.split_once("```").expect("a fence is closed").0
}

#[test]
fn the_script_on_the_page_is_the_script_beside_it() {
    let (page, script) = (text("docs/record-format.md"), text("docs/verify-record.py"));
    assert_eq!(fenced(&page, "python"), script);
    let lines = script.lines().filter(|line| !line.trim().is_empty()).count();
    assert!(lines <= 30, "{lines} lines are more than a stranger was promised");
}

#[test]
fn the_example_on_the_page_is_an_entry() {
    let page = text("docs/record-format.md");
    let line = fenced(&page, "json").trim_end();
    let held = wire::read(line).expect("the page shows an entry that proves itself");
    assert_eq!(wire::write(&held), line);
}

/// Every member the page describes occurs in a golden line, and every member of the golden lines is on the page.
#[test]
fn the_page_names_every_member() {
    let page = text("docs/record-format.md");
    let mut named: Vec<&str> = page
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split_once('`').map(|(name, _)| name))
        .collect();
    named.sort_unstable();
    let mut members = std::collections::BTreeSet::new();
    for name in ["job", "pour"] {
        for line in text(&format!("crates/wire/golden/v1/{name}.jsonl")).lines() {
            let object: serde_json::Map<String, serde_json::Value> =
                serde_json::from_str(line).expect("a golden line is JSON");
            members.extend(object.keys().cloned());
        }
    }
    assert_eq!(named, members.iter().map(String::as_str).collect::<Vec<_>>());
}

/// The digest as coreutils give it: `sha256sum` over the sorted ids of `golden/v1/bottom.jsonl`.
#[test]
fn the_digest_of_the_page_is_the_digest_of_the_crate() {
    let held = wire::read_lines(&text("crates/wire/golden/v1/bottom.jsonl")).expect("it reads");
    let digest: String =
        wire::digest_of_ids(held.iter().map(record::Held::id)).iter().map(|b| format!("{b:02x}")).collect();
    assert_eq!(digest, "80ad8acb5f0af34a8791d454d8b40950d958efc15c226219e752792de96a7c6d");
}
