//! Prints trees of hashes over made-up lines, one JSON object a line, for `tree_check.py`.
//!
//! Every length from none to seventy, so that every shape of a tree is met; each line with its path.
//!
//! Never: print what was not computed by the crate.

use seal::tree::{Hash, path, root};

fn main() {
    for count in 0..=70_u8 {
        let lines: Vec<Vec<u8>> = (0..count).map(line).collect();
        let borrowed: Vec<&[u8]> = lines.iter().map(Vec::as_slice).collect();
        let hexed = lines.iter().map(|line| quoted(line)).collect::<Vec<_>>().join(",");
        let paths = (0..lines.len()).filter_map(|index| path(&borrowed, index));
        let paths = paths
            .map(|path| format!("[{}]", path.iter().map(|hash| quoted(hash)).collect::<Vec<_>>().join(",")));
        let paths = paths.collect::<Vec<_>>().join(",");
        let whole: Hash = root(&borrowed);
        println!("{{\"lines\":[{hexed}],\"root\":{},\"paths\":[{paths}]}}", quoted(&whole));
    }
}

/// A line of made-up bytes; none is like another.
fn line(number: u8) -> Vec<u8> {
    (0..number % 9).map(|at| at.wrapping_mul(31) ^ number).chain([number]).collect()
}

fn quoted(bytes: &[u8]) -> String {
    format!("\"{}\"", bytes.iter().map(|byte| format!("{byte:02x}")).collect::<String>())
}
