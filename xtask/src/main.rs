//! The chores of the workspace: `cargo xtask <chore>`.
//!
//! One program sets everything up, shows the main job, runs every check and measures. A newcomer and the
//! build machine type the same words, so that what passes here passes there.
//!
//! Words: *chore* = what the first word names; *step* = one row of the test table; *notice* = what
//! happened, what it means, what to do.
//! Never: be needed by the product at run time.

mod app;
mod bench;
mod browser;
mod copies;
mod demo;
mod disk;
mod figures;
mod fuzz;
mod house;
mod icons;
mod layout;
mod live;
mod node;
mod notice;
mod outside;
mod postgresql;
mod prove;
mod pure;
mod python;
mod reference;
mod shell;
mod speed;
mod spreadsheet;
mod steps;
mod tally;
mod tidy;
mod toolchain;

use house::House;
use notice::Notice;
use std::process::ExitCode;

/// One chore: the word, what it does, and the function that does it with the words that follow.
struct Chore {
    word: &'static str,
    does: &'static str,
    run: fn(&House, &[String]) -> Result<(), Notice>,
}

const CHORES: &[Chore] = &[
    Chore {
        word: "demo",
        does: "set everything up, take the demo jobs from notes to PDF, open the app on a pour",
        run: demo::run,
    },
    Chore { word: "test", does: "set everything up and run every check [only STEP ...]", run: steps::run },
    Chore { word: "app", does: "build the browser app [--quick] [--out FOLDER]", run: app::run },
    Chore { word: "browser", does: "try the app in a real browser [PART OF A NAME]", run: browser::run },
    Chore { word: "tidy", does: "check the rules a compiler cannot see", run: tidy::run },
    Chore { word: "fuzz", does: "run the fuzz targets [TARGET [SECONDS]]", run: fuzz::run },
    Chore {
        word: "prove",
        does: "print what the estimates are worth over made-up pours, and how fast they are [PART ...] [--pours N]",
        run: prove::run,
    },
    Chore { word: "bench", does: "print the figures, beside a spreadsheet doing the same", run: bench::run },
];

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let Some(chore) = words.first().and_then(|word| CHORES.iter().find(|chore| chore.word == word)) else {
        eprintln!("{}", usage(words.first()));
        return ExitCode::from(2);
    };
    match House::here().and_then(|house| (chore.run)(&house, &words[1..])) {
        Ok(()) => ExitCode::SUCCESS,
        Err(notice) => {
            eprintln!("\n{notice}");
            ExitCode::FAILURE
        }
    }
}

fn usage(word: Option<&String>) -> String {
    let unknown = word.map(|word| format!("There is no chore `{word}`.\n")).unwrap_or_default();
    let rows: Vec<String> = CHORES.iter().map(|chore| format!("  {:7} {}", chore.word, chore.does)).collect();
    format!("{unknown}Type: cargo xtask <chore>\n{}", rows.join("\n"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unknown_word_is_named_and_every_chore_is_listed() {
        let text = usage(Some(&"deploy".to_owned()));
        assert!(text.contains("no chore `deploy`"), "{text}");
        for chore in CHORES {
            assert!(text.contains(chore.does), "{text}");
        }
    }
}
