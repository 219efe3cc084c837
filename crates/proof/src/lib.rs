//! What the estimates are worth: figures over many made-up pours whose truth is known.
//!
//! A band that says nine in ten has to hold the truth nine times in ten, an order at 95 % has to run short once in
//! twenty. Nobody can see that in one pour. Here thousands are made, each from a seed, read as an inspector would,
//! and every promise is counted. `cargo xtask prove` prints the table.
//!
//! Words: *proof* = a function from a number of pours to rows; *row* = what was reached beside what was wanted;
//! *part* = the proofs of one subject, by the word they are run with.
//! Never: be used by the program; judge a figure after it is known; let a row hold that could not fail.

pub mod days;
pub mod earlier;
pub mod learned;
pub mod necks;
pub mod order;
pub mod pours;
pub mod row;
pub mod said;
pub mod shape;
pub mod start;

use pours::Made;
use row::Row;

/// The proofs of one subject.
pub struct Part {
    /// The word it is run with.
    pub word: &'static str,
    /// What it shows.
    pub about: &'static str,
    /// The proofs, over pours made once for all parts.
    pub prove: fn(&Made) -> Vec<Row>,
}

/// Every part, in the order of the table.
pub const PARTS: &[Part] = &[
    Part {
        word: "shape",
        about: "bands of interval ratios, and the trade's plain ratio",
        prove: shape::prove,
    },
    Part { word: "necks", about: "finding necks, and blind spots that are true", prove: necks::prove },
    Part {
        word: "said",
        about: "what a person is told of a stretch, and whether it is so",
        prove: said::prove,
    },
    Part {
        word: "start",
        about: "the starting point: a smooth logarithm of the ratio, and the plain ratio, beside the same pours",
        prove: start::prove,
    },
    Part { word: "order", about: "orders that are enough as often as was asked for", prove: order::prove },
    Part { word: "earlier", about: "orders for shafts that are not begun", prove: earlier::prove },
    Part {
        word: "learned",
        about: "what earlier shafts teach the estimate of the next",
        prove: learned::prove,
    },
    Part { word: "days", about: "days played, and replanned from what is seen", prove: days::prove },
];
