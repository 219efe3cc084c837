//! A tablet with its disk, its clock and its pen. It carries nothing itself.

use super::disk::Disk;
use crate::moment::at;
use crate::tablet::JOB;
use quantity::Moment;
use record::{Body, DeviceId, Entry, EntryId, Held};
use sync::{Answer, Ask, FileFault, Skew, Tablet, What};
use wire::{Key, Pen, Times};

/// Whether a tablet lives to keep what it was told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It keeps it.
    Keeps,
    /// It is switched off before its disk took it, and started again.
    DiesBefore,
    /// It is switched off after its disk took it, and started again.
    DiesAfter,
}

/// A tablet in one job.
pub struct Device {
    secret: [u8; 32],
    job: String,
    /// What survives.
    pub disk: Disk,
    /// What does not.
    pub tablet: Tablet,
    /// The last entry of this device's key.
    head: Option<(u64, EntryId)>,
    /// Seconds its clock is ahead of the true time.
    pub ahead: i64,
    /// How often it was started.
    pub life: u32,
}

impl Device {
    /// A fresh tablet with the key of a number.
    pub fn new(number: u8, ahead: i64) -> Self {
        Self::of_secret([number; 32], JOB, ahead)
    }

    /// A fresh tablet with the key of 32 bytes, in a job.
    pub fn of_secret(secret: [u8; 32], job: &str, ahead: i64) -> Self {
        let disk = Disk::default();
        let own = Key::of_secret(secret).device();
        let tablet = Tablet::resume(job, own, disk.kept(), &disk.record());
        Device { secret, job: job.to_owned(), disk, tablet, head: None, ahead, life: 0 }
    }

    /// A copy of its whole disk in another tablet: what must not happen, and does.
    pub fn cloned(&self) -> Self {
        let fresh = Self::of_secret(self.secret, &self.job, self.ahead);
        let mut copy = Device { disk: self.disk.clone(), ..fresh };
        copy.restart();
        copy
    }

    /// Its public key.
    pub fn name(&self) -> DeviceId {
        Key::of_secret(self.secret).device()
    }

    /// Switched off and started again: only the disk is left.
    pub fn restart(&mut self) {
        let record = self.disk.record();
        self.tablet = Tablet::resume(&self.job, self.name(), self.disk.kept(), &record);
        assert_eq!(self.tablet.missing(), [], "what waits is on the disk");
        self.head = record.head(&self.name());
        self.life += 1;
    }

    /// Writes what was seen at a true time, as far as its fate lets it: `None` when nothing was kept, and
    /// the person was never told that it was.
    pub fn write(&mut self, seen: Moment, body: Body, fate: Fate) -> Option<Entry> {
        let key = Key::of_secret(self.secret);
        let mut pen = Pen::new(&key, &self.job, "A. Inspector", self.head);
        let here = seen.plus_seconds(self.ahead);
        let times = Times { observed_at: here, noted_at: None, entered_at: here };
        let entry = pen.write(Some("S-1"), times, body);
        if fate == Fate::DiesBefore {
            self.restart();
            return None;
        }
        let held = Held::Known(entry.clone());
        let effects = self.tablet.wrote(&held);
        self.disk.keep(&held, &self.tablet.kept());
        self.disk.keep_effects(effects, &self.tablet.kept());
        self.head = Some((entry.seq, entry.id));
        if fate == Fate::DiesAfter {
            self.restart();
        }
        Some(entry)
    }

    /// What it asks next, with the lines of a push, each ended.
    pub fn ask(&mut self) -> Option<(Ask, String)> {
        let ask = self.tablet.ask()?;
        let text = match &ask.what {
            What::Push { ids } => ids.iter().map(|id| format!("{}\n", self.disk.lines[id])).collect(),
            What::Pull { .. } => String::new(),
        };
        Some((ask, text))
    }

    /// Hears an answer, and keeps what it changes as far as its fate lets it.
    pub fn heard(&mut self, number: u64, answer: Answer, fate: Fate) {
        let effects = self.tablet.heard(number, answer);
        self.keep(effects, fate);
    }

    /// Hears what the desk holds of the job.
    pub fn desk_holds(&mut self, state: &wire::http::JobState) {
        let effects = self.tablet.desk_holds(state);
        self.keep(effects, Fate::Keeps);
    }

    fn keep(&mut self, effects: Vec<sync::Effect>, fate: Fate) {
        if fate == Fate::DiesBefore {
            return self.restart();
        }
        self.look_for_own(&effects);
        self.disk.keep_effects(effects, &self.tablet.kept());
        if fate == Fate::DiesAfter {
            self.restart();
        }
    }

    /// Entries of its own key that come from elsewhere: the pen goes on after them.
    fn look_for_own(&mut self, effects: &[sync::Effect]) {
        let own = self.name();
        for effect in effects {
            let sync::Effect::Keep { entries, .. } = effect else { continue };
            let heads = entries.iter().map(|arrived| (arrived.held.place(), arrived.held.id()));
            let mine = heads.filter(|((device, _), _)| *device == own).map(|((_, seq), id)| (seq, id)).max();
            self.head = self.head.max(mine);
        }
    }

    /// Its record as a file.
    pub fn file(&self) -> String {
        wire::write_lines(&self.disk.record())
    }

    /// Reads a record file in. How many entries it added.
    ///
    /// # Errors
    /// Why nothing was taken in.
    pub fn read_file(&mut self, text: &str) -> Result<usize, FileFault> {
        let read = self.tablet.read_file(text)?;
        let entries = read.new;
        let new = entries.len();
        let mut effects = vec![sync::Effect::Keep { entries, cursor: self.tablet.kept().cursor }];
        effects.extend(read.effects);
        self.keep(effects, Fate::Keeps);
        Ok(new)
    }

    /// What it finds out of its clock when the desk's says `desk` at the true time `now`.
    pub fn skew(&self, now: Moment, desk: Moment) -> Option<Skew> {
        let here = now.plus_seconds(self.ahead).seconds();
        Skew::between(here, here, desk.seconds())
    }
}

/// The first moment of a made-up day at work.
pub(super) fn morning() -> Moment {
    at("06:30")
}
