//! An office for a test: a folder, a server on a free port, and somebody who asks.

use quantity::Moment;
use record::{Entry, EntryId, Held, Record};
use server::{
    AppFile, AppFiles, Asked, Desk, Exported, Happened, Limits, Papers, Running, SealWanted, Site, StartError,
};
use std::borrow::Cow;
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use store::{Address, Database};
use tempfile::TempDir;
use testkit::{JOB, Tablet, at, body};
use wire::http::{Pair, Paired, Pushed, Refusal, SiteClock};
use wording::Notice;

/// When the tests take place on site, shortly after what their tablets write.
pub(crate) fn noon() -> Moment {
    at("12:00")
}

pub(crate) struct Office {
    pub(crate) folder: TempDir,
    pub(crate) running: Option<Running>,
    pub(crate) journal: Arc<Mutex<Vec<Happened>>>,
    agent: ureq::Agent,
    /// The database of the server, when the record is on one; it outlives whoever serves it.
    pub(crate) server: Option<testkit::postgres::Database>,
}

/// Says that the tests of this program are run on PostgreSQL: `SHAFTBOOK_TESTS_ON=postgres`.
const TESTS_ON: &str = "SHAFTBOOK_TESTS_ON";

/// The database the tests are run on; `None`: a file in the folder of the office.
fn database() -> Option<testkit::postgres::Database> {
    match std::env::var(TESTS_ON).as_deref() {
        Ok("postgres") => Some(testkit::postgres::database()),
        Ok(other) => panic!("{TESTS_ON} says `{other}`; it can say postgres"),
        Err(_) => None,
    }
}

fn address(server: &testkit::postgres::Database) -> Address {
    Address::read(&server.address()).expect("an address")
}

pub(crate) struct Answer {
    pub(crate) status: u16,
    pub(crate) headers: ureq::http::HeaderMap,
    pub(crate) bytes: Vec<u8>,
}

/// Papers that only say what they were asked for; of shaft S-9 none can be made.
struct Told;

impl Papers for Told {
    fn package_pdf(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        if asked.shaft == "S-9" {
            let text = |text: &str| text.to_owned();
            return Err(Notice {
                code: "no-plan",
                what: text("S-9 has no plan."),
                meaning: text("Nothing can be judged without one."),
                next: text("Enter the plan of the shaft."),
            });
        }
        assert_ne!(asked.shaft, "S-13", "a panic in the middle of a request");
        let told = format!("%PDF of {} with {} entries at {}", asked.shaft, asked.record.len(), asked.at);
        Ok(told.into_bytes())
    }

    fn log_csv(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        Ok(format!("shaft\n{}\n", asked.shaft).into_bytes())
    }

    /// Keeps a remark that says who seals, in the place of a seal.
    fn seal(&self, desk: &Desk, wanted: &SealWanted<'_>) -> Result<EntryId, Notice> {
        let open = if wanted.with_open_findings { ", with open findings" } else { "" };
        let text = format!("sealed by {}{open}", wanted.by);
        let head = desk.record(wanted.job).expect("a record").head(&testkit::key(77).device());
        let key = testkit::key(77);
        let mut pen = wire::Pen::new(&key, wanted.job, wanted.by, head);
        let times = wire::Times { observed_at: noon(), noted_at: None, entered_at: noon() };
        let entry = pen.write(Some(wanted.shaft), times, body("remark", &[("text", &text)]));
        let id = entry.id;
        desk.add(&[Held::Known(entry)]).expect("kept");
        Ok(id)
    }

    fn sealed_pdf(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        Ok(format!("%PDF, sealed, of {}", asked.shaft).into_bytes())
    }

    fn time_stamp(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        Ok(format!("the word of a service about {}", asked.shaft).into_bytes())
    }

    fn export(&self, record: &Record, format: &str) -> Option<Exported> {
        let bytes = format!("{} entries", record.len()).into_bytes();
        (format == "geojson").then_some(Exported { bytes, media: "application/geo+json", ending: "geojson" })
    }
}

fn app() -> AppFiles {
    let file = |text: &'static str, media: &'static str, immutable: bool| AppFile {
        bytes: Cow::Borrowed(text.as_bytes()),
        media: Cow::Borrowed(media),
        immutable,
        brotli: None,
        gzip: Some(Cow::Borrowed(b"packed")),
    };
    AppFiles::from([
        ("index.html".to_owned(), file("<!doctype html>the app", "text/html; charset=utf-8", false)),
        ("app-4f1c.js".to_owned(), file("start()", "text/javascript", true)),
        ("sw.js".to_owned(), file("keep()", "text/javascript", false)),
    ])
}

pub(crate) fn site(folder: &Path, journal: &Arc<Mutex<Vec<Happened>>>) -> Site {
    let mut site = Site::new(folder, "Office of the test", app(), Arc::new(Told));
    let journal = Arc::clone(journal);
    site.journal = Arc::new(move |happened| journal.lock().expect("a journal").push(happened.clone()));
    site.clock =
        Some(Arc::new(|| SiteClock { job: JOB.to_owned(), site: noon(), speed: 30.0, fast_until: noon() }));
    site.version = "0.0.0".to_owned();
    site
}

pub(crate) fn start(site: Site) -> Result<Running, StartError> {
    server::start(site, TcpListener::bind("127.0.0.1:0").expect("a port"), None)
}

impl Office {
    pub(crate) fn open() -> Self {
        Self::with(|_| ())
    }

    /// An office whose record is a file, whatever the tests are run on.
    pub(crate) fn on_a_file() -> Self {
        Self::on(None, |_| ())
    }

    /// An office of a folder that holds its record in a file.
    pub(crate) fn of_folder(folder: &Path) -> Self {
        Self::on(None, |site| site.folder = folder.to_owned())
    }

    /// An office whose record is on a server, whatever the tests are run on.
    pub(crate) fn on_a_server() -> Self {
        Self::on(Some(testkit::postgres::database()), |_| ())
    }

    /// An office whose site was changed before it was served.
    pub(crate) fn with(change: impl FnOnce(&mut Site)) -> Self {
        Self::on(database(), change)
    }

    fn on(server: Option<testkit::postgres::Database>, change: impl FnOnce(&mut Site)) -> Self {
        let (folder, journal) = (tempfile::tempdir().expect("a folder"), Arc::default());
        let mut site = site(folder.path(), &journal);
        site.database = server.as_ref().map(address);
        change(&mut site);
        let running = Some(start(site).expect("a server"));
        // A connection for each question: one kept open may be closed by the server just as the next goes out.
        let config = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .max_redirects(0)
            .max_idle_connections(0);
        Office { folder, running, journal, agent: config.build().into(), server }
    }

    pub(crate) fn limited(limits: Limits) -> Self {
        Self::with(|site| site.limits = limits)
    }

    /// Stops the server and starts another in the same folder.
    pub(crate) fn restart(&mut self) {
        self.running.take().expect("running").stop();
        self.running = Some(self.beside());
    }

    /// Another server on the same database and in the same folder.
    pub(crate) fn beside(&self) -> Running {
        let mut site = site(self.folder.path(), &self.journal);
        site.database = self.server.as_ref().map(address);
        start(site).expect("a server")
    }

    /// What happened so far, as whoever writes the journal is told it.
    pub(crate) fn happened(&self) -> Vec<Happened> {
        self.journal.lock().expect("a journal").clone()
    }

    /// The same, reached at an address.
    pub(crate) fn beside_at(&self, address: &str) -> Running {
        let mut site = site(self.folder.path(), &self.journal);
        site.database = self.server.as_ref().map(self::address);
        site.address = Some(address.to_owned());
        start(site).expect("a server")
    }

    /// The record, opened by another program.
    pub(crate) fn store(&self) -> Database {
        let record = self.server.as_ref().map_or_else(|| Address::of_file(&self.database()), address);
        Database::open(&record).expect("a store")
    }

    pub(crate) fn desk(&self) -> server::Desk {
        self.running.as_ref().expect("running").desk()
    }

    pub(crate) fn address(&self) -> std::net::SocketAddr {
        self.running.as_ref().expect("running").address()
    }

    pub(crate) fn database(&self) -> PathBuf {
        self.folder.path().join(store::DATABASE)
    }

    /// Asks; the head is `METHOD /path`, then a header a line.
    pub(crate) fn ask(&self, head: &str, token: Option<&str>, body: &[u8]) -> Answer {
        self.ask_at((self.address(), head), token, body)
    }

    /// Asks a server of this office, by where it listens.
    pub(crate) fn ask_at(
        &self,
        (server, head): (std::net::SocketAddr, &str),
        token: Option<&str>,
        body: &[u8],
    ) -> Answer {
        let mut lines = head.lines();
        let (method, path) = lines.next().and_then(|line| line.split_once(' ')).expect("METHOD /path");
        let mut request = ureq::http::Request::builder().method(method);
        request = request.uri(format!("http://{server}{path}"));
        for (name, value) in lines.filter_map(|line| line.split_once(": ")) {
            request = request.header(name, value);
        }
        if let Some(token) = token {
            request = request.header("authorization", format!("Bearer {token}"));
        }
        let answer = match body {
            [] => self.agent.run(request.body(()).expect("a request")),
            body => self.agent.run(request.body(body).expect("a request")),
        };
        let (parts, mut body) = answer.expect("an answer").into_parts();
        let bytes = body.with_config().limit(64 << 20).read_to_vec().expect("a body");
        Answer { status: parts.status.as_u16(), headers: parts.headers, bytes }
    }

    pub(crate) fn get(&self, path: &str, token: &str) -> Answer {
        self.ask(&format!("GET {path}"), Some(token), b"")
    }

    /// Pairs a device with a new code; its token.
    pub(crate) fn pair(&self, number: u8) -> String {
        let code = self.desk().new_code().expect("a code").text;
        let answer = self.ask("POST /api/v1/pair", None, &pairing(&code, number));
        let paired: Paired = serde_json::from_slice(&answer.bytes).expect("a token");
        paired.token
    }

    pub(crate) fn push(&self, token: &str, lines: &str) -> Pushed {
        let answer = self.ask("POST /api/v1/entries", Some(token), lines.as_bytes());
        assert_eq!(answer.status, 200, "{}", answer.text());
        serde_json::from_slice(&answer.bytes).expect("answers")
    }
}

pub(crate) fn pairing(code: &str, number: u8) -> Vec<u8> {
    let device = testkit::key(number).device().to_string();
    let pair = Pair { code: code.to_owned(), name: format!("Rig {number}"), device };
    serde_json::to_vec(&pair).expect("JSON")
}

/// Remarks of a tablet about S-1, a minute apart from 10:10 on.
pub(crate) fn remarks(tablet: u8, count: u32) -> Vec<Entry> {
    let mut tablet = Tablet::new(tablet);
    let write = |number| {
        let clock = format!("{:02}:{:02}", 10 + (10 + number) / 60, (10 + number) % 60);
        tablet.write(&clock, body("remark", &[("text", &format!("remark {number}"))]))
    };
    (0..count).map(write).collect()
}

pub(crate) fn line(entry: &Entry) -> String {
    wire::write(&Held::Known(entry.clone()))
}

/// Entries as a body, a line each.
pub(crate) fn lines(entries: &[Entry]) -> String {
    entries.iter().map(|entry| line(entry) + "\n").collect()
}

impl Answer {
    pub(crate) fn text(&self) -> String {
        String::from_utf8_lossy(&self.bytes).into_owned()
    }

    pub(crate) fn header(&self, name: &str) -> &str {
        self.headers.get(name).map_or("", |value| value.to_str().expect("a text"))
    }

    #[track_caller]
    pub(crate) fn refusal(&self) -> Refusal {
        assert_eq!(self.header("content-type"), "application/json", "{}", self.text());
        let refusal: Refusal = serde_json::from_slice(&self.bytes).expect("a refusal");
        assert!(!refusal.request.is_empty(), "a request has a name");
        assert_eq!(refusal.row().expect("a known code").status, self.status);
        refusal
    }

    /// Status and the three sentences, as a snapshot.
    #[track_caller]
    pub(crate) fn told(&self) -> String {
        let Refusal { code, what, meaning, next, .. } = self.refusal();
        format!("{} {code}\n{what}\n{meaning}\n{next}\n", self.status)
    }
}
