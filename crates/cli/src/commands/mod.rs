//! One file a command.

mod backup;
mod begin;
mod check;
mod compare;
mod draw;
pub(crate) mod enter;
pub(crate) mod export;
mod inspect;
mod kinds;
mod limits;
mod log;
mod merge;
mod move_record;
mod open_items;
pub(crate) mod package;
mod pair;
mod people;
pub(crate) mod rehearse;
pub(crate) mod seal;
mod serve;
mod shafts;
pub(crate) mod stamp;
mod tables;
mod verify;

use crate::args::{Args, Command, Office};
use crate::problem::Problem;
use crate::screen::Screen;
use clap::CommandFactory;

/// Runs the command a person gave.
pub(crate) fn run(args: &Args, screen: &mut Screen) -> Result<(), Problem> {
    let now = crate::now::now(args.clock.as_deref())?;
    crate::place::tell(args.database.as_deref())?;
    match &args.command {
        Command::Begin { folder } => begin::run(folder, screen),
        Command::Enter { .. } => enter::run(&args.command, now, screen),
        Command::Shafts { json, job } => shafts::run(&job.job, *json, screen),
        Command::Compare { .. } => compare::run(&args.command, screen),
        Command::Log { .. } => log::run(&args.command, screen),
        Command::Check { .. } => check::run(&args.command, screen),
        Command::Draw { .. } => draw::run(&args.command, screen),
        Command::Package { .. } => package::run(&args.command, now, screen),
        Command::Export { what, out, job } => export::run(&job.job, *what, out.as_deref(), screen),
        Command::Merge { other, job } => merge::run(&job.job, other, screen),
        Command::Rehearse { scenario, seed, metric, out } => {
            rehearse::run((scenario.as_deref(), *seed, *metric), out.as_deref(), screen)
        }
        Command::OpenItems { .. } => open_items::run(&args.command, screen),
        Command::Seal { .. } => seal::run(&args.command, now, screen),
        Command::Stamp { .. } => stamp::run(&args.command, screen),
        Command::Verify { .. } => verify::run(&args.command, screen),
        Command::Office(office) => run_office(office, screen),
        Command::Limits { .. } => limits::run(&args.command, screen),
        Command::Kinds { kind, json } => kinds::run(kind.as_deref(), *json, screen),
        Command::Completions { shell } => completions(*shell, screen),
    }
}

fn run_office(office: &Office, screen: &mut Screen) -> Result<(), Problem> {
    match office {
        Office::Serve(serve) => serve::run(serve, screen),
        Office::Pair { folder, reached_at, json } => pair::run(folder, reached_at.as_deref(), *json, screen),
        Office::People { what } => people::run(what, screen),
        Office::Backup { folder, to } => backup::run(folder, to, screen),
        Office::Restore { file, to } => backup::restore(file, to, screen),
        Office::Move { folder, to } => move_record::run(folder, to, screen),
        Office::Inspect { folder, json } => inspect::run(folder, *json, screen),
    }
}

fn completions(shell: clap_complete::Shell, screen: &mut Screen) -> Result<(), Problem> {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Args::command(), "shaftbook", &mut text);
    screen.raw(&String::from_utf8_lossy(&text));
    Ok(())
}
