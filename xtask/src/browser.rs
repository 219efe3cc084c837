//! The tests in a real browser: a day at the rig, tapped through Chromium.
//!
//! `node --test` runs what lies in `browser/tests` against the program that the demo uses. The browser is
//! Debian's; where it is missing it is fetched through apt, and where that cannot be done it is said so.

use crate::house::House;
use crate::notice::Notice;
use crate::tally::{self, Tally};
use crate::{demo, node, shell};

/// Names the browser goes by.
const NAMES: &[&str] = &["chromium", "chromium-browser", "google-chrome"];
/// Says where a browser lies that goes by another name.
pub(crate) const ELSEWHERE: &str = "SHAFTBOOK_BROWSER";

/// Runs the tests of `browser/tests`, or after the word only those whose file name holds it.
///
/// # Errors
/// No browser, no packages, or a program that does not build.
pub(crate) fn run(house: &House, words: &[String]) -> Result<(), Notice> {
    let tally = tests(house, words.first().map_or("", String::as_str))?;
    println!("{} passed, {} failed", tally.passed, tally.failed);
    match tally.failed {
        0 => Ok(()),
        _ => Err(Notice::new(
            "The app does not do in a browser what it has to.",
            "An inspector would find it out beside the hole.",
            "Read the first failed test above; pictures of the screens are in out/browser.",
        )),
    }
}

/// All of them, as a step of `cargo xtask test`.
///
/// # Errors
/// As for [`run`].
pub(crate) fn step(house: &House) -> Result<Tally, Notice> {
    tests(house, "")
}

fn tests(house: &House, part: &str) -> Result<Tally, Notice> {
    node::ready(house)?;
    let browser = ready(house)?;
    let program = demo::build(house, &[])?;
    let files = house.files("browser/tests", ".mjs");
    let names = files.iter().map(|path| house.shown(path)).filter(|name| name.contains(part));
    let names: Vec<String> = names.collect();
    if names.is_empty() {
        return Err(Notice::new(
            format!("No test in browser/tests has a name with `{part}`."),
            "Nothing was tried in a browser.",
            "Type: cargo xtask browser [PART OF A FILE NAME]",
        ));
    }
    let mut command = house.command("node");
    command.args(["--test", "--test-reporter=spec", "--test-concurrency=1"]).args(names);
    command.env("SHAFTBOOK", program).env(ELSEWHERE, browser);
    let ran = shell::stream(&mut command)?;
    match counted(&ran.said) {
        Some(tally) if ran.success || tally.failed > 0 => Ok(tally),
        _ => Err(Notice::new(
            "`node --test` did not come to its end.",
            "Some screens were not tried at all.",
            "Read its message above.",
        )),
    }
}

/// What the closing lines of `node --test` say.
fn counted(said: &str) -> Option<Tally> {
    let number = |word: &str| {
        let line =
            said.lines().find_map(|line| line.trim_start_matches(['ℹ', '#', ' ']).strip_prefix(word))?;
        line.trim().parse::<usize>().ok()
    };
    let (passed, failed) = (number("pass ")?, number("fail ")? + number("cancelled ")?);
    (passed + failed > 0).then(|| Tally { passed, failed, said: tally::reasons(said) })
}

/// The browser, fetched where it is missing.
pub(crate) fn ready(house: &House) -> Result<String, Notice> {
    if let Some(found) = there() {
        return Ok(found);
    }
    println!("    Chromium is missing: apt-get install chromium");
    let update = shell::stream(house.command("apt-get").args(["-qq", "update"]));
    if update.is_ok_and(|ran| ran.success) {
        let words = ["-qq", "-y", "--no-install-recommends", "install", "chromium"];
        shell::stream(house.command("apt-get").args(words).env("DEBIAN_FRONTEND", "noninteractive"))?;
    }
    there().ok_or_else(|| {
        Notice::new(
            "No Chromium was found, and apt could not install it.",
            "Nothing can be tried in a browser.",
            format!(
                "Install Chromium (Debian: apt-get install chromium, as root), or name one in {ELSEWHERE}."
            ),
        )
    })
}

fn there() -> Option<String> {
    let elsewhere = std::env::var(ELSEWHERE).ok();
    elsewhere.into_iter().chain(NAMES.iter().map(|name| (*name).to_owned())).find(|name| shell::has(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_closing_lines_are_counted() {
        let said = "✔ a day\nℹ tests 4\nℹ pass 3\nℹ fail 1\nℹ cancelled 0\n";
        assert_eq!(counted(said), Some(Tally::of(3, 1)));
        assert_eq!(counted("# pass 2\n# fail 0\n# cancelled 1\n"), Some(Tally::of(2, 1)));
        assert_eq!(counted("ℹ pass 0\nℹ fail 0\nℹ cancelled 0\n"), None);
        assert_eq!(counted("SyntaxError"), None);
    }
}
