//! How fast the estimates are, native and in Chromium: the last part of `cargo xtask prove`.
//!
//! The benches of `calc` print their own figures; here they are built twice and run on both sides, so that
//! one run shows what a desk and what a tablet would wait.
//!
//! Never: assert a time; a figure is printed and read.

use crate::house::House;
use crate::notice::Notice;
use crate::toolchain::{self, WASI};
use crate::{app, browser, node, shell};
use std::path::PathBuf;
use std::process::Command;

/// The examples of `calc` whose figures are wanted.
const BENCHES: &[&str] = &["bench_profile", "bench_day"];

/// Builds the benches and prints their figures.
///
/// # Errors
/// No browser, no packages, a target that could not be fetched, or a bench that does not run.
pub(crate) fn run(house: &House) -> Result<(), Notice> {
    toolchain::wasi(house)?;
    node::ready(house)?;
    let browser = browser::ready(house)?;
    build(house, &[])?;
    build(house, &["--target", WASI])?;
    for bench in BENCHES {
        println!("== {bench}, native");
        ran(&mut house.command(built(house, "", bench)))?;
    }
    let modules = BENCHES.iter().map(|bench| built(house, WASI, &format!("{bench}.wasm")));
    let mut command = house.command("node");
    ran(command.arg("browser/benches/run.mjs").args(modules).env(browser::ELSEWHERE, browser))
}

fn build(house: &House, words: &[&str]) -> Result<(), Notice> {
    let mut command = house.cargo(&["build", "--quiet", "--release", "--package", "calc"]);
    command.args(BENCHES.iter().flat_map(|bench| ["--example", bench])).args(words);
    ran(&mut command)
}

/// Where cargo leaves an example built for release, for this machine or for a target.
fn built(house: &House, target: &str, name: &str) -> PathBuf {
    app::target(house).join(target).join("release/examples").join(name)
}

fn ran(command: &mut Command) -> Result<(), Notice> {
    match shell::stream(command)?.success {
        true => Ok(()),
        false => Err(Notice::new(
            format!("`{}` failed.", shell::spoken(command)),
            "Nobody knows how long a tablet would wait for an estimate.",
            "Read its message above.",
        )),
    }
}
