//! An office that is kept running by programs: watched, told to stop, brought to a new version.

#![cfg(unix)]

#[path = "desk/deployed.rs"]
mod deployed;
#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;
#[path = "desk/stopping.rs"]
mod stopping;
#[path = "desk/upgraded.rs"]
mod upgraded;

use desk::{Desk, notes, remark};
use serde_json::Value;
use std::os::unix::net::UnixDatagram;
use std::time::Duration;

/// A few things that happen in an office; the secrets in them.
fn a_morning(served: &desk::Served) -> [String; 2] {
    let code = served.said["code"].as_str().expect("a code").to_owned();
    let token = served.pair(&code);
    served.get("/api/v1/jobs?secret=in-a-question", &token);
    served.get("/api/v1/jobs", "no-token-of-ours");
    served.post("/people/sign-in", "", "name=who&password=in-a-form");
    [code, token]
}

#[test]
fn the_journal_is_json_a_line_without_a_secret() {
    let desk = Desk::new();
    let served = desk.serve_journaled(&["office"], "json");
    let secrets = a_morning(&served);
    assert_eq!(served.stop(), Some(0));
    let journal = desk.read("journal");
    let lines: Vec<Value> = journal.lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
    for line in &lines {
        for name in ["time", "level", "event"] {
            assert!(line[name].is_string(), "{line}");
        }
    }
    let events: Vec<&str> = lines.iter().filter_map(|line| line["event"].as_str()).collect();
    assert_eq!((events[0], events[events.len() - 1]), ("started", "stopped"), "{journal}");
    let asked: Vec<String> = lines
        .iter()
        .filter(|line| line["event"] == "request")
        .map(|line| format!("{} {} {}", line["method"], line["route"], line["status"]))
        .collect();
    let jobs = r#""GET" "/api/v1/jobs""#;
    let expected = [r#""POST" "/api/v1/pair" 200"#, &format!("{jobs} 200"), &format!("{jobs} 401")];
    assert_eq!(asked[..3], expected);
    for secret in secrets.iter().map(String::as_str).chain(["in-a-question", "in-a-form", "no-token-of-ours"])
    {
        assert!(!journal.contains(secret), "{secret}: {journal}");
    }
}

#[test]
fn the_journal_is_text_or_brief() {
    let desk = Desk::new();
    let served = desk.serve_journaled(&["office"], "text");
    a_morning(&served);
    assert_eq!(served.stop(), Some(0));
    let text = desk.read("journal");
    assert!(text.contains(" info request request="), "{text}");
    assert!(text.contains(" method=GET route=/api/v1/jobs status=401 "), "{text}");
    let served = desk.serve_journaled(&["office"], "brief");
    a_morning(&served);
    assert_eq!(served.stop(), Some(0));
    let brief = desk.read("journal");
    assert_eq!(brief.lines().count(), 1, "{brief}");
    assert!(brief.contains(" info device-paired ") && brief.contains(" device=1 "), "{brief}");
}

#[test]
fn a_monitor_reads_figures_where_it_was_told_to() {
    let desk = Desk::new();
    desk.write("day.toml", &notes(&remark("10:40", "water at 12 ft")));
    desk.says("enter day.toml --job office").ends(0);
    let served = desk.serve(&["office", "--metrics", "127.0.0.1:0"]);
    let figures = served.said["metrics"].as_str().expect("an address").to_owned();
    let kept = |figures: &str| {
        let text = served.get_at(figures).text();
        let row = text.lines().find(|line| line.starts_with("shaftbook_kept_entries ")).map(str::to_owned);
        row.unwrap_or(text)
    };
    let entries = desk.says("export record --job office").ends(0).out.lines().count();
    assert_eq!(kept(&figures), format!("shaftbook_kept_entries {entries}"));
    assert_eq!(served.get("/readyz", "").text(), "ready\n");
    assert_eq!(served.stop(), Some(0));
    assert!(desk.serve(&["office"]).said["metrics"].is_null(), "nowhere, unless it was asked for");
    desk.says("serve office --address 127.0.0.1:0 --metrics everywhere")
        .ends(2)
        .says("`everywhere` is no address to listen on.");
}

/// Standard output of a service goes where the journal does, so no code is told there.
#[cfg(target_os = "linux")]
#[test]
fn what_a_service_says_lets_nobody_in() {
    let desk = Desk::new();
    let socket = UnixDatagram::bind(desk.path("notify")).expect("a socket");
    let said = std::fs::File::create(desk.path("said")).expect("a file");
    let mut command = desk.command(&["serve", "office", "--address", "127.0.0.1:0", "--journal", "text"]);
    command.env("NOTIFY_SOCKET", desk.path("notify")).stderr(said.try_clone().expect("a file")).stdout(said);
    let mut child = command.spawn().expect("the program runs");
    socket.recv(&mut [0; 500]).expect("it is open");
    child.kill().expect("stopped");
    child.wait().expect("ended");
    let said = desk.read("said");
    assert!(
        said.contains("office is open at") && said.contains("A code for a device: shaftbook pair office"),
        "{said}"
    );
    assert!(!said.contains("Pairing code") && !said.contains("#pair="), "{said}");
}

/// What systemd hears with `Type=notify`.
#[cfg(target_os = "linux")]
#[test]
fn a_service_manager_is_told_when_it_is_open_and_when_it_closes() {
    let desk = Desk::new();
    let socket = UnixDatagram::bind(desk.path("notify")).expect("a socket");
    socket.set_read_timeout(Some(Duration::from_secs(20))).expect("a patience");
    let place = desk.path("notify");
    let served = desk.serve_as(&["office"], |command| {
        command.env("NOTIFY_SOCKET", place);
    });
    let heard = || {
        let mut bytes = [0; 500];
        let count = socket.recv(&mut bytes).expect("a word");
        String::from_utf8_lossy(&bytes[..count]).into_owned()
    };
    let said = heard();
    let address = served.said["address"].as_str().expect("an address");
    assert!(said.contains("READY=1\n") && said.contains(&format!("STATUS=open at {address}")), "{said}");
    assert_eq!(served.get("/healthz", "").text(), "alive\n");
    served.tell_to_stop();
    assert!(heard().contains("STOPPING=1"));
    assert_eq!(served.ended(), Some(0));
}
