//! The short form of the proofs: few pours, and wide doors, so that a broken promise is seen the same day.
//!
//! `cargo xtask prove` runs the long form. Each width here is four standard errors or more of so few pours, the
//! intervals of one pour taken as alike.

use proof::PARTS;
use proof::pours::{Made, rehearsed};
use proof::row::{Row, table};

const POURS: u64 = 60;

fn rows(word: &str, made: &Made) -> Vec<Row> {
    let part = PARTS.iter().find(|part| part.word == word).expect("a part of that word");
    let rows = (part.prove)(made);
    println!("{}", table(part.about, &rows));
    rows
}

fn reached(rows: &[Row], name: &str) -> f64 {
    let row = rows.iter().find(|row| row.name == name).expect("a row of that name");
    row.reached.parse().expect("a number")
}

#[track_caller]
fn within(rows: &[Row], name: &str, [low, high]: [f64; 2]) {
    let reached = reached(rows, name);
    assert!((low..=high).contains(&reached), "{name}: {reached}");
}

#[test]
fn promises_are_kept_within_wide_doors() {
    let pours = rehearsed(1, POURS);
    assert_eq!(pours.pours.len() as u64, POURS);
    let shape = rows("shape", &pours);
    within(&shape, "band of 90 %, all shafts", [0.75, 0.99]);
    within(&shape, "error of the ratio over that of the plain one, all intervals", [0.1, 0.8]);
    let said = rows("said", &pours);
    within(&said, "told wide, and wider than the shaft by what is said", [0.7, 1.0]);
    within(&said, "told to have taken less, and less than the shaft by what is said", [0.7, 1.0]);
    let order = rows("order", &pours);
    within(&order, "short at a service level of 90 %", [0.0, 0.28]);
    within(&order, "short at a service level of 99 %", [0.0, 0.10]);
    let earlier = rows("earlier", &pours);
    within(&earlier, "short at a service level of 90 %", [0.0, 0.26]);
    let learned = rows("learned", &pours);
    within(&learned, "band of 90 %, learned", [0.72, 1.0]);
    within(&learned, "error of the ratio, learned over usual", [0.5, 1.2]);
    let days = rows("days", &pours);
    within(&days, "difference from a closed form, in stated errors", [0.63, 1.37]);
    within(&days, "end between early and late, after three loads", [0.59, 1.0]);
}

#[test]
fn the_same_seeds_prove_the_same() {
    let two = || (PARTS[0].prove)(&rehearsed(1, 3));
    assert_eq!(two(), two());
}
