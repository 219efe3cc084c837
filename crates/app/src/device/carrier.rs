//! The carrier between the tablets of `sync` and the office: when it goes, what it carries, what it keeps.
//!
//! One tab carries at a time. What an answer changes is kept in one transaction, row by row, so that what
//! another tab wrote meanwhile stays; after trouble the tablets are taken up again from what is kept.
//!
//! Words: *round* = one way to the office and back, for every job that needs it.
//! Never: take an entry from those that wait before the office said it is stored.

mod keep;
mod live;
mod round;

use super::Device;
use super::database::Trouble;
use super::network;
use super::tabs::is_in_front;
use super::time::{now_ms, on_document, on_window, pause};
use futures::channel::mpsc::{UnboundedReceiver, UnboundedSender, unbounded};
use futures::future::select;
use futures::{FutureExt, StreamExt};
use quantity::Moment;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::pin::pin;
use std::rc::Rc;
use sync::Tablet;
use wasm_bindgen_futures::spawn_local;

/// The lock under which one tab carries.
const ERRAND: &str = "shaftbook-carrier";
/// With nothing to do, the office is looked up this often.
const LOOK_MS: u32 = 60_000;
/// While another tab carries, this one asks again after this time.
const TURN_MS: u32 = 2_000;

/// The state of the carrier of this tab.
pub(super) struct Carrier {
    wakes: UnboundedSender<()>,
    woken: Cell<Option<UnboundedReceiver<()>>>,
    tablets: RefCell<BTreeMap<String, Tablet>>,
    /// Jobs the office told of, with the arrival number of their last entry.
    arrived: RefCell<BTreeMap<String, u64>>,
    /// Jobs whose lines of doubt, copies or losses were told already.
    told: RefCell<BTreeSet<String>>,
    failures: Cell<u32>,
    silent_since: Cell<Option<Moment>>,
    /// When the office was last asked what it holds, milliseconds since 1970.
    asked_ms: Cell<f64>,
    /// The next round asks everything.
    whole: Cell<bool>,
    live: RefCell<Option<live::Live>>,
}

impl Carrier {
    pub(super) fn new() -> Self {
        let (wakes, woken) = unbounded();
        Carrier {
            wakes,
            woken: Cell::new(Some(woken)),
            tablets: RefCell::default(),
            arrived: RefCell::default(),
            told: RefCell::default(),
            failures: Cell::new(0),
            silent_since: Cell::new(None),
            asked_ms: Cell::new(0.0),
            whole: Cell::new(true),
            live: RefCell::default(),
        }
    }

    fn wake(&self) {
        // The loop lives as long as the page.
        self.wakes.unbounded_send(()).ok();
    }

    /// The device was made known to an office: whatever failed before counts no more.
    pub(super) fn paired_anew(&self) {
        self.tablets.borrow_mut().clear();
        self.failures.set(0);
        self.live.borrow_mut().take();
    }
}

impl Device {
    pub(super) fn carrier(self) -> Rc<Carrier> {
        Rc::clone(&self.inner().carrier)
    }

    /// Something was kept: it may be carried.
    pub(super) fn wake(self) {
        self.carrier().wake();
    }

    /// Tries to reach the office at once.
    pub(crate) fn sync_now(self) {
        let carrier = self.carrier();
        carrier.failures.set(0);
        carrier.whole.set(true);
        carrier.wake();
    }

    /// Begins to carry.
    pub(super) fn start_carrier(self) {
        on_window("online", move || self.sync_now());
        on_document("visibilitychange", move || {
            if is_in_front() {
                spawn_local(async move {
                    self.refresh_all().await;
                    self.sync_now();
                });
            } else {
                self.carrier().live.borrow_mut().take();
            }
        });
        spawn_local(self.carry());
    }

    /// Rounds without end: at once after a wake, else after a wait.
    async fn carry(self) {
        let carrier = self.carrier();
        let Some(mut woken) = carrier.woken.take() else { return };
        loop {
            let wait = self.round_alone().await;
            let rests = carrier.failures.get() > 0;
            let pause = pause(wait).fuse();
            if rests {
                // A desk that is down is not asked at every entry; "now" and "online" end the rest.
                let mut pause = pin!(pause);
                loop {
                    let woke = select(&mut pause, woken.next()).await;
                    let ended = matches!(woke, futures::future::Either::Left(_));
                    if ended || carrier.failures.get() == 0 {
                        break;
                    }
                }
            } else {
                select(pin!(pause), woken.next()).await;
            }
            while woken.try_recv().is_ok() {}
        }
    }

    /// One round, unless another tab is at it; milliseconds until the next.
    async fn round_alone(self) -> u32 {
        let Some(alone) = network::alone(ERRAND).await else { return TURN_MS };
        let carried = self.round().await;
        drop(alone);
        match carried {
            Ok(wait) => wait,
            Err(trouble) => {
                self.carrier().tablets.borrow_mut().clear();
                self.stumble(&trouble);
                LOOK_MS
            }
        }
    }

    fn stumble(self, trouble: &Trouble) {
        self.tell_trouble(trouble);
    }
}

/// Milliseconds since a moment.
fn since_ms(then: f64) -> f64 {
    now_ms() - then
}
