//! The Python environment of the reference checks.
//!
//! Independent libraries (`pint`, `scipy`, `cryptography`) recompute what our own code printed. They live
//! in `.venv`, at the versions `tests/reference/requirements.txt` pins.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use crate::tally::Tally;
use std::path::PathBuf;

const REQUIREMENTS: &str = "tests/reference/requirements.txt";
/// A copy of the requirements as they were installed; when it differs, they are installed again.
const INSTALLED: &str = ".venv/installed-requirements.txt";

/// The Python of the environment.
pub(crate) fn interpreter(house: &House) -> PathBuf {
    house.path(".venv/bin/python")
}

/// Makes the environment where it is missing and installs what is pinned.
///
/// # Errors
/// No Python, no `venv` module, or packages that could not be fetched.
pub(crate) fn ready(house: &House) -> Result<Tally, Notice> {
    if !interpreter(house).is_file() {
        make(house)?;
    }
    let wanted = std::fs::read_to_string(house.path(REQUIREMENTS)).map_err(|error| {
        Notice::new(
            format!("{REQUIREMENTS} could not be read ({error})."),
            "Nobody knows which reference libraries to install.",
            "Restore the file.",
        )
    })?;
    if std::fs::read_to_string(house.path(INSTALLED)).is_ok_and(|installed| installed == wanted) {
        println!("    the packages of {REQUIREMENTS} are installed in .venv");
        return Ok(Tally::default());
    }
    install(house)?;
    std::fs::write(house.path(INSTALLED), wanted).map_err(|error| {
        Notice::new(
            format!("{INSTALLED} could not be written ({error})."),
            "The packages would be installed again every time.",
            "Make the folder .venv writable, or delete it.",
        )
    })?;
    Ok(Tally::default())
}

fn make(house: &House) -> Result<(), Notice> {
    println!("    making .venv: python3 -m venv .venv");
    let made = shell::stream(house.command("python3").args(["-m", "venv", ".venv"]));
    match made {
        Ok(ran) if ran.success => Ok(()),
        failed => {
            // Half an environment would be taken for a whole one the next time.
            let _ = std::fs::remove_dir_all(house.path(".venv"));
            Err(Notice::new(
                match failed {
                    Err(notice) => notice.what,
                    Ok(_) => "`python3 -m venv .venv` failed.".to_owned(),
                },
                "The reference libraries cannot be installed, so no reference check can run.",
                "Install Python 3.11 with its venv module (Debian: apt-get install python3 python3-venv), \
             and type the command again.",
            ))
        }
    }
}

fn install(house: &House) -> Result<(), Notice> {
    println!("    installing {REQUIREMENTS} into .venv (half a minute with a connection)");
    let mut command = house.command(interpreter(house));
    command.args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r", REQUIREMENTS]);
    match shell::stream(&mut command)?.success {
        true => Ok(()),
        false => Err(Notice::new(
            "pip could not install the reference libraries.",
            "No reference check can run.",
            format!("With a connection, run: .venv/bin/python -m pip install -r {REQUIREMENTS}"),
        )),
    }
}
