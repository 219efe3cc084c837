//! An office that is served: the program running, spoken to over HTTP as a tablet would.

use super::Desk;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read};
use std::process::{Child, Command, Stdio};

/// A running office. It is killed when the test leaves it.
pub(crate) struct Served {
    child: Child,
    /// What it said when it began.
    pub said: Value,
    agent: ureq::Agent,
}

/// An answer.
#[derive(Debug)]
pub(crate) struct Answer {
    pub status: u16,
    pub media: String,
    pub bytes: Vec<u8>,
}

impl Answer {
    #[track_caller]
    pub(crate) fn json(&self) -> Value {
        serde_json::from_slice(&self.bytes).unwrap_or_else(|_| panic!("no JSON: {}", self.text()))
    }

    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes).into_owned()
    }
}

impl Desk {
    /// Serves a folder on a port of its own.
    #[track_caller]
    pub(crate) fn serve(&self, words: &[&str]) -> Served {
        self.serve_as(words, |_| ())
    }

    /// The same, with a journal of some kind in the file `journal`.
    #[track_caller]
    pub(crate) fn serve_journaled(&self, words: &[&str], kind: &str) -> Served {
        let file = std::fs::File::create(self.path("journal")).expect("a file");
        self.serve_as(&[words, &["--journal", kind]].concat(), |command| {
            command.stderr(file);
        })
    }

    /// The same, with something about the program changed before it begins.
    #[track_caller]
    pub(crate) fn serve_as(&self, words: &[&str], change: impl FnOnce(&mut Command)) -> Served {
        let begin = ["serve", "--address", "127.0.0.1:0", "--json"];
        let mut command = self.command(&[&begin[..], words].concat());
        change(&mut command);
        let mut child = command.stdout(Stdio::piped()).spawn().expect("the program runs");
        let mut out = BufReader::new(child.stdout.take().expect("its output"));
        let mut text = String::new();
        let said = loop {
            let read = out.read_line(&mut text).expect("text");
            assert!(read > 0, "it ended: {text}");
            if let Ok(said) = serde_json::from_str(&text) {
                break said;
            }
        };
        // What it says later must have somewhere to go.
        std::thread::spawn(move || out.read_to_end(&mut Vec::new()));
        let config = ureq::Agent::config_builder().http_status_as_error(false).build();
        Served { child, said, agent: config.new_agent() }
    }
}

impl Served {
    fn url(&self, path: &str) -> String {
        format!("{}{path}", self.said["address"].as_str().expect("an address"))
    }

    #[track_caller]
    pub(crate) fn get(&self, path: &str, token: &str) -> Answer {
        let request = self.agent.get(self.url(path)).header("Authorization", &bearer(token));
        answer(request.call().expect("an answer"))
    }

    /// Asks at another address than that of the office.
    #[track_caller]
    pub(crate) fn get_at(&self, url: &str) -> Answer {
        answer(self.agent.get(url).call().expect("an answer"))
    }

    #[track_caller]
    pub(crate) fn post(&self, path: &str, token: &str, body: &str) -> Answer {
        let request = self.agent.post(self.url(path)).header("Authorization", &bearer(token));
        let media =
            if body.starts_with("{\"") && !body.contains('\n') { "application/json" } else { "text/plain" };
        answer(request.header("Content-Type", media).send(body).expect("an answer"))
    }

    #[track_caller]
    pub(crate) fn put(&self, path: &str, token: &str, body: &[u8]) -> Answer {
        let request = self.agent.put(self.url(path)).header("Authorization", &bearer(token));
        answer(request.header("Content-Type", "image/jpeg").send(body).expect("an answer"))
    }

    /// Pairs a device with a code; its token.
    #[track_caller]
    pub(crate) fn pair(&self, code: &str) -> String {
        let device = "ab".repeat(32);
        let body = json!({ "code": code, "name": "tablet 1", "device": device }).to_string();
        let answer = self.post("/api/v1/pair", "", &body);
        assert_eq!(answer.status, 200, "{}", answer.text());
        answer.json()["token"].as_str().expect("a token").to_owned()
    }

    /// Brings lines; how many were stored.
    #[track_caller]
    pub(crate) fn bring(&self, token: &str, lines: &str) -> usize {
        let lines: Vec<&str> = lines.lines().collect();
        let mut stored = 0;
        for part in lines.chunks(200) {
            let answer = self.post("/api/v1/entries", token, &(part.join("\n") + "\n"));
            assert_eq!(answer.status, 200, "{}", answer.text());
            let told = answer.json();
            let answers = told["answers"].as_array().expect("answers");
            stored += answers.iter().filter(|answer| answer["state"] == "stored").count();
        }
        stored
    }

    /// Asks it to stop as a person or a service manager does; its exit code.
    #[cfg(unix)]
    #[track_caller]
    pub(crate) fn stop(self) -> Option<i32> {
        self.tell_to_stop();
        self.ended()
    }

    /// Asks it to stop, and does not wait.
    #[cfg(unix)]
    #[track_caller]
    pub(crate) fn tell_to_stop(&self) {
        let process = self.child.id().to_string();
        let told = Command::new("kill").args(["-TERM", &process]).status();
        assert!(told.expect("kill runs").success());
    }

    /// Waits until it has ended; its exit code.
    #[track_caller]
    pub(crate) fn ended(mut self) -> Option<i32> {
        self.child.wait().expect("it ends").code()
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        // One that has ended already cannot be killed.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// How a device says who it is; one without a token says nothing.
fn bearer(token: &str) -> String {
    if token.is_empty() { String::new() } else { format!("Bearer {token}") }
}

fn answer(mut response: ureq::http::Response<ureq::Body>) -> Answer {
    let media = response.headers().get("content-type").and_then(|media| media.to_str().ok());
    let media = media.unwrap_or_default().to_owned();
    let status = response.status().as_u16();
    let bytes = response.body_mut().with_config().limit(100_000_000).read_to_vec().expect("a body");
    Answer { status, media, bytes }
}
