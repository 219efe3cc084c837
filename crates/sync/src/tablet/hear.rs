//! What an answer of the desk changes.
//!
//! An answer may come late, when its ask was long given up. What it says of entries holds all the same
//! (stored is stored); how far the desk was seen moves only by the answer to the open ask.

use super::{Link, PUSH_ENTRIES, Tablet};
use crate::talk::{Answer, Arrived, Ask, Doubt, Effect, What};
use record::EntryId;
use std::collections::BTreeSet;
use wire::http::{Again, Code, LineAnswer, Pushed, Refusal, State};

impl Tablet {
    /// The desk answered the ask of that number.
    ///
    /// Every effect has to be kept, together with `kept`, before the next ask is carried.
    pub fn heard(&mut self, number: u64, answer: Answer) -> Vec<Effect> {
        if number < self.valid_from || number > self.asked {
            return Vec::new();
        }
        let ask = self.open.take_if(|open| open.number == number);
        match answer {
            Answer::Pushed(pushed) => self.heard_pushed(ask, pushed),
            Answer::Page { lines, cursor, more } => self.heard_page(ask, Page { lines, cursor, more }),
            Answer::Refused(refusal) => ask.map_or_else(Vec::new, |ask| self.heard_refused(ask, refusal)),
        }
    }

    /// No answer came to the ask of that number, or none that could be read.
    pub fn lost(&mut self, number: u64) {
        if self.open.take_if(|open| open.number == number).is_some() {
            self.fail(Link::Silent);
        }
    }

    pub(super) fn fail(&mut self, link: Link) {
        self.failures = self.failures.saturating_add(1);
        self.link = link;
        self.resting = true;
    }

    pub(super) fn answered(&mut self) {
        self.failures = 0;
        self.link = Link::Answers;
        self.resting = false;
    }

    fn heard_pushed(&mut self, ask: Option<Ask>, pushed: Pushed) -> Vec<Effect> {
        let ids = match &ask {
            Some(Ask { what: What::Push { ids }, .. }) => ids.as_slice(),
            _ => &[],
        };
        let before = self.waiting.len();
        let mut effects = self.acknowledge(stored(&pushed.answers));
        for answer in pushed.answers {
            // A line that could not be read has no id of its own; the ask knows which one it was.
            let id = answer.id.or_else(|| ids.get(answer.line.checked_sub(1)?).copied());
            if let (State::Refused, Some(id), Some(refusal)) = (answer.state, id, answer.refusal) {
                effects.extend(self.refuse(id, refusal));
            }
        }
        if self.waiting.len() < before {
            self.put_off = false;
            self.batch = (self.batch * 2).min(PUSH_ENTRIES);
            self.answered();
        } else if ask.is_some() {
            // An answer that says nothing of what was asked is none.
            self.fail(Link::Silent);
        }
        effects
    }

    /// Takes ids out of what waits. The effect, when any of them did.
    pub(super) fn acknowledge(&mut self, stored: BTreeSet<EntryId>) -> Vec<Effect> {
        self.refused.retain(|id, _| !stored.contains(id));
        let ids: Vec<EntryId> = self.waiting.extract_if(.., |id| stored.contains(id)).collect();
        if ids.is_empty() {
            return Vec::new();
        }
        self.bytes.retain(|id, _| !stored.contains(id));
        (self.behind, self.unseen) = (true, true);
        vec![Effect::Acknowledged { ids }]
    }

    fn refuse(&mut self, id: EntryId, refusal: Refusal) -> Option<Effect> {
        let place = self.waiting.iter().position(|waiting| *waiting == id)?;
        self.waiting.remove(place);
        self.bytes.remove(&id);
        self.refused.insert(id, refusal.clone());
        Some(Effect::Refused { id, refusal })
    }

    fn heard_page(&mut self, ask: Option<Ask>, page: Page) -> Vec<Effect> {
        let after = match ask.map(|ask| ask.what) {
            Some(What::Pull { after, .. }) => Some(after),
            _ => None,
        };
        if after.is_some_and(|after| page.cursor < after) {
            return self.set_back();
        }
        let mut proved = Proved::default();
        for line in page.lines {
            self.prove(line, &mut proved);
        }
        let turned = after.is_some_and(|after| self.turn(after, (page.cursor, page.more), &proved));
        let mut effects = Vec::new();
        if turned || !proved.entries.is_empty() {
            effects.push(Effect::Keep { entries: proved.entries, cursor: self.cursor });
        }
        effects.extend(self.acknowledge(proved.met));
        effects.extend(proved.alarms);
        if turned {
            self.passed_over += proved.doubts.len() as u64;
            effects.extend(proved.doubts);
        }
        effects
    }

    /// One line of a page: proved, and taken in when it is new here.
    fn prove(&mut self, line: String, proved: &mut Proved) {
        let doubt = match self.reader.read(&line) {
            Ok(held) if held.job() == self.job => {
                proved.met.insert(held.id());
                if !self.known.has(&held.id()) {
                    proved.alarms.extend(self.hold(&held));
                    proved.entries.push(Arrived { held, line });
                }
                return;
            }
            Ok(held) => Doubt::OtherJob(held.job().to_owned()),
            Err(fault) => Doubt::Fault(fault),
        };
        proved.doubts.push(Effect::Doubted { line, doubt });
    }

    /// Moves the cursor to the end of a page. `false`: the page is asked for once more.
    fn turn(&mut self, after: u64, (cursor, more): (u64, bool), proved: &Proved) -> bool {
        let first_doubt = !proved.doubts.is_empty() && self.doubted != Some(after);
        // More to come after nothing at all would be asked for without end.
        if first_doubt || (more && cursor == after) {
            self.doubted = Some(after);
            self.fail(Link::Silent);
            return false;
        }
        self.cursor = cursor;
        self.behind = more;
        self.unseen &= more;
        self.resting = false;
        if !self.put_off {
            self.answered();
        }
        true
    }

    fn heard_refused(&mut self, ask: Ask, refusal: Refusal) -> Vec<Effect> {
        let row = refusal.row();
        if row.is_some_and(|row| row.again == Again::Paired) {
            self.fail(Link::NotPaired);
            return Vec::new();
        }
        let What::Push { ids } = ask.what else {
            self.fail(Link::PutsOff(refusal));
            return Vec::new();
        };
        if !row.is_some_and(is_about_the_lines) {
            self.put_off = true;
            self.fail(Link::PutsOff(refusal));
            return Vec::new();
        }
        self.answered();
        if let [id] = ids[..] {
            return self.refuse(id, refusal).into_iter().collect();
        }
        // Which line it is about is found by halving.
        self.batch = ids.len() / 2;
        Vec::new()
    }
}

/// A page of the desk's entries.
struct Page {
    lines: Vec<String>,
    cursor: u64,
    more: bool,
}

/// What the lines of a page came to.
#[derive(Default)]
struct Proved {
    /// New here.
    entries: Vec<Arrived>,
    /// At the desk, new here or not.
    met: BTreeSet<EntryId>,
    alarms: Vec<Effect>,
    doubts: Vec<Effect>,
}

/// The ids a push's answers call stored.
fn stored(answers: &[LineAnswer]) -> BTreeSet<EntryId> {
    let mut stored = BTreeSet::new();
    let answers = answers.iter().filter(|answer| answer.state != State::Refused);
    stored.extend(answers.filter_map(|answer| answer.id));
    stored
}

/// A whole push was refused for what stands in it, and not for the state of the desk.
fn is_about_the_lines(row: &Code) -> bool {
    matches!(row.status, 400 | 409 | 413 | 422)
}
