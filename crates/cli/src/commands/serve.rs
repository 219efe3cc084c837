//! `serve`: the office that tablets sync with, out of one folder.
//!
//! Everything it needs is in this program: the app, the criteria, the fonts of the pages. What is under way
//! when it is told to stop is finished first, so that no tablet is left without an answer.

mod address;
mod reliving;
mod service;
mod told;

use crate::args::Serve;
use crate::commands::enter::{self, read_files, take};
use crate::commands::{rehearse, stamp};
use crate::embedded;
use crate::folder::Folder;
use crate::journal;
use crate::papers::House;
use crate::place;
use crate::problem::{NOT_SERVED, Problem};
use crate::relive::{self, Replay};
use crate::screen::Screen;
use record::Record;
use reliving::{Feed, Started};
use server::{Site, StartError};
use std::fs::{File, TryLockError};
use std::net::TcpListener;
use std::path::Path;
use std::sync::Arc;
use store::Address;

pub(crate) fn run(serve: &Serve, screen: &mut Screen) -> Result<(), Problem> {
    let address = address::address(&serve.address)?;
    let tls = address::certificate(serve, address)?;
    serve.time_stamps.as_deref().map(stamp::addressed).transpose()?;
    let _bell = bell(&serve.folder)?;
    let record = place::of(&serve.folder)?;
    let listener = TcpListener::bind(address).map_err(|error| address::taken(address, &error))?;
    let metrics = serve.metrics.as_deref().map(address::for_figures).transpose()?;
    let replay = match &serve.rehearse {
        Some(scenario) => Some(made_up(serve, scenario)?),
        None if serve.relive.is_empty() => None,
        None => Some(replay(serve)?),
    };
    let site = site(serve, &record)?;
    // The clock starts when everything else is ready.
    let clock = replay.as_ref().map(|replay| Started::now(replay.clock.clone()));
    let site = Site { clock: clock.clone().map(Started::shown), metrics, ..site };
    journal::of_falls(serve.journal);
    let running = server::start(site, listener, tls).map_err(|error| not_started(&record, &error))?;
    place::keep_told(&serve.folder)?;
    // Whoever reads the address may end the program at once.
    let end = running.listen_for_the_end().map_err(|error| deaf(&error))?;
    let told = told::tell(serve, (&running, replay.as_ref()), screen);
    let feed = replay.zip(clock).map(|(replay, clock)| Feed::start(replay.steps, clock, running.desk()));
    if told.is_ok() {
        service::open(running.desk().reached_at());
        running.until(end, service::closing);
    }
    feed.into_iter().for_each(Feed::stop);
    told
}

fn deaf(error: &std::io::Error) -> Problem {
    let what = format!("This machine does not tell the program when to stop: {error}.");
    Problem::new(what, "The office is not served; what its folder holds is kept.", "Start it again.")
}

/// What the office is called: as it was named, else as its folder is.
fn office(serve: &Serve) -> String {
    let full = serve.folder.canonicalize().unwrap_or_else(|_| serve.folder.clone());
    let folder = full.file_name().map(|name| name.to_string_lossy().into_owned());
    serve.name.clone().or(folder).unwrap_or_else(|| "office".to_owned())
}

fn site(serve: &Serve, record: &Address) -> Result<Site, Problem> {
    let journal = journal::journal(serve.journal);
    let house = House::new(&serve.folder, serve.time_stamps.as_deref(), Arc::clone(&journal))?;
    let mut site = Site::new(&serve.folder, &office(serve), embedded::app(), Arc::new(house));
    site.address = serve.reached_at.as_deref().map(|address| address.trim_end_matches('/').to_owned());
    site.behind_proxy = serve.behind_proxy;
    site.database = record.server().map(|_| record.clone());
    site.journal = journal;
    Ok(site)
}

/// The bell of an office: one program at a time answers to it, and it falls free when that program ends. Where the record is
/// in a database that several programs can write to, several answer.
fn bell(folder: &Path) -> Result<File, Problem> {
    if folder.is_file() {
        let what = format!("{} is a file, not a folder.", folder.display());
        return Err(Problem::new(what, NOT_SERVED, "Name a folder, or one that is not there yet."));
    }
    let wrong = |error: std::io::Error| Problem::file("Making", folder, &error).meaning(NOT_SERVED);
    std::fs::create_dir_all(folder).map_err(wrong)?;
    let path = crate::folder::bell(folder);
    let wrong = |error: std::io::Error| Problem::file("Opening", &path, &error).meaning(NOT_SERVED);
    let file = File::options().create(true).append(true).open(&path).map_err(wrong)?;
    let shared = matches!(place::of(folder)?, Address::Server(_));
    let answers = if shared { file.try_lock_shared() } else { file.try_lock() };
    match answers {
        Ok(()) => Ok(file),
        Err(TryLockError::WouldBlock) => {
            let what = format!("Another program serves {} already.", folder.display());
            let next = "Go on with that one, or stop it first. Another folder can be served beside it.";
            Err(Problem::new(what, "Nothing else was started; that program goes on.", next))
        }
        Err(TryLockError::Error(error)) => Err(wrong(error)),
    }
}

/// The day that is lived through again; what was written before it begins is kept at once.
fn replay(serve: &Serve) -> Result<Replay, Problem> {
    let ask = enter::Ask { table: None, shaft: None, date: None, author: None };
    let files = read_files(&serve.relive, None)?;
    let notes = take(&files, &ask, &Record::new())?;
    let mut folder = Folder::open_to_write(&serve.folder)?;
    let job = notes.first().map_or("", |notes| notes.context.key.as_str());
    let kept = folder.record_named(job)?;
    let shaft = serve.shaft.as_deref().unwrap_or_default();
    let ask = relive::Ask { shaft, from: serve.from.as_deref(), speed: f64::from(serve.speed) };
    let replay = Replay::of(&folder, &notes, &kept, &ask)?;
    folder.add(&replay.before)?;
    Ok(replay)
}

/// A made-up day that comes line by line, after the days of the job's earlier shafts.
fn made_up(serve: &Serve, scenario: &str) -> Result<Replay, Problem> {
    let campaign = rehearse::campaign(scenario, serve.seed, serve.metric)?;
    let mut folder = Folder::open_to_write(&serve.folder)?;
    let kept = folder.record_named(&campaign.job)?;
    let ask =
        relive::Ask { shaft: campaign.shaft, from: serve.from.as_deref(), speed: f64::from(serve.speed) };
    let replay = Replay::of_made_up(&folder, &campaign, &kept, &ask)?;
    folder.add(&replay.before)?;
    Ok(replay)
}

fn not_started(record: &Address, error: &StartError) -> Problem {
    match error {
        StartError::Store(error) => {
            let problem = Problem::store(record, error);
            let what = format!("{} The office is not served.", problem.what);
            Problem { what, ..problem }
        }
        StartError::Machine(error) => {
            let what = format!("The office could not be started: {error}.");
            let meaning = "The office is not served; what its folder holds is kept.";
            Problem::new(what, meaning, "Close other programs, or start the machine again.")
        }
    }
}
