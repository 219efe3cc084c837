//! Everything that has to hold, as one table: `cargo xtask test`.
//!
//! A step is one row. Every step runs even when one before it failed, so that one run tells everything;
//! the last line adds up the tests of all of them.
//!
//! Words: *step* = a row of [`STEPS`]; *tally* = the tests a step counted. A step without tests of its
//! own counts as one failed test when it fails and as none when it passes.

use crate::house::House;
use crate::notice::Notice;
use crate::tally::Tally;
use crate::{
    app, browser, copies, demo, disk, figures, fuzz, outside, postgresql, python, reference, shell, tidy,
    toolchain,
};
use std::time::{Duration, Instant};

/// One thing that has to hold.
struct Step {
    name: &'static str,
    /// What it means for the people who rely on the program when this fails.
    meaning: &'static str,
    how: fn(&House) -> Result<Tally, Notice>,
}

const STEPS: &[Step] = &[
    Step {
        name: "toolchain",
        meaning: "Results could differ between machines, or the wasm build cannot be made.",
        how: toolchain::ready,
    },
    Step { name: "copies", meaning: "A newcomer waits twice for the same packages.", how: copies::check },
    Step { name: "format", meaning: "Changes would hide among white space.", how: format },
    Step { name: "tidy", meaning: "A house rule that no compiler can see is broken.", how: tidy::step },
    Step { name: "app", meaning: "A tablet without a network could not reckon.", how: app::step },
    Step {
        name: "postgresql",
        meaning: "An office with its record in a database on a server does not do what one with a file does.",
        how: postgresql::step,
    },
    Step { name: "tests", meaning: "A figure, a text or a law is not what it has to be.", how: tests },
    Step { name: "lints", meaning: "The code holds what the lints forbid.", how: lints },
    Step { name: "fuzz", meaning: "Some text or file from outside stops the program.", how: fuzz::short },
    Step { name: "demo", meaning: "The main job does not run from notes to PDF.", how: demo::step },
    Step { name: "browser", meaning: "An inspector's day does not go through the app.", how: browser::step },
    Step { name: "python", meaning: "The reference libraries are missing.", how: python::ready },
    Step {
        name: "units",
        meaning: "A unit does not convert as an independent library says.",
        how: reference::units,
    },
    Step {
        name: "formulas",
        meaning: "A formula does not give what an independent library gives.",
        how: reference::formulas,
    },
    Step {
        name: "profile",
        meaning: "An as-built profile is not what the same model gives in another language.",
        how: reference::profile,
    },
    Step {
        name: "tree",
        meaning: "A seal is not over the tree of hashes that is defined elsewhere.",
        how: reference::tree,
    },
    Step {
        name: "verify",
        meaning: "A stranger could not verify a record, or not see it altered.",
        how: reference::verify,
    },
    Step {
        name: "formats",
        meaning: "What is handed to other programs is refused by one, or says something else than the record.",
        how: outside::step,
    },
    Step {
        name: "figures",
        meaning: "Whoever watches an office is told figures that a monitor cannot read.",
        how: figures::step,
    },
];

/// How a step ended.
struct Ended {
    step: &'static Step,
    tally: Tally,
    trouble: Option<Notice>,
    took: Duration,
}

/// Runs every step, or after `only` those named, and prints what they counted.
///
/// # Errors
/// When anything failed.
pub(crate) fn run(house: &House, words: &[String]) -> Result<(), Notice> {
    let steps = chosen(words)?;
    if words.is_empty() {
        println!("{} steps; on a fresh clone most of the time goes into the first build.", steps.len());
    }
    let begun = Instant::now();
    let ended: Vec<Ended> = steps.into_iter().map(|step| one(house, step)).collect();
    let (report, sum) = summary(&ended);
    println!(
        "\n{report}\nAll steps took {} s.\n{} passed, {} failed",
        begun.elapsed().as_secs(),
        sum.passed,
        sum.failed
    );
    match sum.failed {
        0 => Ok(()),
        _ => Err(Notice::new(
            "Not everything holds.",
            "This state of the project must not be relied on.",
            "Begin with the first failed step above; `cargo xtask test only STEP` runs it alone.",
        )),
    }
}

fn chosen(words: &[String]) -> Result<Vec<&'static Step>, Notice> {
    let names: Vec<&str> = match words {
        [] => return Ok(STEPS.iter().collect()),
        [only, rest @ ..] if only == "only" && !rest.is_empty() => rest.iter().map(String::as_str).collect(),
        _ => Vec::new(),
    };
    let steps: Vec<&Step> = STEPS.iter().filter(|step| names.contains(&step.name)).collect();
    match steps.len() == names.len() && !steps.is_empty() {
        true => Ok(steps),
        false => {
            let known: Vec<&str> = STEPS.iter().map(|step| step.name).collect();
            Err(Notice::new(
                format!("`{}` names no step.", words.join(" ")),
                "Nothing was run.",
                format!("Type: cargo xtask test only STEP, where STEP is one of {}", known.join(", ")),
            ))
        }
    }
}

fn one(house: &House, step: &'static Step) -> Ended {
    println!("\n== {}", step.name);
    let begun = Instant::now();
    let (tally, trouble) = match (step.how)(house) {
        Ok(tally) => (tally, None),
        Err(notice) => (Tally::of(0, 1), Some(notice)),
    };
    let word = if tally.failed == 0 { "holds" } else { "FAILED" };
    let took = begun.elapsed();
    println!("-- {}: {word}, {:.1} s", step.name, took.as_secs_f64());
    if let Some(notice) = &trouble {
        println!("{notice}");
    }
    Ended { step, tally, trouble, took }
}

/// One line a step, what failed in three sentences and in its own words, and the sum.
fn summary(ended: &[Ended]) -> (String, Tally) {
    let mut sum = Tally::default();
    let mut lines = vec!["== what was checked".to_owned()];
    for end in ended {
        sum += Tally::of(end.tally.passed, end.tally.failed);
        let word = if end.tally.failed == 0 { "holds" } else { "FAILED" };
        lines.push(format!(
            "{word:6}  {:10} {:4.0} s, {} tests, {} failed",
            end.step.name,
            end.took.as_secs_f64(),
            end.tally.passed,
            end.tally.failed
        ));
    }
    for end in ended.iter().filter(|end| end.tally.failed > 0) {
        lines.push(format!("\n{}: {}", end.step.name, end.step.meaning));
        lines.extend(end.tally.said.iter().map(|line| format!("    {line}")));
        lines.extend(end.trouble.as_ref().map(Notice::to_string));
    }
    (lines.join("\n"), sum)
}

fn format(house: &House) -> Result<Tally, Notice> {
    let next = "Run: cargo fmt --all";
    passes(&mut house.cargo(&["fmt", "--all", "--check", "--", "-l"]), next)
}

fn lints(house: &House) -> Result<Tally, Notice> {
    let words = ["clippy", "--quiet", "--workspace", "--all-targets", "--", "--deny", "warnings"];
    passes(&mut house.cargo(&words), "Read the lint's message above; mend the code rather than the lint.")
}

fn tests(house: &House) -> Result<Tally, Notice> {
    let mut together = vec!["--workspace"];
    together.extend(copies::APART.iter().flat_map(|name| ["--exclude", name]));
    let mut tally = tests_of(house, &together)?;
    tally += tests_of(house, &["--package", "xtask"])?;
    Ok(tally)
}

/// The tests of some crates, counted.
fn tests_of(house: &House, crates: &[&str]) -> Result<Tally, Notice> {
    tests_by(house.cargo(&["test", "--no-fail-fast"]).args(crates).envs(disk::small()))
}

/// The tests a command runs, counted.
///
/// # Errors
/// When it did not come to its end.
pub(crate) fn tests_by(command: &mut std::process::Command) -> Result<Tally, Notice> {
    let ran = shell::stream(command)?;
    let tally = Tally::read(&ran.said);
    match (ran.success, tally.failed, tally.passed) {
        (true, 0, 1..) | (false, 1.., _) => Ok(tally),
        _ => Err(Notice::new(
            format!("`{}` did not come to its end.", shell::spoken(command)),
            "Some tests did not run at all.",
            "Read the compiler's message above.",
        )),
    }
}

/// Runs a command that says yes or no.
fn passes(command: &mut std::process::Command, next: &str) -> Result<Tally, Notice> {
    match shell::stream(command)?.success {
        true => Ok(Tally::default()),
        false => Err(Notice::new(
            format!("`{}` failed.", shell::spoken(command)),
            "What it asks for does not hold.",
            next,
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_step_has_a_name_of_its_own() {
        let mut names: Vec<&str> = STEPS.iter().map(|step| step.name).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), STEPS.len());
    }

    #[test]
    fn a_step_is_chosen_by_name_and_a_misspelt_one_is_refused() {
        let words = |text: &str| text.split(' ').map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(chosen(&[]).map(|steps| steps.len()), Ok(STEPS.len()));
        assert_eq!(chosen(&words("only tidy app")).map(|steps| steps.len()), Ok(2));
        for wrong in ["only", "only tidi", "only tidy tidi", "tidy"] {
            assert!(chosen(&words(wrong)).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_failed_step_without_tests_still_turns_the_sum_red() {
        static WELL: Step = Step { name: "well", meaning: "It does not matter.", how: toolchain::ready };
        static ILL: Step = Step { name: "ill", meaning: "It matters.", how: toolchain::ready };
        let notice = Notice::new("a", "b", "c");
        let ill = Tally { said: vec!["1 is not 2".to_owned()], ..Tally::of(0, 1) };
        let ended = [
            Ended { step: &WELL, tally: Tally::of(4, 0), trouble: None, took: Duration::from_secs(7) },
            Ended { step: &ILL, tally: ill, trouble: Some(notice), took: Duration::ZERO },
        ];
        let (report, sum) = summary(&ended);
        assert_eq!(sum, Tally::of(4, 1));
        assert!(report.contains("FAILED  ill"), "{report}");
        assert!(report.contains("ill: It matters.\n    1 is not 2\nWhat happened: a"), "{report}");
    }

    impl std::fmt::Debug for Step {
        fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            f.write_str(self.name)
        }
    }
}
