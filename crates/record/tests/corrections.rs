//! Nothing is erased: what a correction, a dispute and its closing leave to be seen.

use record::{Body, Entry, EntryId, Log, Record, Standing};
use testkit::{Tablet, at, body, record};

fn sounded(depth: &str) -> Body {
    body("concrete_sounded", &[("points[0].depth", depth)])
}

fn instead(about: &Entry, depth: &str) -> Body {
    let id = about.id.to_string();
    let fields = [
        ("replaces", id.as_str()),
        ("reason", "misread"),
        ("body.kind", "concrete_sounded"),
        ("body.body.points[0].depth", depth),
    ];
    body("correction", &fields)
}

fn strike(about: &Entry) -> Body {
    let id = about.id.to_string();
    body("correction", &[("replaces", id.as_str()), ("reason", "written twice")])
}

fn keep(about: &Entry, keeps: EntryId) -> Body {
    let (about, keeps) = (about.id.to_string(), keeps.to_string());
    body(
        "dispute_closed",
        &[("about", about.as_str()), ("keeps", keeps.as_str()), ("reason", "seen by both")],
    )
}

/// What the log shows of the soundings, as text: ~struck~, ?disputed?, plain.
fn shown(record: &Record) -> String {
    let log = Log::of(record, Some("S-1"), None);
    let lines = log.lines.iter().filter_map(|line| match line.body {
        Body::ConcreteSounded(sounding) => {
            let depth = sounding.points[0].depth.typed();
            Some(match line.standing {
                Standing::Stands => depth.to_owned(),
                Standing::Struck { .. } => format!("~{depth}~"),
                Standing::Disputed { .. } => format!("?{depth}?"),
            })
        }
        _ => None,
    });
    lines.collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn check(entries: &[&Entry], expected: &str) {
    assert_eq!(shown(&record(entries.iter().copied())), expected);
}

#[test]
fn a_correction_strikes_the_entry_and_takes_its_place() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:40", sounded("41 ft"));
    let next = tablet.write("10:50", sounded("39 ft"));
    let better = tablet.write("11:30", instead(&first, "40 ft"));
    check(&[&first, &next], "41 ft 39 ft");
    check(&[&first, &next, &better], "~41 ft~ 40 ft 39 ft");
    let record = record([&first, &next, &better]);
    let log = Log::of(&record, Some("S-1"), None);
    let line = &log.lines[1];
    assert_eq!((line.entry.id, line.origin, line.at), (better.id, first.id, at("10:40")));
    assert_eq!(line.reason, Some("misread"));
    assert_eq!(log.lines[0].standing, Standing::Struck { by: better.id });
    assert_eq!(log.corrections.iter().map(|entry| entry.id).collect::<Vec<_>>(), [better.id]);
}

#[test]
fn an_entry_is_struck_out_with_nothing_in_its_place() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:40", sounded("41 ft"));
    let again = tablet.write("10:40", sounded("41 ft"));
    let struck = tablet.write("11:00", strike(&again));
    check(&[&first, &again, &struck], "41 ft ~41 ft~");
}

#[test]
fn a_time_that_was_wrong_is_corrected_and_the_line_moves() {
    let mut tablet = Tablet::new(1);
    let early = tablet.write("10:40", sounded("41 ft"));
    let late = tablet.write("10:50", sounded("39 ft"));
    let id = early.id.to_string();
    let fields = [
        ("replaces", id.as_str()),
        ("reason", "the watch had stopped"),
        ("observed", "10:55"),
        ("body.kind", "concrete_sounded"),
        ("body.body.points[0].depth", "41 ft"),
    ];
    let moved = tablet.write("11:00", body("correction", &fields));
    check(&[&early, &late, &moved], "~41 ft~ 39 ft 41 ft");
}

#[test]
fn a_correction_may_be_corrected_and_the_last_one_holds() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:40", sounded("41 ft"));
    let second = tablet.write("11:00", instead(&first, "40 ft"));
    let third = tablet.write("11:10", instead(&second, "40.2 ft"));
    let fourth = tablet.write("11:20", instead(&third, "40.4 ft"));
    check(&[&first, &second, &third], "~41 ft~ 40.2 ft");
    check(&[&first, &second, &third, &fourth], "~41 ft~ 40.4 ft");
}

#[test]
fn a_correction_that_is_withdrawn_leaves_the_entry_standing_and_may_come_back() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:40", sounded("41 ft"));
    let second = tablet.write("11:00", instead(&first, "40 ft"));
    let withdrawn = tablet.write("11:10", strike(&second));
    let back = tablet.write("11:20", strike(&withdrawn));
    let gone = tablet.write("11:30", strike(&back));
    check(&[&first, &second, &withdrawn], "41 ft");
    check(&[&first, &second, &withdrawn, &back], "~41 ft~ 40 ft");
    check(&[&first, &second, &withdrawn, &back, &gone], "41 ft");
}

#[test]
fn two_corrections_of_one_entry_are_a_dispute_and_all_is_shown() {
    let (mut tablet, mut office) = (Tablet::new(1), Tablet::new(2));
    let first = tablet.write("10:40", sounded("41 ft"));
    let mine = tablet.write("11:00", instead(&first, "40 ft"));
    let theirs = office.write("09:00", instead(&first, "42 ft"));
    let record = record([&first, &mine, &theirs]);
    let log = Log::of(&record, Some("S-1"), None);
    let mut candidates = vec![mine.id, theirs.id];
    candidates.sort_unstable();
    assert_eq!(log.disputes, [record::Dispute { about: first.id, candidates }]);
    assert_eq!(log.each::<record::kinds::ConcreteSounded>().count(), 0, "a disputed reading does not count");
    assert_eq!(log.disputed::<record::kinds::ConcreteSounded>().count(), 3, "and every candidate is there");
    assert!(shown(&record).contains("?41 ft?"));
}

#[test]
fn a_person_closes_a_dispute() {
    let (mut tablet, mut office) = (Tablet::new(1), Tablet::new(2));
    let first = tablet.write("10:40", sounded("41 ft"));
    let mine = tablet.write("11:00", instead(&first, "40 ft"));
    let theirs = office.write("11:00", instead(&first, "42 ft"));
    let for_theirs = office.write("12:00", keep(&first, theirs.id));
    let for_first = office.write("12:00", keep(&first, first.id));
    let for_nothing = office.write("12:00", keep(&first, EntryId([3; 32])));
    check(&[&first, &mine, &theirs, &for_theirs], "~41 ft~ 42 ft");
    check(&[&first, &mine, &theirs, &for_first], "41 ft");
    let open = shown(&record([&first, &mine, &theirs]));
    check(&[&first, &mine, &theirs, &for_nothing], &open);
}

#[test]
fn closings_that_disagree_close_nothing_until_one_is_taken_back() {
    let (mut tablet, mut office) = (Tablet::new(1), Tablet::new(2));
    let first = tablet.write("10:40", sounded("41 ft"));
    let mine = tablet.write("11:00", instead(&first, "40 ft"));
    let theirs = office.write("11:00", instead(&first, "42 ft"));
    let for_mine = tablet.write("12:00", keep(&first, mine.id));
    let for_theirs = office.write("12:00", keep(&first, theirs.id));
    let again = office.write("12:05", keep(&first, theirs.id));
    let open = shown(&record([&first, &mine, &theirs]));
    let all = [&first, &mine, &theirs, &for_mine, &for_theirs];
    check(&all, &open);
    check(&[&first, &mine, &theirs, &for_theirs, &again], "~41 ft~ 42 ft");
    let taken_back = tablet.write("13:00", strike(&for_mine));
    check(&[&all[..], &[&taken_back]].concat(), "~41 ft~ 42 ft");
}

#[test]
fn a_closing_may_be_corrected_too() {
    let (mut tablet, mut office) = (Tablet::new(1), Tablet::new(2));
    let first = tablet.write("10:40", sounded("41 ft"));
    let mine = tablet.write("11:00", instead(&first, "40 ft"));
    let theirs = office.write("11:00", instead(&first, "42 ft"));
    let wrong = office.write("12:00", keep(&mine, theirs.id));
    let corrected = |keeps: &Entry| {
        let (closing, about, keeps) = (wrong.id.to_string(), first.id.to_string(), keeps.id.to_string());
        let fields = [
            ("replaces", closing.as_str()),
            ("reason", "named the wrong entry"),
            ("body.kind", "dispute_closed"),
            ("body.body.about", about.as_str()),
            ("body.body.keeps", keeps.as_str()),
            ("body.body.reason", "seen by both"),
        ];
        body("correction", &fields)
    };
    let open = shown(&record([&first, &mine, &theirs]));
    let right = office.write("12:10", corrected(&theirs));
    check(&[&first, &mine, &theirs, &wrong], &open);
    check(&[&first, &mine, &theirs, &wrong, &right], "~41 ft~ 42 ft");
    // Two corrections of the closing: it is in dispute itself, and closes nothing until that is settled.
    let other = tablet.write("12:20", corrected(&mine));
    check(&[&first, &mine, &theirs, &wrong, &right, &other], &open);
    let settled = office.write("12:30", keep(&wrong, other.id));
    check(&[&first, &mine, &theirs, &wrong, &right, &other, &settled], "~41 ft~ 40 ft");
}

#[test]
fn a_correction_one_withdraws_and_another_improves_is_in_dispute() {
    let (mut tablet, mut office) = (Tablet::new(1), Tablet::new(2));
    let first = tablet.write("10:40", sounded("41 ft"));
    let second = tablet.write("11:00", instead(&first, "40 ft"));
    let withdrawn = tablet.write("11:10", strike(&second));
    let improved = office.write("11:10", instead(&second, "40.5 ft"));
    let all = [&first, &second, &withdrawn, &improved];
    let whole = record(all);
    let mut candidates = vec![first.id, improved.id];
    candidates.sort_unstable();
    let expected = [record::Dispute { about: first.id, candidates }];
    assert_eq!(Log::of(&whole, Some("S-1"), None).disputes, expected);
    check(&all, "?41 ft? ?40.5 ft?");
    let right = office.write("12:00", keep(&first, first.id));
    check(&[&all[..], &[&right]].concat(), "41 ft");
    let better = office.write("12:00", keep(&first, improved.id));
    check(&[&all[..], &[&better]].concat(), "~41 ft~ 40.5 ft");
}

#[test]
fn a_correction_of_an_entry_that_is_not_here_is_loose_until_it_arrives() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:40", sounded("41 ft"));
    let better = tablet.write("11:00", instead(&first, "40 ft"));
    let alone = record([&better]);
    let log = Log::of(&alone, Some("S-1"), None);
    assert_eq!((log.loose.clone(), log.lines.len()), (vec![better.id], 0));
    let whole = alone.merge(&record([&first])).expect("one job");
    assert!(Log::of(&whole, Some("S-1"), None).loose.is_empty());
    assert_eq!(shown(&whole), "~41 ft~ 40 ft");
}

#[test]
fn a_correction_filed_under_another_shaft_still_reaches_its_entry() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:40", sounded("41 ft"));
    let mut elsewhere = Tablet::new(2).about(Some("S-2"));
    let struck = elsewhere.write("11:00", strike(&first));
    let whole = record([&first, &struck]);
    assert_eq!(shown(&whole), "~41 ft~");
    let other = Log::of(&whole, Some("S-2"), None);
    assert!(other.loose.is_empty() && other.lines.is_empty());
}

#[test]
fn a_very_long_chain_of_corrections_ends() {
    let mut tablet = Tablet::new(1);
    let mut entries = vec![tablet.write("10:40", sounded("41 ft"))];
    for _ in 0..4_000 {
        let about = entries.last().expect("there is one").clone();
        entries.push(tablet.write("11:00", instead(&about, "40 ft")));
    }
    assert_eq!(shown(&record(&entries)), "~41 ft~ 40 ft");
}

#[test]
fn what_nobody_had_seen_yet_is_not_in_the_log() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:40", sounded("41 ft"));
    let better = tablet.write("11:30", instead(&first, "40 ft"));
    let record = record([&first, &better]);
    let at_eleven = Log::of(&record, Some("S-1"), Some(at("11:00")));
    assert!(at_eleven.lines.len() == 1 && at_eleven.lines[0].stands());
    assert_eq!(Log::of(&record, Some("S-1"), Some(at("10:39"))).lines.len(), 0);
    assert_eq!(Log::of(&record, Some("S-1"), None).end(), Some(at("10:40")));
}

#[test]
fn the_whole_job_stands_in_every_shaft_and_no_shaft_in_another() {
    let mut tablet = Tablet::new(1).about(None);
    let job = tablet.write("07:00", body("remark", &[("text", "fog")]));
    let mut one = Tablet::new(2);
    let mine = one.write("08:00", sounded("41 ft"));
    let mut two = Tablet::new(3).about(Some("S-2"));
    let theirs = two.write("08:00", sounded("12 ft"));
    let record = record([&job, &mine, &theirs]);
    let count = |shaft: Option<&str>| Log::of(&record, shaft, None).lines.len();
    assert_eq!((count(None), count(Some("S-1")), count(Some("S-2")), count(Some("S-3"))), (1, 2, 2, 1));
    assert_eq!(record.shafts(), ["S-1", "S-2"]);
}

#[test]
fn an_entry_written_down_well_after_it_was_seen_is_late() {
    let mut tablet = Tablet::new(1);
    let entries = [
        tablet.write("10:40", sounded("41 ft")),
        tablet.write_late("10:40", "11:10", sounded("40 ft")),
        tablet.write_late("10:40", "11:11", sounded("39 ft")),
        tablet.take_over("10:40", "10:45", "2031-04-09 19:00", sounded("38 ft")),
        tablet.take_over("10:40", "12:40", "2031-04-09 19:00", sounded("37 ft")),
    ];
    let record = record(&entries);
    let log = Log::of(&record, Some("S-1"), None);
    let late: Vec<Option<f64>> = log.lines.iter().map(record::Line::late_minutes).collect();
    assert_eq!(late, [None, None, Some(31.0), None, Some(120.0)]);
}
