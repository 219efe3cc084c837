//! What open screens are told: a job has something new.
//!
//! The writer tells at once what came through it. What another program wrote into the same database is found by looking:
//! every two seconds, and at once where the database says that something was written (LISTEN and NOTIFY).

use crate::running::{Shared, waiting};
use crate::tally;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError, Weak};
use std::time::Duration;
use store::{Address, Listener, StoreError, Told};
use tokio::sync::{Notify, broadcast};
use wire::http::Arrived;

/// News that may wait for one slow screen; it is told to look at every job when it missed some.
const WAITING: usize = 256;

/// Between two looks at what another program may have written.
const LOOK: Duration = Duration::from_secs(2);

/// How long a word of the database is waited for at a time, and how long until a broken line is tried again.
const WORD: Duration = Duration::from_millis(500);

/// Where news are told, each once.
pub(crate) struct News {
    /// Something was written: it is looked at once.
    written: Notify,
    screens: broadcast::Sender<Arrived>,
    told: Mutex<BTreeMap<String, u64>>,
}

impl News {
    pub(crate) fn new() -> Self {
        News { written: Notify::new(), screens: broadcast::channel(WAITING).0, told: Mutex::default() }
    }

    /// News from now on.
    pub(crate) fn listen(&self) -> broadcast::Receiver<Arrived> {
        self.screens.subscribe()
    }

    /// Tells every open screen where a job is now, unless it was told.
    pub(crate) fn tell(&self, job: &str, cursor: u64) {
        let mut told = self.told.lock().unwrap_or_else(PoisonError::into_inner);
        let before = told.insert(job.to_owned(), cursor).unwrap_or_default();
        if before < cursor {
            // Nobody listening is no error.
            drop(self.screens.send(Arrived { job: job.to_owned(), cursor }));
        } else {
            told.insert(job.to_owned(), before);
        }
    }
}

/// Looks for what other programs write or hand over, until the server is to stop.
pub(crate) async fn look(shared: Arc<Shared>) {
    let mut stop = shared.stop.clone();
    loop {
        let looking = Arc::clone(&shared);
        let jobs = waiting(move || {
            looking.take_handed();
            looking.readers.with(tally::jobs)
        })
        .await;
        // A store that cannot be read has no news; whoever asks it is told why.
        for job in jobs.unwrap_or_default() {
            shared.news.tell(&job.job, job.cursor);
        }
        tokio::select! {
            () = tokio::time::sleep(LOOK) => {}
            () = shared.news.written.notified() => {}
            _ = stop.wait_for(|stop| *stop) => return,
        }
    }
}

/// Listens on a thread of its own to what other programs write to the same database, until the server is gone.
pub(crate) fn listen(shared: Weak<Shared>, address: Address) {
    let mut line = None;
    while let Some(shared) = shared.upgrade() {
        if *shared.stop.borrow() {
            return;
        }
        let heard = match line.take().map_or_else(|| address.listener().transpose(), |line| Ok(Some(line))) {
            Ok(None) => return,
            Ok(Some(mut listening)) => hear(&mut listening, &shared).map(|()| line = Some(listening)),
            Err(error) => Err(error),
        };
        if heard.is_err() {
            // Until it is there again, what others write is found by looking.
            std::thread::sleep(WORD);
        }
    }
}

fn hear(line: &mut Listener, shared: &Shared) -> Result<(), StoreError> {
    match line.wait(WORD)? {
        Some(Told::Arrived) => shared.news.written.notify_one(),
        Some(Told::Rights) => shared.close_open_lines(),
        None => {}
    }
    Ok(())
}
