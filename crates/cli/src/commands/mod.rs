//! One file a command.

mod begin;
mod check;
mod draw;
mod enter;
mod export;
mod kinds;
mod limits;
mod log;
mod merge;
mod package;
mod shafts;
mod tables;
mod verify;

use crate::args::{Args, Command};
use crate::problem::Problem;
use clap::CommandFactory;

/// Runs the command a person gave.
pub(crate) fn run(args: &Args) -> Result<(), Problem> {
    let now = crate::now::now(args.clock.as_deref())?;
    match &args.command {
        Command::Begin { folder } => begin::run(folder),
        Command::Enter { .. } => enter::run(&args.command, now),
        Command::Shafts { json, job } => shafts::run(&job.job, *json),
        Command::Log { shaft, tables, json, at, job } => {
            log::run(&job.job, shaft, at.at.as_deref(), log::Form { tables: *tables, json: *json })
        }
        Command::Check { .. } => check::run(&args.command),
        Command::Draw { .. } => draw::run(&args.command),
        Command::Package { .. } => package::run(&args.command, now),
        Command::Export { what, out, job } => export::run(&job.job, *what, out.as_deref()),
        Command::Merge { other, job } => merge::run(&job.job, other),
        Command::Verify { record, json } => verify::run(record, *json),
        Command::Limits { set, file, json, job } => limits::run(&job.job, set.as_deref(), file.as_deref(), *json),
        Command::Kinds { kind, json } => kinds::run(kind.as_deref(), *json),
        Command::Completions { shell } => {
            clap_complete::generate(*shell, &mut Args::command(), "shaftbook", &mut std::io::stdout());
            Ok(())
        }
    }
}
