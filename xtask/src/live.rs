//! The end of `cargo xtask demo`: the app open on a pour that is going on.
//!
//! An office is served on this machine with the demo's job in it; the lines of one shaft come as the clock on
//! site passes them, faster than in life. Everything else is there to be tried by hand.
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
const NOTES: &str = "demo/harrow-vale";
/// The shaft whose day has everything that goes wrong, from shortly before its first load.
const SHAFT: &str = "S-2";
const FROM: &str = "10:25";
/// Times faster than in life: a pour of three hours in five minutes, its whole day in eight.
const SPEED: u32 = 40;
/// Where the office listens when nobody says otherwise.
const OFFICE: &str = "127.0.0.1:7420";
/// The longest the office stays open when nobody is there to close it: the day of the pour takes about eight minutes.
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
    println!("\n---- the app, with {SHAFT} being poured {SPEED} times faster than in life");
    let mut command = house.command(program);
    command.args(words(house));
    if std::io::stdin().is_terminal() {
        command.arg("--open");
        println!(
            "  shaftbook {}\n",
            command.get_args().map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
        );
        return ended(&mut command);
    }
    println!(
        "  nobody sits here: the office closes by itself when the day is over, in about eight minutes\n"
    );
    alone(&mut command)
}

fn words(house: &House) -> Vec<String> {
    let notes = house.files(NOTES, ".toml").into_iter().map(|path| house.shown(&path));
    let mut words: Vec<String> =
        ["serve", FOLDER, "--name", "Harrow Vale, demonstration"].map(str::to_owned).into();
    words.extend(["--shaft", SHAFT, "--from", FROM, "--speed"].map(str::to_owned));
    words.push(SPEED.to_string());
    words.push("--relive".to_owned());
    words.extend(notes);
    words
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
    println!("\n  The day of {SHAFT} is over; the office was closed.");
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
    fn the_pour_is_that_of_a_shaft_the_demo_has() {
        let house = House::here().expect("the tests run inside the workspace");
        let words = words(&house);
        assert!(words.iter().filter(|word| word.ends_with(".toml")).count() >= 2, "{words:?}");
        let notes = house.files(NOTES, ".toml");
        let named = notes.iter().filter_map(|path| std::fs::read_to_string(path).ok());
        assert!(named.into_iter().any(|text| text.contains(&format!("\"{SHAFT}\""))));
    }
}
