//! `shaftbook` on the command line: field notes in, findings, drawings and the package out.
//!
//! A command is a door: files, the clock and chance enter here and nowhere deeper. It loads, asks the
//! core, and prints what `wording` made of the answer.
//!
//! Never: calculate; make a sentence about a finding.

mod args;
mod commands;
mod folder;
mod json;
mod now;
mod problem;
mod style;
mod view;

use clap::Parser;
use problem::Problem;
use std::process::ExitCode;

fn main() -> ExitCode {
    let args = args::Args::parse();
    match commands::run(&args) {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => told(&problem),
    }
}

/// Tells what happened, what it means for the record, what to do now.
fn told(problem: &Problem) -> ExitCode {
    eprint!("{problem}");
    ExitCode::from(problem.exit)
}
