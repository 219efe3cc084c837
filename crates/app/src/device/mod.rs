//! The device: storage, keys, outbox, clock, the way to the office.
//!
//! An entry is the only thing that leaves a screen, and it leaves through here: signed, kept in one strict
//! transaction, and only then shown as saved. Screens read signals; a new `Arc<Record>` comes after every
//! change, whoever made it: this tab, another tab, another device.
//!
//! Words: *kept* = the browser confirmed that the transaction is on the disk; *site clock* = the time at
//! the hole, in the zone of the job.
//! Never: decide what an entry says; show as kept what is not.

mod state;

pub(crate) use state::{
    Added, Demonstration, Hand, JobCard, Link, NotesFile, NotesRead, Outbox, Pairing, Pending, RefusedEntry,
    Settings, Storage, Theme,
};

use leptos::prelude::*;
use quantity::Moment;
use record::kinds::JobOpened;
use record::{Body, EntryId, Held, Record};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;
use wire::{Key, Pen, Times};
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
    demonstration: RwSignal<Option<Demonstration>>,
    version_waits: RwSignal<bool>,
    code_offered: RwSignal<Option<String>>,
    inner: StoredValue<Rc<Inner>, LocalStorage>,
}

/// What no signal holds.
struct Inner {
    records: RefCell<BTreeMap<String, ArcRwSignal<Option<Arc<Record>>>>>,
    forms: RefCell<BTreeMap<String, String>>,
    secret: [u8; 32],
}

/// The device of this page.
pub(crate) fn use_device() -> Device {
    expect_context()
}

impl Device {
    /// Opens the device and gives it to everything below; once, at the root.
    pub(crate) fn provide() -> Device {
        let mut secret = [0; 32];
        getrandom::fill(&mut secret).expect("a browser has a source of chance");
        let inner = Inner { records: RefCell::default(), forms: RefCell::default(), secret };
        let device = Device {
            tick: RwSignal::new(seconds()),
            jobs: RwSignal::new(Vec::new()),
            author: RwSignal::new(String::new()),
            settings: RwSignal::new(Settings::default()),
            outbox: RwSignal::new(Outbox {
                waiting: 0,
                since: None,
                photos: 0,
                refused: 0,
                link: Link::NeverPaired,
            }),
            storage: RwSignal::new(Storage::Opening),
            notices: RwSignal::new(Vec::new()),
            pairing: RwSignal::new(None),
            refused: RwSignal::new(Vec::new()),
            demonstration: RwSignal::new(None),
            version_waits: RwSignal::new(false),
            code_offered: RwSignal::new(None),
            inner: StoredValue::new_local(Rc::new(inner)),
        };
        provide_context(device);
        device
    }

    /// The site clock of a job. Not tracked: read `tick` to be called again.
    pub(crate) fn now(self, _job: &str) -> Moment {
        Moment::at(seconds(), 0)
    }

    /// Seconds since 1970 on the site clock, once a second; a clock that reads it is drawn again.
    pub(crate) fn tick(self) -> RwSignal<i64> {
        self.tick
    }

    /// The jobs kept here.
    pub(crate) fn jobs(self) -> Signal<Vec<JobCard>> {
        self.jobs.into()
    }

    /// The record of a job; read from storage at the first use, `None` until then.
    pub(crate) fn record(self, job: &str) -> Signal<Option<Arc<Record>>> {
        self.record_signal(job).into()
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

    /// Time runs faster: the shell says so in a banner that cannot be dismissed.
    pub(crate) fn demonstration(self) -> Signal<Option<Demonstration>> {
        self.demonstration.into()
    }

    /// A new version of the app lies ready; `use_new_version` changes to it.
    pub(crate) fn new_version_waits(self) -> Signal<bool> {
        self.version_waits.into()
    }

    /// A pairing code that came with the address (`#pair=CODE`), to be offered at once.
    pub(crate) fn code_offered(self) -> RwSignal<Option<String>> {
        self.code_offered
    }

    /// Signs and keeps an entry. When this gives its id, it is on the disk.
    ///
    /// # Errors
    /// It could not be kept; the form must keep what was entered.
    pub(crate) async fn write(self, pending: Pending) -> Result<EntryId, Notice> {
        let job = pending.job.clone();
        Ok(self.sign(&job, vec![pending])?[0])
    }

    /// Signs and keeps entries of one job: all or none.
    ///
    /// # Errors
    /// They could not be kept; none of them is.
    pub(crate) async fn write_all(self, job: &str, pending: Vec<Pending>) -> Result<usize, Notice> {
        Ok(self.sign(job, pending)?.len())
    }

    /// Opens a job on this device.
    ///
    /// # Errors
    /// The name is taken or not one; it could not be kept.
    pub(crate) async fn begin_job(self, job: &str, opened: JobOpened) -> Result<EntryId, Notice> {
        let observed_at = self.now(job);
        let body = Body::JobOpened(opened);
        self.write(Pending { job: job.to_owned(), shaft: None, observed_at, noted_at: None, body }).await
    }

    /// The record of a job as the text of a file, one entry a line.
    pub(crate) fn lines_of(self, job: &str) -> String {
        self.record_signal(job).get_untracked().map_or_else(String::new, |record| wire::write_lines(&record))
    }

    /// Keeps a form that is half filled in.
    pub(crate) async fn keep_form(self, key: &str, text: &str) {
        self.inner.with_value(|inner| inner.forms.borrow_mut().insert(key.to_owned(), text.to_owned()));
    }

    /// A form that was half filled in.
    pub(crate) async fn kept_form(self, key: &str) -> Option<String> {
        self.inner.with_value(|inner| inner.forms.borrow().get(key).cloned())
    }

    /// Forgets a form: it was saved or given up.
    pub(crate) async fn drop_form(self, key: &str) {
        self.inner.with_value(|inner| inner.forms.borrow_mut().remove(key));
    }

    /// Reads a file of signed entries in: all of it or nothing.
    ///
    /// # Errors
    /// A line is no entry, or an entry of another job than the rest; nothing was kept.
    pub(crate) async fn read_lines(self, _text: String) -> Result<Added, Notice> {
        Err(absent("Reading a file"))
    }

    /// Reads field notes or a table into drafts, and says how many of them the record has already. Nothing is
    /// kept until `enter_notes`.
    ///
    /// # Errors
    /// Every mistake of the file, each with its place.
    pub(crate) fn read_notes(self, file: &NotesFile<'_>) -> Result<NotesRead, Vec<String>> {
        Err(vec![format!("{} cannot be read here.", file.name)])
    }

    /// Signs and keeps what notes gave: all or none.
    ///
    /// # Errors
    /// They could not be kept; none of them is.
    pub(crate) async fn enter_notes(self, _read: NotesRead) -> Result<usize, Notice> {
        Err(absent("Entering notes"))
    }

    /// Keeps a photo; the name it is known by from then on is the SHA-256 of its bytes, in hexadecimal.
    ///
    /// # Errors
    /// It could not be kept.
    pub(crate) async fn keep_photo(self, _bytes: Vec<u8>, _media: String) -> Result<String, Notice> {
        Err(absent("Keeping a photo"))
    }

    /// An address of a photo that an image can show; `None` when it is neither here nor at the office.
    pub(crate) async fn photo_url(self, _hash: &str) -> Option<String> {
        None
    }

    /// Makes this device known to the office that showed the code; `name` is what the office calls it.
    ///
    /// # Errors
    /// The code is wrong or too old, or the office cannot be reached.
    pub(crate) async fn pair(self, _code: &str, _name: &str) -> Result<(), Notice> {
        Err(absent("Pairing"))
    }

    /// Tries to reach the office at once.
    pub(crate) fn sync_now(self) {}

    /// Changes to the version of the app that lies ready; the page is loaded again.
    pub(crate) fn use_new_version(self) {}

    fn record_signal(self, job: &str) -> ArcRwSignal<Option<Arc<Record>>> {
        self.inner.with_value(|inner| {
            let mut records = inner.records.borrow_mut();
            let empty = || ArcRwSignal::new(Some(Arc::new(Record::new())));
            records.entry(job.to_owned()).or_insert_with(empty).clone()
        })
    }

    fn sign(self, job: &str, pending: Vec<Pending>) -> Result<Vec<EntryId>, Notice> {
        let key = Key::of_secret(self.inner.with_value(|inner| inner.secret));
        let signal = self.record_signal(job);
        let record = signal.get_untracked().unwrap_or_default();
        let mut pen = Pen::new(&key, job, &self.author.get_untracked(), record.head(&key.device()));
        let entered_at = self.now(job);
        let entries: Vec<_> = pending
            .into_iter()
            .map(|pending| {
                let times =
                    Times { observed_at: pending.observed_at, noted_at: pending.noted_at, entered_at };
                pen.write(pending.shaft.as_deref(), times, pending.body)
            })
            .collect();
        let ids = entries.iter().map(|entry| entry.id).collect();
        let added = Record::of(entries.into_iter().map(Held::Known)).and_then(|more| record.merge(&more));
        signal.set(Some(Arc::new(added.map_err(|error| Notice {
            code: "other_job",
            what: format!("{error}."),
            meaning: "Nothing was kept.".to_owned(),
            next: "Open the job again.".to_owned(),
        })?)));
        Ok(ids)
    }
}

fn absent(what: &str) -> Notice {
    Notice {
        code: "not_here_yet",
        what: format!("{what} is not possible yet."),
        meaning: "Nothing was kept.".to_owned(),
        next: "Use the program at the desk.".to_owned(),
    }
}

/// The browser's clock: seconds since 1970.
fn seconds() -> i64 {
    (js_sys::Date::now() / 1000.0).floor() as i64
}
