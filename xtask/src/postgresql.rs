//! PostgreSQL for the tests: Debian's package, and the tests of the server run once more on it.
//!
//! The tests start a server of their own in a folder of its own and throw it away; nothing that runs on the machine is
//! used. Where the package is missing it is fetched through apt, and where that cannot be done it is said so: what was not
//! tried is never counted as passed.

use crate::copies::APART;
use crate::house::House;
use crate::notice::Notice;
use crate::tally::Tally;
use crate::{shell, steps};

/// Says where the programs of PostgreSQL lie when they are not where Debian puts them.
const ELSEWHERE: &str = "SHAFTBOOK_POSTGRES";

/// Where Debian puts them, by version.
const DEBIANS: &str = "/usr/lib/postgresql";

/// Fetches PostgreSQL where it is missing, then runs the tests of the server's routes on it. Those of the store run on
/// both kinds of database anyway, in the step of the tests.
///
/// # Errors
/// No PostgreSQL, or tests that did not come to their end.
pub(crate) fn step(house: &House) -> Result<Tally, Notice> {
    ready(house)?;
    let mut command = house.cargo(&["test", "--no-fail-fast", "--workspace", "--test", "routes"]);
    command.args(APART.iter().flat_map(|name| ["--exclude", name])).env("SHAFTBOOK_TESTS_ON", "postgres");
    steps::tests_by(&mut command)
}

fn ready(house: &House) -> Result<(), Notice> {
    if there() {
        return Ok(());
    }
    println!("    PostgreSQL is missing: apt-get install postgresql");
    let update = shell::stream(house.command("apt-get").args(["-qq", "update"]));
    if update.is_ok_and(|ran| ran.success) {
        let words = ["-qq", "-y", "--no-install-recommends", "install", "postgresql"];
        shell::stream(house.command("apt-get").args(words).env("DEBIAN_FRONTEND", "noninteractive"))?;
    }
    if there() {
        return Ok(());
    }
    Err(Notice::new(
        "No PostgreSQL was found, and apt could not install it.",
        "An office with its record in a database on a server cannot be tried.",
        format!(
            "Install it (Debian: apt-get install postgresql, as root), or name the folder of `initdb` in {ELSEWHERE}."
        ),
    ))
}

fn there() -> bool {
    let versions = std::fs::read_dir(DEBIANS).into_iter().flatten().flatten();
    std::env::var_os(ELSEWHERE).is_some()
        || versions.into_iter().any(|version| version.path().join("bin/initdb").exists())
}
