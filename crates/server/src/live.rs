//! What open screens are told: a job has something new.
//!
//! The writer tells at once what came through it. What another program wrote into the same folder is found
//! by looking every two seconds.

use crate::running::{Shared, waiting};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;
use tokio::sync::broadcast;
use wire::http::Arrived;

/// News that may wait for one slow screen; it is told to look at every job when it missed some.
const WAITING: usize = 256;

/// Between two looks at what another program may have written.
const LOOK: Duration = Duration::from_secs(2);

/// Where news are told, each once.
pub(crate) struct News {
    screens: broadcast::Sender<Arrived>,
    told: Mutex<BTreeMap<String, u64>>,
}

impl News {
    pub(crate) fn new() -> Self {
        News { screens: broadcast::channel(WAITING).0, told: Mutex::default() }
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
            looking.readers.with(|store| looking.tally.jobs(store))
        })
        .await;
        // A store that cannot be read has no news; whoever asks it is told why.
        for job in jobs.unwrap_or_default() {
            shared.news.tell(&job.job, job.cursor);
        }
        tokio::select! {
            () = tokio::time::sleep(LOOK) => {}
            _ = stop.wait_for(|stop| *stop) => return,
        }
    }
}
