//! Tablets, a desk, and everything that goes wrong between them, drawn from a seed.

use super::device::{Device, Fate, morning};
use super::dice::Dice;
use super::shelf::MemoryShelf;
use crate::body::body;
use quantity::Moment;
use record::EntryId;
use std::collections::BTreeSet;
use sync::desk::{self, Shelf};
use sync::{Answer, Ask, What};
use wire::http::{Code, Refusal};

/// What may happen in a world.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Plan {
    /// Tablets at the beginning.
    pub tablets: u8,
    /// Entries written in all.
    pub entries: usize,
    /// Things that happen.
    pub steps: usize,
    /// Of a hundred letters, how many are lost, and how many come twice.
    pub bad_wire: u32,
    /// Of a hundred steps, how many are a tablet or the desk switched off.
    pub deaths: u32,
    /// A tablet is copied while the work goes on.
    pub clones: bool,
    /// A backup is put in place at the desk while the work goes on.
    pub set_backs: bool,
    /// Letters and files are damaged on their way.
    pub damage: bool,
}

/// A question or an answer on its way, to or from a life of a tablet.
#[derive(Debug, Clone)]
struct Letter {
    tablet: usize,
    life: u32,
    content: Content,
}

#[derive(Debug, Clone)]
enum Content {
    Question(Ask, String),
    Answer(u64, Answer),
}

/// The largest push the desk takes, bytes: small, so that the tablets have to go below it.
const PUSH_BYTES: usize = 4_000;

/// Tablets and a desk.
pub struct World {
    plan: Plan,
    dice: Dice,
    now: Moment,
    /// The tablets; copies come last.
    pub tablets: Vec<Device>,
    /// The desk.
    pub desk: MemoryShelf,
    letters: Vec<Letter>,
    /// Every entry a person was shown as saved.
    pub written: BTreeSet<EntryId>,
    /// A backup was put in place.
    pub was_set_back: bool,
}

impl World {
    /// A world before anything happened. Every tablet's clock is off, one of them by ten years.
    pub fn new(seed: u64, plan: Plan) -> Self {
        let mut dice = Dice::of_seed(seed);
        let ten_years = 315_360_000;
        let mut ahead = |number: u8| if number == 1 { ten_years } else { dice.below(14_400) as i64 - 7_200 };
        let tablets = (1..=plan.tablets).map(|number| Device::new(number, ahead(number))).collect();
        World {
            plan,
            dice,
            now: morning(),
            tablets,
            desk: MemoryShelf::default(),
            letters: Vec::new(),
            written: BTreeSet::new(),
            was_set_back: false,
        }
    }

    /// Everything the plan holds, one thing after the other; after each, what must always be true is looked at.
    pub fn run(&mut self) {
        for _ in 0..self.plan.steps {
            self.now = self.now.plus_seconds(20);
            self.step();
            self.look_at_promises();
        }
    }

    fn step(&mut self) {
        let chosen = self.dice.below(self.tablets.len());
        if self.dice.percent(self.plan.deaths) {
            return self.die(chosen);
        }
        match self.dice.below(100) {
            0..25 => self.write(chosen),
            25..55 => self.ask(chosen),
            55..88 => self.carry(),
            88..91 => self.give_up(chosen),
            91..93 => self.desk.full = self.dice.percent(50),
            93..96 => self.exchange(chosen),
            96..98 => self.tablets[chosen].tablet.look(),
            _ => self.mischief(chosen),
        }
    }

    fn fate(&mut self) -> Fate {
        match self.dice.below(40) {
            0 => Fate::DiesBefore,
            1 => Fate::DiesAfter,
            _ => Fate::Keeps,
        }
    }

    fn write(&mut self, chosen: usize) {
        if self.written.len() >= self.plan.entries {
            return;
        }
        let words = "seen ".repeat(1 + self.dice.below(120));
        let (fate, now) = (self.fate(), self.now);
        let written = self.tablets[chosen].write(now, body("remark", &[("text", words.trim())]), fate);
        self.written.extend(written.map(|entry| entry.id));
    }

    fn ask(&mut self, chosen: usize) {
        let device = &mut self.tablets[chosen];
        if let Some((ask, text)) = device.ask() {
            let content = Content::Question(ask, text);
            self.letters.push(Letter { tablet: chosen, life: device.life, content });
        }
    }

    /// One of the letters on their way arrives, in no order; it may be lost, or come again later.
    fn carry(&mut self) {
        if self.letters.is_empty() {
            return;
        }
        let at = self.dice.below(self.letters.len());
        let mut letter = self.letters.swap_remove(at);
        if self.dice.percent(self.plan.bad_wire) {
            self.letters.push(letter.clone());
        }
        if self.dice.percent(self.plan.bad_wire) {
            return;
        }
        if self.plan.damage && self.dice.percent(3) {
            letter.content = self.damaged(letter.content);
        }
        let fate = self.fate();
        self.deliver(letter, fate);
    }

    fn deliver(&mut self, letter: Letter, fate: Fate) {
        let Letter { tablet, life, content } = letter;
        match content {
            Content::Question(ask, text) => {
                let number = ask.number;
                let answer = self.desk_answers(&ask, &text);
                self.letters.push(Letter { tablet, life, content: Content::Answer(number, answer) });
            }
            // With its life ended the tablet's connections.
            Content::Answer(number, answer) if self.tablets[tablet].life == life => {
                self.tablets[tablet].heard(number, answer, fate);
            }
            Content::Answer(..) => {}
        }
    }

    fn desk_answers(&mut self, ask: &Ask, text: &str) -> Answer {
        let answered = match &ask.what {
            What::Push { .. } if text.len() > PUSH_BYTES && text.lines().count() > 1 => {
                return Answer::Refused(Refusal::new(Code::TOO_LARGE, "The delivery is too large."));
            }
            What::Push { .. } => desk::push(&mut self.desk, text).map(Answer::Pushed),
            What::Pull { after, limit } => {
                // Small pages, so that there are several.
                let page = desk::pull(&mut self.desk, crate::JOB, *after, (*limit).min(5));
                page.map(|page| Answer::Page { lines: page.lines, cursor: page.cursor, more: page.more })
            }
        };
        let full = Refusal::new(Code::DESK_FULL, "The disk of the desk is full.");
        answered.unwrap_or(Answer::Refused(full))
    }

    /// The tablet waited long enough; the letter may still arrive.
    fn give_up(&mut self, chosen: usize) {
        let asked = self.tablets[chosen].tablet.open().map(|open| open.number);
        asked.into_iter().for_each(|number| self.tablets[chosen].tablet.lost(number));
    }

    fn die(&mut self, chosen: usize) {
        if self.dice.percent(70) {
            return self.tablets[chosen].restart();
        }
        // The desk: what was on its way there, or not yet on its way back, is gone.
        let dice = &mut self.dice;
        self.letters.retain(|letter| matches!(letter.content, Content::Answer(..)) && dice.percent(50));
    }

    /// A record file goes from one tablet to another.
    fn exchange(&mut self, from: usize) {
        let to = self.dice.below(self.tablets.len());
        let text = self.tablets[from].file();
        if text.is_empty() || self.tablets[to].tablet.job().is_empty() {
            return;
        }
        if self.plan.damage && self.dice.percent(30) {
            let before = self.tablets[to].disk.lines.clone();
            let damaged = self.damage(&text);
            assert!(self.tablets[to].read_file(&damaged).is_err(), "a damaged file is refused");
            assert_eq!(self.tablets[to].disk.lines, before, "nothing of a damaged file is taken in");
            return;
        }
        self.tablets[to].read_file(&text).expect("a file of another tablet is read");
    }

    fn mischief(&mut self, chosen: usize) {
        if self.plan.clones && self.tablets.len() < usize::from(self.plan.tablets) + 2 {
            let copy = self.tablets[chosen].cloned();
            self.tablets.push(copy);
        } else if self.plan.set_backs && !self.desk.is_empty() {
            let entries = self.dice.below(self.desk.len());
            self.desk.set_back(entries);
            self.was_set_back = true;
            // A desk is stopped for that: no connection outlives it.
            self.letters.clear();
        }
    }

    fn damaged(&mut self, content: Content) -> Content {
        match content {
            Content::Question(ask, text) if !text.is_empty() => {
                let text = self.damage(&text);
                Content::Question(ask, text)
            }
            Content::Answer(number, Answer::Page { mut lines, cursor, more }) if !lines.is_empty() => {
                let at = self.dice.below(lines.len());
                lines[at] = self.damage(&lines[at]);
                Content::Answer(number, Answer::Page { lines, cursor, more })
            }
            other => other,
        }
    }

    /// One letter or digit of a text becomes another.
    fn damage(&mut self, text: &str) -> String {
        let mut signs: Vec<char> = text.chars().collect();
        let places: Vec<usize> = (0..signs.len()).filter(|at| signs[*at].is_ascii_alphanumeric()).collect();
        let at = places[self.dice.below(places.len())];
        signs[at] = if signs[at] == '7' { '8' } else { '7' };
        signs.into_iter().collect()
    }

    /// What must be true at every moment: what was acknowledged is at the desk, and what a tablet holds is
    /// at the desk, waits to be sent, or is shown as refused.
    #[track_caller]
    fn look_at_promises(&mut self) {
        if self.was_set_back {
            return;
        }
        for device in &self.tablets {
            let acknowledged = device.disk.told.acknowledged.iter();
            let lost: Vec<&EntryId> = acknowledged.filter(|id| !self.desk.has(id)).collect();
            assert_eq!(lost, Vec::<&EntryId>::new(), "acknowledged, and not at the desk");
            let kept = device.disk.kept();
            let cared_for = |id: &EntryId| {
                self.desk.has(id) || kept.waiting.contains(id) || kept.refused.contains_key(id)
            };
            let dropped: Vec<&EntryId> = device.disk.lines.keys().filter(|id| !cared_for(id)).collect();
            assert_eq!(dropped, Vec::<&EntryId>::new(), "held, and cared for by nobody");
        }
    }

    /// The weather clears: every tablet is started again, offers what was refused once more, and meets the
    /// desk until nothing changes. Panics when that does not end.
    #[track_caller]
    pub fn settle(&mut self) {
        self.letters.clear();
        self.desk.full = false;
        for device in &mut self.tablets {
            device.restart();
            device.tablet.offer_refused();
        }
        // A first look sees the desk to its end, and only the next one can find that it lacks something: two
        // rounds in which nothing changes are rest, one is not.
        let mut quiet = 0;
        for _ in 0..20 {
            let before = self.fingerprint();
            (0..self.tablets.len()).for_each(|chosen| self.meet(chosen));
            quiet = if self.fingerprint() == before { quiet + 1 } else { 0 };
            if quiet == 2 {
                return;
            }
        }
        panic!("the tablets and the desk come to no rest");
    }

    /// A tablet and the desk talk until the tablet has nothing to ask.
    fn meet(&mut self, chosen: usize) {
        let state = self.desk.state(crate::JOB).expect("the desk is not full");
        self.tablets[chosen].desk_holds(&state);
        self.tablets[chosen].tablet.look();
        for _ in 0..10_000 {
            let Some((ask, text)) = self.tablets[chosen].ask() else { return };
            let answer = self.desk_answers(&ask, &text);
            self.tablets[chosen].heard(ask.number, answer, Fate::Keeps);
        }
        panic!("a tablet asks without end: {:?}", self.tablets[chosen].tablet.status());
    }

    fn fingerprint(&self) -> (usize, Vec<(usize, usize, u64)>) {
        let of =
            |device: &Device| (device.disk.lines.len(), device.disk.told.set_back, device.disk.kept().cursor);
        (self.desk.len(), self.tablets.iter().map(of).collect())
    }

    /// What the desk's record is as a file.
    #[track_caller]
    pub fn desk_file(&self) -> String {
        let held = self.desk.lines().map(|line| wire::read(line).expect("a line at the desk is an entry"));
        wire::write_lines(&record::Record::of(held).expect("the desk holds one record"))
    }
}
