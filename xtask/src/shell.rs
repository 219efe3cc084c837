//! Starting other programs, with their output shown and kept.
//!
//! A program that is missing is told from one that failed: the first is installed, the second is read.

use crate::notice::Notice;
use std::io::{BufRead, BufReader, ErrorKind};
use std::process::{Command, Stdio};

/// How a program ended and what it wrote to its standard output.
#[derive(Debug)]
pub(crate) struct Ran {
    pub(crate) success: bool,
    pub(crate) said: String,
}

/// Runs a program; each line it writes is shown at once, four spaces in, and kept.
///
/// # Errors
/// When the program cannot be started at all.
pub(crate) fn stream(command: &mut Command) -> Result<Ran, Notice> {
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|error| unstarted(command, &error))?;
    let mut said = String::new();
    let output = child.stdout.take().expect("the output was asked for as a pipe");
    for line in BufReader::new(output).split(b'\n').map_while(Result::ok) {
        let line = String::from_utf8_lossy(&line);
        println!("    {line}");
        said.push_str(&line);
        said.push('\n');
    }
    let status = child.wait().map_err(|error| unstarted(command, &error))?;
    Ok(Ran { success: status.success(), said })
}

/// Runs a program without showing anything; both outputs are kept, the errors after the rest.
///
/// # Errors
/// When the program cannot be started at all.
pub(crate) fn capture(command: &mut Command) -> Result<Ran, Notice> {
    let output = command.stdin(Stdio::null()).output().map_err(|error| unstarted(command, &error))?;
    let said =
        [output.stdout, output.stderr].map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).concat();
    Ok(Ran { success: output.status.success(), said })
}

/// Runs a program and gives its standard output alone; what it writes beside it is shown.
///
/// # Errors
/// When it cannot be started, or ends in failure.
pub(crate) fn output_of(command: &mut Command) -> Result<Vec<u8>, Notice> {
    let output = command
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .map_err(|error| unstarted(command, &error))?;
    match output.status.success() {
        true => Ok(output.stdout),
        false => Err(Notice::new(
            format!("`{}` failed.", spoken(command)),
            "What it should have written is missing.",
            "Read its message above.",
        )),
    }
}

/// Whether a program answers to `--version`.
pub(crate) fn has(program: &str) -> bool {
    Command::new(program)
        .arg("--version")
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

/// The command as a person would type it.
pub(crate) fn spoken(command: &Command) -> String {
    let program = std::path::Path::new(command.get_program());
    let program = program.file_name().unwrap_or(command.get_program());
    let words = std::iter::once(program).chain(command.get_args());
    words.map(|word| word.to_string_lossy().into_owned()).collect::<Vec<_>>().join(" ")
}

fn unstarted(command: &Command, error: &std::io::Error) -> Notice {
    let program = command.get_program().to_string_lossy().into_owned();
    let what = match error.kind() {
        ErrorKind::NotFound => format!("The program `{program}` was not found."),
        _ => format!("The program `{program}` could not be started ({error})."),
    };
    Notice::new(what, "The step that needs it did not run.", "Install it and type the command again.")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_program_is_named() {
        let notice = stream(&mut Command::new("a-program-nobody-has")).expect_err("it cannot be there");
        assert_eq!(notice.what, "The program `a-program-nobody-has` was not found.");
        assert!(!has("a-program-nobody-has"));
    }

    #[test]
    fn a_failing_program_is_not_a_missing_one() {
        let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
        let ran = capture(command.arg("a-word-cargo-does-not-know")).expect("cargo is there");
        assert!(!ran.success);
        assert!(ran.said.contains("a-word-cargo-does-not-know"), "{}", ran.said);
        assert_eq!(spoken(&command), "cargo a-word-cargo-does-not-know");
    }
}
