//! Reads a page, runs its blocks, holds the answers against what is written.
//!
//! To add a verb: a match arm in the file of its topic; to add a topic: a file, a `mod` line, a row in
//! `TOPICS`.

mod answer;
mod base;
mod cage;
mod casing;
mod fluid;
mod hole;
mod order;
mod pour;
mod profile;
mod site;
mod slump;
mod ticket;
mod tremie;

pub(crate) use answer::{Answer, Figure};
pub(crate) use site::{Site, quantity};

/// What a topic does with the words of a line: nothing, if they are not its own.
pub(crate) type Outcome = Option<Result<Answer, String>>;

type Topic = fn(&mut Site, &[&str]) -> Outcome;

const TOPICS: &[Topic] = &[
    hole::run,
    pour::run,
    profile::run,
    order::run,
    tremie::run,
    casing::run,
    fluid::run,
    slump::run,
    ticket::run,
    base::run,
    cage::run,
];

/// Runs a page: how many figures came out as written, or every line that did not.
pub(crate) fn run(page: &str) -> Result<usize, Vec<String>> {
    let (mut problems, mut figures, mut blocks) = (Vec::new(), 0, 0);
    let mut block: Option<(Site, usize)> = None;
    for (index, line) in page.lines().enumerate() {
        let number = index + 1;
        match (line.trim(), &mut block) {
            ("```calc", None) => {
                block = Some((Site::default(), figures));
                blocks += 1;
            }
            ("```", Some((_, before))) => {
                if *before == figures && problems.is_empty() {
                    problems.push(format!("{number}: the block asks nothing"));
                }
                block = None;
            }
            ("", _) | (_, None) => {}
            (text, Some((site, _))) => match run_line(site, text) {
                Ok(count) => figures += count,
                Err(problem) => problems.push(format!("{number}: {problem}")),
            },
        }
    }
    if blocks == 0 {
        problems.push("1: there is no calc block".to_owned());
    }
    if problems.is_empty() { Ok(figures) } else { Err(problems) }
}

fn run_line(site: &mut Site, text: &str) -> Result<usize, String> {
    let (statement, expected) = match text.split_once("=>") {
        Some((statement, expected)) => (statement.trim(), Some(expected.trim())),
        None => (text, None),
    };
    let words: Vec<&str> = statement.split_whitespace().collect();
    let outcome = TOPICS.iter().find_map(|topic| topic(site, &words));
    let answer = outcome.ok_or_else(|| format!("not understood: {statement}"))??;
    match expected {
        Some(expected) => answer.agrees(expected),
        None => Ok(0),
    }
}
