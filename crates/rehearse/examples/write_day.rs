//! Writes a made-up day as a record that can be checked, drawn and printed: `write_day neck 7 > day.jsonl`.
//!
//! The key it is signed with is published: it stands for a tablet that never was.

use criteria::Set;
use record::entry::FileHash;
use record::{Held, Record};
use rehearse::day::{AUTHOR, Chosen, Day};
use rehearse::scenario::Scenario;
use std::process::ExitCode;
use wire::{Key, Pen, Times, write_lines};

const SET: &str = "fhwa-aashto-style-1";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let scenario = words.first().and_then(|word| Scenario::of_word(word));
    let seed = words.get(1).map_or(Some(1), |seed| seed.parse().ok());
    let (Some(scenario), Some(seed)) = (scenario, seed) else {
        eprintln!("write_day SCENARIO [SEED]; the scenarios:");
        Scenario::all().for_each(|scenario| eprintln!("  {:13} {}", scenario.word(), scenario.story()));
        return ExitCode::from(2);
    };
    match lines(scenario, seed) {
        Some(lines) => {
            print!("{lines}");
            ExitCode::SUCCESS
        }
        None => ExitCode::FAILURE,
    }
}

fn lines(scenario: Scenario, seed: u64) -> Option<String> {
    let file = FileHash::from_hex(&Set::shipped(SET)?.sha256)?;
    let day = Day::of_seed(seed, scenario, Some(&Chosen { set: SET.to_owned(), file })).ok()?;
    let key = Key::of_secret([9; 32]);
    let mut pen = Pen::new(&key, &day.job, AUTHOR, None);
    let signed = day.said.iter().map(|said| {
        let at = said.observed_at;
        let times = Times { observed_at: at, noted_at: None, entered_at: at };
        Held::Known(pen.write(said.shaft, times, said.body.clone()))
    });
    Some(write_lines(&Record::of(signed).ok()?))
}
