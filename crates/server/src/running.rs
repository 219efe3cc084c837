//! A running server: what it shares between requests, how it starts, how it ends.

use crate::code::Code;
use crate::connection;
use crate::desk::Desk;
use crate::end::End;
use crate::handed;
use crate::health::Health;
use crate::journal::{Happened, Level};
use crate::live::{self, News};
use crate::meter::Meter;
use crate::monitor;
use crate::noted::Refusals;
use crate::passkeys::Taking;
use crate::rate::Rates;
use crate::reader::Readers;
use crate::site::Site;
use crate::time;
use crate::tls::Tls;
use crate::writer::{NotWritten, Writer};
use quantity::Moment;
use std::collections::BTreeSet;
use std::fmt;
use std::net::{SocketAddr, TcpListener};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::Duration;
use store::{Database, PHOTOS, Photos, StoreError};
use tokio::runtime::Runtime;
use tokio::sync::{Semaphore, watch};
use wire::http::SiteClock;

/// Threads that wait for the disk or make papers.
const WAITING_THREADS: usize = 24;

/// Kilobytes of deliveries of entries held at once.
const ROOM_KB: usize = 128 * 1024;

/// Passwords compared at once.
const COMPARING: usize = 2;

/// How long open requests may take once the server is told to stop.
const LAST_WORDS: Duration = Duration::from_secs(10);

/// What requests share.
pub(crate) struct Shared {
    pub(crate) site: Site,
    pub(crate) writer: Writer,
    pub(crate) readers: Readers,
    pub(crate) photos: Photos,
    pub(crate) news: Arc<News>,
    /// What is counted.
    pub(crate) meter: Arc<Meter>,
    /// Whether entries can be taken in, as it was found a moment ago.
    pub(crate) health: Health,
    /// One look for figures at a time.
    pub(crate) measuring: Arc<Semaphore>,
    pub(crate) stop: watch::Receiver<bool>,
    pub(crate) rates: Mutex<Rates>,
    /// Passwords that are compared at once: each takes 19 MiB and a core.
    pub(crate) comparing: Semaphore,
    /// Told when somebody or some device was let go or given another role: open lines are closed and come anew.
    pub(crate) changed: watch::Sender<()>,
    /// Refusals that were noted a short while ago.
    pub(crate) refusals: Mutex<Refusals>,
    /// Keys of entries whose device was kept already.
    pub(crate) own_keys: Mutex<BTreeSet<(String, i64)>>,
    /// The codes the desk page may show, the newest last.
    pub(crate) shown: Mutex<Vec<Code>>,
    pub(crate) room: Semaphore,
    pub(crate) secure: bool,
    /// Takes passkeys, where the office is reached by a name.
    pub(crate) passkeys: Option<Taking>,
    address: String,
    numbers: AtomicU64,
    begun: i64,
}

impl Shared {
    /// Writes down what the office itself does.
    fn say(&self, what: &'static str, inside: Option<String>) {
        (self.site.journal)(&Happened { level: Level::Info, what, inside, ..Happened::default() });
    }

    /// A number that is given once.
    pub(crate) fn number(&self) -> u64 {
        self.numbers.fetch_add(1, Ordering::Relaxed)
    }

    /// A name for a request, told to whoever asked and written in the journal.
    pub(crate) fn request_name(&self) -> String {
        format!("{:x}-{}", self.begun, self.number())
    }

    /// The clock of the demonstration, if there is one.
    pub(crate) fn demo(&self) -> Option<SiteClock> {
        self.site.clock.as_ref().map(|clock| clock())
    }

    /// The time on the site of a job: that of the demonstration where it is its job, else the true one.
    pub(crate) fn site_time(&self, job: &str) -> Moment {
        self.demo().filter(|clock| clock.job == job).map_or_else(time::now, |clock| clock.site)
    }

    /// Asks the database something on a thread that may wait.
    pub(crate) async fn read<T: Send + 'static>(
        self: &Arc<Self>,
        question: impl FnOnce(&Database) -> Result<T, StoreError> + Send + 'static,
    ) -> Result<T, StoreError> {
        let shared = Arc::clone(self);
        waiting(move || shared.readers.with(question)).await
    }

    /// A new code, not yet kept.
    pub(crate) fn draw_code(&self) -> Result<Code, NotWritten> {
        Code::draw(&self.address, time::now()).map_err(NotWritten::Chance)
    }

    /// The desk page shows this code from now on.
    pub(crate) fn show(&self, code: Code) {
        self.shown.lock().unwrap_or_else(PoisonError::into_inner).push(code);
    }

    /// Shows what other programs on this machine handed over. Waits for the disk.
    pub(crate) fn take_handed(&self) {
        handed::take(&self.site.folder, time::now()).into_iter().for_each(|code| self.show(code));
    }

    /// The newest code that still serves; those whose time is over are forgotten.
    pub(crate) fn shown_code(&self) -> Option<Code> {
        let now = time::now();
        let mut shown = self.shown.lock().unwrap_or_else(PoisonError::into_inner);
        shown.retain(|code| code.until > now);
        shown.last().cloned()
    }

    /// Rights changed: open lines are closed, and whoever comes again is looked at anew. Other servers on the same database
    /// hear of it from the database.
    pub(crate) fn rights_changed(&self) {
        self.close_open_lines();
    }

    /// Open lines of news are closed.
    pub(crate) fn close_open_lines(&self) {
        self.changed.send_replace(());
    }

    /// How devices and people reach the office, without a slash at the end.
    pub(crate) fn reached_at(&self) -> &str {
        &self.address
    }
}

/// Does something on a thread that may wait.
pub(crate) async fn waiting<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> T {
    match tokio::task::spawn_blocking(work).await {
        Ok(done) => done,
        // The request that waits for it ends as this one did; every request is caught at the edge.
        Err(error) => match error.try_into_panic() {
            Ok(panic) => std::panic::resume_unwind(panic),
            Err(_) => std::panic::panic_any("the server is being stopped"),
        },
    }
}

/// Why a server could not start.
#[derive(Debug)]
pub enum StartError {
    /// The store cannot be opened, or is damaged.
    Store(StoreError),
    /// The network or the machine refused.
    Machine(std::io::Error),
}

impl fmt::Display for StartError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StartError::Store(error) => error.fmt(f),
            StartError::Machine(error) => write!(f, "the server could not be started: {error}"),
        }
    }
}

impl std::error::Error for StartError {}

impl From<StoreError> for StartError {
    fn from(error: StoreError) -> Self {
        StartError::Store(error)
    }
}

impl From<std::io::Error> for StartError {
    fn from(error: std::io::Error) -> Self {
        StartError::Machine(error)
    }
}

/// A server that runs. It ends when it is stopped or dropped.
pub struct Running {
    shared: Arc<Shared>,
    address: SocketAddr,
    metrics: Option<SocketAddr>,
    stop: watch::Sender<bool>,
    runtime: Option<Runtime>,
    accepting: Option<tokio::task::JoinHandle<()>>,
    writing: Option<JoinHandle<()>>,
}

/// Starts a server on a listener that is bound already. With `tls` it answers by HTTPS alone.
///
/// # Errors
/// When the store cannot be opened, is damaged, or the machine refuses.
pub fn start(mut site: Site, listener: TcpListener, tls: Option<Tls>) -> Result<Running, StartError> {
    let address = listener.local_addr()?;
    let metrics = site.metrics.take();
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .max_blocking_threads(WAITING_THREADS)
        .thread_name("server")
        .build()?;
    let (stop, stopped) = watch::channel(false);
    let (shared, writing) = share(site, address, tls.is_some(), stopped)?;
    let listener = taken_over(&runtime, listener)?;
    let metrics = metrics.map(|metrics| watched(&runtime, &shared, metrics)).transpose()?;
    let accepting = runtime.spawn(connection::accept(Arc::clone(&shared), listener, tls));
    runtime.spawn(live::look(Arc::clone(&shared)));
    let (listening, record) = (Arc::downgrade(&shared), shared.site.record());
    std::thread::spawn(move || live::listen(listening, record));
    shared.say("started", Some(format!("version {} on {address}", shared.site.version)));
    Ok(Running {
        shared,
        address,
        metrics,
        stop,
        runtime: Some(runtime),
        accepting: Some(accepting),
        writing: Some(writing),
    })
}

/// Begins to answer a monitor; where.
fn watched(runtime: &Runtime, shared: &Arc<Shared>, listener: TcpListener) -> std::io::Result<SocketAddr> {
    let address = listener.local_addr()?;
    runtime.spawn(monitor::serve(Arc::clone(shared), taken_over(runtime, listener)?));
    Ok(address)
}

/// A listener as the runtime takes it.
fn taken_over(runtime: &Runtime, listener: TcpListener) -> std::io::Result<tokio::net::TcpListener> {
    listener.set_nonblocking(true)?;
    let _inside = runtime.enter();
    tokio::net::TcpListener::from_std(listener)
}

fn share(
    site: Site,
    listening: SocketAddr,
    secure: bool,
    stop: watch::Receiver<bool>,
) -> Result<(Arc<Shared>, JoinHandle<()>), StartError> {
    std::fs::create_dir_all(&site.folder)?;
    handed::clear(&site.folder)?;
    let record = site.record();
    let store = Database::open(&record)?;
    if let Some(complaint) = store.quick_complaint()? {
        return Err(StartError::Store(StoreError::Damaged(complaint)));
    }
    let photos = Photos::open(&site.folder.join(PHOTOS))?;
    let news = Arc::new(News::new());
    let begun = time::now().seconds();
    let meter = Arc::new(Meter::new(&site.version, begun));
    let (writer, writing) = Writer::start(store, (Arc::clone(&news), Arc::clone(&meter)));
    let own = || format!("{}://{}", if secure { "https" } else { "http" }, reachable(listening));
    let address = site.address.clone().unwrap_or_else(own);
    let passkeys = Taking::at(&address, &site.office);
    let shared = Shared {
        site,
        writer,
        readers: Readers::new(&record),
        photos,
        news,
        meter,
        health: Health::default(),
        measuring: Arc::new(Semaphore::new(1)),
        stop,
        rates: Mutex::default(),
        comparing: Semaphore::new(COMPARING),
        changed: watch::Sender::new(()),
        refusals: Mutex::default(),
        own_keys: Mutex::default(),
        shown: Mutex::default(),
        room: Semaphore::new(ROOM_KB),
        secure,
        passkeys,
        address,
        numbers: AtomicU64::new(1),
        begun,
    };
    Ok((Arc::new(shared), writing))
}

/// An address one can go to: "everywhere" is this machine.
fn reachable(listening: SocketAddr) -> SocketAddr {
    let mut address = listening;
    if listening.ip().is_unspecified() {
        address.set_ip(std::net::Ipv4Addr::LOCALHOST.into());
    }
    address
}

impl Running {
    /// Where it listens.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// Where a monitor asks for figures, if anywhere.
    pub fn metrics(&self) -> Option<SocketAddr> {
        self.metrics
    }

    /// A handle for the machine it runs on.
    pub fn desk(&self) -> Desk {
        Desk(Arc::clone(&self.shared))
    }

    /// Hears from here on when somebody presses Ctrl-C or the system says to end. Whoever tells where the office is
    /// listens first: what comes before would end the program without a last word.
    ///
    /// # Errors
    /// When the machine does not let it listen.
    pub fn listen_for_the_end(&self) -> std::io::Result<End> {
        let _inside = self.runtime.as_ref().map(Runtime::enter);
        End::listen()
    }

    /// Waits until it was told to end, says so, then stops.
    pub fn until(self, end: End, stopping: impl FnOnce()) {
        if let Some(runtime) = &self.runtime {
            runtime.block_on(end.told());
        }
        stopping();
        self.stop();
    }

    /// Takes no more requests, ends the open ones, writes what waits, closes the database.
    pub fn stop(mut self) {
        self.end();
    }

    fn end(&mut self) {
        self.stop.send_replace(true);
        let Some(runtime) = self.runtime.take() else { return };
        self.shared.say("stopping", None);
        if let Some(accepting) = self.accepting.take() {
            // The clock of `timeout` runs only inside the runtime.
            drop(runtime.block_on(async { tokio::time::timeout(LAST_WORDS, accepting).await }));
        }
        self.shared.writer.close();
        if let Some(writing) = self.writing.take() {
            // A writer that fell has told so already; what it acknowledged is on the disk.
            drop(writing.join());
        }
        runtime.shutdown_timeout(Duration::from_secs(2));
        self.shared.readers.close();
        self.shared.say("stopped", None);
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.end();
    }
}
