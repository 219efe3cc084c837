//! The files in `deploy/`: what they say is what the program understands. Whether systemd understands them is tried by hand
//! (docs/decisions/0023), and a container is not built here.

use crate::desk::{Desk, Served, notes, remark};
use std::path::Path;
use std::process::Command;

fn file(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../deploy").join(name);
    std::fs::read_to_string(path).expect("readable").replace("\\\n", " ")
}

/// What stands behind a word at the beginning of a line.
fn said(text: &str, word: &str) -> String {
    let line = text.lines().map(str::trim).find_map(|line| line.strip_prefix(word));
    line.unwrap_or_else(|| panic!("{word} is not there")).trim().to_owned()
}

/// The words of a list in JSON.
fn listed(text: &str) -> Vec<String> {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// Serves with the words after `serve FOLDER`, on ports of this test.
fn served(desk: &Desk, words: &[String]) -> Served {
    assert_eq!(words[0], "serve");
    let mut changed = vec!["office".to_owned()];
    let mut rest = words[2..].iter();
    while let Some(word) = rest.next() {
        match word.as_str() {
            // `serve` of the desk says where.
            "--address" => drop(rest.next()),
            "--metrics" => {
                rest.next();
                changed.extend([word.clone(), "127.0.0.1:0".to_owned()]);
            }
            word => changed.push(word.replace("${REACHED_AT}", "https://office.example")),
        }
    }
    let changed: Vec<&str> = changed.iter().map(String::as_str).collect();
    desk.serve(&changed)
}

#[test]
fn the_service_of_systemd_serves() {
    let (desk, unit) = (Desk::new(), file("shaftbook.service"));
    let words: Vec<String> = said(&unit, "ExecStart=").split_whitespace().map(str::to_owned).collect();
    let served = served(&desk, &words[1..]);
    let link = served.said["link"].as_str().expect("a link");
    assert!(link.starts_with("https://office.example/pair#"), "{link}");
    assert!(served.said["metrics"].is_string(), "{}", served.said);
    assert_eq!(said(&unit, "Type="), "notify", "the program tells when it is open");
    assert_eq!(served.stop(), Some(0));
}

#[test]
fn the_service_that_makes_backups_makes_them() {
    let (desk, unit) = (Desk::new(), file("shaftbook-backup.service"));
    desk.write("day.toml", &notes(&remark("10:40", "water at 12 ft")));
    desk.says("enter day.toml --job office").ends(0);
    // As systemd hands it on: `%%` is `%`, `$$` is `$`, and the words in quotes are one.
    let line = said(&unit, "ExecStart=").replace("%%", "%").replace("$$", "$");
    let script =
        line.strip_prefix("/bin/sh -c '").and_then(|line| line.strip_suffix('\'')).expect("a script");
    let script = script.replace("/usr/local/bin/shaftbook", env!("CARGO_BIN_EXE_shaftbook"));
    let run = |script: &str| {
        let done = Command::new("/bin/sh").args(["-c", script]).current_dir(desk.path("")).output();
        assert!(done.expect("it runs").status.success(), "{script}");
    };
    run(&script);
    let made = crate::desk::sorted(&desk.path("backups"), ".sqlite");
    assert_eq!(made.len(), 1, "{made:?}");
    desk.run(&["inspect", &made[0]]).ends(0).says("The database is whole.");
    // One that is older than 60 days goes, the others stay.
    run("touch -d '61 days ago' backups/office-2026-01-01T023000Z.sqlite");
    run(&said(&unit, "ExecStartPost=").replace("office-*.sqlite", "'office-*.sqlite'"));
    assert_eq!(crate::desk::sorted(&desk.path("backups"), ".sqlite"), made);
}

#[test]
fn the_container_serves_and_asks_itself() {
    let (desk, container) = (Desk::new(), file("Containerfile"));
    let words = format!("[\"serve\"{}", said(&container, "CMD [\"serve\""));
    let served = served(&desk, &listed(&words));
    let port =
        served.said["address"].as_str().expect("an address").rsplit(':').next().expect("a port").to_owned();
    let check =
        container.split("HEALTHCHECK").nth(1).and_then(|rest| rest.split("CMD ").nth(1)).expect("a check");
    let words = listed(check.lines().next().expect("a line").trim());
    let healthy = || {
        let script = words[2].replace("/7420", &format!("/{port}"));
        Command::new(&words[0]).args([&words[1], &script]).output().expect("it runs").status.success()
    };
    assert!(healthy(), "it is ready");
    std::fs::rename(desk.path("office/record.sqlite"), desk.path("elsewhere.sqlite")).expect("moved");
    std::thread::sleep(std::time::Duration::from_millis(1100));
    assert!(!healthy(), "its database is gone");
    assert_eq!(served.stop(), Some(0));
    assert!(!healthy(), "it is stopped");
}
