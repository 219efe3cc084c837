//! `rehearse`: the record of a made-up shaft, in a folder of its own.

use crate::folder::{DESK, Folder};
use crate::problem::{MISUNDERSTOOD, Problem};
use crate::screen::Screen;
use criteria::Set;
use record::Held;
use record::entry::FileHash;
use rehearse::day::{AUTHOR, Chosen, Day, SET, SHAFT};
use rehearse::scenario::Scenario;
use std::path::{Path, PathBuf};
use wire::{Key, Pen, Times};

pub(crate) fn run(
    scenario: Option<&str>,
    seed: u64,
    out: Option<&Path>,
    screen: &mut Screen,
) -> Result<(), Problem> {
    let Some(word) = scenario else {
        list(screen);
        return Ok(());
    };
    let scenario = Scenario::of_word(word).ok_or_else(|| unknown(word))?;
    let made = out.map_or_else(|| PathBuf::from(format!("rehearsal-{word}-{seed}")), Path::to_path_buf);
    let day = Day::of_seed(seed, scenario, chosen().as_ref()).map_err(|unmade| {
        let what = format!("The day could not be made: {unmade:?}.");
        Problem::new(what, "There is no rehearsal of it.", "Try another seed, and report this one.")
    })?;
    let mut folder = Folder::make(&made)?;
    let entries = signed(&day, &folder.key(DESK)?);
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

fn list(screen: &mut Screen) {
    for scenario in Scenario::all() {
        screen.line(&format!("{:13} {}", scenario.word(), scenario.story()));
    }
}

fn unknown(word: &str) -> Problem {
    let words: Vec<&str> = Scenario::all().map(Scenario::word).collect();
    let what = format!("`{word}` is no scenario.");
    Problem::new(what, "Nothing was made.", format!("The scenarios: {}.", words.join(", ")))
        .exit(MISUNDERSTOOD)
}

fn chosen() -> Option<Chosen> {
    let file = FileHash::from_hex(&Set::shipped(SET)?.sha256)?;
    Some(Chosen { set: SET.to_owned(), file })
}

/// Each entry as if it was entered when it was seen.
fn signed(day: &Day, key: &Key) -> Vec<Held> {
    let mut pen = Pen::new(key, &day.job, AUTHOR, None);
    let sign = |said: &rehearse::day::Said| {
        let at = said.observed_at;
        let times = Times { observed_at: at, noted_at: None, entered_at: at };
        Held::Known(pen.write(said.shaft, times, said.body.clone()))
    };
    day.said.iter().map(sign).collect()
}
