//! What open screens are told: a job has something new.

use tokio::sync::broadcast;
use wire::http::Arrived;

/// News that may wait for one slow screen; it is told to look at every job when it missed some.
const WAITING: usize = 256;

/// Where news are told.
pub(crate) fn channel() -> broadcast::Sender<Arrived> {
    broadcast::channel(WAITING).0
}
