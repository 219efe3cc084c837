//! What a file of notes would become, in words, before a person says that it is entered.
//!
//! Never: count a line as entered that waits.

use record::kinds::KindSpec;
use std::collections::BTreeMap;
use wording::label;

/// How much of a file is new: `41 entries to enter; 3 are in the record already and are not entered twice.`
pub fn told(new: usize, known: usize) -> String {
    match (new, known) {
        (0, 0) => "There is nothing in it to enter.".to_owned(),
        (0, known) => format!("Nothing new: {} already.", are(known)),
        (new, 0) => format!("{} to enter.", entries(new)),
        (new, known) => format!("{} to enter; {} already and not entered twice.", entries(new), are(known)),
    }
}

fn entries(count: usize) -> String {
    if count == 1 { "1 entry".to_owned() } else { format!("{count} entries") }
}

fn are(count: usize) -> String {
    if count == 1 { "1 is in the record".to_owned() } else { format!("{count} are in the record") }
}

/// A line for the job and for each shaft: `S-2: Tool run 12, Stratum met 4`; kinds in the order they come up.
pub fn inside<'d>(drafts: impl Iterator<Item = (Option<&'d str>, &'static KindSpec)>) -> Vec<String> {
    let mut all: BTreeMap<Option<&str>, Vec<(&'static KindSpec, usize)>> = BTreeMap::new();
    for (shaft, kind) in drafts {
        let kinds = all.entry(shaft).or_default();
        match kinds.iter_mut().find(|row| row.0.word == kind.word) {
            Some(row) => row.1 += 1,
            None => kinds.push((kind, 1)),
        }
    }
    let line = |(shaft, kinds): (Option<&str>, Vec<(&'static KindSpec, usize)>)| {
        let counted: Vec<String> = kinds.iter().map(|(kind, count)| counted(kind, *count)).collect();
        format!("{}: {}", shaft.unwrap_or("The job"), counted.join(", "))
    };
    all.into_iter().map(line).collect()
}

fn counted(kind: &KindSpec, count: usize) -> String {
    let label = label::kind(kind);
    if count == 1 { label } else { format!("{label} {count}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use record::kinds::kind_of;

    #[test]
    fn what_is_new_and_what_is_known_are_told_apart() {
        let said = [(0, 0), (0, 1), (1, 0), (41, 3)].map(|(new, known)| told(new, known));
        assert_eq!(
            said,
            [
                "There is nothing in it to enter.",
                "Nothing new: 1 is in the record already.",
                "1 entry to enter.",
                "41 entries to enter; 3 are in the record already and not entered twice.",
            ]
        );
    }

    #[test]
    fn the_job_comes_first_and_each_shaft_has_a_line() {
        let kind = |word| kind_of(word).expect("a kind");
        let drafts = [
            (Some("S-2"), kind("tool_run")),
            (None, kind("job_opened")),
            (Some("S-2"), kind("stratum_met")),
            (Some("S-2"), kind("tool_run")),
            (Some("S-1"), kind("shaft_planned")),
        ];
        assert_eq!(
            inside(drafts.into_iter()),
            ["The job: Job opened", "S-1: Shaft planned", "S-2: Tool run 2, Stratum met"]
        );
    }
}
