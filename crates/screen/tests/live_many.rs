//! Many shafts: reckoned one by one and put together they say what they say at once; all jobs on one page.

#[path = "live/demo.rs"]
mod demo;

use demo::{at, by_then, harrow_vale_entries, lindmoor_entries};
use expect_test::expect;
use record::Record;
use screen::live::{self, AcrossScreen, OfficeScreen, Reckoned, ReckonedJob, touched};

fn harrow_vale() -> Record {
    by_then(&harrow_vale_entries(), at("2025-05-21T12:00:00-06:00"))
}

fn lindmoor() -> Record {
    by_then(&lindmoor_entries(), at("2025-06-17T18:00:00+02:00"))
}

fn reckoned(record: &Record) -> Vec<Reckoned> {
    let now = at("2025-06-17T18:00:00+02:00");
    record.shafts().into_iter().map(|shaft| Reckoned::of(record, shaft, now)).collect()
}

#[test]
fn shaft_by_shaft_says_the_same_as_at_once() {
    let (record, now) = (harrow_vale(), at("2025-06-17T18:00:00+02:00"));
    let all = reckoned(&record);
    let together = AcrossScreen::together(&[&record], &all.iter().collect::<Vec<_>>(), now);
    assert_eq!(together, live::across(&record, now));
    assert!(together.sections.len() > 4, "{:?}", together.sections);
}

#[test]
fn an_entry_touches_its_shaft_and_one_about_the_job_touches_all() {
    let all = harrow_vale_entries();
    let without = |unwanted: &record::EntryId| {
        Record::of(all.iter().filter(|held| held.id() != *unwanted).cloned()).expect("one job")
    };
    let whole = Record::of(all.iter().cloned()).expect("one job");
    let of_shaft = all.iter().find(|held| held.shaft() == Some("S-2")).expect("an entry of S-2");
    let of_job = all.iter().find(|held| held.shaft().is_none()).expect("an entry about the job");
    let names = |touched: Option<std::collections::BTreeSet<String>>| {
        touched.map(|names| names.into_iter().collect::<Vec<_>>().join(", "))
    };
    assert_eq!(names(touched(&without(&of_shaft.id()), &whole)).as_deref(), Some("S-2"));
    assert_eq!(names(touched(&without(&of_job.id()), &whole)), None);
    assert_eq!(names(touched(&whole, &whole)).as_deref(), Some(""));
}

#[test]
fn all_jobs_say_how_far_they_are_and_what_waits() {
    let (first, second) = (harrow_vale(), lindmoor());
    let (of_first, of_second) = (reckoned(&first), reckoned(&second));
    let at = at("2025-06-17T18:00:00+02:00");
    let job = |record, shafts| ReckonedJob { record, shafts, at };
    let jobs = [job(&first, of_first.as_slice()), job(&second, of_second.as_slice())];
    let page = OfficeScreen::together(&jobs, &|job, shaft| format!("/{job}/{shaft}"));
    let job = |job: &live::OfficeJob| {
        let rows = job.rows.iter().map(|row| format!("  {}: {} [{}]\n", row.label, row.text, row.page));
        format!("{} ({}), rehearsal {}\n{}", job.name, job.key, job.rehearsal, rows.collect::<String>())
    };
    let told: String = page.jobs.iter().map(job).collect();
    expect![[r#"
        2 jobs, 4 shafts: 4 done. 8 items wait.
        Harrow Vale, Route 19 signs and signals (harrow-vale), rehearsal true
          Shafts: 3 shafts: 3 done []
          Waits: 4 for the engineer (I. Vane), 3 for the inspector (R. Quill, T. Ashgrove) [open-items]
          Took: 1.06 (0.87–1.24) of the drawing; 2 shafts; from shaft to shaft ± 0.04 [compare#across-taken]
          Concrete: ordered 6.00 yd³, placed 46.00 yd³, wasted or left in lines 4.00 yd³ [compare#across-concrete]
          Fails: Interval against the shaft's own running ratio (3); Slump when placed, as approved for mix DS-4000 (1); Sand, as approved for fluid Mirgolit 60 (1); 2 more [compare#across-criteria]
          Late: R. Quill (3) [compare#across-people]
        Lindmoor, Brücke über den Moorbach, Widerlager A (lindmoor), rehearsal true
          Shafts: 1 shaft: 1 done []
          Waits: 1 for the engineer (B. Ostrang) [open-items]
          Took: 1,06 ± 0,01 of the drawing; 1 shaft; one alone says little of the next [compare#across-taken]
          Concrete: ordered not written, placed 32,50 m³, wasted or left in lines 0,50 m³ [compare#across-concrete]
    "#]].assert_eq(&format!("{}\n{told}", page.lead));
    let drawn = page.drawing(640.0, &|spot| format!("/{}/{}", spot.place.job, spot.place.shaft));
    assert!(
        drawn.contains("<a href=\"/harrow-vale/S-1\"") && drawn.contains("<a href=\"/lindmoor/P-7\""),
        "{drawn}"
    );
    let plan = page.jobs[0].plan(figure::Size::points(400.0, 260.0));
    assert!(plan.contains("<a href=\"/harrow-vale/S-2\""), "{plan}");
}

/// Each drawing of a job: its marks lead where they are told to, and every reading to its own entry.
#[test]
fn every_reading_of_a_drawing_leads_to_its_entry() {
    let record = harrow_vale();
    let screen = live::across(&record, at("2025-05-21T12:00:00-06:00"));
    let leads = |spot: &wording::Spot| match spot.entry {
        Some(entry) => format!("/{entry}"),
        None => format!("/shaft/{}", spot.place.shaft),
    };
    for (word, drawings) in [("taken", 1), ("concrete", 1), ("hours", 1), ("readings", 2), ("criteria", 0)] {
        assert_eq!(screen.drawings(word, 640.0, &leads).len(), drawings, "{word}");
    }
    let readings = screen.drawings("readings", 640.0, &leads).concat();
    let ways: Vec<&str> =
        readings.split("<a href=\"/").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    let entries = ways.iter().filter(|way| !way.starts_with("shaft/"));
    let known = entries
        .clone()
        .filter(|way| record::EntryId::from_hex(way).is_some_and(|id| record.get(&id).is_some()));
    assert!(entries.clone().count() > 20);
    assert_eq!(known.count(), entries.count());
}
