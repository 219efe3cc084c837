//! Writes one entry after the other by the clock of the made-up day.

use std::collections::BTreeMap;

use quantity::Moment;
use record::field::{Defaults, How, Typed, UnitSystem};
use record::{Body, Fault, Value};

use super::{Place, Said, Which};
use crate::chance::Chance;
use crate::decision::{Answer, Ask, Question};
use crate::scenario::Scenario;
use crate::site::Site;

/// The made-up day begins at midnight of 7 May 2031, six hours behind Greenwich.
const MIDNIGHT_SECONDS: i64 = 1_935_900_000;
const DAY_MINUTES: i64 = 24 * 60;
const OFFSET_SECONDS: i32 = -6 * 3_600;

/// The clock of the day and what was written so far.
pub(super) struct Writer {
    pub(super) scenario: Scenario,
    /// The drawing, and the units everything is written in.
    pub(super) site: &'static Site,
    /// Which shaft, and its day.
    pub(super) place: Place,
    /// What people and instruments make of the day.
    pub(super) chance: Chance,
    /// Minutes since midnight.
    pub(super) minute: i64,
    said: Vec<Said>,
    answers: Vec<Answer>,
    asks: Vec<Ask>,
    levels_m: Vec<f64>,
}

impl Writer {
    pub(super) fn new(which: Which, place: Place, answers: &[Answer]) -> Self {
        Writer {
            scenario: which.scenario,
            site: Site::of(which.system),
            place,
            chance: Chance::of_topic(which.seed, "day"),
            minute: 0,
            said: Vec::new(),
            answers: answers.to_vec(),
            asks: Vec::new(),
            levels_m: Vec::new(),
        }
    }

    /// Everything written, in order of time (what was written at one time in the order written), everything
    /// asked, and the true levels.
    pub(super) fn written(self) -> (Vec<Said>, Vec<Ask>, Vec<f64>) {
        let mut said = self.said;
        said.sort_by_key(|said| said.observed_at.seconds());
        (said, self.asks, self.levels_m)
    }

    /// Asks, from one minute until another, and gives the answer; without one, that of the crew.
    pub(super) fn ask(&mut self, [at, until]: [i64; 2], question: Question, wise: Answer) -> Answer {
        let answer = self.answers.get(self.asks.len()).copied();
        let (at, until) = (self.moment(at), self.moment(until));
        self.asks.push(Ask { at, until, question, answer, wise });
        answer.unwrap_or(Answer::GoOn)
    }

    /// The concrete stands at a depth, in truth.
    pub(super) fn stands_at(&mut self, depth_m: f64) {
        self.levels_m.push(depth_m);
    }

    /// A minute of the day, as the texts of an entry hold it.
    pub(super) fn text(&self, minute: i64) -> String {
        self.moment(minute).to_string()
    }

    fn moment(&self, minute: i64) -> Moment {
        let minute = minute - DAY_MINUTES * self.place.days_before;
        Moment::at(MIDNIGHT_SECONDS + 60 * minute, OFFSET_SECONDS)
    }

    /// Of two things, the one in the units of the day.
    pub(super) fn of<T>(&self, [us, metric]: [T; 2]) -> T {
        self.site.pick(us, metric)
    }

    /// Some minutes go by.
    pub(super) fn wait(&mut self, minutes: i64) {
        self.minute += minutes;
    }

    /// Minutes of work, a little more or less each time.
    pub(super) fn work(&mut self, minutes: [f64; 2]) {
        self.minute += libm::round(self.chance.between(minutes)) as i64;
    }

    /// Writes about the shaft what is seen now.
    pub(super) fn say(&mut self, kind: &str, fields: &[(&str, &str)]) -> Result<(), Vec<Fault>> {
        self.say_at(self.minute, kind, fields)
    }

    /// Writes about the shaft what was seen at a minute.
    pub(super) fn say_at(
        &mut self,
        minute: i64,
        kind: &str,
        fields: &[(&str, &str)],
    ) -> Result<(), Vec<Fault>> {
        let body = body(self.site.system, kind, fields)?;
        self.said.push(Said { observed_at: self.moment(minute), shaft: Some(self.place.shaft), body });
        Ok(())
    }

    /// Writes a paper of the job.
    pub(super) fn paper(&mut self, kind: &str, fields: &[(&str, &str)]) -> Result<(), Vec<Fault>> {
        let body = body(self.site.system, kind, fields)?;
        self.said.push(Said { observed_at: self.moment(self.minute), shaft: None, body });
        Ok(())
    }
}

/// The body of a kind from texts as typed. A path reaches into lists and groups: `points.0.depth`.
pub(super) fn body(system: UnitSystem, kind: &str, fields: &[(&str, &str)]) -> Result<Body, Vec<Fault>> {
    let mut root = BTreeMap::new();
    for (path, text) in fields {
        put(&mut root, path, text);
    }
    let group: BTreeMap<String, Value> = root.into_iter().map(|(name, tree)| (name, tree.value())).collect();
    let moment = |text: &str| Moment::parse(text).ok();
    let defaults = Defaults { system, comma: false, survey_foot: false };
    Body::from_group(kind, &group, "", &How::Typed(&Typed { defaults, moment: &moment }))
}

/// A field, or fields below it.
enum Tree {
    Leaf(String),
    Below(BTreeMap<String, Tree>),
}

fn put(group: &mut BTreeMap<String, Tree>, path: &str, text: &str) {
    match path.split_once('.') {
        None => {
            group.insert(path.to_owned(), Tree::Leaf(text.to_owned()));
        }
        Some((first, rest)) => {
            let below = group.entry(first.to_owned()).or_insert_with(|| Tree::Below(BTreeMap::new()));
            if let Tree::Below(inner) = below {
                put(inner, rest, text);
            }
        }
    }
}

impl Tree {
    /// A group whose names are numbers is a list.
    fn value(self) -> Value {
        let inner = match self {
            Tree::Leaf(text) => return Value::Text(text),
            Tree::Below(inner) => inner,
        };
        let is_list = inner.keys().all(|name| name.bytes().all(|byte| byte.is_ascii_digit()));
        match is_list {
            true => Value::List(inner.into_values().map(Tree::value).collect()),
            false => Value::Group(inner.into_iter().map(|(name, tree)| (name, tree.value())).collect()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_reaches_into_lists_and_groups() -> Result<(), Vec<Fault>> {
        let body = body(
            UnitSystem::Us,
            "bottom_sounded",
            &[
                ("purpose", "after_cleaning"),
                ("points.0.place", "center"),
                ("points.0.depth", "61.0 ft"),
                ("points.1.depth", "60.9 ft"),
            ],
        )?;
        let record::Body::BottomSounded(sounded) = body else { panic!("{body:?}") };
        let depths: Vec<String> = sounded.points.iter().map(|point| point.depth.shown()).collect();
        assert_eq!(depths, ["61.0 ft", "60.9 ft"]);
        Ok(())
    }
}
