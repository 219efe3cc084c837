//! Practices on this device: a made-up day, how far its clock is, what was answered.
//!
//! A practice has a clock of its own, and every screen of its job goes by it. It stands still while somebody
//! holds it, while a question waits for its answer, and after the page was loaded again. What is written goes
//! into a record of its own on this device and is never sent.
//!
//! Words: *pace* = how many times faster than in life the clock of a practice runs.
//! Never: let an entry of a practice wait for the office.

use super::Device;
use super::time::{now_ms, now_seconds};
use super::write::Under;
use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use quantity::Moment;
use record::entry::FileHash;
use record::field::UnitSystem;
use rehearse::day::{AUTHOR, Chosen, Which, set_of};
use rehearse::decision::Answer;
use rehearse::practice::Practice;
use rehearse::scenario::Scenario;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;
use wire::Times;
use wording::Notice;
use wording::device::{Told, told};

/// The paces there are; the first is that of life.
pub(crate) const PACES: [u32; 4] = [1, 5, 20, 60];

/// A practice keeps where it is at least this often, in seconds of its day.
const KEEP_EVERY: i64 = 60;

/// What a trainee wants to practise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Wish {
    /// The word of a scenario; empty: nobody knows what happens.
    pub(crate) word: String,
    /// Its number: the same number is the same day, on every device.
    pub(crate) number: u64,
    /// The pace it begins with.
    pub(crate) pace: u32,
    /// What it is written in.
    pub(crate) system: UnitSystem,
}

/// A practice that was begun.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Practising {
    /// The day as far as it was decided.
    pub(crate) practice: Arc<Practice>,
    /// Somebody ended it, or its day did.
    pub(crate) ended: bool,
    /// The pace of its clock.
    pub(crate) pace: u32,
    /// The clock runs.
    pub(crate) runs: bool,
    wish: Wish,
    answers: Vec<Answer>,
    /// Where the clock stood, and when that was by the clock of this device.
    stood: (i64, f64),
    /// Where it stood when it was last kept.
    kept: i64,
}

impl Practising {
    fn of(wish: Wish, answers: Vec<Answer>) -> Option<Self> {
        let practice = day(&wish, &answers)?;
        let begins = practice.begins().seconds();
        let pace = wish.pace;
        Some(Practising {
            practice: Arc::new(practice),
            ended: false,
            pace,
            runs: false,
            wish,
            answers,
            stood: (begins, now_ms()),
            kept: begins,
        })
    }

    /// The clock of the day; it never passes a question that waits.
    pub(crate) fn now(&self) -> Moment {
        let hold = self.practice.hold();
        let (stood, since_ms) = self.stood;
        let passed = if self.runs { (now_ms() - since_ms) / 1000.0 * f64::from(self.pace) } else { 0.0 };
        let at = (stood + passed as i64).min(hold.seconds());
        Moment::at(at, hold.offset_seconds())
    }

    /// The clock would run, and waits for an answer.
    pub(crate) fn is_held(&self) -> bool {
        let hold = self.practice.hold();
        self.now() >= hold && self.practice.asked(hold).is_some()
    }

    /// From here the clock goes on from what it shows now.
    fn stand(&mut self, at: i64) {
        self.stood = (at, now_ms());
    }

    /// Holds the clock, or lets it go on.
    pub(crate) fn run(&mut self, runs: bool) {
        self.stand(self.now().seconds());
        self.runs = runs && !self.ended;
    }

    /// Another pace.
    pub(crate) fn pace(&mut self, pace: u32) {
        self.stand(self.now().seconds());
        self.pace = pace;
    }

    /// On to the next thing there is to read or to answer.
    pub(crate) fn skip(&mut self) {
        self.stand(self.practice.next(self.now()).seconds());
    }

    /// Answers the question that is asked.
    pub(crate) fn answer(&mut self, answer: Answer) {
        let now = self.now().seconds();
        self.answers.push(answer);
        match day(&self.wish, &self.answers) {
            Some(practice) => self.practice = Arc::new(practice),
            None => drop(self.answers.pop()),
        }
        self.stand(now);
    }

    /// The end: the truth may be looked at.
    pub(crate) fn end(&mut self) {
        self.run(false);
        self.ended = true;
    }
}

/// The day of a wish, judged by the set it is made for.
fn day(wish: &Wish, answers: &[Answer]) -> Option<Practice> {
    let scenario = if wish.word.is_empty() {
        Some(Scenario::of_number(wish.number))
    } else {
        Scenario::of_word(&wish.word)
    };
    let set = set_of(wish.system);
    let hash = criteria::Set::shipped(set).and_then(|set| FileHash::from_hex(&set.sha256));
    let chosen = hash.map(|file| Chosen { set: set.to_owned(), file });
    let which = Which { seed: wish.number, scenario: scenario?, system: wish.system };
    Practice::of(which, chosen.as_ref(), answers).ok()
}

/// A practice as it is kept.
#[derive(Serialize, Deserialize)]
struct Stored {
    word: String,
    number: u64,
    pace: u32,
    #[serde(default)]
    metric: bool,
    answers: Vec<String>,
    seconds: i64,
    ended: bool,
}

impl Stored {
    fn of(one: &Practising) -> Self {
        Stored {
            word: one.wish.word.clone(),
            number: one.wish.number,
            pace: one.pace,
            metric: one.wish.system == UnitSystem::Metric,
            answers: one.answers.iter().map(|answer| answer.word()).collect(),
            seconds: one.now().seconds(),
            ended: one.ended,
        }
    }

    fn read(text: &str) -> Option<Practising> {
        let Stored { word, number, pace, metric, answers, seconds, ended } =
            serde_json::from_str(text).ok()?;
        let answers = answers.iter().map(|word| Answer::of_word(word)).collect::<Option<Vec<Answer>>>()?;
        let system = if metric { UnitSystem::Metric } else { UnitSystem::Us };
        let mut one = Practising::of(Wish { word, number, pace, system }, answers)?;
        one.stand(seconds);
        (one.kept, one.ended) = (seconds, ended);
        Some(one)
    }
}

/// Where the practice of a job is kept, among the forms.
pub(super) fn kept_as(job: &str) -> String {
    format!("{KEY}{job}")
}
const KEY: &str = "practice ";

/// The part of the app for practice did not come.
struct Unread;

impl From<SplitLoaderError> for Unread {
    fn from(_: SplitLoaderError) -> Self {
        Unread
    }
}

/// The practices that are kept, each with its day made anew. It lies in the part of the app that only a practice
/// needs.
#[wasm_split(practice, wasm_split_path = leptos::wasm_split, fallible)]
fn read(texts: Vec<(String, String)>) -> Result<BTreeMap<String, Practising>, Unread> {
    let one = |(key, text): (String, String)| Some((key.strip_prefix(KEY)?.to_owned(), Stored::read(&text)?));
    Ok(texts.into_iter().filter_map(one).collect())
}

impl Device {
    /// The practice of a job; `None` where the job is none.
    pub(crate) fn practice(self, job: &str) -> Option<Practising> {
        self.practices.with(|all| all.get(job).cloned())
    }

    /// Whether a job is a practice of this device.
    pub(crate) fn is_practice(self, job: &str) -> bool {
        self.practices.with(|all| all.contains_key(job))
    }

    /// What the clock of the practice of a job shows; `None` where the job is none.
    pub(super) fn practice_now(self, job: &str) -> Option<Moment> {
        self.practices.with_untracked(|all| all.get(job).map(Practising::now))
    }

    /// Changes a practice, and keeps it.
    pub(crate) fn practise(self, job: &str, change: impl FnOnce(&mut Practising)) {
        let changed = self.practices.try_update(|all| {
            let one = all.get_mut(job)?;
            change(one);
            one.kept = one.now().seconds();
            Some(Stored::of(one))
        });
        self.tick.set(now_seconds());
        let (Some(stored), job) = (changed.flatten(), job.to_owned()) else { return };
        spawn_local(async move { self.keep_practice(&job, &stored).await });
    }

    async fn keep_practice(self, job: &str, stored: &Stored) {
        if let Ok(text) = serde_json::to_string(stored) {
            self.keep_form(&kept_as(job), &text).await;
        }
    }

    /// Begins a practice: a job of its own with everything that was done before the concrete. Gives its name.
    ///
    /// # Errors
    /// It could not be kept; there is no such job then.
    pub(crate) async fn begin_practice(self, wish: Wish) -> Result<String, Notice> {
        let job = self.free_name(&wish);
        let Some(one) = Practising::of(wish, Vec::new()) else {
            return Err(told(&Told::JobName { found: job }));
        };
        self.keep_practice(&job, &Stored::of(&one)).await;
        let practice = Arc::clone(&one.practice);
        self.practices.update(|all| drop(all.insert(job.clone(), one)));
        let under = Under { author: AUTHOR, form: None };
        let signed = self.sign(&job, under, |pen| {
            let given = practice.given().map(|said| {
                let at = said.observed_at;
                pen.write(
                    said.shaft,
                    Times { observed_at: at, noted_at: None, entered_at: at },
                    said.body.clone(),
                )
            });
            given.collect()
        });
        match signed.await {
            Ok(_) => Ok(job),
            Err(notice) => {
                self.practices.update(|all| drop(all.remove(&job)));
                self.drop_form(&kept_as(&job)).await;
                Err(notice)
            }
        }
    }

    /// The first name of this day that no job on this device has.
    fn free_name(self, wish: &Wish) -> String {
        let taken = |name: &String| self.jobs.with_untracked(|all| all.iter().any(|card| card.name == *name));
        let name = |attempt| screen::practice::job_name(&wish.word, wish.system, [wish.number, attempt]);
        let mut names = (1..).map(name);
        names.find(|name| !taken(name)).unwrap_or_default()
    }

    /// Reads the practices that are kept; each stands still.
    pub(super) async fn read_practices(self) {
        let texts = self.kept_forms(KEY).await;
        if texts.is_empty() {
            return;
        }
        match read(texts).await {
            Ok(all) => self.practices.set(all),
            Err(Unread) => leptos::logging::warn!("the part of the app for practice did not come"),
        }
    }

    /// Keeps from time to time where the clocks of practices are, so that a reload loses little.
    pub(super) fn keep_practices(self) {
        Effect::new(move |_| {
            self.tick.track();
            let far = |one: &Practising| one.runs && one.now().seconds() - one.kept >= KEEP_EVERY;
            let jobs: Vec<String> = self.practices.with_untracked(|all| {
                all.iter().filter(|(_, one)| far(one)).map(|(job, _)| job.clone()).collect()
            });
            for job in jobs {
                let stored = self.practices.try_update_untracked(|all| {
                    let one = all.get_mut(&job)?;
                    one.kept = one.now().seconds();
                    Some(Stored::of(one))
                });
                if let Some(stored) = stored.flatten() {
                    spawn_local(async move { self.keep_practice(&job, &stored).await });
                }
            }
        });
    }
}
