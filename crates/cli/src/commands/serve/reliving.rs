//! Feeds a day that is lived through again to a running office, one step at a time.

use crate::relive::Step;
use record::Held;
use server::{Desk, NotWritten};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};
use wire::http::SiteClock;

/// The clock of a site, started.
#[derive(Debug, Clone)]
pub(super) struct Started {
    clock: SiteClock,
    begun: Instant,
}

impl Started {
    /// Starts a clock.
    pub(super) fn now(clock: SiteClock) -> Self {
        Started { clock, begun: Instant::now() }
    }

    /// The clock as the office shows it to everybody.
    pub(super) fn shown(self) -> server::Clock {
        Arc::new(move || self.clock.later(self.begun.elapsed()))
    }

    fn wait_for(&self, step: &Step) -> Duration {
        self.clock.wait_for(step.at).saturating_sub(self.begun.elapsed())
    }
}

/// A thread that brings the steps; it ends when this is stopped, or with the last step.
pub(super) struct Feed {
    stop: Sender<()>,
    thread: JoinHandle<()>,
}

impl Feed {
    /// Starts to bring steps as the clock passes them.
    pub(super) fn start(steps: Vec<Step>, clock: Started, desk: Desk) -> Self {
        let (stop, stopped) = channel();
        let thread = std::thread::spawn(move || feed(steps, clock, &desk, &stopped));
        Feed { stop, thread }
    }

    /// Stops, and waits for the step that is under way.
    pub(super) fn stop(self) {
        drop(self.stop);
        // A feed that failed has said so; there is nobody else to tell.
        let _ = self.thread.join();
    }
}

fn feed(steps: Vec<Step>, clock: Started, desk: &Desk, stopped: &Receiver<()>) {
    for step in steps {
        if stopped.recv_timeout(clock.wait_for(&step)) != Err(RecvTimeoutError::Timeout) {
            return;
        }
        match desk.add(&[Held::Known(step.entry)]) {
            Ok(_) => {}
            // Whoever stops the office stops the day.
            Err(NotWritten::Stopping) => return,
            Err(error) => {
                crate::problem::warn(&format!("The day cannot be lived through any further: {error}."));
                return;
            }
        }
    }
}
