//! Practice for a trainee: a made-up pour plays beside the ordinary screens of its job.
//!
//! The trainee reads drawn instruments and papers, answers what the crew asks, and writes everything with the
//! ordinary forms into a record of its own. At the end the truth is laid beside it.
//!
//! Words: *hole* = the screen of what is to be read and answered; *beside* = what there is to read, above its form; *clock bar* = the clock of a practice with its
//! keys, on every screen of its job.
//! Never: show the truth before the practice was ended.

mod asked;
mod begin;
mod beside;
mod clock;
mod debrief;
mod hole;
mod sights;
mod tape;
mod there;

pub(super) use begin::PractiseScreen;
pub(super) use beside::Beside;
pub(super) use clock::ClockBar;
pub(super) use debrief::DebriefPage;
pub(super) use hole::HoleScreen;
pub(super) use there::{BesideThere, ClockBarThere};

use super::paths;
use crate::device::{Device, Practising, use_device};
use leptos::prelude::*;
use quantity::Moment;

/// The practice a screen is about.
#[derive(Clone, Copy)]
struct Played {
    device: Device,
    job: Memo<String>,
}

impl Played {
    /// That of the address.
    fn here() -> Self {
        let place = paths::place();
        Played { device: use_device(), job: Memo::new(move |_| place.get().job.unwrap_or_default()) }
    }

    /// As it is now, followed second by second; `None` where the job is no practice.
    fn one(self) -> Option<Practising> {
        self.device.tick().track();
        self.device.practice(&self.job.get())
    }

    /// A part of it that changes by itself only.
    fn part<T>(self, of: impl Fn(&Practising) -> T + Send + Sync + 'static) -> Memo<T>
    where
        T: Default + PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.one().as_ref().map(&of).unwrap_or_default())
    }

    /// Changes it.
    fn change(self, change: impl FnOnce(&mut Practising)) {
        self.device.practise(&self.job.get_untracked(), change);
    }

    /// What its clock shows, for what happens at a tap.
    fn now(self) -> Moment {
        self.device.now(&self.job.get_untracked())
    }
}
