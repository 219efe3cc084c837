//! `shaftbook` on the command line: field notes in, findings, drawings and the package out.
//!
//! A command is a door: files, the clock and chance enter here and nowhere deeper. It loads, asks the
//! core, and prints what `wording` made of the answer.
//!
//! Never: calculate; make a sentence about a finding.

mod args;
mod commands;
mod embedded;
mod file;
mod folder;
mod help;
mod journal;
mod json;
mod keys;
mod moment;
mod now;
mod papers;
mod place;
mod problem;
mod progress;
mod relive;
mod screen;
mod stamps;
mod style;
mod view;

use clap::Parser;
use screen::Screen;
use std::process::ExitCode;

fn main() -> ExitCode {
    let args = args::Args::parse();
    let mut screen = Screen::standard();
    let done = commands::run(&args, &mut screen);
    // What was printed but could not be written is told after a failure of the work itself.
    match done.and(screen.finish()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            problem::tell_error(&problem.to_string());
            ExitCode::from(problem.exit)
        }
    }
}
