//! Prints how long a package takes: `cargo run --release -p report --example bench_package`.
//!
//! *First* includes reading the fonts and templates. *Changed* is a package of which a text changed since the
//! one before, as when the next shaft is printed; *same* is the identical input again.

use std::time::Instant;

use report::{Fonts, Paper, package};

/// The invented shafts that the drawings are looked at with.
#[path = "../../figure/tests/shafts/mod.rs"]
mod shafts;

mod drawn;
mod invented;

const ROUNDS: usize = 30;

fn main() {
    let begun = Instant::now();
    let fonts = Fonts::house();
    let mut input = drawn::package(Paper::Letter);
    let mut pdf = package(&input, &fonts).expect("a package");
    println!("first: {:.0} ms", millis(begun));
    let mut changed = Vec::new();
    let mut same = Vec::new();
    for round in 0..ROUNDS {
        change(&mut input, round);
        for times in [&mut changed, &mut same] {
            let begun = Instant::now();
            pdf = package(&input, &fonts).expect("a package");
            times.push(millis(begun));
        }
    }
    println!("changed: {}", told(&mut changed));
    println!("same: {}", told(&mut same));
    println!("{} pages, {} bytes", pdf.pages, pdf.bytes.len());
}

/// Every log, every finding and every drawing differs from the round before.
fn change(input: &mut report::ReportInput, round: usize) {
    input.heading.shaft = format!("B2-{round}");
    input.findings.iter_mut().for_each(|finding| finding.evidence = format!("tablet 1 no. {round}"));
    let rows = input.logs.iter_mut().flat_map(|log| log.rows.iter_mut());
    rows.for_each(|row| row.cells[0] = format!("{:02}:{:02}", 7 + round % 12, round % 60));
    let drawings = std::iter::once(&mut input.sheet).chain(&mut input.drawings);
    drawings.for_each(|drawing| drawing.svg += &format!("<!-- {round} -->"));
}

fn millis(begun: Instant) -> f64 {
    begun.elapsed().as_secs_f64() * 1000.0
}

fn told(times: &mut [f64]) -> String {
    times.sort_by(f64::total_cmp);
    let (fastest, median, slowest) = (times[0], times[times.len() / 2], times[times.len() - 1]);
    format!("fastest {fastest:.0} ms, median {median:.0} ms, slowest {slowest:.0} ms of {}", times.len())
}
