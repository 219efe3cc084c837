//! What is told when an office is open: where, how to let a device in, what to do next.

use crate::args::{JournalKind, Serve};
use crate::commands::pair;
use crate::problem::{Problem, warn};
use crate::relive::Replay;
use crate::screen::Screen;
use serde_json::json;
use server::{Code, NotWritten, Running};
use std::net::SocketAddr;
use std::process::{Command, Stdio};

/// Tells it, and opens the app where that was asked for.
pub(super) fn tell(
    serve: &Serve,
    (running, replay): (&Running, Option<&Replay>),
    screen: &mut Screen,
) -> Result<(), Problem> {
    if running.desk().has_people().is_ok_and(|people| people) {
        return of_people(serve, (running, replay), screen);
    }
    if serve.journal != JournalKind::Brief && !serve.json {
        return of_a_service(serve, (running, replay), screen);
    }
    let code = new_code(running)?;
    let address = kept_address(serve, running)?;
    let listens = listens(serve, running.address());
    if serve.json {
        let office = super::office(serve);
        let until = code.until.to_string();
        let metrics = metrics(running);
        screen.json(&json!({ "address": listens, "office": office, "code": code.text, "link": code.link, "until": until, "metrics": metrics }));
    } else {
        where_it_is(serve, (running, replay), (&listens, &address), screen);
        pair::tell(&code, screen);
        screen.gap();
        screen.say(&format!("More codes: {listens}/desk in the browser of this machine. Stop with Ctrl-C."));
    }
    if serve.open {
        // A code of its own, so that the one above still lets a tablet in.
        open(&new_code(running)?.link);
    }
    Ok(())
}

/// What a program keeps running is told to a file that stays: no code is made for it.
fn of_a_service(
    serve: &Serve,
    (running, replay): (&Running, Option<&Replay>),
    screen: &mut Screen,
) -> Result<(), Problem> {
    let address = kept_address(serve, running)?;
    where_it_is(serve, (running, replay), (&listens(serve, running.address()), &address), screen);
    screen.say(&format!("A code for a device: shaftbook pair {}", serve.folder.display()));
    if serve.open {
        open(&new_code(running)?.link);
    }
    Ok(())
}

/// Where there are people, each signs in and makes codes for the own devices; none is made here.
fn of_people(
    serve: &Serve,
    (running, replay): (&Running, Option<&Replay>),
    screen: &mut Screen,
) -> Result<(), Problem> {
    let address = kept_address(serve, running)?;
    let listens = listens(serve, running.address());
    let sign_in = format!("{address}/people");
    if serve.json {
        let office = super::office(serve);
        let metrics = metrics(running);
        screen.json(&json!({ "address": listens, "office": office, "code": null, "sign_in": sign_in, "metrics": metrics }));
    } else {
        where_it_is(serve, (running, replay), (&listens, &address), screen);
        screen.gap();
        screen.say(&format!(
            "People sign in at {sign_in}, and make codes for their devices there. Stop with Ctrl-C."
        ));
    }
    if serve.open {
        open(&sign_in);
    }
    Ok(())
}

fn new_code(running: &Running) -> Result<Code, Problem> {
    running.desk().new_code().map_err(|error| no_code(&error))
}

fn no_code(error: &NotWritten) -> Problem {
    let what = format!("No pairing code could be kept: {error}.");
    let meaning = "The office is closed again: nobody could have been let in. What was kept before stays.";
    Problem::new(what, meaning, "Make room on the disk and start again.")
}

/// The address this machine itself opens.
fn listens(serve: &Serve, address: SocketAddr) -> String {
    let mut near = address;
    if near.ip().is_unspecified() {
        near.set_ip(std::net::Ipv4Addr::LOCALHOST.into());
    }
    format!("{}://{near}", if serve.certificate.is_some() { "https" } else { "http" })
}

/// Where a monitor reads figures.
fn metrics(running: &Running) -> Option<String> {
    running.metrics().map(|address| format!("http://{address}/metrics"))
}

/// How the office is reached, kept for who makes a code later.
fn kept_address(serve: &Serve, running: &Running) -> Result<String, Problem> {
    let address = running.desk().reached_at().to_owned();
    pair::keep_address(&serve.folder, &address)?;
    Ok(address)
}

fn where_it_is(
    serve: &Serve,
    (running, replay): (&Running, Option<&Replay>),
    (listens, address): (&str, &str),
    screen: &mut Screen,
) {
    screen.heading(&format!("{} is open at {listens}", super::office(serve)));
    if pair::is_far(address) {
        screen.say(&format!("Tablets reach it at {address}."));
    } else if running.address().ip().is_loopback() {
        screen.say("Only this machine reaches it; docs/serve.md says how tablets do.");
    } else {
        screen.say("Say how tablets reach it, so that the pairing link does too: --reached-at https://…");
    }
    if serve.behind_proxy {
        screen.say("No certificate here: what comes to this address has to come from the proxy alone.");
    }
    if let Some(metrics) = metrics(running) {
        screen.say(&format!("Figures for a monitor: {metrics}"));
    }
    if let Some(replay) = replay {
        about(replay, screen);
    }
}

fn about(replay: &Replay, screen: &mut Screen) {
    let from = replay.begins();
    screen.say(&format!(
        "A day again: {} of {}, from {} on {}; {} lines come, as the clock on site passes them.",
        replay.shaft,
        replay.job,
        from.clock(),
        from.date(),
        replay.steps.len()
    ));
}

/// Opens a page in the browser of this machine.
fn open(link: &str) {
    let mut command = if cfg!(target_os = "macos") {
        Command::new("open")
    } else if cfg!(windows) {
        Command::new("explorer")
    } else {
        Command::new("xdg-open")
    };
    let opened = command.arg(link).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
    if opened.is_err() {
        warn(&format!("No browser could be opened. Open {link} yourself."));
    }
}
