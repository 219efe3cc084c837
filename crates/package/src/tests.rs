//! Nothing that was entered is missing from a package, and nothing that fails is hidden in a group.

mod demo;

use crate::findings::{counts, rows, standing};
use crate::{Source, shaft};
use assess::{Earlier, Finding, Outcome, Rules, assess};
use demo::{entries_of_every_kind, job};
use quantity::Moment;
use record::{EntryId, Log, Record};
use report::{Paper, ReportInput, Standing};
use std::collections::BTreeSet;

const JOBS: [&str; 3] = ["harrow-vale", "lindmoor", "printed"];

/// Looks at a shaft at a moment; `None`: after the last entry.
fn look(record: &Record, name: &str, at: Option<Moment>, see: impl FnOnce(&Source<'_, '_>)) {
    let log = Log::of(record, Some(name), at);
    let end = at.or_else(|| log.end()).expect("a log with entries");
    let set = Rules::of(&log).map_or_else(|_| Rules::none(), |rules| rules.set);
    let assessment = assess(&log, &set, end);
    let (made, paper) = (end, Paper::A4);
    let earlier = Earlier::of(record, name, end);
    see(&Source {
        shaft: name,
        record,
        log: &log,
        set: &set,
        assessment: &assessment,
        earlier: &earlier,
        made,
        paper,
        sealing: None,
    });
}

/// Every shaft of every demo job at its end.
fn each_shaft(mut see: impl FnMut(&Source<'_, '_>)) {
    for name in JOBS {
        let record = job(name);
        for shaft in record.shafts() {
            look(&record, shaft, None, &mut see);
        }
    }
}

/// Everything of a package that is a row about an entry: logs, papers, changes, photos.
fn rows_about_entries(input: &ReportInput) -> String {
    let ids = input.logs.iter().chain(&input.papers).flat_map(|log| &log.rows).map(|row| row.entry.as_str());
    let changes = input.corrections.iter().flat_map(|one| [one.what.as_str(), one.by.as_str()]);
    let disputes = input.disputes.iter().map(|one| one.closed.as_str());
    let photos = input.photos.iter().map(|one| one.file.as_str());
    ids.chain(changes).chain(disputes).chain(photos).collect::<Vec<_>>().join("\n")
}

#[track_caller]
fn nothing_is_lost(source: &Source<'_, '_>) {
    let printed = rows_about_entries(&shaft(source));
    let lines = source.log.lines.iter().map(|line| (line.entry.id, line.body.kind().word));
    let corrections = source.log.corrections.iter().map(|entry| (entry.id, "correction"));
    for (id, kind) in lines.chain(corrections) {
        assert!(
            printed.contains(&EntryId::short(&id)),
            "{}: {kind} {} is in no table",
            source.shaft,
            id.short()
        );
    }
}

#[test]
fn every_entry_of_the_demo_stands_in_its_package() {
    let mut shafts = 0;
    each_shaft(|source| {
        shafts += 1;
        nothing_is_lost(source);
    });
    assert_eq!(shafts, 6, "three shafts, one pile, two printed pours");
}

#[test]
fn an_entry_of_every_kind_stands_in_a_package() {
    look(&entries_of_every_kind(), "S-1", None, nothing_is_lost);
}

/// The texts of every cell of a log survive its rearrangement, whichever table it ends in.
#[test]
fn every_field_of_every_kind_survives_the_tables() {
    look(&entries_of_every_kind(), "S-1", None, |source| {
        let input = shaft(source);
        let printed = format!("{:?}{:?}{:?}{:?}", input.logs, input.papers, input.photos, input.corrections);
        for table in wording::tables(source.log, source.assessment, &source.show()) {
            for cell in table.rows.iter().flat_map(|row| row.cells.iter().flatten()) {
                let told = printed.contains(&format!("{cell:?}")[1..=cell.len()])
                    || is_told_otherwise(table.id, cell);
                assert!(told, "{}: `{cell}` is nowhere", table.id);
            }
        }
    });
}

/// Times are told with their day; disputes and corrections stand in sections of their own, and what they say
/// is looked for above by their ids.
fn is_told_otherwise(id: &str, cell: &str) -> bool {
    let time = cell.ends_with(|c: char| c.is_ascii_digit())
        && cell.contains(':')
        && cell.len() <= "2025-05-12 07:12".len();
    time || matches!(id, "corrections" | "disputes")
}

fn judged<'a>(source: &Source<'a, '_>) -> Vec<&'a Finding> {
    source.assessment.findings.iter().filter(|finding| finding.criterion.is_some()).collect()
}

/// Groups hold each finding once, and only findings nobody has to look at one by one.
#[track_caller]
fn grouping_is_honest(source: &Source<'_, '_>) {
    let judged = judged(source);
    let rows = rows(judged.iter().copied());
    assert_eq!(rows.iter().map(Vec::len).sum::<usize>(), judged.len(), "{}", source.shaft);
    for group in rows.iter().filter(|row| row.len() > 1) {
        for finding in group {
            assert!(!matches!(finding.outcome(), Outcome::Fails | Outcome::CannotSay), "{finding:?}");
            assert!(!finding.disputed && finding.dispositions.is_empty(), "{finding:?}");
            assert_eq!(standing(finding), standing(group[0]));
        }
    }
    let printed = crate::findings::findings(source);
    assert_eq!(printed.len(), rows.len());
    let failing = printed.iter().filter(|row| row.standing == Standing::Fails).count();
    assert_eq!(failing, judged.iter().filter(|finding| finding.outcome() == Outcome::Fails).count());
    assert_eq!(failing, counts(&source.assessment.findings).fails as usize);
}

#[test]
fn no_group_hides_a_finding_that_fails_at_any_hour_of_the_work() {
    let (mut fails, mut groups) = (0, 0);
    for name in JOBS {
        let record = job(name);
        for shaft in record.shafts() {
            let whole = Log::of(&record, Some(shaft), None);
            let own = whole.lines.iter().filter(|line| line.entry.shaft.as_deref() == Some(shaft));
            let moments: BTreeSet<Moment> = own.map(|line| line.at).collect();
            for at in moments.into_iter().step_by(9) {
                look(&record, shaft, Some(at), |source| {
                    grouping_is_honest(source);
                    let judged = judged(source);
                    fails += judged.iter().filter(|finding| finding.outcome() == Outcome::Fails).count();
                    groups += rows(judged.iter().copied()).iter().filter(|row| row.len() > 1).count();
                });
            }
        }
    }
    assert!(fails > 20 && groups > 20, "{fails} fail and {groups} groups: too few to show anything");
}

/// A failing, doubtful or decided finding put beside those that meet stays alone.
#[test]
fn a_finding_that_fails_is_never_taken_into_a_group() {
    each_shaft(|source| {
        let judged = judged(source);
        let Some(group) = rows(judged.iter().copied()).into_iter().find(|row| row.len() > 1) else { return };
        let mut fallen = group[0].clone();
        fallen.judgement.verdict = criteria::Verdict::Fails { excess: None, side: criteria::Side::Otherwise };
        let mixed = rows(group.iter().copied().chain([&fallen, &fallen]));
        let alone = mixed.iter().filter(|row| row.len() == 1 && row[0].outcome() == Outcome::Fails).count();
        assert_eq!((mixed.len(), alone), (3, 2), "{}", source.shaft);
    });
}

#[test]
fn a_struck_row_is_struck_in_the_package() {
    let record = job("harrow-vale");
    look(&record, "S-2", None, |source| {
        let input = shaft(source);
        let struck =
            source.log.lines.iter().filter(|line| matches!(line.standing, record::Standing::Struck { .. }));
        let struck: Vec<String> = struck.map(|line| line.entry.id.short()).collect();
        assert!(!struck.is_empty());
        for id in struck {
            let mut rows = input.logs.iter().chain(&input.papers).flat_map(|log| &log.rows);
            let is_struck =
                |row: &report::Row| row.marks.iter().any(|mark| matches!(mark, report::Mark::Struck { .. }));
            assert!(rows.any(|row| row.entry == id && is_struck(row)), "{id} is not struck");
        }
    });
}

#[test]
fn concrete_behind_a_casing_is_named_on_page_one() {
    let record = job("lindmoor");
    look(&record, "P-7", None, |source| {
        let input = shaft(source);
        let named = input.leading.iter().any(|line| line.contains("went behind the casing"));
        assert!(named, "{:#?}", input.leading);
    });
}
