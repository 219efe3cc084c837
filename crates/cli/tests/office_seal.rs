//! An office seals a shaft and hands its package out; and a job in every format other programs read.

#![cfg(unix)]

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, Served, demo, sorted};

/// An office with the demo job on which everybody signed last, and one on which a signature is missing.
fn office(desk: &Desk) -> (Served, String) {
    for (job, folder) in [("lindmoor", "office"), ("harrow-vale", "elsewhere")] {
        let notes = sorted(&demo(job), ".toml");
        let words: Vec<&str> = ["enter"].into_iter().chain(notes.iter().map(String::as_str)).collect();
        desk.run(&[&words[..], &["--job", folder]].concat()).ends(0);
    }
    let served = desk.serve(&["office"]);
    let token = served.pair(served.said["code"].as_str().expect("a code"));
    let lines = desk.says("export record --job elsewhere").ends(0).out;
    assert_eq!(served.bring(&token, &lines), lines.lines().count());
    (served, token)
}

const P7: &str = "/api/v1/jobs/lindmoor/shafts/P-7";

#[test]
fn the_office_seals_and_its_package_proves_itself_anywhere() {
    let desk = Desk::new();
    let (served, token) = office(&desk);
    let none = served.get(&format!("{P7}/sealed.pdf"), &token);
    assert_eq!(none.status, 422);
    assert!(
        none.text().contains("The shaft P-7 is not sealed.") && none.text().contains("Nothing is lacking")
    );
    let nobody = served.post(&format!("{P7}/seal"), &token, r#"{"by":" "}"#);
    assert_eq!(nobody.status, 400, "{}", nobody.text());
    let sealed = served.post(&format!("{P7}/seal"), &token, r#"{"by":"B. Ostrang"}"#);
    assert_eq!(sealed.status, 200, "{}", sealed.text());
    let again = served.post(&format!("{P7}/seal"), &token, r#"{"by":"somebody else"}"#);
    assert_eq!(again.text(), sealed.text(), "nothing came after it, so that seal stands");
    let record = served.get("/api/v1/jobs/lindmoor/record.jsonl", &token).text();
    let entry = sealed.json()["entry"].as_str().expect("an id").to_owned();
    assert_eq!(
        record.lines().filter(|line| line.contains(&entry) && line.contains("shaft_sealed")).count(),
        1
    );
    let pdf = served.get(&format!("{P7}/sealed.pdf"), &token);
    assert_eq!((pdf.status, pdf.media.as_str()), (200, "application/pdf"));
    assert_eq!(served.get(&format!("{P7}/sealed.pdf"), &token).bytes, pdf.bytes, "the same each time");
    std::fs::write(desk.path("handed.pdf"), &pdf.bytes).expect("written");
    desk.says("verify handed.pdf").ends(0).says("Shaft P-7 of lindmoor, sealed by B. Ostrang");
    assert_eq!(served.stop(), Some(0));
    // The command line makes the same file of the seal the office made.
    let out = ["seal", "P-7", "--by", "B. Ostrang", "--out", "own.pdf", "--job", "office/lindmoor"];
    desk.run(&out).ends(0).says("sealed already");
    assert_eq!(std::fs::read(desk.path("own.pdf")).expect("the package"), pdf.bytes);
}

#[test]
fn what_is_lacking_is_said_and_nothing_is_kept() {
    let desk = Desk::new();
    let (served, token) = office(&desk);
    let before = served.get("/api/v1/jobs/harrow-vale/record.jsonl", &token).text();
    let path = "/api/v1/jobs/harrow-vale/shafts/S-1";
    let refused = served.post(&format!("{path}/seal"), &token, r#"{"by":"I. Vane"}"#);
    assert_eq!(refused.status, 422);
    assert!(refused.text().contains("R. Quill signed as inspector before entry"), "{}", refused.text());
    let none = served.get(&format!("{path}/sealed.pdf"), &token).text();
    assert!(none.contains("The shaft S-1 is not sealed. R. Quill signed as inspector"), "{none}");
    assert_eq!(served.get("/api/v1/jobs/harrow-vale/record.jsonl", &token).text(), before);
    let elsewhere = served.post("/api/v1/jobs/harrow-vale/shafts/S-99/seal", &token, r#"{"by":"I. Vane"}"#);
    assert_eq!(elsewhere.status, 404);
}

/// The office hands out what the command line writes, byte for byte; the tables as one file.
#[test]
fn a_job_goes_out_in_every_format() {
    let desk = Desk::new();
    let (served, token) = office(&desk);
    let begins: [(&str, &str, &[u8]); 7] = [
        ("ifc", "application/x-step", b"ISO-10303-21;"),
        ("ifc4", "application/x-step", b"ISO-10303-21;"),
        ("ags", "text/plain; charset=us-ascii", b"\"GROUP\""),
        ("xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", b"PK"),
        ("csvw", "application/zip", b"PK"),
        ("geojson", "application/geo+json", b"{"),
        ("parquet", "application/vnd.apache.parquet", b"PAR1"),
    ];
    for (format, media, begin) in begins {
        let file = served.get(&format!("/api/v1/jobs/lindmoor/exports/{format}"), &token);
        assert_eq!((file.status, file.media.as_str()), (200, media), "{format}: {}", file.text());
        assert!(file.bytes.starts_with(begin), "{format}");
        if format != "csvw" {
            let out = ["export", format, "--out", "own", "--job", "office/lindmoor"];
            desk.run(&out).ends(0);
            assert_eq!(std::fs::read(desk.path("own")).expect("written"), file.bytes, "{format}");
        }
    }
    for none in ["record", "figures", "pdf", "..%2Fkeys"] {
        assert_eq!(
            served.get(&format!("/api/v1/jobs/lindmoor/exports/{none}"), &token).status,
            404,
            "{none}"
        );
    }
}
