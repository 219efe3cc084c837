//! Independent programs recompute what ours printed.
//!
//! An example program of a crate prints a table; a Python script with libraries that know nothing of us
//! recomputes every row. A stranger's script verifies a record, and must refuse one that was altered.

use crate::house::House;
use crate::notice::Notice;
use crate::tally::Tally;
use crate::{python, shell};
use std::path::{Path, PathBuf};

/// A table one of our crates prints, and the script that recomputes it.
struct Reference {
    package: &'static str,
    example: &'static str,
    table: &'static str,
    script: &'static str,
}

const UNITS: Reference = Reference {
    package: "quantity",
    example: "units_table",
    table: "target/reference/units.tsv",
    script: "tests/reference/units_check.py",
};

const FORMULAS: Reference = Reference {
    package: "calc",
    example: "formulas_table",
    table: "target/reference/formulas.jsonl",
    script: "tests/reference/formulas_check.py",
};

const PROFILE: Reference = Reference {
    package: "calc",
    example: "profile_table",
    table: "target/reference/profile.jsonl",
    script: "tests/reference/profile_reference.py",
};

const TREE: Reference = Reference {
    package: "seal",
    example: "tree_table",
    table: "target/reference/tree.jsonl",
    script: "tests/reference/tree_check.py",
};

const VERIFY: &str = "docs/verify-record.py";
/// A golden file with one digit of one reading altered.
const TAMPERED: &str = "crates/wire/golden/tampered.jsonl";

/// Units against `pint`.
///
/// # Errors
/// A missing script or example, or a row that disagrees.
pub(crate) fn units(house: &House) -> Result<Tally, Notice> {
    check(house, &UNITS)
}

/// Formulas against `scipy` and closed forms.
///
/// # Errors
/// A missing script or example, or a row that disagrees.
pub(crate) fn formulas(house: &House) -> Result<Tally, Notice> {
    check(house, &FORMULAS)
}

/// Trees of hashes against the definition, written again with `hashlib`.
///
/// # Errors
/// A missing script or example, or a root or path that disagrees.
pub(crate) fn tree(house: &House) -> Result<Tally, Notice> {
    check(house, &TREE)
}

/// As-built profiles against the same model written with `numpy` and `scipy`.
///
/// # Errors
/// A missing script or example, or a figure that disagrees.
pub(crate) fn profile(house: &House) -> Result<Tally, Notice> {
    check(house, &PROFILE)
}

fn check(house: &House, reference: &Reference) -> Result<Tally, Notice> {
    present(house, reference.script)?;
    present(house, &format!("crates/{}/examples/{}.rs", reference.package, reference.example))?;
    let run = ["run", "--quiet", "--package", reference.package, "--example", reference.example];
    let table = shell::output_of(&mut house.cargo(&run))?;
    write(&house.path(reference.table), &table)?;
    println!("    {} lines in {}", table.iter().filter(|byte| **byte == b'\n').count(), reference.table);
    let mut script = house.command(python::interpreter(house));
    let ran = shell::stream(script.args([reference.script, reference.table]))?;
    counted(ran, reference.script)
}

/// A stranger's script verifies every record we have, and refuses each of them with one digit altered.
///
/// # Errors
/// No record to verify, a record it refuses, or an altered record it lets pass.
pub(crate) fn verify(house: &House) -> Result<Tally, Notice> {
    present(house, VERIFY)?;
    let records = records(house);
    if records.is_empty() {
        return Err(Notice::new(
            "There is no record (*.jsonl) under crates/wire/golden/v1 or out/demo.",
            "Nobody can tell whether a stranger could verify ours.",
            "Run `cargo xtask demo` first, or restore the golden files.",
        ));
    }
    let mut sum = Tally::default();
    for record in &records {
        sum += verified(house, record)?;
    }
    present(house, TAMPERED)?;
    let lets_pass = accepts(house, &house.path(TAMPERED))?.success;
    println!("    {TAMPERED}: {}", if lets_pass { "LET PASS" } else { "refused" });
    sum += Tally::of(usize::from(!lets_pass), usize::from(lets_pass));
    Ok(sum)
}

/// The stranger's script on a record.
fn accepts(house: &House, path: &Path) -> Result<shell::Ran, Notice> {
    let mut script = house.command(python::interpreter(house));
    shell::capture(script.arg(VERIFY).arg(path))
}

fn records(house: &House) -> Vec<PathBuf> {
    let mut found = house.files("crates/wire/golden/v1", ".jsonl");
    for job in house.folders("out/demo") {
        found.extend(house.files(&house.shown(&job), ".jsonl"));
    }
    found
}

/// Two checks a record: as it is, and with one digit altered.
fn verified(house: &House, record: &Path) -> Result<Tally, Notice> {
    let unread = |error: std::io::Error| {
        Notice::new(
            format!("{} could not be read ({error}).", house.shown(record)),
            "It is unverified.",
            "Look at it.",
        )
    };
    let altered = altered(&std::fs::read_to_string(record).map_err(unread)?);
    let copy = house.path("target/reference/altered.jsonl");
    write(&copy, altered.as_bytes())?;
    let (whole, broken) = (accepts(house, record)?, accepts(house, &copy)?);
    let name = house.shown(record);
    match (whole.success, broken.success) {
        (true, false) => println!("    {name}: verified; refused with one digit altered"),
        (true, true) => println!("    {name}: verified, but ALSO WITH ONE DIGIT ALTERED"),
        (false, _) => println!("    {name}: REFUSED\n{}", whole.said),
    }
    let passed = usize::from(whole.success) + usize::from(!broken.success);
    Ok(Tally::of(passed, 2 - passed))
}

/// The text with the first digit after its middle replaced by another one.
fn altered(text: &str) -> String {
    let mut bytes = text.as_bytes().to_vec();
    let middle = bytes.len() / 2;
    if let Some(digit) = bytes[middle..].iter_mut().find(|byte| byte.is_ascii_digit()) {
        *digit = if *digit == b'9' { b'8' } else { *digit + 1 };
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

/// What a script counted.
///
/// # Errors
/// A script that counts nothing has checked nothing.
pub(crate) fn counted(ran: shell::Ran, script: &str) -> Result<Tally, Notice> {
    let tally = Tally::read(&ran.said);
    match (ran.success, tally) {
        (true, Tally { passed: 0, .. }) => Err(Notice::new(
            format!("{script} ended well, but counted no check."),
            "It may have been given an empty table.",
            "Let it print `N passed, N failed` as its last line.",
        )),
        (false, Tally { failed: 0, .. }) => Err(Notice::new(
            format!("{script} failed before it had counted anything."),
            "The independent check did not happen.",
            "Read its message above.",
        )),
        (_, tally) => Ok(tally),
    }
}

fn present(house: &House, file: &str) -> Result<(), Notice> {
    match house.path(file).is_file() {
        true => Ok(()),
        false => Err(Notice::new(
            format!("{file} does not exist."),
            "The independent check it makes did not happen.",
            "Write it, or restore it.",
        )),
    }
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Notice> {
    let folder = path.parent().unwrap_or(path);
    std::fs::create_dir_all(folder).and_then(|()| std::fs::write(path, bytes)).map_err(|error| {
        Notice::new(
            format!("{} could not be written ({error}).", path.display()),
            "The check that reads it cannot run.",
            "Make room, or make the folder writable.",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_digit_of_the_second_half_is_altered() {
        assert_eq!(altered("ab12cd34ef"), "ab12cd44ef");
        assert_eq!(altered("12345x9"), "12355x9");
        assert_eq!(altered("1 x9"), "1 x8");
        assert_eq!(altered("no digits"), "no digits");
    }

    #[test]
    fn a_script_that_counted_nothing_does_not_pass() {
        let ran = |success, said: &str| shell::Ran { success, said: said.to_owned() };
        assert!(counted(ran(true, ""), "x.py").is_err());
        assert!(counted(ran(true, "0 passed, 0 failed"), "x.py").is_err());
        assert!(counted(ran(false, ""), "x.py").is_err());
        assert_eq!(counted(ran(true, "3 passed, 0 failed"), "x.py"), Ok(Tally::of(3, 0)));
        assert_eq!(counted(ran(false, "2 passed, 1 failed"), "x.py"), Ok(Tally::of(2, 1)));
    }
}
