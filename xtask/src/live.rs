//! The end of `cargo xtask demo`: the app open on a pour that is going on.
//!
//! An office is served on this machine with the demo's job in it and a rehearsal beside it: a made-up job whose third
//! shaft is poured. Its lines come as the clock on site passes them, faster than in life. Everything else is there to be
//! tried by hand.
//!
//! Where nobody sits at a terminal the office closes by itself once the day of the pour is over, so that a script comes
//! to an end. The office itself says when: its clock then runs as ours does.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use serde_json::Value;
use std::io::{IsTerminal, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// Where the office of the demo lies; begun anew each time.
const FOLDER: &str = "out/demo/live";
/// The record of the demo's job, as the steps before wrote it out.
const RECORD: &str = "out/demo/harrow-vale/record.jsonl";
/// What goes wrong with the shaft that is poured: soft clay squeezes in, and the total of the concrete hides it.
const SCENARIO: &str = "neck";
/// Times faster than in life: a pour of three hours, and what is left of its day, in about five minutes.
const SPEED: u32 = 40;
/// Where the office listens when nobody says otherwise.
const OFFICE: &str = "127.0.0.1:7420";
/// The longest the office stays open when nobody is there to close it: the day of the pour takes about five minutes.
const LONGEST: Duration = Duration::from_secs(20 * 60);
/// How often it is asked.
const PAUSE: Duration = Duration::from_secs(2);

/// Serves the demo's office until Ctrl-C.
///
/// # Errors
/// When the office cannot be opened.
pub(crate) fn run(house: &House, program: &Path) -> Result<(), Notice> {
    let folder = house.path(FOLDER);
    if folder.exists() {
        std::fs::remove_dir_all(&folder).map_err(|error| {
            Notice::new(
                format!("{FOLDER} could not be emptied ({error})."),
                "The pour cannot be shown.",
                "End the program that uses it, and type the command again.",
            )
        })?;
    }
    println!("\n---- the app, with a made-up shaft being poured {SPEED} times faster than in life");
    for words in [["begin", FOLDER].as_slice(), &["merge", RECORD, "--job", FOLDER]] {
        loaded(house, program, words)?;
    }
    let mut command = house.command(program);
    command.args(words());
    if std::io::stdin().is_terminal() {
        command.arg("--open");
        println!(
            "  shaftbook {}\n",
            command.get_args().map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
        );
        return ended(&mut command);
    }
    println!("  nobody sits here: the office closes by itself when the day is over, in about five minutes\n");
    alone(&mut command)
}

/// Brings the demo's job into the office, as a person would.
fn loaded(house: &House, program: &Path, words: &[&str]) -> Result<(), Notice> {
    println!("  shaftbook {}", words.join(" "));
    match shell::stream(house.command(program).args(words))?.success {
        true => Ok(()),
        false => Err(Notice::new(
            format!("`shaftbook {}` failed.", words.join(" ")),
            "The office of the demo has no job to show.",
            "Read its message above.",
        )),
    }
}

fn words() -> Vec<String> {
    let speed = SPEED.to_string();
    let named = ["serve", FOLDER, "--name", "Harrow Vale, demonstration"];
    let pour = ["--rehearse", SCENARIO, "--speed", &speed];
    named.into_iter().chain(pour).map(str::to_owned).collect()
}

/// Until a person stops it; Ctrl-C reaches both programs and is no failure.
fn ended(command: &mut Command) -> Result<(), Notice> {
    let mut office = started(command)?;
    let status = office.wait();
    match status {
        Ok(status) if status.success() || status.code().is_none() => Ok(()),
        _ => Err(closed()),
    }
}

fn alone(command: &mut Command) -> Result<(), Notice> {
    let mut office = started(command)?;
    let begun = Instant::now();
    while begun.elapsed() < LONGEST && !is_over() {
        std::thread::sleep(PAUSE);
        if office.try_wait().ok().flatten().is_some() {
            return Err(closed());
        }
    }
    shell::capture(Command::new("kill").arg(office.id().to_string()))?;
    let _ = office.wait();
    println!("\n  The day of the pour is over; the office was closed.");
    Ok(())
}

/// The day is over when the office says that its clock runs as ours; one that does not answer says nothing.
fn is_over() -> bool {
    hello().ok().as_deref().and_then(speed).is_some_and(|speed| speed <= 1.0)
}

/// What the office answers to whoever asks who it is.
fn hello() -> std::io::Result<String> {
    let mut office = TcpStream::connect(OFFICE)?;
    office.set_read_timeout(Some(PAUSE))?;
    write!(office, "GET /api/v1/hello HTTP/1.1\r\nHost: {OFFICE}\r\nConnection: close\r\n\r\n")?;
    let mut answer = String::new();
    office.read_to_string(&mut answer)?;
    Ok(answer)
}

/// How fast the clock of the office runs, by its answer.
fn speed(answer: &str) -> Option<f64> {
    let body = answer.split_once("\r\n\r\n")?.1;
    serde_json::from_str::<Value>(body).ok()?["clock"]["speed"].as_f64()
}

fn started(command: &mut Command) -> Result<Child, Notice> {
    command.stdin(Stdio::null()).spawn().map_err(|error| {
        Notice::new(
            format!("The office could not be opened ({error})."),
            "The app cannot be shown.",
            "Type the command again.",
        )
    })
}

fn closed() -> Notice {
    Notice::new(
        "The office closed before it was told to.",
        "The app cannot be shown.",
        "Read its message above; another program may use the port, see `shaftbook serve --help`.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_office_says_when_the_day_is_over() {
        let answer =
            |clock: &str| format!("HTTP/1.1 200 OK\r\ncontent-length: 9\r\n\r\n{{\"name\":\"a\"{clock}}}");
        assert_eq!(
            speed(&answer(",\"clock\":{\"site\":\"2025-05-13T10:25:00-06:00\",\"speed\":40.0}")),
            Some(40.0)
        );
        assert_eq!(speed(&answer(",\"clock\":{\"speed\":1.0}")), Some(1.0));
        assert_eq!(speed(&answer("")), None);
        assert_eq!(speed("HTTP/1.1 503 Busy\r\n\r\nnot now"), None);
    }

    #[test]
    fn a_made_up_shaft_is_poured_in_the_office_of_the_demo() {
        assert_eq!(
            words().join(" "),
            "serve out/demo/live --name Harrow Vale, demonstration --rehearse neck --speed 40"
        );
    }
}
