//! The one writer: requests queue, everything that waits goes into one commit, then all are answered.
//!
//! A commit costs a wait for the disk however much is in it. Two hundred tablets that each send a few
//! entries a second share it, and none is told "stored" before the disk has it.
//!
//! Words: *task* = what one request wants written.
//! Never: answer before the commit.

use crate::live::News;
use crate::meter::Meter;
use std::collections::BTreeMap;
use std::sync::mpsc::{Receiver, SyncSender, TrySendError, sync_channel};
use std::sync::{Arc, PoisonError, RwLock};
use std::thread::JoinHandle;
use std::time::Instant;
use store::{Database, Kept, Line, Store, StoreError};
use tokio::sync::oneshot;

/// Requests that may wait; one more is told to come again.
const QUEUE: usize = 4096;

/// Lines after which a commit is begun although more wait.
const LINES_MAX: usize = 20_000;

/// What becomes of a request's lines; an error of the commit is everybody's who was in it.
type Reply = Result<Vec<Kept>, Arc<StoreError>>;

/// Why a request was not written.
#[derive(Debug, Clone)]
pub enum NotWritten {
    /// Too many wait already.
    Busy,
    /// The writer is gone: the server is stopping.
    Stopping,
    /// The store refused.
    Store(Arc<StoreError>),
    /// This machine gave no random bytes.
    Chance(getrandom::Error),
}

impl std::fmt::Display for NotWritten {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NotWritten::Busy => write!(f, "more is waiting to be written than can be held"),
            NotWritten::Stopping => write!(f, "the server is being stopped"),
            NotWritten::Store(error) => error.fmt(f),
            NotWritten::Chance(error) => write!(f, "this machine gave no random bytes: {error}"),
        }
    }
}

impl std::error::Error for NotWritten {}

/// Who is told what was written, and how long it took.
type Told = (Arc<News>, Arc<Meter>);

enum Task {
    Lines(Vec<Line>, oneshot::Sender<Reply>),
    Other(Box<dyn FnOnce(&mut Database) + Send>),
}

/// The queue in front of the writer.
pub(crate) struct Writer {
    queue: RwLock<Option<SyncSender<Task>>>,
}

impl Writer {
    /// Starts the writer on a thread of its own; it ends when the queue is closed.
    pub(crate) fn start(store: Database, told: Told) -> (Self, JoinHandle<()>) {
        let (queue, tasks) = sync_channel(QUEUE);
        let thread = std::thread::spawn(move || work(store, &tasks, &told));
        (Writer { queue: RwLock::new(Some(queue)) }, thread)
    }

    /// Takes nothing more in; what waits is written.
    pub(crate) fn close(&self) {
        self.queue.write().unwrap_or_else(PoisonError::into_inner).take();
    }

    /// Keeps lines and tells, once they are on the disk, what became of each.
    pub(crate) async fn add(&self, lines: Vec<Line>) -> Result<Vec<Kept>, NotWritten> {
        let (reply, answer) = oneshot::channel();
        self.send(Task::Lines(lines, reply))?;
        answer.await.map_err(|_| NotWritten::Stopping)?.map_err(NotWritten::Store)
    }

    /// The same for a thread that may wait.
    pub(crate) fn add_waiting(&self, lines: Vec<Line>) -> Result<Vec<Kept>, NotWritten> {
        let (reply, answer) = oneshot::channel();
        self.send(Task::Lines(lines, reply))?;
        answer.blocking_recv().map_err(|_| NotWritten::Stopping)?.map_err(NotWritten::Store)
    }

    /// Does something else with the store, in turn.
    pub(crate) async fn ask<T, F>(&self, question: F) -> Result<T, NotWritten>
    where
        T: Send + 'static,
        F: FnOnce(&mut Database) -> Result<T, StoreError> + Send + 'static,
    {
        let (reply, answer) = oneshot::channel();
        self.send(Task::Other(Box::new(move |store| drop(reply.send(question(store))))))?;
        answer.await.map_err(|_| NotWritten::Stopping)?.map_err(|error| NotWritten::Store(Arc::new(error)))
    }

    /// The same for a thread that may wait.
    pub(crate) fn ask_waiting<T, F>(&self, question: F) -> Result<T, NotWritten>
    where
        T: Send + 'static,
        F: FnOnce(&mut Database) -> Result<T, StoreError> + Send + 'static,
    {
        let (reply, answer) = oneshot::channel();
        self.send(Task::Other(Box::new(move |store| drop(reply.send(question(store))))))?;
        let answer = answer.blocking_recv().map_err(|_| NotWritten::Stopping)?;
        answer.map_err(|error| NotWritten::Store(Arc::new(error)))
    }

    fn send(&self, task: Task) -> Result<(), NotWritten> {
        let queue = self.queue.read().unwrap_or_else(PoisonError::into_inner);
        queue.as_ref().ok_or(NotWritten::Stopping)?.try_send(task).map_err(|error| match error {
            TrySendError::Full(_) => NotWritten::Busy,
            TrySendError::Disconnected(_) => NotWritten::Stopping,
        })
    }
}

/// What waits for one commit: each request's lines, and who is to be told.
#[derive(Default)]
struct Group {
    lines: Vec<Line>,
    asked: Vec<(usize, oneshot::Sender<Reply>)>,
}

impl Group {
    fn take(&mut self, lines: Vec<Line>, reply: oneshot::Sender<Reply>) {
        self.asked.push((lines.len(), reply));
        self.lines.extend(lines);
    }

    fn commit(&mut self, store: &mut Database, told: &Told) {
        if self.asked.is_empty() {
            return;
        }
        let Group { lines, asked } = std::mem::take(self);
        let (begun, (news, meter)) = (Instant::now(), told);
        let done = store.add_lines(&lines);
        meter.wrote("entries", begun.elapsed());
        match done {
            Ok(kept) => {
                tell(&lines, &kept, news);
                answer(asked, kept);
            }
            // One line the database cannot take shall not keep the others out.
            Err(StoreError::Database(_)) if asked.len() > 1 => one_by_one(lines, asked, (store, told)),
            Err(error) => {
                meter.failed();
                fail(asked, error);
            }
        }
    }
}

/// Each request in a commit of its own.
fn one_by_one(
    mut lines: Vec<Line>,
    asked: Vec<(usize, oneshot::Sender<Reply>)>,
    (store, told): (&mut Database, &Told),
) {
    for (count, reply) in asked {
        let rest = lines.split_off(count);
        let mut alone = Group::default();
        alone.take(std::mem::replace(&mut lines, rest), reply);
        alone.commit(store, told);
    }
}

fn fail(asked: Vec<(usize, oneshot::Sender<Reply>)>, error: StoreError) {
    let error = Arc::new(error);
    for (_, reply) in asked {
        drop(reply.send(Err(Arc::clone(&error))));
    }
}

fn answer(asked: Vec<(usize, oneshot::Sender<Reply>)>, mut kept: Vec<Kept>) {
    for (count, reply) in asked {
        let rest = kept.split_off(count);
        // Whoever asked may have gone away; what it sent is kept all the same.
        drop(reply.send(Ok(std::mem::replace(&mut kept, rest))));
    }
}

/// Tells open screens of each job that has something new.
fn tell(lines: &[Line], kept: &[Kept], news: &News) {
    let mut jobs: BTreeMap<&str, i64> = BTreeMap::new();
    for (line, kept) in lines.iter().zip(kept) {
        if let Kept::New(arrival) = kept {
            jobs.insert(line.job(), *arrival);
        }
    }
    for (job, cursor) in jobs {
        news.tell(job, cursor.unsigned_abs());
    }
}

fn work(mut store: Database, tasks: &Receiver<Task>, told: &Told) {
    while let Ok(first) = tasks.recv() {
        let mut group = Group::default();
        let mut next = Some(first);
        while let Some(task) = next {
            match task {
                Task::Lines(lines, reply) => group.take(lines, reply),
                Task::Other(other) => {
                    // In turn: what came before it is written before it.
                    group.commit(&mut store, told);
                    let begun = Instant::now();
                    other(&mut store);
                    told.1.wrote("other", begun.elapsed());
                }
            }
            next = if group.lines.len() < LINES_MAX { tasks.try_recv().ok() } else { None };
        }
        group.commit(&mut store, told);
    }
}
