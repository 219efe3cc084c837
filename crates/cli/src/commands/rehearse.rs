//! `rehearse`: the record of a made-up shaft, in a folder of its own.

use crate::folder::{DESK, Folder};
use crate::problem::{MISUNDERSTOOD, Problem};
use crate::screen::Screen;
use criteria::Set;
use record::entry::FileHash;
use record::field::UnitSystem;
use record::{Entry, Held};
use rehearse::day::{AUTHOR, Campaign, Chosen, Day, SHAFT, Said, Unmade, Which, set_of};
use rehearse::scenario::Scenario;
use std::path::{Path, PathBuf};
use wire::{Key, Pen, Times};

pub(crate) fn run(
    (scenario, seed, metric): (Option<&str>, u64, bool),
    out: Option<&Path>,
    screen: &mut Screen,
) -> Result<(), Problem> {
    let Some(word) = scenario else {
        list(metric, screen);
        return Ok(());
    };
    let day = made_up(word, seed, metric)?;
    let made = out.map_or_else(|| PathBuf::from(&day.job), Path::to_path_buf);
    let mut folder = Folder::make(&made)?;
    let entries = written((&day.job, &day.said), &folder.key(DESK)?);
    let entries: Vec<Held> = entries.into_iter().map(Held::Known).collect();
    folder.add(&entries)?;
    let place = made.display();
    screen.line(&format!(
        "{} entries of the made-up shaft {SHAFT} are signed and kept in {place}.",
        entries.len()
    ));
    screen.line("It is a rehearsal, marked in every entry: no record of a job takes it in.");
    screen.line(&format!("  shaftbook check --job {place}"));
    Ok(())
}

/// The made-up day of a scenario.
///
/// # Errors
/// A word that is no scenario.
fn made_up(word: &str, seed: u64, metric: bool) -> Result<Day, Problem> {
    let which = which(word, seed, metric)?;
    Day::of(which, chosen(which.system).as_ref()).map_err(|unmade| not_made(&unmade))
}

/// The made-up day of a scenario, after two clean ones of the same job.
///
/// # Errors
/// A word that is no scenario.
pub(crate) fn campaign(word: &str, seed: u64, metric: bool) -> Result<Campaign, Problem> {
    let which = which(word, seed, metric)?;
    Campaign::of(which, chosen(which.system).as_ref()).map_err(|unmade| not_made(&unmade))
}

fn which(word: &str, seed: u64, metric: bool) -> Result<Which, Problem> {
    let scenario = Scenario::of_word(word).ok_or_else(|| unknown(word))?;
    Ok(Which { seed, scenario, system: system(metric) })
}

fn not_made(unmade: &Unmade) -> Problem {
    let what = format!("The day could not be made: {unmade:?}.");
    Problem::new(what, "There is no rehearsal of it.", "Try another seed, and report this one.")
}

fn system(metric: bool) -> UnitSystem {
    if metric { UnitSystem::Metric } else { UnitSystem::Us }
}

fn list(metric: bool, screen: &mut Screen) {
    for scenario in Scenario::all() {
        screen.line(&format!("{:13} {}", scenario.word(), scenario.story(system(metric))));
    }
}

fn unknown(word: &str) -> Problem {
    let words: Vec<&str> = Scenario::all().map(Scenario::word).collect();
    let what = format!("`{word}` is no scenario.");
    Problem::new(what, "Nothing was made.", format!("The scenarios: {}.", words.join(", ")))
        .exit(MISUNDERSTOOD)
}

fn chosen(system: UnitSystem) -> Option<Chosen> {
    let set = set_of(system);
    let file = FileHash::from_hex(&Set::shipped(set)?.sha256)?;
    Some(Chosen { set: set.to_owned(), file })
}

/// Each entry as if it was entered when it was seen.
pub(crate) fn written((job, said): (&str, &[Said]), key: &Key) -> Vec<Entry> {
    let mut pen = Pen::new(key, job, AUTHOR, None);
    let sign = |said: &Said| {
        let at = said.observed_at;
        let times = Times { observed_at: at, noted_at: None, entered_at: at };
        pen.write(said.shaft, times, said.body.clone())
    };
    said.iter().map(sign).collect()
}
