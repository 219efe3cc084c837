//! `verify package.pdf`: pages, entries and seal held against each other, with nothing but the file.
//!
//! A program of the version that drew the pages draws them again from the entries inside and compares the whole file,
//! byte for byte. Another version holds the pages against what the seal says of them.

use super::stamped::{Asked, Stamped};
use crate::commands::package::{failed, house_fonts};
use crate::commands::seal::{PROGRAM, made_again};
use crate::problem::{ALTERED, Problem};
use crate::screen::Screen;
use record::Entry;
use report::Fonts;
use seal::{Proof, Unreadable};
use serde_json::json;
use std::path::Path;

/// How the file compares with one drawn again from the entries inside.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Again {
    /// Byte for byte the same.
    Same,
    /// Something in it is not what the same program makes.
    Differs,
    /// Another version drew it.
    OtherProgram,
    /// The entries or the seal inside cannot be believed, so there is nothing to draw it from.
    Impossible,
}

pub(super) fn is_pdf(path: &Path) -> bool {
    path.is_file() && path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pdf"))
}

pub(super) fn run(asked: &Asked<'_>, as_json: bool, screen: &mut Screen) -> Result<(), Problem> {
    let path = asked.package;
    let (bytes, proof) = read(path)?;
    let again = compare(&proof, &bytes)?;
    let stamped = Stamped::of(asked, proof.seal.as_ref())?;
    if as_json {
        screen.json(&json_of(&proof, again, stamped.as_ref()));
    } else {
        tell(&proof, again, screen);
        stamped.iter().filter(|_| proof.faults.is_empty()).for_each(|stamped| stamped.tell(screen));
    }
    let wrong = problem(path, &faults(&proof), again).or_else(|| stamped?.problem());
    wrong.map_or(Ok(()), Err)
}

/// The entry that seals a package which holds against itself.
pub(in crate::commands) fn proved(path: &Path) -> Result<Entry, Problem> {
    let (_, proof) = read(path)?;
    match (problem(path, &faults(&proof), Again::OtherProgram), proof.seal) {
        (None, Some(entry)) => Ok(entry),
        (Some(problem), _) => Err(problem),
        (None, None) => Err(unreadable(path, &Unreadable::NotSealed)),
    }
}

fn read(path: &Path) -> Result<(Vec<u8>, Proof), Problem> {
    let bytes = std::fs::read(path).map_err(|error| Problem::file("Reading", path, &error))?;
    let proof = seal::prove(&bytes).map_err(|error| unreadable(path, &error))?;
    Ok((bytes, proof))
}

fn faults(proof: &Proof) -> Vec<String> {
    proof.faults.iter().map(ToString::to_string).collect()
}

/// What does not hold, and what that means; a build of the same version may draw other pages without anybody's ill will.
fn problem(path: &Path, faults: &[String], again: Again) -> Option<Problem> {
    let path = path.display();
    let wrong: Vec<String> = faults.iter().map(|fault| format!("{path}: {fault}.")).collect();
    let problem = match (wrong.is_empty(), again) {
        (true, Again::Differs) => Problem::new(
            format!(
                "{path}: the pages that were sealed are not what {PROGRAM} draws from the entries inside."
            ),
            "Nothing was altered after the seal, and the entries are proved. What the pages say is not: another build of \
             the same version drew them, or they say something else.",
            "Print the package from the entries inside, and hold it against these pages.",
        ),
        (true, _) => return None,
        (false, _) => Problem::new(
            wrong.join(" "),
            "This file was altered after it was sealed, or is not whole: it proves nothing.",
            "Ask whoever sealed it for the package; the record it came from can make it again.",
        ),
    };
    Some(problem.exit(ALTERED))
}

fn unreadable(path: &Path, error: &Unreadable) -> Problem {
    let what = format!("{}: {error}.", path.display());
    match error {
        Unreadable::NotSealed => Problem::new(
            what,
            "It is a package that was not sealed: it proves nothing.",
            "Seal the shaft, or verify the record itself.",
        ),
        _ => Problem::new(what, "Nothing can be proved from it.", "Ask for the file again.").exit(ALTERED),
    }
}

fn compare(proof: &Proof, bytes: &[u8]) -> Result<Again, Problem> {
    let (Some(record), Some(entry), Some(sealed)) = (&proof.record, &proof.seal, proof.sealed()) else {
        return Ok(Again::Impossible);
    };
    if sealed.program != PROGRAM {
        return Ok(Again::OtherProgram);
    }
    let fonts = Fonts::new(&house_fonts()).map_err(|error| failed(&error))?;
    let again = made_again(record, entry, &fonts);
    Ok(again.map_or(Again::Impossible, |again| if again == bytes { Again::Same } else { Again::Differs }))
}

fn tell(proof: &Proof, again: Again, screen: &mut Screen) {
    let Some((entry, sealed)) = proof.seal.as_ref().zip(proof.sealed()) else { return };
    let shaft = entry.shaft.as_deref().unwrap_or_default();
    screen.say(&format!(
        "Shaft {shaft} of {}, sealed by {} at {} with the key {}.",
        entry.job,
        entry.author,
        entry.observed_at,
        entry.device.short()
    ));
    screen.say(&match proof.by_the_same_key() {
        0 => "That key wrote none of the entries inside: ask whose it is.".to_owned(),
        many => format!("That key also wrote {many} of the entries inside."),
    });
    screen.say(&format!("Root over {} entries: {}", sealed.entries, sealed.root));
    if !proof.faults.is_empty() {
        return;
    }
    screen.say(
        "Every id and signature inside is good, no entry is missing, and the pages are the sealed ones.",
    );
    match again {
        Again::Same => screen.say("Drawn again from the entries inside, the file is the same byte for byte."),
        Again::OtherProgram => screen.say(&format!(
            "{} drew the pages and this is {PROGRAM}: they were compared with the seal and not drawn again.",
            sealed.program
        )),
        Again::Differs | Again::Impossible => {}
    }
}

fn json_of(proof: &Proof, again: Again, stamped: Option<&Stamped>) -> serde_json::Value {
    let sealed = proof.sealed();
    let entry = proof.seal.as_ref();
    json!({
        "job": entry.map(|entry| entry.job.clone()),
        "shaft": entry.and_then(|entry| entry.shaft.clone()),
        "sealed_by": entry.map(|entry| entry.author.clone()),
        "sealed_at": entry.map(|entry| entry.observed_at.to_string()),
        "key": entry.map(|entry| entry.device.to_string()),
        "written_by_key": proof.by_the_same_key(),
        "root": sealed.map(|sealed| sealed.root.to_string()),
        "entries": sealed.map(|sealed| sealed.entries),
        "pages": proof.page_count,
        "drawn_again": match again {
            Again::Same => "same",
            Again::Differs => "differs",
            Again::OtherProgram => "other_program",
            Again::Impossible => "impossible",
        },
        "time_stamp": stamped.map(Stamped::json),
        "faults": faults(proof),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is told, and that it is told, of these faults.
    #[track_caller]
    fn check(faults: &[&str], again: Again, expected: Option<&str>) {
        let faults: Vec<String> = faults.iter().map(|fault| (*fault).to_owned()).collect();
        let told = problem(Path::new("a.pdf"), &faults, again).map(|problem| problem.to_string());
        match expected {
            None => assert_eq!(told, None),
            Some(words) => assert!(told.as_ref().is_some_and(|told| told.contains(words)), "{told:?}"),
        }
    }

    #[test]
    fn pages_of_another_build_are_not_called_altered() {
        check(&[], Again::Same, None);
        check(&[], Again::OtherProgram, None);
        check(&[], Again::Differs, Some("Nothing was altered after the seal"));
        check(&["page 2 does not draw what was sealed"], Again::Differs, Some("altered after it was sealed"));
        check(&["the root differs"], Again::Impossible, Some("it proves nothing"));
    }
}
