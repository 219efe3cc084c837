//! What is counted while an office is served, in the text a monitor reads (OpenMetrics, the text of Prometheus).
//!
//! Nothing here has a name that somebody gave: routes as they are declared, words of refusals and of what is kept. So the number
//! of rows is bounded, and whoever may read the figures learns of no job, person or device.
//!
//! Words: *figure* = one thing counted; *kept* = what the database holds.
//! Never: take a label from a request.

use prometheus_client::encoding::EncodeLabelSet;
use prometheus_client::metrics::counter::Counter;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::gauge::Gauge;
use prometheus_client::metrics::histogram::Histogram;
use prometheus_client::metrics::info::Info;
use prometheus_client::registry::{Registry, Unit};
use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};
use wire::http::{CODES, Code, LineAnswer, State};

/// How long a device counts as one that syncs after it asked.
const LATELY: Duration = Duration::from_secs(5 * 60);

/// Seconds up to which answers and commits are counted together.
const SECONDS: [f64; 12] = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0, 30.0];

/// How a request was answered.
#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
pub(crate) struct Asked {
    pub(crate) method: &'static str,
    pub(crate) route: &'static str,
    pub(crate) status: u16,
}

/// Where a request went.
#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Route {
    method: &'static str,
    route: &'static str,
}

/// One of a closed list of words.
#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Word {
    kind: &'static str,
}

/// What the database holds, and the room it has.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) struct Kept {
    pub(crate) entries: u64,
    pub(crate) jobs: u64,
    pub(crate) aside: u64,
    pub(crate) devices: u64,
    pub(crate) bytes: u64,
}

/// Everything that is counted.
pub(crate) struct Meter {
    registry: Registry,
    requests: Family<Asked, Counter>,
    times: Family<Route, Histogram>,
    refusals: Family<Word, Counter>,
    entries: Family<Word, Counter>,
    door: Family<Word, Counter>,
    commits: Family<Word, Histogram>,
    failures: Counter,
    connections: Gauge,
    lines: Gauge,
    syncing: Gauge,
    up: Gauge,
    kept: [Gauge; 5],
    free: Gauge,
    heard: Mutex<BTreeMap<i64, Instant>>,
}

/// Counts one thing as long as it lives.
#[derive(Debug)]
pub(crate) struct Open(Gauge);

impl Open {
    fn of(gauge: &Gauge) -> Self {
        gauge.inc();
        Open(gauge.clone())
    }
}

impl Drop for Open {
    fn drop(&mut self) {
        self.0.dec();
    }
}

fn timed<L: Clone + std::hash::Hash + Eq>() -> Family<L, Histogram> {
    Family::new_with_constructor(|| Histogram::new(SECONDS))
}

impl Meter {
    /// Nothing is counted yet; `begun` in seconds since 1970.
    pub(crate) fn new(version: &str, begun: i64) -> Self {
        let mut meter = Meter {
            registry: Registry::with_prefix("shaftbook"),
            requests: Family::default(),
            times: timed(),
            refusals: Family::default(),
            entries: Family::default(),
            door: Family::default(),
            commits: timed(),
            failures: Counter::default(),
            connections: Gauge::default(),
            lines: Gauge::default(),
            syncing: Gauge::default(),
            up: Gauge::default(),
            kept: Default::default(),
            free: Gauge::default(),
            heard: Mutex::default(),
        };
        meter.tell_of_requests();
        meter.tell_of_entries();
        meter.tell_of_the_office(version, begun);
        meter.begin_at_zero();
        meter
    }

    /// Rows that are known beforehand are there from the beginning: what grows from nothing to one is seen to grow.
    fn begin_at_zero(&self) {
        for kind in STATES {
            drop(self.entries.get_or_create(&Word { kind }));
        }
        for code in CODES {
            drop(self.refusals.get_or_create(&Word { kind: code.word }));
        }
    }

    fn tell_of_requests(&mut self) {
        let registry = &mut self.registry;
        registry.register("http_requests", "Requests answered", self.requests.clone());
        let help =
            "From the head of a request to the head of its answer; for the line of news to its beginning";
        registry.register_with_unit("http_request_duration", help, Unit::Seconds, self.times.clone());
        registry.register("refusals", "Requests refused, by the word of the refusal", self.refusals.clone());
        let help =
            "What was noted at the door: sign-ins, refusals, invitations, roles, devices paired and let go";
        registry.register("door", help, self.door.clone());
        registry.register("connections", "Connections open now", self.connections.clone());
        registry.register("live_lines", "Lines of news open now", self.lines.clone());
        let help = "Devices that asked something within five minutes";
        registry.register("devices_syncing", help, self.syncing.clone());
    }

    fn tell_of_entries(&mut self) {
        let registry = &mut self.registry;
        let help = "Lines that devices brought, by what they were answered: stored, known, aside, refused";
        registry.register("entries", help, self.entries.clone());
        let help = "A turn of the writer in the database: a commit of entries, or something else that was asked of it";
        registry.register_with_unit("database_write", help, Unit::Seconds, self.commits.clone());
        let help = "Commits of entries that failed; nothing of them was acknowledged";
        registry.register("database_write_failures", help, self.failures.clone());
        let help =
            "Whether the database answered for these figures; where it did not, those below are from before";
        registry.register("database_up", help, self.up.clone());
    }

    fn tell_of_the_office(&mut self, version: &str, begun: i64) {
        let registry = &mut self.registry;
        let [entries, jobs, aside, devices, bytes] = self.kept.clone();
        registry.register("kept_entries", "Entries in the record", entries);
        registry.register("kept_jobs", "Jobs in the record", jobs);
        registry.register("aside_entries", "Entries set aside that nobody let in yet", aside);
        registry.register("paired_devices", "Devices paired and not let go", devices);
        registry.register_with_unit("database_size", "Of the database", Unit::Bytes, bytes);
        let help = "Free on the disk of the folder";
        registry.register_with_unit("disk_free", help, Unit::Bytes, self.free.clone());
        let start = Gauge::<i64>::default();
        start.set(begun);
        registry.register_with_unit("start_time", "When it began, since 1970", Unit::Seconds, start);
        let version = Info::new(vec![("version".to_owned(), version.to_owned())]);
        registry.register("build", "The program", version);
    }

    /// A request was answered.
    pub(crate) fn answered(&self, asked: &Asked, took: Duration) {
        self.requests.get_or_create(asked).inc();
        let route = Route { method: asked.method, route: asked.route };
        self.times.get_or_create(&route).observe(took.as_secs_f64());
    }

    /// A request was refused.
    pub(crate) fn refused(&self, word: &'static str) {
        self.refusals.get_or_create(&Word { kind: word }).inc();
    }

    /// Something was noted at the door.
    pub(crate) fn at_the_door(&self, what: &'static str) {
        self.door.get_or_create(&Word { kind: what }).inc();
    }

    /// Lines that were brought have their answers.
    pub(crate) fn brought(&self, answers: &[LineAnswer]) {
        for answer in answers {
            self.entries.get_or_create(&Word { kind: state(answer) }).inc();
        }
    }

    /// The writer had a turn; whether lines were committed in it.
    pub(crate) fn wrote(&self, kind: &'static str, took: Duration) {
        self.commits.get_or_create(&Word { kind }).observe(took.as_secs_f64());
    }

    /// A commit failed.
    pub(crate) fn failed(&self) {
        self.failures.inc();
    }

    /// A connection is open as long as what is given lives.
    pub(crate) fn connection(&self) -> Open {
        Open::of(&self.connections)
    }

    /// A line of news is open as long as what is given lives.
    pub(crate) fn line(&self) -> Open {
        Open::of(&self.lines)
    }

    /// A device asked something.
    pub(crate) fn heard(&self, device: i64, now: Instant) {
        let mut heard = self.heard.lock().unwrap_or_else(PoisonError::into_inner);
        heard.insert(device, now);
    }

    /// What the database holds; `None`: it does not answer.
    pub(crate) fn holds(&self, kept: Option<Kept>) {
        self.up.set(kept.is_some().into());
        let Some(Kept { entries, jobs, aside, devices, bytes }) = kept else { return };
        for (gauge, count) in self.kept.iter().zip([entries, jobs, aside, devices, bytes]) {
            gauge.set(whole(count));
        }
    }

    /// What is free on the disk.
    pub(crate) fn has_room(&self, bytes: u64) {
        self.free.set(whole(bytes));
    }

    /// Every figure as it is now.
    ///
    /// # Errors
    /// When one cannot be written as text.
    pub(crate) fn text(&self, now: Instant) -> Result<String, std::fmt::Error> {
        self.syncing.set(whole(self.lately(now)));
        let mut text = String::new();
        prometheus_client::encoding::text::encode(&mut text, &self.registry)?;
        Ok(text)
    }

    fn lately(&self, now: Instant) -> u64 {
        let mut heard = self.heard.lock().unwrap_or_else(PoisonError::into_inner);
        heard.retain(|_, at| now.saturating_duration_since(*at) < LATELY);
        heard.len() as u64
    }
}

fn whole(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// What becomes of a line.
const STATES: [&str; 4] = ["stored", "known", "aside", "refused"];

/// What became of a line, in one word.
fn state(answer: &LineAnswer) -> &'static str {
    let aside = answer.refusal.as_ref().is_some_and(|refusal| refusal.code == Code::SET_ASIDE.word);
    match answer.state {
        State::Stored => "stored",
        State::Known => "known",
        State::Refused if aside => "aside",
        State::Refused => "refused",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(meter: &Meter, now: Instant, name: &str) -> String {
        let text = meter.text(now).expect("a text");
        text.lines().find(|line| line.starts_with(name)).unwrap_or_default().to_owned()
    }

    #[test]
    fn a_device_syncs_for_five_minutes_after_it_asked() {
        let (meter, now) = (Meter::new("0.0.0", 0), Instant::now());
        let at = |seconds| row(&meter, now + Duration::from_secs(seconds), "shaftbook_devices_syncing ");
        meter.heard(1, now);
        meter.heard(1, now + Duration::from_secs(10));
        meter.heard(2, now);
        assert_eq!(at(299), "shaftbook_devices_syncing 2");
        assert_eq!(at(309), "shaftbook_devices_syncing 1");
        assert_eq!(at(310), "shaftbook_devices_syncing 0");
    }

    #[test]
    fn what_is_open_is_counted_as_long_as_it_is() {
        let (meter, now) = (Meter::new("0.0.0", 0), Instant::now());
        let open = [meter.line(), meter.line()];
        assert_eq!(row(&meter, now, "shaftbook_live_lines "), "shaftbook_live_lines 2");
        drop(open);
        assert_eq!(row(&meter, now, "shaftbook_live_lines "), "shaftbook_live_lines 0");
    }

    /// A monitor still sees how full the disk was; that the database is away stands beside it.
    #[test]
    fn figures_of_a_database_that_does_not_answer_are_those_from_before() {
        let (meter, now) = (Meter::new("0.0.0", 0), Instant::now());
        meter.holds(Some(Kept { entries: 7, ..Kept::default() }));
        meter.holds(None);
        assert_eq!(row(&meter, now, "shaftbook_kept_entries "), "shaftbook_kept_entries 7");
        assert_eq!(row(&meter, now, "shaftbook_database_up "), "shaftbook_database_up 0");
    }
}
