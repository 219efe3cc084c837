//! The compiler everybody builds with, and its wasm target.
//!
//! The version stands in `rust-toolchain.toml`. The target is fetched here when it is missing, because
//! an automatic install may be switched off.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use crate::tally::Tally;

/// The target the pure crates have to build for.
pub(crate) const WASM: &str = "wasm32-unknown-unknown";
/// The target of benches that run in a browser: they print and look at a clock.
pub(crate) const WASI: &str = "wasm32-wasip1";

/// Checks the compiler's version and has the wasm target installed.
///
/// # Errors
/// Another compiler than the pinned one, or a target that could not be fetched.
pub(crate) fn ready(house: &House) -> Result<Tally, Notice> {
    let pin = std::fs::read_to_string(house.path("rust-toolchain.toml")).unwrap_or_default();
    let wanted = pinned(&pin).ok_or_else(|| {
        Notice::new(
            "`rust-toolchain.toml` names no channel.",
            "Nobody knows what to build with.",
            "Restore the file.",
        )
    })?;
    let said = shell::capture(house.command("rustc").arg("--version"))?.said;
    println!("    {}", said.trim());
    if !said.starts_with(&format!("rustc {wanted} ")) {
        return Err(Notice::new(
            format!("The compiler is `{}`, not {wanted}.", said.trim()),
            "Results and lints may differ from everybody else's.",
            format!("Run: rustup toolchain install {wanted}"),
        ));
    }
    for part in PARTS {
        fetch(house, part)?;
    }
    Ok(Tally::default())
}

/// Has the wasm target installed, for whoever builds the app and nothing else.
///
/// # Errors
/// A target that could not be fetched.
pub(crate) fn target(house: &House) -> Result<(), Notice> {
    fetch(house, &TARGET)
}

/// Has the target of benches in a browser installed, for whoever measures and nothing else.
///
/// # Errors
/// A target that could not be fetched.
pub(crate) fn wasi(house: &House) -> Result<(), Notice> {
    fetch(house, &BENCHES)
}

/// A part of the toolchain that may be missing, and how rustup adds it.
struct Part {
    name: &'static str,
    add: [&'static str; 3],
    there: fn(&House) -> bool,
    /// What cannot be known without it.
    meaning: &'static str,
}

const TARGET: Part = Part {
    name: "the target wasm32-unknown-unknown",
    add: ["target", "add", WASM],
    there: |house| has(house, WASM),
    meaning: "The app and the reckoning cannot be built for a tablet.",
};

const BENCHES: Part = Part {
    name: "the target wasm32-wasip1",
    add: ["target", "add", WASI],
    there: |house| has(house, WASI),
    meaning: "Nobody can tell how long a tablet would wait for an estimate.",
};

const PARTS: &[Part] = &[
    TARGET,
    Part {
        name: "rustfmt",
        add: ["component", "add", "rustfmt"],
        there: |house| answers(house, "fmt"),
        meaning: "Nobody can tell whether the sources are set as agreed.",
    },
    Part {
        name: "clippy",
        add: ["component", "add", "clippy"],
        there: |house| answers(house, "clippy"),
        meaning: "The lints cannot be checked.",
    },
];

fn fetch(house: &House, part: &Part) -> Result<(), Notice> {
    if (part.there)(house) {
        println!("    {} is installed", part.name);
        return Ok(());
    }
    let words = part.add.join(" ");
    println!("    {} is missing: rustup {words}", part.name);
    let added = shell::stream(house.command("rustup").args(part.add));
    match added.is_ok_and(|ran| ran.success) && (part.there)(house) {
        true => Ok(()),
        false => Err(Notice::new(
            format!("Of the compiler, {} is missing and could not be fetched.", part.name),
            part.meaning,
            format!("With a connection, run: rustup {words}"),
        )),
    }
}

/// Whether cargo has a word of its own.
fn answers(house: &House, word: &str) -> bool {
    shell::capture(&mut house.cargo(&[word, "--version"])).is_ok_and(|ran| ran.success)
}

/// The standard library of the target lies in the compiler's own folder when it is installed.
fn has(house: &House, target: &str) -> bool {
    let asked = shell::capture(house.command("rustc").args(["--print", "target-libdir", "--target", target]));
    asked.is_ok_and(|ran| ran.success && std::path::Path::new(ran.said.trim()).is_dir())
}

/// The channel named in the text of `rust-toolchain.toml`.
fn pinned(text: &str) -> Option<&str> {
    let value = text.lines().find_map(|line| line.trim().strip_prefix("channel"))?;
    value.split('"').nth(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pin_is_read_from_its_line() {
        assert_eq!(pinned("[toolchain]\nchannel = \"1.95.0\"\n"), Some("1.95.0"));
        assert_eq!(pinned("[toolchain]\nprofile = \"default\"\n"), None);
    }
}
