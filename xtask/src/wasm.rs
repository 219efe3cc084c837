//! The pure crates build for the browser's target.
//!
//! A tablet without a network reckons with these crates; one file access or clock in them would be found
//! by a person beside a hole.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use crate::tally::Tally;
use crate::toolchain::WASM;

/// The crates that know no clock, chance, file or network.
pub(crate) const PURE: &[&str] = &[
    "quantity", "calc", "record", "criteria", "assess", "figure", "drawing", "wire", "wording", "notes",
    "sync", "screen",
];

/// Builds every pure crate for the target.
///
/// # Errors
/// A crate that is missing, or one that does not build.
pub(crate) fn build(house: &House) -> Result<Tally, Notice> {
    let missing: Vec<&str> = PURE
        .iter()
        .copied()
        .filter(|name| !house.path(&format!("crates/{name}/Cargo.toml")).is_file())
        .collect();
    let mut command = house.cargo(&["build", "--quiet", "--keep-going", "--lib", "--target", WASM]);
    for name in PURE.iter().filter(|name| !missing.contains(name)) {
        command.args(["--package", name]);
    }
    if !shell::stream(&mut command)?.success {
        return Err(Notice::new(
            format!("`{}` failed.", shell::spoken(&command)),
            "A tablet could not reckon with this code.",
            "Read the compiler's message above; a pure crate takes time, chance and files as arguments.",
        ));
    }
    println!("    {} of {} pure crates built for {WASM}", PURE.len() - missing.len(), PURE.len());
    match missing.is_empty() {
        true => Ok(Tally::default()),
        false => Err(Notice::new(
            format!("These crates do not exist: {}.", missing.join(", ")),
            "The part of the house they stand for has not been built.",
            "Write them, or take them out of the list in xtask/src/wasm.rs with a decision record.",
        )),
    }
}
