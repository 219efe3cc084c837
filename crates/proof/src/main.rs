//! Prints the table of figures: `prove [PART …] [--pours N] [--from SEED]`; 5,000 pours from seed 1 unless told.

use proof::PARTS;
use proof::pours::rehearsed;
use proof::row::{Row, table};
use std::process::ExitCode;
use std::time::Instant;

const POURS: u64 = 5_000;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let Some((from, count, chosen)) = understood(&words) else {
        let known: Vec<String> =
            PARTS.iter().map(|part| format!("  {:8} {}", part.word, part.about)).collect();
        eprintln!("Type: prove [PART …] [--pours N] [--from SEED]\n{}", known.join("\n"));
        return ExitCode::from(2);
    };
    let begun = Instant::now();
    let made = rehearsed(from, count);
    let took = begun.elapsed().as_secs_f64();
    println!("{} pours from seed {from} on made, read and estimated in {took:.1} s", made.pours.len());
    let mut failed = 0;
    let mut held = 0;
    for part in PARTS.iter().filter(|part| chosen.is_empty() || chosen.contains(&part.word)) {
        let begun = Instant::now();
        let rows: Vec<Row> = (part.prove)(&made);
        println!("\n{}\n       took {:.1} s", table(part.about, &rows), begun.elapsed().as_secs_f64());
        failed += rows.iter().filter(|row| row.holds == Some(false)).count();
        held += rows.iter().filter(|row| row.holds == Some(true)).count();
    }
    println!("\n{held} hold, {failed} fail");
    ExitCode::from(u8::from(failed > 0))
}

/// The first seed, how many pours, and which parts; `None` for a word nobody knows.
fn understood(words: &[String]) -> Option<(u64, u64, Vec<&'static str>)> {
    let (mut from, mut count, mut chosen, mut words) = (1, POURS, Vec::new(), words.iter());
    while let Some(word) = words.next() {
        match word.as_str() {
            "--pours" => count = words.next()?.parse().ok().filter(|count| *count > 0)?,
            "--from" => from = words.next()?.parse().ok()?,
            word => chosen.push(PARTS.iter().find(|part| part.word == word)?.word),
        }
    }
    Some((from, count, chosen))
}
