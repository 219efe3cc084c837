//! The device: storage, keys, outbox, clock, the way to the office.
//!
//! An entry is the only thing that leaves a screen, and it leaves through here: signed, kept in one strict
//! transaction, and only then shown as saved. Screens read signals; a new `Arc<Record>` comes after every
//! change, whoever made it: this tab, another tab, another device.
//!
//! Words: *kept* = the browser confirmed that the transaction is on the disk; *site clock* = the time at
//! the hole, in the zone of the job.
//! Never: decide what an entry says; show as kept what is not.

mod card;
mod carrier;
mod clock;
mod database;
mod files;
mod foreseen;
mod forms;
mod keys;
mod network;
mod notices;
mod pairing;
mod photos;
mod practice;
mod seal;
mod settings;
mod shelf;
mod state;
mod stopwatch;
mod storage;
mod tabs;
mod take;
mod time;
mod version;
mod write;

pub(crate) use practice::{PACES, Practising, Wish};
pub(crate) use state::{
    Added, Hand, JobCard, Link, NotesRead, NotesWanted, Outbox, Pairing, Pending, RefusedEntry, Settings,
    Storage, Theme,
};
pub(crate) use stopwatch::{Work, timed};
pub(crate) use time::pause;

use carrier::Carrier;
use clock::MadeUp;
use database::{Database, Heard, Trouble};
use foreseen::Foresees;
use futures::channel::mpsc::UnboundedReceiver;
use futures::channel::oneshot;
use futures::future::{LocalBoxFuture, Shared};
use futures::{FutureExt, StreamExt};
use keys::Secret;
use leptos::prelude::*;
use record::Record;
use shelf::Shelf;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;
use web_sys::BroadcastChannel;
use wire::Key;
use wording::Notice;

/// The device, as every screen holds it: a handle that can be copied.
#[derive(Clone, Copy)]
pub(crate) struct Device {
    tick: RwSignal<i64>,
    jobs: RwSignal<Vec<JobCard>>,
    author: RwSignal<String>,
    settings: RwSignal<Settings>,
    outbox: RwSignal<Outbox>,
    storage: RwSignal<Storage>,
    notices: RwSignal<Vec<Notice>>,
    pairing: RwSignal<Option<Pairing>>,
    refused: RwSignal<Vec<RefusedEntry>>,
    made_up_clocks: RwSignal<BTreeMap<String, f64>>,
    version_waits: RwSignal<bool>,
    code_offered: RwSignal<Option<String>>,
    practices: RwSignal<BTreeMap<String, Practising>>,
    inner: StoredValue<Rc<Inner>, LocalStorage>,
}

/// The storage, once it is open.
struct Opened {
    database: Database,
    secret: Secret,
    /// The keys that were used; making one takes as long as signing with it.
    keys: RefCell<BTreeMap<String, Rc<Key>>>,
}

impl Opened {
    /// The key that signs entries of a job.
    fn key(&self, job: &str) -> Rc<Key> {
        let mut keys = self.keys.borrow_mut();
        let made = keys.entry(job.to_owned());
        Rc::clone(made.or_insert_with(|| Rc::new(keys::job_key(&self.secret, job))))
    }
}

type Opening = Shared<LocalBoxFuture<'static, Result<Rc<Opened>, Trouble>>>;

/// What no signal holds.
struct Inner {
    opening: Opening,
    /// What the browser tells of the open database.
    heard: Rc<Cell<Option<UnboundedReceiver<Heard>>>>,
    shelves: RefCell<BTreeMap<String, Rc<Shelf>>>,
    zones: RefCell<BTreeMap<String, notes::Zone>>,
    photo_urls: RefCell<BTreeMap<String, String>>,
    clocks: RefCell<BTreeMap<String, MadeUp>>,
    /// Ends when the clocks that were kept are read, or cannot be.
    clocks_known: Shared<oneshot::Receiver<()>>,
    tabs: RefCell<Option<BroadcastChannel>>,
    carrier: Rc<Carrier>,
    /// Entries on their way to the disk.
    writing: Cell<usize>,
    /// Who wants to know what a record will be.
    foresees: RefCell<Option<Foresees>>,
}

impl Inner {
    fn new(clocks_known: oneshot::Receiver<()>) -> Self {
        let heard = Rc::new(Cell::new(None));
        Inner {
            opening: open(Rc::clone(&heard)).boxed_local().shared(),
            heard,
            shelves: RefCell::default(),
            zones: RefCell::default(),
            photo_urls: RefCell::default(),
            clocks: RefCell::default(),
            clocks_known: clocks_known.shared(),
            tabs: RefCell::new(None),
            carrier: Rc::new(Carrier::new()),
            writing: Cell::new(0),
            foresees: RefCell::new(None),
        }
    }
}

async fn open(heard: Rc<Cell<Option<UnboundedReceiver<Heard>>>>) -> Result<Rc<Opened>, Trouble> {
    let (database, hears) = database::open().await?;
    heard.set(Some(hears));
    let secret = keys::secret(&database).await?;
    Ok(Rc::new(Opened { database, secret, keys: RefCell::default() }))
}

/// The device of this page.
pub(crate) fn use_device() -> Device {
    expect_context()
}

impl Device {
    /// Opens the device and gives it to everything below; once, at the root.
    pub(crate) fn provide() -> Device {
        let (read, clocks_known) = oneshot::channel();
        let device = Device {
            tick: RwSignal::new(time::now_seconds()),
            jobs: RwSignal::new(Vec::new()),
            author: RwSignal::new(String::new()),
            settings: RwSignal::new(Settings::default()),
            outbox: RwSignal::new(Outbox::new()),
            storage: RwSignal::new(Storage::Opening),
            notices: RwSignal::new(Vec::new()),
            pairing: RwSignal::new(None),
            refused: RwSignal::new(Vec::new()),
            made_up_clocks: RwSignal::new(BTreeMap::new()),
            version_waits: RwSignal::new(false),
            code_offered: RwSignal::new(None),
            practices: RwSignal::new(BTreeMap::new()),
            inner: StoredValue::new_local(Rc::new(Inner::new(clocks_known))),
        };
        provide_context(device);
        device.start_clock();
        device.start_versions();
        device.start_offers();
        let root = Owner::current();
        spawn_local(async move { device.start(root, read).await });
        device
    }

    /// Opens the storage, reads what was set, and begins to hear and to carry. `root` lives as long as the page;
    /// records are given to the screens once `read` is told or dropped.
    async fn start(self, root: Option<Owner>, read: oneshot::Sender<()>) {
        let started = match self.opened().await {
            Ok(_) => self.read_kept(root, read).await,
            Err(trouble) => Err(trouble),
        };
        if let Err(trouble) = started {
            self.tell_trouble(&trouble);
            return;
        }
        self.start_storage().await;
        self.start_tabs();
        self.start_carrier();
        let Some(mut heard) = self.inner().heard.take() else { return };
        while heard.next().await.is_some() {
            self.tell_trouble(&Trouble::Closed);
        }
    }

    async fn read_kept(self, root: Option<Owner>, read: oneshot::Sender<()>) -> Result<(), Trouble> {
        self.read_settings().await?;
        self.read_practices().await;
        // Nobody may wait for it yet.
        read.send(()).ok();
        let keep = || {
            self.keep_settings();
            self.keep_practices();
        };
        match root {
            Some(root) => root.with(keep),
            None => keep(),
        }
        self.read_pairing().await?;
        self.refresh_jobs().await?;
        self.refresh_outbox().await
    }

    fn inner(self) -> Rc<Inner> {
        self.inner.with_value(Rc::clone)
    }

    /// The open storage.
    async fn opened(self) -> Result<Rc<Opened>, Trouble> {
        self.inner().opening.clone().await
    }

    /// Seconds since 1970, once a second and oftener beside a made-up clock; a clock that reads it is drawn again.
    pub(crate) fn tick(self) -> RwSignal<i64> {
        self.tick
    }

    /// The jobs kept here.
    pub(crate) fn jobs(self) -> Signal<Vec<JobCard>> {
        self.jobs.into()
    }

    /// The record of a job; read from storage at the first use, `None` until then. Once it is there, `now` is the clock of
    /// the job, as far as this device knows it.
    pub(crate) fn record(self, job: &str) -> Signal<Option<Arc<Record>>> {
        let (shelf, is_new) = self.shelf(job);
        if is_new {
            let job = job.to_owned();
            spawn_local(async move {
                if let Err(trouble) = self.loaded(&job).await {
                    self.tell_trouble(&trouble);
                }
            });
        }
        shelf.signal.clone().into()
    }

    /// Who writes on this device.
    pub(crate) fn author(self) -> RwSignal<String> {
        self.author
    }

    /// How it shows and sounds; kept when changed.
    pub(crate) fn settings(self) -> RwSignal<Settings> {
        self.settings
    }

    /// What waits for the office.
    pub(crate) fn outbox(self) -> Signal<Outbox> {
        self.outbox.into()
    }

    /// How the browser keeps what is entered.
    pub(crate) fn storage(self) -> Signal<Storage> {
        self.storage.into()
    }

    /// What people have to be told; the shell shows them until they are dismissed.
    pub(crate) fn notices(self) -> RwSignal<Vec<Notice>> {
        self.notices
    }

    /// The office that knows this device.
    pub(crate) fn paired(self) -> Signal<Option<Pairing>> {
        self.pairing.into()
    }

    /// The entries the office refused, kept here and not sent again.
    pub(crate) fn refused(self) -> Signal<Vec<RefusedEntry>> {
        self.refused.into()
    }

    /// The jobs whose clock is made up, and how many of its seconds pass in one of ours: the shell says so in a banner
    /// that cannot be dismissed.
    pub(crate) fn made_up_clocks(self) -> Signal<BTreeMap<String, f64>> {
        self.made_up_clocks.into()
    }

    /// A new version of the app lies ready; `use_new_version` changes to it.
    pub(crate) fn new_version_waits(self) -> Signal<bool> {
        self.version_waits.into()
    }

    /// A pairing code that came with the address (`#pair=CODE`), to be offered at once.
    pub(crate) fn code_offered(self) -> RwSignal<Option<String>> {
        self.code_offered
    }
}
