//! The end of `cargo xtask demo`: the app open on a pour that is going on.
//!
//! An office is served on this machine with the demo's job in it; the lines of one shaft come as the clock on
//! site passes them, faster than in life. Everything else is there to be tried by hand.
//!
//! Where nobody sits at a terminal the office closes by itself after the pour, so that a script comes to an end.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use std::io::IsTerminal;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// Where the office of the demo lies; begun anew each time.
const FOLDER: &str = "out/demo/live";
const NOTES: &str = "demo/harrow-vale";
/// The shaft whose day has everything that goes wrong, from shortly before its first load.
const SHAFT: &str = "S-2";
const FROM: &str = "10:25";
/// Times faster than in life: a pour of three hours in five minutes.
const SPEED: u32 = 40;
/// How long the office stays open when nobody is there to close it.
const ALONE: Duration = Duration::from_secs(6 * 60);

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
    println!("  nobody sits here: the office closes by itself in {} minutes\n", ALONE.as_secs() / 60);
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
    while begun.elapsed() < ALONE {
        if office.try_wait().ok().flatten().is_some() {
            return Err(closed());
        }
        std::thread::sleep(Duration::from_millis(200));
    }
    shell::capture(Command::new("kill").arg(office.id().to_string()))?;
    let _ = office.wait();
    Ok(())
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
    fn the_pour_is_that_of_a_shaft_the_demo_has() {
        let house = House::here().expect("the tests run inside the workspace");
        let words = words(&house);
        assert!(words.iter().filter(|word| word.ends_with(".toml")).count() >= 2, "{words:?}");
        let notes = house.files(NOTES, ".toml");
        let named = notes.iter().filter_map(|path| std::fs::read_to_string(path).ok());
        assert!(named.into_iter().any(|text| text.contains(&format!("\"{SHAFT}\""))));
    }
}
