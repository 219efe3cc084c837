//! `pair`: a code that lets one more device in, made while the office is served or before.
//!
//! A code is kept in the database, where the program that serves the office looks for it, and handed to that
//! program, so that its desk page shows it.

use crate::folder::{is_job, is_served, no_record};
use crate::place;
use crate::problem::Problem;
use crate::screen::Screen;
use serde_json::json;
use server::Code;
use std::path::Path;
use store::{Database, Office, People, StoreError};

/// The setting that says how devices reach the office.
pub(super) const ADDRESS: &str = "address";

/// What it means that there is none.
const NO_CODE: &str = "No code was made, and no device was let in.";

pub(crate) fn run(
    folder: &Path,
    reached_at: Option<&str>,
    json: bool,
    screen: &mut Screen,
) -> Result<(), Problem> {
    if !is_job(folder) {
        return Err(no_record(folder));
    }
    // The office goes by the true time, whatever moment a rehearsal takes for now.
    let now = crate::now::now(None)?;
    let address = place::of(folder)?;
    let wrong = |error: StoreError| Problem::store(&address, &error);
    let mut store = Database::open(&address).map_err(wrong)?;
    if store.has_people().map_err(wrong)? {
        let what = "This office has people, and a device belongs to the person whose code lets it in.";
        let next = "Let that person sign in and make a code on the own page, ADDRESS/people.";
        return Err(Problem::new(what.to_owned(), NO_CODE, next));
    }
    let kept = store.setting(ADDRESS).map_err(wrong)?;
    let reached = reached_at.map(str::to_owned).or(kept).ok_or_else(|| never_served(folder))?;
    let code = Code::draw(reached.trim_end_matches('/'), now).map_err(|error| {
        let what = format!("This machine gave no random bytes: {error}.");
        Problem::new(what, NO_CODE, "Try again.")
    })?;
    store.add_code(&code.text, code.until.seconds(), now.seconds()).map_err(wrong)?;
    if is_served(folder) {
        code.hand_over(folder).map_err(|error| {
            let meaning = "A code was kept that nobody was shown; it lapses by itself in ten minutes.";
            Problem::file("Writing into", folder, &error).meaning(meaning)
        })?;
    }
    if json {
        screen.json(&json!({ "code": code.text, "link": code.link, "until": code.until.to_string() }));
    } else {
        tell(&code, screen);
    }
    Ok(())
}

/// Keeps how devices reach the office, for the codes that are made later.
pub(super) fn keep_address(folder: &Path, address: &str) -> Result<(), Problem> {
    let record = place::of(folder)?;
    let wrong = |error: StoreError| Problem::store(&record, &error);
    Database::open(&record).map_err(wrong)?.set(ADDRESS, address).map_err(wrong)
}

/// Tells a code: to be typed, and to be read by a tablet that can get there.
pub(super) fn tell(code: &Code, screen: &mut Screen) {
    screen.gap();
    screen.line(&format!("Pairing code  {}", screen.style().bold(&code.grouped())));
    screen.say("It lets one device in, once, within ten minutes.");
    if let Some(picture) = code.qr_text().filter(|_| is_far(&code.link)) {
        screen.gap();
        screen.raw(&(picture + "\n"));
        screen.say(&format!("Let a tablet read the picture, or open {} on it.", code.link));
    } else {
        screen.say(&format!("Open {} in the browser of this machine.", code.link));
    }
}

/// Whether an address leads to this machine from another one.
pub(super) fn is_far(address: &str) -> bool {
    let host = address.split("://").nth(1).unwrap_or_default();
    let near = ["127.", "localhost", "[::1]"];
    !near.iter().any(|near| host.starts_with(near))
}

fn never_served(folder: &Path) -> Problem {
    let what =
        format!("{} has not been served yet, and a code needs an address to lead to.", folder.display());
    let next = "Serve it first: shaftbook serve FOLDER prints a code; or say --reached-at URL.";
    Problem::new(what, NO_CODE, next)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_an_address_another_machine_can_reach_is_far() {
        for near in ["http://127.0.0.1:7420", "http://localhost:7420/pair#A", "http://[::1]:7420"] {
            assert!(!is_far(near), "{near}");
        }
        for far in ["https://office.example", "https://192.0.2.7:7420/pair#A"] {
            assert!(is_far(far), "{far}");
        }
    }
}
